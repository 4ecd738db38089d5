/**
 * Where the words of an area to avoid may stand on a plan.
 *
 * In: the area in pixels with its words. Out: ways to set them, the fullest first.
 */
import type { Way } from './plan-leg-names.ts';
import type { Point } from './scale.ts';
import { partsWidth, wrapWords, type Box, type Part } from './text.ts';

/** An area as it is drawn. */
export interface DrawnArea {
  readonly name: string;
  readonly words: string;
  readonly isFlownOver: boolean;
  readonly rings: readonly (readonly Point[])[];
}

/** Places beside the middle that are tried last, pixels. */
const SHIFTS = [20, -20, 40, -40, 60, -60, 80, -80];

/**
 * In the middle of the area, else by it; on one line or on more. Ways with its name first, then ways
 * with what to do about it alone.
 *
 * @param right where the drawing ends, pixels
 */
export function avoidWays(
  { name, words, isFlownOver, rings }: DrawnArea,
  right: number,
): readonly (readonly Way[])[] {
  const points = rings.flat();
  if (points.length === 0) return [];
  const area = boundsOf(points);
  const middle = (area.left + area.right) / 2;
  const style: Omit<Part, 'text'> = { serif: true, size: 14 };
  const ink: Omit<Part, 'text'> = isFlownOver ? { ink: 'caution' } : {};
  const avoid: Part = { text: words, ...ink };
  const short = wrapWords(name, 0.6 * partsWidth([{ text: name, ...style }]), style);
  const forms: Part[][][] = [
    [
      [
        { text: name, ...style },
        { ...avoid, gap: 5 },
      ],
    ],
    [[{ text: name, ...style }], [avoid]],
    [...short.map((text): Part[] => [{ text, ...style }]), [avoid]],
  ];
  const waysOf = (lines: readonly (readonly Part[])[]): Way[] => {
    const wide = Math.max(...lines.map(partsWidth));
    const tall = 16 * lines.length;
    const at = (x: number, top: number): Way =>
      lines.map((parts, k) => ({ x, y: top + 16 * k + 12, anchor: 'middle', parts, halo: true }));
    const inX = Math.min(Math.max(middle, wide / 2 + 1), right - wide / 2 - 1);
    const level = (area.top + area.bottom - tall) / 2;
    const isRoomy = wide < area.right - area.left - 4;
    return [
      ...(isRoomy ? [at(middle, level)] : []),
      at(inX, area.bottom + 3),
      at(inX, area.top - tall - 3),
      at(area.right + wide / 2 + 6, level),
      at(area.left - wide / 2 - 6, level),
      at(area.right - wide / 2, area.bottom + 3),
      at(area.left + wide / 2, area.bottom + 3),
      ...(isRoomy ? [] : [at(inX, level)]),
      at(inX, area.bottom + 22),
      // Off its middle, as far as the words still reach under or over it.
      ...SHIFTS.filter(
        (shift) => Math.abs(shift) < (wide + area.right - area.left) / 2 - 12,
      ).flatMap((shift) =>
        [area.bottom + 3, area.bottom + 22, area.top - tall - 3].map((top) =>
          at(middle + shift, top),
        ),
      ),
    ];
  };
  const broken = wrapWords(words, 0.6 * partsWidth([avoid]), ink);
  const unnamed: Part[][][] = [[[avoid]], broken.map((text): Part[] => [{ text, ...ink }])];
  return [forms.flatMap(waysOf), unnamed.flatMap(waysOf)];
}

/** The box about all points, pixels. */
export function boundsOf(points: readonly Point[]): Box {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return {
    left: Math.min(...xs),
    right: Math.max(...xs),
    top: Math.min(...ys),
    bottom: Math.max(...ys),
  };
}
