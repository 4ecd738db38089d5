/**
 * FRONT DOOR. Which factor do this pilot's own landings suggest, or are there too few?
 *
 * Inputs: comparisons of one quantity, of landings that belong together. Output: the ratio that 19
 * of 20 next landings on a new day stay below, with what stands beside it, or `too-few` with the
 * counts and no factor. An own factor below the published one is never a permission to plan
 * shorter: the published one is kept and the text says so.
 * Sources: predictive.ts for the model; the published factors are those of UK CAA Safety Sense
 * Leaflet 7c, January 2013 (1.43 landing, 1.33 take-off), from memory.
 */

import { isUndetermined, type Estimate, type Undetermined } from '../result.ts';
import type { ComparedQuantity, Comparison } from './comparison.ts';
import type { LogRatio } from './log-ratio.ts';
import { predictNextRatio } from './predictive.ts';
import { toleranceBound } from './tolerance.ts';

/** Fewer landings or days than this give no factor. */
export const FEWEST_LANDINGS = 5;
/** Fewer days than this say too little about day-to-day differences. */
export const FEWEST_DAYS = 3;
/** Probability that the next landing stays below the own factor. */
export const FACTOR_PROBABILITY = 0.95;

/** How many landings took which part. */
export interface LandingCounts {
  readonly counted: number;
  readonly upperBounds: number;
  readonly leftOut: number;
  /** Days on which a landing counted. */
  readonly days: number;
}

/** Too few landings or days: the ratios may be shown, but no factor. */
export interface TooFew {
  readonly kind: 'too-few';
  readonly quantity: ComparedQuantity;
  readonly counts: LandingCounts;
  readonly reason: string;
}

/** An own factor and what stands beside it. All factors and ratios are plain numbers. */
export interface OwnFactor {
  readonly kind: 'own-factor';
  readonly quantity: ComparedQuantity;
  readonly counts: LandingCounts;
  /** The ratio that the next landing on a new day stays below with 95 % probability. */
  readonly factor: number;
  readonly typicalRatio: Estimate;
  readonly spread: Estimate;
  readonly dayShare: Estimate;
  /** The same factor with every measured landing in as it was, none bounded or left out. */
  readonly withEveryLanding: number;
  /** Classical one-sided bound, content 95 %, confidence 95 %, of the landings that count. */
  readonly toleranceBound: number | Undetermined;
  /** The published safety factor it is held against; null for a roll, which is held against none. */
  readonly published: number | null;
  /** The factor to plan the whole distance with: never below the published one; null for a roll. */
  readonly planWith: number | null;
  /** `keeps-published` | `exceeds-published` | `not-for-planning` (rolls). */
  readonly verdict: 'keeps-published' | 'exceeds-published' | 'not-for-planning';
  readonly text: string;
}

/** The safety factor of the published set; null: rolls have none. */
export const PUBLISHED: Readonly<Record<ComparedQuantity, number | null>> = {
  'landing-roll': null,
  'landing-from-50-ft': 1.43,
  'take-off-roll': null,
  'take-off-to-50-ft': 1.33,
};

/**
 * Calibrates one quantity.
 *
 * Units: plain ratios. Fails: `too-few` below 5 counted landings or 3 days; throws where the
 * comparisons are of different quantities (they must be sorted before).
 */
export function calibrate(
  quantity: ComparedQuantity,
  comparisons: readonly Comparison[],
): OwnFactor | TooFew {
  if (comparisons.some((comparison) => comparison.quantity !== quantity)) {
    throw new Error(`all comparisons must be of ${quantity}`);
  }
  const counts = countLandings(comparisons);
  const reason = whyTooFew(counts);
  if (reason !== null) return { kind: 'too-few', quantity, counts, reason };

  const landings = comparisons
    .filter((comparison) => comparison.role !== 'left-out')
    .flatMap(asLogRatio);
  const everyLanding = comparisons.flatMap(asLogRatio).map(asPlainValue);
  const next = predictNextRatio(landings);
  const counted = landings.filter((landing) => landing.kind === 'value');
  const factor = next.quantile(FACTOR_PROBABILITY);
  return {
    kind: 'own-factor',
    quantity,
    counts,
    factor,
    typicalRatio: next.typicalRatio,
    spread: next.spread,
    dayShare: next.dayShare,
    withEveryLanding: predictNextRatio(everyLanding).quantile(FACTOR_PROBABILITY),
    toleranceBound: toleranceBound(counted.map((landing) => landing.logRatio)),
    ...heldAgainstPublished(quantity, factor),
  };
}

/** How many landings take which part. */
export function countLandings(comparisons: readonly Comparison[]): LandingCounts {
  const counted = comparisons.filter((comparison) => comparison.role === 'counts');
  return {
    counted: counted.length,
    upperBounds: comparisons.filter((comparison) => comparison.role === 'upper-bound').length,
    leftOut: comparisons.filter((comparison) => comparison.role === 'left-out').length,
    days: new Set(counted.map((comparison) => comparison.dayKey)).size,
  };
}

/** Why there is no factor; null where the landings are enough. */
export function whyTooFew({ counted, days }: LandingCounts): string | null {
  if (counted < FEWEST_LANDINGS) {
    return `${counted} that count; a factor needs ${FEWEST_LANDINGS} or more`;
  }
  if (days < FEWEST_DAYS) {
    return `${counted} that count on ${days} days; a factor needs ${FEWEST_DAYS} days or more`;
  }
  return null;
}

function asLogRatio(comparison: Comparison): LogRatio[] {
  const { log, dayKey, role } = comparison;
  if (isUndetermined(log)) return [];
  const kind = role === 'upper-bound' ? 'upper-bound' : 'value';
  return [{ logRatio: log.value, sd: log.sd, dayKey, kind }];
}

function asPlainValue(landing: LogRatio): LogRatio {
  return { ...landing, kind: 'value' };
}

/** A factor in two decimals; in a third, rounded up, where a larger one would read like the published. */
export function ownFactorText(factor: number, published: number | null): string {
  const text = factor.toFixed(2);
  const readsAlike = published !== null && factor > published && Number(text) <= published;
  return readsAlike ? (Math.ceil(1000 * factor) / 1000).toFixed(3) : text;
}

function heldAgainstPublished(
  quantity: ComparedQuantity,
  factor: number,
): Pick<OwnFactor, 'published' | 'planWith' | 'verdict' | 'text'> {
  const published = PUBLISHED[quantity];
  const own = ownFactorText(factor, published);
  if (published === null) {
    const text = `Of 20 next ones on a new day, about 19 stay below ${own} times the expected roll. A roll factor never decides a length of strip alone.`;
    return { published, planWith: null, verdict: 'not-for-planning', text };
  }
  if (factor > published) {
    const text = `Your own factor ${own} is LARGER than the published ${published}: plan with ${own}.`;
    return { published, planWith: factor, verdict: 'exceeds-published', text };
  }
  const text = `Your own factor ${own} is below the published ${published}. That is no permission to plan shorter: the published factor stays.`;
  return { published, planWith: published, verdict: 'keeps-published', text };
}
