/**
 * What do all these flights together say about each aeroplane on each kind of surface, and in the order
 * flown?
 *
 * In: debriefed flights of one pilot. Out: pooled factors, and the course of every aeroplane's ratios.
 */
import type { ComparedQuantity } from '../calibration/comparison.ts';
import {
  driftTest,
  FEWEST_FOR_DRIFT,
  individualsChart,
  weightedCourse,
  type DriftTest,
} from '../calibration/control-chart.ts';
import {
  pooledFactors,
  type GroupedComparison,
  type PooledFactor,
  type SurfaceClass,
} from '../calibration/pooled-factor.ts';
import { isUndetermined } from '../result.ts';
import type { SurfaceState } from '../weather/conditions.ts';
import type { Flight } from './debrief.ts';

const QUANTITIES: readonly ComparedQuantity[] = [
  'landing-from-50-ft',
  'landing-roll',
  'take-off-to-50-ft',
  'take-off-roll',
];

/** Fewer landings than this give no limits worth stating. */
const FEWEST_FOR_LIMITS = 5;

/** Ratios of one aeroplane and one distance in the order flown; plain ratios, worked on logarithms. */
export interface RatioCourse {
  readonly quantity: ComparedQuantity;
  readonly aeroplane: string;
  readonly ratios: readonly { readonly day: string; readonly ratio: number }[];
  readonly middle: number;
  readonly lower: number;
  readonly upper: number;
  /** The weighted course after the last one (lambda 0.3), and its limits about the middle. */
  readonly course: { readonly last: number; readonly lower: number; readonly upper: number };
  /** On one value a day, the mean of the day's logarithms; null: too few days. */
  readonly drift: DriftTest | null;
}

/** Pooled factors of every distance, aeroplane and surface that was compared. */
export function groupedFactors(flights: readonly Flight[]): PooledFactor[] {
  const all = flights.flatMap(groupedComparisons);
  return QUANTITIES.flatMap((quantity) => pooledFactors(quantity, all));
}

/** Courses of every aeroplane and distance with five or more that count. */
export function ratioCourses(flights: readonly Flight[]): RatioCourse[] {
  const inOrder = flights.toSorted((a, b) => a.track.timeS[0] - b.track.timeS[0]);
  const all = inOrder.flatMap(groupedComparisons);
  const aeroplanes = [...new Set(all.map(({ aeroplane }) => aeroplane))];
  return aeroplanes.flatMap((aeroplane) =>
    QUANTITIES.flatMap((quantity) => {
      const own = all.filter(
        (each) => each.aeroplane === aeroplane && each.comparison.quantity === quantity,
      );
      return courseOf(quantity, aeroplane, own);
    }),
  );
}

function groupedComparisons({ aeroplane, conditions, compared }: Flight): GroupedComparison[] {
  if (isUndetermined(aeroplane)) return [];
  const surface = isUndetermined(conditions) ? 'not known' : surfaceClass(conditions.surface);
  return [...compared.approaches, ...compared.takeOffs]
    .flatMap(({ roll, whole }) => [roll, whole])
    .filter(({ ratio }) => !isUndetermined(ratio))
    .map((comparison) => ({ comparison, aeroplane: aeroplane.id, surface }));
}

/** Long grass that nobody called wet is dry; what has no published factor is never compared. */
function surfaceClass(surface: SurfaceState | null): SurfaceClass {
  if (surface === null) return 'not known';
  if (surface === 'soft') return 'soft';
  return surface.includes('wet') ? 'wet' : 'dry';
}

function courseOf(
  quantity: ComparedQuantity,
  aeroplane: string,
  own: readonly GroupedComparison[],
): RatioCourse[] {
  const flown = own.flatMap(({ comparison: { role, log, dayKey } }) =>
    role !== 'counts' || isUndetermined(log) ? [] : [{ day: dayKey, log: log.value }],
  );
  if (flown.length < FEWEST_FOR_LIMITS) return [];
  const logs = flown.map(({ log }) => log);
  const { middle, lower, upper } = individualsChart(logs);
  const sd = (upper - middle) / 3;
  const course = weightedCourse(logs, { start: middle, sd });
  const byDay = new Map<string, number[]>();
  for (const { day, log } of flown) byDay.set(day, [...(byDay.get(day) ?? []), log]);
  const days = [...byDay.values()].map(
    (ofDay) => ofDay.reduce((sum, log) => sum + log, 0) / ofDay.length,
  );
  return [
    {
      ...{ quantity, aeroplane },
      ratios: flown.map(({ day, log }) => ({ day, ratio: Math.exp(log) })),
      middle: Math.exp(middle),
      lower: Math.exp(lower),
      upper: Math.exp(upper),
      course: {
        last: Math.exp(course.values[course.values.length - 1]),
        lower: Math.exp(course.lower),
        upper: Math.exp(course.upper),
      },
      drift: days.length < FEWEST_FOR_DRIFT ? null : driftTest(days),
    },
  ];
}
