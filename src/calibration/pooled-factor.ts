/**
 * Which factor for one aeroplane on one kind of surface, leaning on the pilot's other landings as far
 * as they are alike?
 *
 * In: comparisons of one quantity with the groups they belong to, and the group asked about. Out: the
 * pooled bound, the group's own bound where it has landings enough, and which of the two holds.
 *
 * The factor that a set publishes for wet grass or soft ground is in the expected distance already, so
 * ratio 1 stands for that surface factor and the safety factor (1.43 landing, 1.33 take-off) stands on
 * top of it. Leaning on dry landings must not take either away: the pooled factor of a wet or soft group
 * goes below that floor (the safety factor; 1 for a roll, which has none) only as far as the group's
 * own landings alone go. Where they are too few to say, the floor holds.
 */
import { isUndetermined } from '../result.ts';
import {
  countLandings,
  FACTOR_PROBABILITY,
  PUBLISHED,
  whyTooFew,
  type LandingCounts,
} from './calibrate.ts';
import type { ComparedQuantity, Comparison } from './comparison.ts';
import type { LogRatio } from './log-ratio.ts';
import { predictNextRatio, WEAK_PRIOR } from './predictive.ts';
import type { Estimate } from '../result.ts';

/** Surface as far as landings on it are alike. */
export type SurfaceClass = 'dry' | 'wet' | 'soft' | 'not known';

/** A comparison with its groups. */
export interface GroupedComparison {
  readonly comparison: Comparison;
  readonly aeroplane: string;
  readonly surface: SurfaceClass;
}

/** A group's factor. Plain ratios. */
export interface PooledFactor {
  readonly quantity: ComparedQuantity;
  readonly aeroplane: string;
  readonly surface: SurfaceClass;
  /** Landings of this group. */
  readonly counts: LandingCounts;
  /** All landings that it rests on, other groups' in. */
  readonly restsOn: LandingCounts;
  /** The ratio that the next one on a new day stays below with 95 %; null: too few landings. */
  readonly factor: number | null;
  readonly why: string;
  readonly typicalRatio: Estimate | null;
  /** From this group's landings alone; null: too few. */
  readonly alone: number | null;
  /** True where the floor of a wet or soft group holds in place of the pooled figure. */
  readonly isFloor: boolean;
}

/**
 * Pooled factors of every group that has a landing.
 *
 * Units: plain ratios. Fails: no factor, with the reason, where the group itself has fewer than five
 * landings that count or fewer than three days: leaning on others is no substitute for them.
 */
export function pooledFactors(
  quantity: ComparedQuantity,
  all: readonly GroupedComparison[],
): PooledFactor[] {
  const own = all.filter(({ comparison }) => comparison.quantity === quantity);
  const keyOf = ({ aeroplane, surface }: GroupedComparison): string => `${aeroplane}\n${surface}`;
  const keys = [...new Set(own.map(keyOf))].sort();
  return keys.map((key) =>
    factorOfGroup(
      quantity,
      own,
      own.filter((each) => keyOf(each) === key),
    ),
  );
}

function factorOfGroup(
  quantity: ComparedQuantity,
  all: readonly GroupedComparison[],
  group: readonly GroupedComparison[],
): PooledFactor {
  const [{ aeroplane, surface }] = group;
  const counts = countLandings(group.map(({ comparison }) => comparison));
  const restsOn = countLandings(all.map(({ comparison }) => comparison));
  const start = { quantity, aeroplane, surface, counts, restsOn };
  // Others may narrow what a group says, never speak in its place.
  const tooFew = whyTooFew(counts);
  if (tooFew !== null) {
    return { ...start, factor: null, why: tooFew, typicalRatio: null, alone: null, isFloor: false };
  }
  const next = predictNextRatio(all.flatMap(asGrouped), WEAK_PRIOR, [aeroplane, surface]);
  const pooled = next.quantile(FACTOR_PROBABILITY);
  const alone = predictNextRatio(group.flatMap(asGrouped)).quantile(FACTOR_PROBABILITY);
  const floor = surface === 'wet' || surface === 'soft' ? (PUBLISHED[quantity] ?? 1) : 0;
  const factor = Math.max(pooled, Math.min(floor, alone));
  const isFloor = factor > pooled;
  const why = isFloor
    ? `${surface} ground: leaning on other landings takes nothing off the published factor`
    : `from ${restsOn.counted} that count on ${restsOn.days} days, ${counts.counted} of them this aeroplane's on this surface`;
  return { ...start, factor, why, typicalRatio: next.typicalRatio, alone, isFloor };
}

function asGrouped({ comparison, aeroplane, surface }: GroupedComparison): LogRatio[] {
  const { log, dayKey, role } = comparison;
  if (role === 'left-out' || isUndetermined(log)) return [];
  const kind = role === 'upper-bound' ? 'upper-bound' : 'value';
  return [{ logRatio: log.value, sd: log.sd, dayKey, kind, groups: [aeroplane, surface] }];
}
