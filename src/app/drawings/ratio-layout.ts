/**
 * Where everything stands on the tape of ratios.
 *
 * In: the model and a width in CSS pixels. Out: the log scale, rows and columns in pixels.
 */
import type { FactorPicture } from '../../report/pictures/factor-picture.ts';
import { logScale, type Scale } from './scale.ts';
import { partsWidth, wrapWords } from './text.ts';

/** One row's place and words. */
export interface RowPlace {
  readonly y: number;
  readonly day: string;
  readonly place: string;
  /** Set over the first landing of a year where there are several years. */
  readonly year: string | null;
}

/** The drawing's places. */
export interface RatioLayout {
  readonly width: number;
  readonly scale: Scale;
  readonly plot: { readonly left: number; readonly right: number };
  readonly dayX: number;
  /** Null where there is no room for the names of strips. */
  readonly placeX: number | null;
  readonly placeRoom: number;
  readonly rows: readonly RowPlace[];
  /** Words of the lines stand above it. */
  readonly headY: number;
  readonly isNarrow: boolean;
  readonly rowsTop: number;
  readonly heapTop: number;
  readonly tapeTop: number;
}

/** Narrower drawings leave the strips' names to the table, pixels. */
const NAMES_FROM = 560;
const ROW = 22;
const YEAR = 20;
const HEAP = { tall: 84, gap: 8 };
/** Ratios are shown within these; what lies beyond is cut. */
const FARTHEST = { from: 0.25, to: 6 };

/** Lays it out. */
export function layOutRatios(picture: FactorPicture, width: number): RatioLayout {
  const isNarrow = width < NAMES_FROM;
  const { counted, leftOut, tooFew } = picture;
  const days = [
    ...counted.map(({ day }) => day),
    ...leftOut.map(({ day, year }) => `${day} ${year}`),
    '20 Mar',
  ];
  const dayWide = Math.max(...days.map((text) => partsWidth([{ text }])));
  const placeRoom = Math.min(150, Math.round(width * 0.19));
  const placeX = isNarrow ? null : dayWide + 12;
  const plot = {
    left: placeX === null ? dayWide + 12 : placeX + placeRoom + 10,
    right: width - 10,
  };
  const scale = ratioScale(picture, plot.left, plot.right);
  const reason =
    tooFew === null ? [] : wrapWords(`· · · ${tooFew}`, width - 8, { serif: true, size: 15 });
  const headY = 18 * reason.length + (isNarrow ? 40 : 24);
  const rowsTop = headY + 14;
  const hasYears = new Set(counted.map(({ year }) => year)).size > 1;
  let y = rowsTop + 4;
  const rows = counted.map(({ day, stripName, year }, k): RowPlace => {
    const isFirst = hasYears && (k === 0 || counted[k - 1].year !== year);
    y += isFirst ? ROW + YEAR : ROW;
    return { y: y - ROW / 2, day, place: stripName, year: isFirst ? String(year) : null };
  });
  const heapTop = y + HEAP.gap;
  const tapeTop = picture.heap ? heapTop + HEAP.tall : heapTop;
  return {
    ...{ width, scale, plot, dayX: 0, placeX, placeRoom, rows, headY, isNarrow },
    ...{ rowsTop, heapTop, tapeTop },
  };
}

/** From the lowest to the highest bar, the lines and the body of the heap, with a little room. */
function ratioScale(
  { counted, leftOut, own, published, heap, tooFew }: FactorPicture,
  left: number,
  right: number,
): Scale {
  const body = heap ? Array.from(heap.ratio).filter((_, i) => heap.density[i] > 0.015) : [];
  const ends = counted.flatMap(({ ratio, low90, high90 }) =>
    tooFew === null ? [low90, high90] : [ratio],
  );
  const all = [
    ...ends,
    ...leftOut.filter(({ hasRatio }) => hasRatio).map(({ ratio }) => ratio),
    ...body,
    0.9,
    1.25,
    ...(own ? [own.ratio * 1.04] : []),
    ...(published ? [published.ratio * 1.04] : []),
  ];
  const from = Math.max(FARTHEST.from, Math.min(...all) * 0.97);
  const to = Math.min(FARTHEST.to, Math.max(...all) * 1.03);
  return logScale(from, to, left, right);
}
