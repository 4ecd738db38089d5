/**
 * FRONT DOOR. What length would 95 of 100 such landings need at this strip today?
 *
 * In: landings meant to be short, touchdown place and roll of each, and the strip's LDA with today's
 * expected roll. Out: the length, counted from the landing threshold to the stop, that 19 of 20 next
 * landings on a new day stay within, with its band; or `too-few`.
 *
 * Touchdown and roll are taken together, correlated as they were (landing-pair.ts). The length is
 * touchdown + expected roll x ratio, integrated over everything the landings allow. Its band is the 90 %
 * interval of the pilot's own 95 % length: few landings leave it wide. Before a flight the forecast is
 * not yet the wind: its error along the strip lengthens or shortens every roll of the day and widens both.
 */
import type { Estimate } from '../result.ts';
import { FACTOR_PROBABILITY, FEWEST_DAYS, FEWEST_LANDINGS } from './calibrate.ts';
import { pairPosterior, type LandingPair, type PairPart } from './landing-pair.ts';
import { normalPartsEstimate, normalPartsQuantile, type NormalPart } from './normal-parts.ts';

/** Where and in what such a landing is to be made. Lengths in metres. */
export interface LandingToday {
  readonly ldaM: number;
  /** The roll expected today, without any safety factor. */
  readonly expectedRollM: number;
  /**
   * Standard deviation of the logarithm of the roll that the forecast's error along the strip brings;
   * 0 where the wind is the one at the landing.
   */
  readonly forecastLogSd: number;
}

/** The length that 95 of 100 need, and what stands beside it. Metres from the landing threshold. */
export interface LengthNeeded {
  readonly kind: 'length-needed';
  readonly landings: number;
  readonly days: number;
  /** What 19 of 20 next ones stay within; low and high: the pilot's own 95 % length, 90 % interval. */
  readonly lengthM: Estimate;
  /** LDA less the length: 1 in 20 would leave less, or overrun where it is negative. */
  readonly leftM: Estimate;
  /** Half of the next ones need less. */
  readonly middleM: number;
  /** The pilot's middle touchdown place, and the middle roll today. */
  readonly touchdownM: Estimate;
  readonly rollM: Estimate;
  /** How touchdown and roll went together from landing to landing: -1 to 1. */
  readonly correlation: number;
  readonly today: LandingToday;
}

/** Too few landings meant to be short. */
export interface TooFewShort {
  readonly kind: 'too-few';
  readonly landings: number;
  readonly days: number;
  readonly reason: string;
}

/**
 * The length that 95 of 100 such landings would need.
 *
 * Units: metres. Fails: `too-few` below 5 landings or 3 days; throws where today's figures are not
 * positive numbers.
 */
export function lengthNeeded(
  landings: readonly LandingPair[],
  today: LandingToday,
): LengthNeeded | TooFewShort {
  return lengthsNeeded(landings, [today])[0];
}

/** The same for several strips or winds at once. Fails: as `lengthNeeded`. */
export function lengthsNeeded(
  landings: readonly LandingPair[],
  todays: readonly LandingToday[],
): (LengthNeeded | TooFewShort)[] {
  todays.forEach(checkToday);
  const days = new Set(landings.map(({ dayKey }) => dayKey)).size;
  const counts = { landings: landings.length, days };
  if (landings.length < FEWEST_LANDINGS || days < FEWEST_DAYS) {
    const reason = `found ${landings.length} on ${days} days; ${FEWEST_LANDINGS} or more on ${FEWEST_DAYS} days or more are needed`;
    return todays.map(() => ({ kind: 'too-few', ...counts, reason }));
  }
  const parts = pairPosterior(landings);
  return todays.map((today) => ({ kind: 'length-needed', ...counts, ...ofParts(parts, today) }));
}

function ofParts(
  parts: readonly PairPart[],
  today: LandingToday,
): Omit<LengthNeeded, 'kind' | 'landings' | 'days'> {
  const next = nextLengths(parts, today);
  const value = normalPartsQuantile(next, FACTOR_PROBABILITY);
  const own = normalPartsEstimate(ownLengths(parts, today));
  const lengthM = { value, low: Math.min(own.low, value), high: Math.max(own.high, value) };
  const { ldaM, expectedRollM } = today;
  const roll = normalPartsEstimate(normals(parts, ({ mean, known }) => [mean.roll, known.roll]));
  return {
    lengthM,
    leftM: { value: ldaM - value, low: ldaM - lengthM.high, high: ldaM - lengthM.low },
    middleM: normalPartsQuantile(next, 0.5),
    touchdownM: normalPartsEstimate(normals(parts, ({ mean, known }) => [mean.along, known.along])),
    rollM: {
      value: expectedRollM * Math.exp(roll.value),
      low: expectedRollM * Math.exp(roll.low),
      high: expectedRollM * Math.exp(roll.high),
    },
    correlation: parts.reduce((sum, part) => sum + part.weight * correlationOf(part.scatter), 0),
    today,
  };
}

/** Only the length that the next one stays within with a probability, metres, for proofs. Fails: as `lengthNeeded`. */
export function nextLengthM(
  landings: readonly LandingPair[],
  today: LandingToday,
  probability: number,
): number {
  checkToday(today);
  return normalPartsQuantile(nextLengths(pairPosterior(landings), today), probability);
}

function checkToday({ ldaM, expectedRollM, forecastLogSd }: LandingToday): void {
  if (ldaM > 0 && expectedRollM > 0 && forecastLogSd >= 0 && Number.isFinite(ldaM + forecastLogSd))
    return;
  throw new Error('LDA and expected roll must be positive and the forecast no less than exact');
}

/** Steps of the roll's scatter over which lengths are added up: half a standard deviation, to 3.5. */
const STEPS = Array.from({ length: 15 }, (_, k) => 0.5 * (k - 7));
const TOTAL = STEPS.reduce((sum, z) => sum + Math.exp(-0.5 * z * z), 0);
const ROLL_STEPS = STEPS.map((z) => ({ z, share: Math.exp(-0.5 * z * z) / TOTAL }));

/** The next landing's length on a new day, as normal parts. */
function nextLengths(parts: readonly PairPart[], today: LandingToday): NormalPart[] {
  return parts.flatMap(({ weight, mean, known, scatter }) =>
    lengthsOf(weight, mean, today.expectedRollM, {
      along: known.along + scatter.along,
      cross: known.cross + scatter.cross,
      roll: known.roll + scatter.roll + today.forecastLogSd ** 2,
    }),
  );
}

/**
 * The length that 95 of 100 of the pilot's landings stay within, were all of the pilot known, and the
 * day's wind: one normal part for each part of the posterior, linear in what is not known of the means.
 */
function ownLengths(parts: readonly PairPart[], today: LandingToday): NormalPart[] {
  return normals(parts, ({ mean, known, scatter }) => {
    const lengths = lengthsOf(1, mean, today.expectedRollM, scatter);
    const at = normalPartsQuantile(lengths, FACTOR_PROBABILITY);
    // A longer mean roll lengthens the landings near that length by the rolls they have.
    let density = 0;
    let rolled = 0;
    for (const { weight, mean: middle, sd, rollM } of lengths) {
      const share = weight * Math.exp(-0.5 * ((at - middle) / sd) ** 2);
      density += share;
      rolled += share * rollM;
    }
    const perLog = rolled / density;
    const rollVariance = known.roll + today.forecastLogSd ** 2;
    return [at, known.along + 2 * perLog * known.cross + perLog ** 2 * rollVariance];
  });
}

/** Touchdown place + roll, by steps of the roll: for each the place is normal. */
function lengthsOf(
  weight: number,
  mean: PairPart['mean'],
  expectedRollM: number,
  { along, cross, roll }: PairPart['scatter'],
): (NormalPart & { readonly rollM: number })[] {
  const rollSd = Math.sqrt(roll);
  const sd = Math.sqrt(along - cross ** 2 / roll);
  return ROLL_STEPS.map(({ z, share }) => {
    const rollM = expectedRollM * Math.exp(mean.roll + z * rollSd);
    const placeM = mean.along + (cross / rollSd) * z;
    return { weight: weight * share, mean: placeM + rollM, sd, rollM };
  });
}

function normals(
  parts: readonly PairPart[],
  of: (part: PairPart) => readonly [mean: number, variance: number],
): NormalPart[] {
  return parts.map((part) => {
    const [mean, variance] = of(part);
    return { weight: part.weight, mean, sd: Math.sqrt(variance) };
  });
}

function correlationOf({ along, cross, roll }: PairPart['scatter']): number {
  return cross / Math.sqrt(along * roll);
}
