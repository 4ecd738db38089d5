/**
 * FRONT DOOR. Which factor do this pilot's own landings suggest, or are there too few?
 *
 * Inputs: comparisons of one quantity of one group (one aeroplane on one kind of surface), and those of
 * the pilot's other groups. Output: the ratio that 19 of 20 next landings on a new day stay below, with
 * what stands beside it, or `too-few` with the counts and no factor. An own factor below the published
 * one is never a permission to plan shorter: the published one is kept and the text says so.
 *
 * The factor that a set publishes for wet grass or soft ground is in the expected distance already, so
 * ratio 1 stands for that surface factor and the set's safety factor (1.43 landing, 1.33 take-off in
 * the default set) stands on top of it. Leaning on dry landings must not take either away: the factor of a wet or soft group goes
 * below that floor (the safety factor; 1 for a roll, which has none) only as far as the group's own
 * landings alone go.
 * An own factor is held against the safety factor of the set that its distances were expected with, and
 * of several against the largest.
 * Source: predictive.ts for the model; of the safety factors the sets themselves.
 */

import { isUndetermined, type Estimate, type Undetermined } from '../result.ts';
import { UK_LEAFLET } from '../performance/factor-sets/uk-leaflet.ts';
import { commonShareOf } from './repeated-error.ts';
import type { ComparedQuantity, Comparison, UsedFactorSet } from './comparison.ts';
import { groupLikelihood, type GroupLikelihood } from './group-likelihood.ts';
import type { LogRatio } from './log-ratio.ts';
import { predictFrom, WEAK_PRIOR, type PredictiveRatio } from './predictive.ts';
import type { SurfaceClass } from './surface-class.ts';
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
  readonly surface: SurfaceClass;
  readonly counts: LandingCounts;
  readonly reason: string;
}

/** An own factor and what stands beside it. All factors and ratios are plain numbers. */
export interface OwnFactor {
  readonly kind: 'own-factor';
  readonly quantity: ComparedQuantity;
  readonly surface: SurfaceClass;
  readonly counts: LandingCounts;
  /** All landings that it rests on, those of the pilot's other groups in. */
  readonly restsOn: LandingCounts;
  /** The ratio that the next landing on a new day stays below with 95 % probability. */
  readonly factor: number;
  /** The same from this group's landings alone. */
  readonly alone: number;
  /** True where the floor of wet or soft ground holds in place of what leaning on other landings gives. */
  readonly isFloor: boolean;
  readonly typicalRatio: Estimate;
  readonly spread: Estimate;
  readonly dayShare: Estimate;
  /** The same factor with every measured landing in as it was, none bounded or left out. */
  readonly withEveryLanding: number;
  /** Classical one-sided bound, content 95 %, confidence 95 %, of the landings that count. */
  readonly toleranceBound: number | Undetermined;
  /** The sets that its distances were expected with: it may multiply what one of them expects, if it is the only one. */
  readonly factorSets: readonly Pick<UsedFactorSet, 'id' | 'name'>[];
  /** The safety factor of the set, which it is held against; null for a roll, which is held against none. */
  readonly published: number | null;
  /** The factor to plan the whole distance with: never below the published one; null for a roll. */
  readonly planWith: number | null;
  /** `keeps-published` | `exceeds-published` | `not-for-planning` (rolls). */
  readonly verdict: 'keeps-published' | 'exceeds-published' | 'not-for-planning';
  readonly text: string;
}

/** What comparisons that name no set were expected with. */
function defaultSet(quantity: ComparedQuantity): UsedFactorSet {
  const { id, name, landing, takeOff } = UK_LEAFLET;
  const use = quantity.startsWith('take-off') ? takeOff : landing;
  return { id, name, isOwn: false, safetyFactor: use.safety.factor };
}

/** The sets behind a group's comparisons, the one with the largest safety factor first. */
function setsOf(quantity: ComparedQuantity, comparisons: readonly Comparison[]): UsedFactorSet[] {
  const used = comparisons
    .filter(({ log }) => !isUndetermined(log))
    .map(({ factorSet }) => factorSet ?? defaultSet(quantity))
    .toSorted((a, b) => b.safetyFactor - a.safetyFactor);
  return used.filter(({ id }, k) => used.findIndex((each) => each.id === id) === k);
}

/** The landings of one group, and what they say of its mean. */
export interface GroupLandings {
  readonly comparisons: readonly Comparison[];
  /** Those that count, and upper bounds. */
  readonly counting: GroupLikelihood;
  /** Every measured one as it was. */
  readonly every: GroupLikelihood;
}

/**
 * Calibrates one quantity of one group.
 *
 * `others`: the pilot's comparisons of the same quantity in other groups, a list for each.
 *
 * Units: plain ratios. Fails: `too-few` below 5 counted landings or 3 days; throws where the
 * comparisons are of different quantities (they must be sorted before).
 */
export function calibrate(
  quantity: ComparedQuantity,
  comparisons: readonly Comparison[],
  others: readonly (readonly Comparison[])[] = [],
  surface: SurfaceClass = 'not known',
): OwnFactor | TooFew {
  return calibrateGroup(quantity, gatherGroup(comparisons), others.map(gatherGroup), surface);
}

/** Gathers a group's landings once, for its own factor and for every other that leans on it. */
export function gatherGroup(comparisons: readonly Comparison[]): GroupLandings {
  const counting = comparisons.filter(({ role }) => role !== 'left-out').flatMap(asLogRatio);
  const every = comparisons.flatMap(asLogRatio).map(asPlainValue);
  const likelihood = groupLikelihood(counting, WEAK_PRIOR);
  const isSame = every.length === counting.length && counting.every(({ kind }) => kind === 'value');
  return {
    comparisons,
    counting: likelihood,
    every: isSame ? likelihood : groupLikelihood(every, WEAK_PRIOR),
  };
}

/** See `calibrate`. */
export function calibrateGroup(
  quantity: ComparedQuantity,
  own: GroupLandings,
  others: readonly GroupLandings[],
  surface: SurfaceClass,
): OwnFactor | TooFew {
  const { comparisons } = own;
  const everyone = [...comparisons, ...others.flatMap((other) => other.comparisons)];
  if (everyone.some((comparison) => comparison.quantity !== quantity)) {
    throw new Error(`all comparisons must be of ${quantity}`);
  }
  const counts = countLandings(comparisons);
  const reason = whyTooFew(counts);
  if (reason !== null) return { kind: 'too-few', quantity, surface, counts, reason };

  const onFloor = surface === 'wet' || surface === 'soft';
  const sets = setsOf(quantity, comparisons);
  const isRoll = quantity.endsWith('-roll');
  const floor = onFloor ? (isRoll ? 1 : sets[0].safetyFactor) : 0;
  const found = bound(
    own.counting,
    others.map(({ counting }) => counting),
    floor,
  );
  const isSame = [own, ...others].every(({ counting, every }) => counting === every);
  const every = isSame
    ? found
    : bound(
        own.every,
        others.map((other) => other.every),
        floor,
      );
  const counted = comparisons.filter(({ role }) => role === 'counts').flatMap(asLogRatio);
  const { next } = found;
  return {
    kind: 'own-factor',
    ...{ quantity, surface, counts },
    restsOn: countLandings(everyone),
    factor: found.factor,
    alone: found.alone,
    isFloor: found.isFloor,
    typicalRatio: next.typicalRatio,
    spread: next.spread,
    dayShare: next.dayShare,
    withEveryLanding: every.factor,
    toleranceBound: toleranceBound(counted.map((landing) => landing.logRatio)),
    factorSets: sets.map(({ id, name }) => ({ id, name })),
    ...heldAgainst(isRoll ? null : sets[0], found.factor, sets.length > 1),
  };
}

/** The bound leaning on the others; below the floor only as far as the group alone goes. */
function bound(
  own: GroupLikelihood,
  others: readonly GroupLikelihood[],
  floor: number,
): { next: PredictiveRatio; factor: number; alone: number; isFloor: boolean } {
  const next = predictFrom(own, others);
  const pooled = next.quantile(FACTOR_PROBABILITY);
  const alone = others.length === 0 ? pooled : predictFrom(own, []).quantile(FACTOR_PROBABILITY);
  const factor = Math.max(pooled, Math.min(floor, alone));
  return { next, factor, alone, isFloor: factor > pooled };
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
  const { log, dayKey, role, quantity } = comparison;
  if (isUndetermined(log)) return [];
  const kind = role === 'upper-bound' ? 'upper-bound' : 'value';
  const commonShare = commonShareOf(quantity);
  return [{ logRatio: log.value, sd: log.sd, commonShare, dayKey, kind }];
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

function heldAgainst(
  set: UsedFactorSet | null,
  factor: number,
  areSeveral: boolean,
): Pick<OwnFactor, 'published' | 'planWith' | 'verdict' | 'text'> {
  const published = set === null ? null : set.safetyFactor;
  const own = ownFactorText(factor, published);
  if (set === null || published === null) {
    const text = `Of 20 next ones on a new day, about 19 stay below ${own} times the expected roll. A roll factor never decides a length of strip alone.`;
    return { published, planWith: null, verdict: 'not-for-planning', text };
  }
  const which = set.isOwn ? `${published} of ${set.name}` : `published ${published} of ${set.name}`;
  const mixed = areSeveral
    ? ' These distances were expected with more than one factor set, so that it goes with none of them.'
    : '';
  if (factor > published) {
    const text = `Your own factor ${own} is LARGER than the ${which}: plan with ${own}.${mixed}`;
    return { published, planWith: factor, verdict: 'exceeds-published', text };
  }
  const text = `Your own factor ${own} is below the ${which}. That is no permission to plan shorter: ${set.isOwn ? `the ${published}` : 'the published factor'} stays.${mixed}`;
  return { published, planWith: published, verdict: 'keeps-published', text };
}
