/**
 * The own factor: every landing's ratio on a log tape, the heap of the next landing, what was left
 * out and why.
 *
 * In: compared events of one aeroplane and one distance, and what the calibration made of them. Out:
 * rows, lines and heap. Only a whole distance is held against a published factor.
 */
import {
  FACTOR_PROBABILITY,
  gatherGroup,
  type OwnFactor,
  type TooFew,
} from '../../calibration/calibrate.ts';
import type { ComparedQuantity, Comparison, Role } from '../../calibration/comparison.ts';
import { predictFrom } from '../../calibration/predictive.ts';
import { isUndetermined } from '../../result.ts';
import { figureLine, hasFigure, ratioFigure, type FigureText } from '../figure-text.ts';
import { eventName } from '../factor-words.ts';
import type { EventAddress } from '../logged-flight.ts';
import { dayText, yearOf } from '../local-time.ts';
import type { Picture } from './picture.ts';

/** One compared event. */
export interface FactorEntry extends EventAddress {
  readonly timeS: number;
  readonly stripName: string;
  readonly comparison: Comparison;
}

/** One landing that counts, or bounds from above. */
export interface RatioRow extends EventAddress {
  readonly day: string;
  readonly year: number;
  readonly stripName: string;
  readonly role: Role;
  readonly ratio: number;
  readonly low90: number;
  readonly high90: number;
  readonly low50: number;
  readonly high50: number;
  readonly figure: FigureText;
  readonly why: string;
}

/** One that was left out; `ratio` is null where there is none. */
export interface LeftOutRow extends Omit<RatioRow, 'role' | 'figure'> {
  readonly hasRatio: boolean;
}

/** Density of the next ratio over its logarithm; slots belong together, the peak is 1. */
export interface RatioHeap {
  readonly ratio: Float64Array;
  readonly density: Float64Array;
}

/** The model. */
export interface FactorPicture extends Picture {
  readonly quantity: ComparedQuantity;
  /** What the ratios are of: `whole landing distance over expected`. */
  readonly title: string;
  readonly counted: readonly RatioRow[];
  readonly leftOut: readonly LeftOutRow[];
  readonly heap: RatioHeap | null;
  readonly heapWords: {
    readonly name: string;
    readonly within: string;
    readonly beyond: string;
  } | null;
  /** The line of a measured distance as long as expected. */
  readonly expected: { readonly ratio: number; readonly figure: FigureText };
  readonly own: { readonly ratio: number; readonly figure: FigureText } | null;
  readonly published: { readonly ratio: number; readonly figure: FigureText } | null;
  /** Why there is no factor; null where there is one. */
  readonly tooFew: string | null;
  readonly exceedsPublished: boolean;
  /** What the calibration says in words. */
  readonly text: string;
}

/** What the ratios are of. */
export const RATIO_TITLES: Readonly<Record<ComparedQuantity, string>> = {
  'landing-from-50-ft': 'Whole landing distance over expected',
  'landing-roll': 'Landing ground roll over expected',
  'take-off-to-50-ft': 'Distance to 50 ft over expected',
  'take-off-roll': 'Take-off ground roll over expected',
};

/** How sure the bound is: 95 of 100. */
const BOUND_OF_100 = Math.round(100 * FACTOR_PROBABILITY);

const HEAP_WORDS = {
  within: `${BOUND_OF_100} of 100 to the left`,
  beyond: `${100 - BOUND_OF_100} of 100 beyond`,
};

/** Half-width of the central half of a normal, in standard deviations (standard tables). */
const Z50 = 0.6745;

/** The picture of one calibration; entries in any order. `others`: the groups that it leans on. */
export function factorPicture(
  entries: readonly FactorEntry[],
  result: OwnFactor | TooFew,
  timeZone?: string,
  others: readonly (readonly Comparison[])[] = [],
): FactorPicture {
  const newest = entries.toSorted((a, b) => b.timeS - a.timeS);
  const counted = newest.flatMap((entry) => countedRow(entry, timeZone));
  const leftOut = newest.flatMap((entry) => leftOutRow(entry, timeZone));
  const own = result.kind === 'own-factor' ? line(result.factor) : null;
  const published =
    result.kind === 'own-factor' && result.published !== null ? line(result.published) : null;
  const what = eventName(result);
  const tooFew = result.kind === 'too-few' ? `too few ${what}s: ${result.reason}` : null;
  const text = result.kind === 'own-factor' ? result.text : (tooFew ?? '');
  return {
    quantity: result.quantity,
    title: RATIO_TITLES[result.quantity],
    counted,
    leftOut,
    heap: own ? heapOf(newest, others) : null,
    heapWords: own ? { ...HEAP_WORDS, name: `the next ${what}` } : null,
    expected: { ratio: 1, figure: { value: '1.00', unit: '', band: '', spoken: '1.00' } },
    own,
    published,
    tooFew,
    exceedsPublished: result.kind === 'own-factor' && result.verdict === 'exceeds-published',
    text,
    spoken: `${RATIO_TITLES[result.quantity]}, ${counted.length} ${what}s. ${text}`,
    rows: [
      ...(own ? [{ label: 'own factor', value: own.figure.value }] : []),
      ...(published ? [{ label: 'published factor', value: published.figure.value }] : []),
      ...(tooFew === null ? [] : [{ label: 'own factor', value: tooFew }]),
      ...counted.map(({ day, year, stripName, figure, role }) => ({
        label: `${day} ${year} ${stripName}`,
        value: role === 'upper-bound' ? `at most ${figureLine(figure)}` : figureLine(figure),
      })),
      ...leftOut.map(({ day, year, stripName, why }) => ({
        label: `${day} ${year} ${stripName}, left out`,
        value: why,
      })),
    ],
  };
}

function line(ratio: number): { ratio: number; figure: FigureText } | null {
  const figure = ratioFigure(ratio);
  return hasFigure(figure) ? { ratio, figure } : null;
}

function bars({
  ratio,
  log,
}: Comparison): Pick<RatioRow, 'ratio' | 'low90' | 'high90' | 'low50' | 'high50'> | null {
  if (isUndetermined(ratio) || isUndetermined(log)) return null;
  return {
    ratio: ratio.value,
    low90: ratio.low,
    high90: ratio.high,
    low50: Math.exp(log.value - Z50 * log.sd),
    high50: Math.exp(log.value + Z50 * log.sd),
  };
}

function countedRow({ timeS, comparison, ...where }: FactorEntry, timeZone?: string): RatioRow[] {
  const { role, why } = comparison;
  const figure = ratioFigure(comparison.ratio);
  const place = bars(comparison);
  if (role === 'left-out' || !place || !hasFigure(figure)) return [];
  return [
    {
      ...where,
      day: dayText(timeS, timeZone),
      year: yearOf(timeS, timeZone),
      role,
      figure,
      why,
      ...place,
    },
  ];
}

function leftOutRow({ timeS, comparison, ...where }: FactorEntry, timeZone?: string): LeftOutRow[] {
  if (comparison.role !== 'left-out') return [];
  const place = bars(comparison);
  const none = { ratio: NaN, low90: NaN, high90: NaN, low50: NaN, high50: NaN };
  const hasRatio = place !== null;
  return [
    {
      ...where,
      day: dayText(timeS, timeZone),
      year: yearOf(timeS, timeZone),
      why: comparison.why,
      hasRatio,
      ...(place ?? none),
    },
  ];
}

/** Probabilities between which the heap is drawn, and how finely. */
const HEAP = { from: 0.002, to: 0.998, steps: 60 };

/** The density from quantiles: equal steps of probability, each over its own width. */
function heapOf(
  entries: readonly FactorEntry[],
  others: readonly (readonly Comparison[])[],
): RatioHeap {
  const own = gatherGroup(entries.map(({ comparison }) => comparison));
  const next = predictFrom(
    own.counting,
    others.map((each) => gatherGroup(each).counting),
  );
  const logs = Array.from({ length: HEAP.steps + 1 }, (_, i) =>
    Math.log(next.quantile(stepped(i / HEAP.steps))),
  );
  const shares = logs.map((_, i) => stepped(i / HEAP.steps));
  const ratio = Float64Array.from({ length: HEAP.steps }, (_, i) =>
    Math.exp((logs[i] + logs[i + 1]) / 2),
  );
  const raw = Array.from(ratio, (_, i) => (shares[i + 1] - shares[i]) / (logs[i + 1] - logs[i]));
  const peak = Math.max(...raw);
  return { ratio, density: Float64Array.from(raw, (each) => each / peak) };
}

/** Probabilities closer together towards both ends, so that the tails are drawn smoothly. */
function stepped(share: number): number {
  const eased = (1 - Math.cos(Math.PI * share)) / 2;
  return HEAP.from + (HEAP.to - HEAP.from) * eased;
}
