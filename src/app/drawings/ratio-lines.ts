/**
 * The lines of a tape of ratios: expected 1.00, published, own, each with its words over it.
 *
 * In: the model and the layout. Out: SVG from the words down to the tape, and the words side by side.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { FactorPicture } from '../../report/pictures/factor-picture.ts';
import { spreadOut } from './placing.ts';
import type { RatioLayout } from './ratio-layout.ts';
import { px } from './scale.ts';
import { partsWidth, type Label, type Part } from './text.ts';

interface Line {
  readonly kind: 'expected' | 'planned' | 'own';
  readonly name: string;
  readonly ratio: number;
  readonly value: string;
}

/** Lines, their feet on the tape, and their words. */
export function linesAbove(
  { own, published, expected }: FactorPicture,
  { scale, headY, isNarrow, tapeTop, width }: RatioLayout,
): { drawing: SVGTemplateResult; feet: SVGTemplateResult; labels: Label[] } {
  const lines: Line[] = [
    { kind: 'expected', name: 'expected', ratio: expected.ratio, value: expected.figure.value },
    ...(published
      ? [
          {
            kind: 'planned' as const,
            name: 'published',
            ratio: published.ratio,
            value: published.figure.value,
          },
        ]
      : []),
    ...(own
      ? [{ kind: 'own' as const, name: 'own', ratio: own.ratio, value: own.figure.value }]
      : []),
  ];
  const words = lines.map(({ kind, name, value }): Part[][] => {
    const figure: Part = { text: value, size: 17, weight: 650, ink: kind };
    return isNarrow
      ? [[{ text: name }], [figure]]
      : [
          [
            { text: name, size: 14 },
            { ...figure, gap: 6 },
          ],
        ];
  });
  const sizes = words.map((rows) => Math.max(...rows.map(partsWidth)));
  const wishes = lines.map(({ ratio }, k) => ({ at: scale.at(ratio), size: sizes[k] }));
  const middles = spreadOut(wishes, 0, width, 12) ?? wishes.map(({ at }) => at);
  const labels = words.flatMap((rows, k) =>
    rows.map((parts, i): Label => ({
      x: middles[k],
      y: headY - 8 - 18 * (rows.length - 1 - i),
      anchor: 'middle',
      parts,
    })),
  );
  const drawing = svg`${lines.map(({ kind, ratio }, k) => {
    const x = scale.at(ratio);
    const d = `M${px(middles[k])} ${px(headY - 3)}L${px(x)} ${px(headY + 9)}V${px(tapeTop)}`;
    return svg`<path class=${`${kind}-line`} d=${d}/>`;
  })}`;
  const feet = svg`
    ${published ? svg`<rect class="planned-block" x=${px(scale.at(published.ratio) - 4)} y=${px(tapeTop - 8)} width="8" height="16"/>` : nothing}
    ${own ? svg`<circle class="own-dot" cx=${px(scale.at(own.ratio))} cy=${px(tapeTop)} r="7"/>` : nothing}`;
  return { drawing, feet, labels };
}
