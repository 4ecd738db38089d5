/**
 * The heap of the next landing: its chance over the tape of ratios, the tail beyond the own factor
 * hatched.
 *
 * In: the model and the layout. Out: SVG and words.
 */
import { svg, type SVGTemplateResult } from 'lit';
import type { FactorPicture } from '../../report/pictures/factor-picture.ts';
import { hatchPath } from './hatch.ts';
import { firstFitting } from './placing.ts';
import type { RatioLayout } from './ratio-layout.ts';
import { pathThrough, px, type Point } from './scale.ts';
import { labelBox, wrapWords, type Label } from './text.ts';

/** Draws it; throws where the model has no heap. */
export function ratioHeap(
  picture: FactorPicture,
  { scale, heapTop, tapeTop, plot, dayX, width }: RatioLayout,
): { drawing: SVGTemplateResult; labels: Label[] } {
  const { heap, own, heapWords } = picture;
  if (!heap || !own || !heapWords) throw new Error('a heap needs an own factor');
  const tall = tapeTop - heapTop - 4;
  const crest = Array.from(heap.ratio, (ratio, i): Point => [
    scale.at(ratio),
    tapeTop - heap.density[i] * tall,
  ]).filter(([x]) => x >= plot.left && x <= plot.right);
  const body: Point[] = [[crest[0][0], tapeTop], ...crest, [crest[crest.length - 1][0], tapeTop]];
  const bound = scale.at(own.ratio);
  const beyond = crest.filter(([x]) => x >= bound);
  const tail: Point[] =
    beyond.length < 2
      ? []
      : [
          [bound, tapeTop],
          [bound, beyond[0][1]],
          ...beyond,
          [beyond[beyond.length - 1][0], tapeTop],
        ];
  const drawing = svg`<path class="heap" d=${pathThrough(body, true)}/>
    <path class="tail" d=${pathThrough(tail, true)}/>
    <path class="hatch-own" d=${tail.length === 0 ? '' : hatchPath(tail, -45, 4)}/>
    <path class="axis" d=${`M${px(plot.left)} ${px(tapeTop)}H${px(plot.right)}`}/>`;
  const name: Label[] = wrapWords(heapWords.name, plot.left - 6, { weight: 600 }).map(
    (text, k) => ({
      x: dayX,
      y: tapeTop - 34 + 16 * k,
      anchor: 'start',
      parts: [{ text, weight: 600 }],
    }),
  );
  const below = name[name.length - 1].y;
  const within: Label[] = wrapWords(heapWords.within, plot.left - 6).map((text, k) => ({
    x: dayX,
    y: below + 16 * (k + 1),
    anchor: 'start',
    parts: [{ text, ink: 'ink2' }],
  }));
  const parts = [{ text: heapWords.beyond, ink: 'own' as const }];
  const over = beyond.length > 0 ? Math.min(beyond[0][1], tapeTop - 18) : tapeTop - 18;
  const tries: Label[] = [
    { x: bound + 10, y: over - 8, anchor: 'start', parts, halo: true },
    { x: plot.right, y: over - 14, anchor: 'end', parts, halo: true },
  ];
  // Right of the line that stands in the way, where there is one.
  const lines = [picture.expected, ...(picture.published ? [picture.published] : [])].map(
    ({ ratio }) => scale.at(ratio),
  );
  const walls = lines.map((x) => ({ left: x - 3, right: x + 3, top: heapTop, bottom: tapeTop }));
  const after = lines.filter((x) => x > bound).map((x): Label => ({ ...tries[0], x: x + 10 }));
  const taken = [...[...name, ...within].map(labelBox), ...walls];
  const found = firstFitting([...tries, ...after], taken, {
    left: bound + 6,
    top: heapTop - 10,
    right: width,
    bottom: tapeTop,
  });
  return { drawing, labels: [...name, ...within, ...(found ? [found] : [])] };
}
