/**
 * Where does a strip really lie, by the rolls of several visits?
 *
 * In: a reference line (the strip as drawn, or a provisional one) and ground traces. Out: the axis on
 * which the rolls lie, how much of it was used, its slope and profile, each with a 90 % band. The
 * errors are in layers: a bias of the receiver for each visit that wanders over minutes, a pilot who
 * rolls a little beside the middle each time, weaving within a roll, white noise.
 *
 * Source: generalised least squares and universal kriging (numeric/correlated-fit.ts); the largest of
 * several uncertain places by the product of their distributions. Numbers in learn-tuning.ts.
 */
import { DEG_PER_RAD, wrap360 } from '../geo/angles.ts';
import { fitCorrelated, type CorrelatedFit } from '../numeric/correlated-fit.ts';
import { normalCdf } from '../numeric/posterior.ts';
import {
  isUndetermined,
  normalEstimate,
  undetermined,
  type Estimate,
  type Measured,
  type Undetermined,
} from '../result.ts';
import { blocksOf, type GroundTrace, type TraceBlock } from './ground-trace.ts';
import { LEARN } from './learn-tuning.ts';
import { createStripFrame, type StripFrame } from './strip-frame.ts';
import type { Strip } from './strip.ts';

/** What the rolls say. Distances along the reference line count from its end A; right is facing end B. */
export interface LearnedStrip {
  readonly visits: number;
  readonly traces: number;
  /** The part of the line that landing rolls and take-off runs were seen on. */
  readonly usedFromM: Estimate;
  readonly usedToM: Estimate;
  readonly usedLengthM: Estimate;
  /** Positions of the two ends of that part, on the learned axis. */
  readonly latDeg: readonly [number, number];
  readonly lonDeg: readonly [number, number];
  /** True bearing of the learned axis from A to B, degrees. */
  readonly bearingDeg: Estimate;
  /** How far it is turned from the reference line, clockwise positive, degrees. */
  readonly turnedDeg: Estimate;
  /** How far right of the reference line the axis lies: in the middle of the used part, at the line's ends. */
  readonly rightM: Estimate;
  readonly rightAtEndsM: readonly [Estimate, Estimate];
  /** Mean slope over the used part, up positive from A to B. */
  readonly slopeRatio: Measured;
  /** Rise over the used part's first end, at distances along the line from A. */
  readonly profile: readonly { readonly fromAM: number; readonly riseM: Estimate }[];
  /** Elevation of the used part's first end above mean sea level. */
  readonly elevationM: Measured;
}

/**
 * Learns a strip from ground traces.
 *
 * Fails: undetermined without a trace long enough to have a direction.
 */
export function learnStrip(
  reference: Strip,
  traces: readonly GroundTrace[],
): LearnedStrip | Undetermined {
  const frame = frameFromA(reference);
  const long = traces.filter((trace) => {
    const { leastM, mostM } = extentOf(frame, trace);
    return mostM - leastM >= LEARN.leastTraceM;
  });
  if (long.length === 0) return undetermined('no roll is long enough to have a direction');
  const blocks = enoughBlocks(long, frame);
  const [usedFromM, usedToM] = usedPart(tellingEnds(long).map((trace) => extentOf(frame, trace)));
  const middleM = (usedFromM.value + usedToM.value) / 2;
  const axis = fitAxis(blocks, middleM);
  if (isUndetermined(axis)) return axis;
  const right = (alongM: number): Estimate => band(axis.predict([1, alongM - middleM], null, 0));
  const turned = axis.predict([0, 1], null, 0);
  const turnedDeg = normalEstimate(Math.atan(turned.value) * DEG_PER_RAD, turned.sd * DEG_PER_RAD);
  const lineDeg = frame.bearingAt(middleM);
  const ends = [usedFromM.value, usedToM.value].map((alongM) =>
    frame.pointAt(alongM, right(alongM).value),
  );
  const lengthM = usedToM.value - usedFromM.value;
  return {
    visits: new Set(long.map(({ visit }) => visit)).size,
    traces: long.length,
    usedFromM,
    usedToM,
    usedLengthM: {
      value: lengthM,
      low: lengthM - Math.hypot(usedFromM.high - usedFromM.value, usedToM.value - usedToM.low),
      high: lengthM + Math.hypot(usedFromM.value - usedFromM.low, usedToM.high - usedToM.value),
    },
    latDeg: [ends[0].latDeg, ends[1].latDeg],
    lonDeg: [ends[0].lonDeg, ends[1].lonDeg],
    bearingDeg: shift(turnedDeg, wrap360(lineDeg + turnedDeg.value) - turnedDeg.value),
    turnedDeg,
    rightM: right(middleM),
    rightAtEndsM: [right(0), right(frame.lengthM)],
    ...heightsOf(blocks, usedFromM.value, usedToM.value),
  };
}

/** The reference line from end A, without displacement. */
function frameFromA(reference: Strip): StripFrame {
  const any = reference.directions[0];
  return createStripFrame(reference, { ...any, from: 'A', displacedM: 0 });
}

/** Least and greatest place of one trace on the line. */
interface Extent {
  readonly leastM: number;
  readonly mostM: number;
}

function extentOf(frame: StripFrame, trace: GroundTrace): Extent {
  const { alongM } = frame.toAlongCross(trace.latDeg, trace.lonDeg);
  let leastM = Infinity;
  let mostM = -Infinity;
  for (const along of alongM) {
    leastM = Math.min(leastM, along);
    mostM = Math.max(mostM, along);
  }
  return { leastM, mostM };
}

/** Blocks as fine as their number allows. */
function enoughBlocks(traces: readonly GroundTrace[], frame: StripFrame): TraceBlock[] {
  for (let stepM: number = LEARN.blockM; ; stepM *= 1.5) {
    const blocks = blocksOf(traces, frame, stepM);
    if (blocks.length <= LEARN.mostBlocks || blocks.length <= 2 * traces.length) return blocks;
  }
}

/**
 * The traces that say how far the strip reaches: rolls and runs. An aircraft may taxi in line with a
 * strip long before it begins; where there is nothing but taxiing it has to do.
 */
function tellingEnds(traces: readonly GroundTrace[]): readonly GroundTrace[] {
  const rolls = traces.filter(({ kind }) => kind !== 'backtrack');
  return rolls.length > 0 ? rolls : traces;
}

/** Least and greatest place on the line that wheels reached: of every trace its own, each off by the receiver's bias. */
function usedPart(extents: readonly Extent[]): [Estimate, Estimate] {
  const from = largestOf(extents.map(({ leastM }) => -leastM));
  return [
    { value: -from.value, low: -from.high, high: -from.low },
    largestOf(extents.map(({ mostM }) => mostM)),
  ];
}

/** The largest of several places, each off by the receiver. */
function largestOf(placesM: readonly number[]): Estimate {
  const sd = LEARN.endSdM;
  const top = Math.max(...placesM);
  const quantile = (p: number): number => {
    let low = top - 6 * sd;
    let high = top + 6 * sd;
    while (high - low > 1e-3) {
      const middle = (low + high) / 2;
      const share = placesM.reduce((all, place) => all * normalCdf((middle - place) / sd), 1);
      if (share < p) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  return { value: quantile(0.5), low: quantile(0.05), high: quantile(0.95) };
}

/** The axis: metres right of the line at the middle of the used part, and metres more for each metre along. */
function fitAxis(blocks: readonly TraceBlock[], middleM: number): CorrelatedFit | Undetermined {
  const covariance = covarianceOf(blocks, (a, b, same) => {
    const drift = a.visit === b.visit ? LEARN.driftSdM ** 2 * overTime(a, b) : 0;
    if (a.trace !== b.trace) return drift;
    const weave =
      LEARN.weaveSdM ** 2 * Math.exp(-Math.abs(a.alongM - b.alongM) / LEARN.weaveLengthM);
    return drift + LEARN.besideSdM ** 2 + weave + (same ? a.crossVar : 0);
  });
  const ones = new Float64Array(blocks.length).fill(1);
  const along = Float64Array.from(blocks, ({ alongM }) => alongM - middleM);
  const cross = Float64Array.from(blocks, ({ crossM }) => crossM);
  return fitCorrelated(cross, [ones, along], covariance);
}

/** Slope, profile and elevation; undetermined where the logs have no heights. */
function heightsOf(
  blocks: readonly TraceBlock[],
  fromM: number,
  toM: number,
): Pick<LearnedStrip, 'slopeRatio' | 'profile' | 'elevationM'> {
  const high = blocks.filter(({ groundMslM }) => !Number.isNaN(groundMslM));
  const covariance = covarianceOf(high, (a, b, same) => {
    const visit =
      a.visit === b.visit ? LEARN.upDriftSdM ** 2 * overTime(a, b) + a.levelSdM * b.levelSdM : 0;
    return visit + uneven(a.alongM, b.alongM) + (same ? a.heightVar : 0);
  });
  const ones = new Float64Array(high.length).fill(1);
  const along = Float64Array.from(high, ({ alongM }) => alongM - fromM);
  const ground = Float64Array.from(high, ({ groundMslM }) => groundMslM);
  const fit = fitCorrelated(ground, [ones, along], covariance);
  if (isUndetermined(fit)) {
    const none = undetermined('the logs have no heights on the ground');
    return { slopeRatio: none, profile: [], elevationM: none };
  }
  const riseTo = (alongM: number): Estimate => {
    const cross = Float64Array.from(
      high,
      (block) => uneven(alongM, block.alongM) - uneven(fromM, block.alongM),
    );
    const variance = 2 * (uneven(0, 0) - uneven(fromM, alongM));
    return band(fit.predict([0, alongM - fromM], cross, variance));
  };
  const lengthM = toM - fromM;
  const steps = Math.max(1, Math.round(lengthM / LEARN.profileStepM));
  const profile = Array.from({ length: steps + 1 }, (_, k) => {
    const fromAM = fromM + (k / steps) * lengthM;
    return { fromAM, riseM: riseTo(fromAM) };
  });
  const rise = profile[steps].riseM;
  const atFrom = Float64Array.from(high, (block) => uneven(fromM, block.alongM));
  const weighed = fit.predict([1, 0], atFrom, uneven(0, 0));
  // One pilot's logs come from one receiver: what its geoid is off by does not average out.
  const level = { value: weighed.value, sd: Math.hypot(weighed.sd, LEARN.commonLevelSdM) };
  return {
    slopeRatio: {
      value: rise.value / lengthM,
      low: rise.low / lengthM,
      high: rise.high / lengthM,
    },
    profile,
    elevationM:
      level.sd <= LEARN.worstLevelSdM
        ? band(level)
        : undetermined('the logs do not say what their heights count from'),
  };
}

function uneven(aM: number, bM: number): number {
  return LEARN.unevenSdM ** 2 * Math.exp(-(((aM - bM) / LEARN.unevenLengthM) ** 2) / 2);
}

function overTime(a: TraceBlock, b: TraceBlock): number {
  return Math.exp(-Math.abs(a.timeS - b.timeS) / LEARN.driftTimeS);
}

function covarianceOf(
  blocks: readonly TraceBlock[],
  between: (a: TraceBlock, b: TraceBlock, same: boolean) => number,
): Float64Array {
  const n = blocks.length;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) matrix[i * n + j] = between(blocks[i], blocks[j], i === j);
  }
  return matrix;
}

function band({ value, sd }: { value: number; sd: number }): Estimate {
  return normalEstimate(value, sd);
}

function shift({ value, low, high }: Estimate, by: number): Estimate {
  return { value: value + by, low: low + by, high: high + by };
}
