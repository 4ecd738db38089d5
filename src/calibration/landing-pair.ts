/**
 * Where does a pilot touch down and how far does the aeroplane roll, both together?
 *
 * In: landings, each with its touchdown place and the logarithm of its ratio of rolls, their measuring
 * errors and its day. Out: the posterior as a list of normal parts: what is known of both means, and
 * how both scatter from landing to landing.
 *
 * Model: (place, log ratio) = pilot's means + effect of the day + scatter within the day + measuring
 * error, all normal in two dimensions. Day and scatter share one correlation and one day share. A late
 * touchdown may go with harder braking or with the same hurry; the landings decide. Both means, both
 * spreads, correlation and day share are integrated on a grid, none is plugged in: a rough look finds
 * where the weight lies, a fine one is laid over that.
 * Measuring errors of place and roll hang together: a touchdown found too far along is a roll found as
 * much too short, so that their sum, the stop, is known best. What all have in common stays in doubt.
 * Source: the normal hierarchical model in two dimensions, a textbook method, from memory; the priors
 * are ours and are stated below.
 */
import { Z90, type Estimate } from '../result.ts';
import { byDay } from './by-day.ts';
import { commonErrors, ownErrors, type PairErrors } from './pair-errors.ts';
import { WEAK_PRIOR } from './predictive.ts';

/** One landing. Places in metres from the landing threshold, ratios as natural logarithms. */
export interface LandingPair extends PairErrors {
  readonly dayKey: string;
  readonly alongM: number;
  readonly rollLog: number;
}

/** A part of the posterior, over all day shares; weights add up to 1. `along` is metres, `roll` the logarithm of the ratio. */
export interface PairPart {
  readonly weight: number;
  /** Means, and the variances and covariance of what is known of them. */
  readonly mean: { readonly along: number; readonly roll: number };
  readonly known: Covariance;
  /** From landing to landing on different days. */
  readonly scatter: Covariance;
}

/** A symmetric two by two matrix. */
export interface Covariance {
  readonly along: number;
  readonly cross: number;
  readonly roll: number;
}

/**
 * The prior: nine pilots in ten touch down 70 m before to 190 m past the threshold in the middle, with
 * a spread of 9 to 95 m; the correlation is anything. Rolls and day share as for the own factor.
 */
export const PLACE_PRIOR = {
  meanM: 60,
  meanSdM: 80,
  spreadMedianM: 30,
  spreadLogSd: 0.7,
} as const;

/**
 * A landing from what was measured.
 *
 * Units: metres; `rollLog` as in a comparison. Fails: throws on a roll that is not positive.
 */
export function landingPair(
  dayKey: string,
  alongM: Estimate,
  rollM: number,
  rollLog: { readonly value: number; readonly sd: number },
): LandingPair {
  if (!(rollM > 0)) throw new Error('a roll must be longer than nothing');
  const alongVariance = ((alongM.high - alongM.low) / (2 * Z90)) ** 2;
  // Of the roll's error all is the touchdown's, but never more than nearly all of the place's own.
  const common = Math.min((rollLog.sd * rollM) ** 2, MOST_IN_COMMON * alongVariance);
  return {
    dayKey,
    alongM: alongM.value,
    rollLog: rollLog.value,
    alongVariance,
    covariance: -common / rollM,
    rollVariance: rollLog.sd ** 2,
  };
}

/** The strip's and the receiver's own errors are in every place and in no roll: a tenth of it or more. */
const MOST_IN_COMMON = 0.9;

/** The posterior of a pilot's landings; without any, the prior. Fails: throws on what is not a number. */
export function pairPosterior(landings: readonly LandingPair[]): PairPart[] {
  for (const { alongM, rollLog, alongVariance, covariance, rollVariance } of landings) {
    if (![alongM, rollLog, alongVariance, covariance, rollVariance].every(Number.isFinite)) {
      throw new Error('places, ratios and their errors must be numbers');
    }
  }
  const days = byDay(landings.map((each) => ({ ...each, ...ownErrors(each) })));
  let ranges = WHOLE;
  for (const { steps, farLog } of LOOKS)
    ranges = likelyRanges(look(days, ranges, steps), ranges, steps, farLog);
  const common = commonErrors(landings);
  return weighted(look(days, ranges, FINE_STEPS)).map(({ known, ...part }) => ({
    ...part,
    known: {
      along: known.along + common.alongVariance,
      cross: known.cross + common.covariance,
      roll: known.roll + common.rollVariance,
    },
  }));
}

/** Where the weight lies: the nodes near the heaviest, each with the half step around it. */
function likelyRanges(
  nodes: readonly Node[],
  ranges: readonly Range[],
  steps: readonly number[],
  farLog: number,
): Range[] {
  const places = nodes.flatMap(({ at, byDayShare }) =>
    byDayShare.map(({ logWeight, t }) => ({ logWeight, at: [...at, t] })),
  );
  const best = heaviest(places);
  const likely = places.filter(({ logWeight }) => logWeight > best - farLog);
  return ranges.map(([low, high], d): Range => {
    const half = (high - low) / steps[d] / 2;
    const found = likely.map(({ at }) => at[d]);
    return [Math.min(...found) - half, Math.max(...found) + half];
  });
}

type Range = readonly [low: number, high: number];

/**
 * Both spreads in standard deviations of their priors; the correlation by its arcsine; the day share, whose
 * prior is the arcsine law, by the root of what its arcsine lacks of a share of all.
 */
const WHOLE: readonly Range[] = [
  [-2.8, 2.8],
  [-2.8, 2.8],
  [-1, 1],
  [0, 1],
];
/**
 * Each look keeps what is this near (natural logarithm) to its best; the first lies too far apart to find
 * the top, so it keeps more.
 */
const LOOKS = [
  { steps: [8, 8, 6, 6], farLog: 14 },
  { steps: [8, 8, 6, 8], farLog: 8 },
] as const;
const FINE_STEPS = [9, 13, 7, 12] as const;
/** Parts lighter than this beside the heaviest move no length by a decimetre. */
const NEGLIGIBLE_WEIGHT = 1e-4;

interface Solved {
  readonly logWeight: number;
  readonly mean: PairPart['mean'];
  readonly known: Covariance;
}

interface Node {
  /** Both spreads and the correlation's arcsine, as in the ranges. */
  readonly at: readonly number[];
  readonly scatter: Covariance;
  readonly byDayShare: readonly (Solved & { readonly t: number })[];
}

/** Every middle of a grid laid over the ranges. */
function look(
  days: readonly (readonly LandingPair[])[],
  ranges: readonly Range[],
  steps: readonly number[],
): Node[] {
  const [alongZ, rollZ, correlations, shares] = ranges.map(([low, high], d) =>
    Array.from({ length: steps[d] }, (_, k) => low + ((k + 0.5) / steps[d]) * (high - low)),
  );
  const nodes: Node[] = [];
  for (const a of alongZ) {
    const alongSd = PLACE_PRIOR.spreadMedianM * Math.exp(PLACE_PRIOR.spreadLogSd * a);
    for (const r of rollZ) {
      const rollSd = WEAK_PRIOR.spreadMedian * Math.exp(WEAK_PRIOR.spreadLogSd * r);
      for (const v of correlations) {
        const correlation = Math.sin((Math.PI / 2) * v);
        // Even in the correlation itself.
        const logPrior = Math.log(Math.cos((Math.PI / 2) * v)) - 0.5 * (a * a + r * r);
        const scatter = {
          along: alongSd ** 2,
          cross: correlation * alongSd * rollSd,
          roll: rollSd ** 2,
        };
        const byDayShare = shares.map((t) => {
          // Steps that shorten towards a share of all: there the scatter within the day hangs on them.
          const dayShare = Math.cos((Math.PI / 2) * t * t) ** 2;
          const found = solve(days, scatter, dayShare);
          return { ...found, logWeight: found.logWeight + logPrior + Math.log(t), t };
        });
        nodes.push({ at: [a, r, v], scatter, byDayShare });
      }
    }
  }
  return nodes;
}

function weighted(nodes: readonly Node[]): PairPart[] {
  const best = heaviest(nodes.flatMap(({ byDayShare }) => byDayShare));
  const heavy = nodes
    .map((node) => overDayShares(node, best))
    .filter(({ weight }) => weight > NEGLIGIBLE_WEIGHT);
  const total = heavy.reduce((sum, { weight }) => sum + weight, 0);
  return heavy.map((part) => ({ ...part, weight: part.weight / total }));
}

function heaviest(all: readonly { readonly logWeight: number }[]): number {
  return all.reduce((most, { logWeight }) => Math.max(most, logWeight), -Infinity);
}

/** The day share says nothing about the next day's landing but through the means: one normal part for all. */
function overDayShares({ byDayShare, scatter }: Node, best: number): PairPart {
  const weights = byDayShare.map(({ logWeight }) => Math.exp(logWeight - best));
  const weight = weights.reduce((sum, each) => sum + each, 0);
  const average = (of: (solved: Solved) => number): number =>
    byDayShare.reduce((sum, solved, k) => sum + weights[k] * of(solved), 0) / weight;
  const along = average(({ mean }) => mean.along);
  const roll = average(({ mean }) => mean.roll);
  return {
    ...{ weight, scatter },
    mean: { along, roll },
    known: {
      along: average(({ mean, known }) => known.along + (mean.along - along) ** 2),
      cross: average(({ mean, known }) => known.cross + (mean.along - along) * (mean.roll - roll)),
      roll: average(({ mean, known }) => known.roll + (mean.roll - roll) ** 2),
    },
  };
}

/** What is known of both means where scatter and day share are given, and how well that fits. */
function solve(
  days: readonly (readonly LandingPair[])[],
  scatter: Covariance,
  dayShare: number,
): Solved {
  const { meanM, meanSdM } = PLACE_PRIOR;
  const { meanLog, meanLogSd } = WEAK_PRIOR;
  // Information about the means, and its pull; the prior first.
  let xx = 1 / meanSdM ** 2;
  let xy = 0;
  let yy = 1 / meanLogSd ** 2;
  let px = xx * meanM;
  let py = yy * meanLog;
  let misfit = px * meanM + py * meanLog;
  let determinants = 1;
  let logDeterminant = 0;
  const own = 1 - dayShare;
  const dx = dayShare * scatter.along;
  const dc = dayShare * scatter.cross;
  const dy = dayShare * scatter.roll;
  for (const day of days) {
    let a = 0;
    let c = 0;
    let b = 0;
    let vx = 0;
    let vy = 0;
    for (const { alongM, rollLog, alongVariance, covariance, rollVariance } of day) {
      const sx = own * scatter.along + alongVariance;
      const sc = own * scatter.cross + covariance;
      const sy = own * scatter.roll + rollVariance;
      const determinant = sx * sy - sc * sc;
      determinants *= determinant;
      const wx = (sy * alongM - sc * rollLog) / determinant;
      const wy = (sx * rollLog - sc * alongM) / determinant;
      a += sy / determinant;
      c -= sc / determinant;
      b += sx / determinant;
      vx += wx;
      vy += wy;
      misfit += wx * alongM + wy * rollLog;
    }
    // The day's own effect, integrated: G = (1 + A D)^-1 with A the day's information, D its spread.
    const kxx = 1 + a * dx + c * dc;
    const kxy = a * dc + c * dy;
    const kyx = c * dx + b * dc;
    const kyy = 1 + c * dc + b * dy;
    const shrink = kxx * kyy - kxy * kyx;
    logDeterminant += Math.log(determinants) + Math.log(shrink);
    determinants = 1;
    const gx = (kyy * vx - kxy * vy) / shrink;
    const gy = (kxx * vy - kyx * vx) / shrink;
    misfit -= vx * (dx * gx + dc * gy) + vy * (dc * gx + dy * gy);
    px += gx;
    py += gy;
    xx += (kyy * a - kxy * c) / shrink;
    xy += (kyy * c - kxy * b) / shrink;
    yy += (kxx * b - kyx * c) / shrink;
  }
  const determinant = xx * yy - xy * xy;
  const along = (yy * px - xy * py) / determinant;
  const roll = (xx * py - xy * px) / determinant;
  const explained = px * along + py * roll;
  return {
    logWeight: -0.5 * (logDeterminant + Math.log(determinant) + misfit - explained),
    mean: { along, roll },
    known: { along: yy / determinant, cross: -xy / determinant, roll: xx / determinant },
  };
}
