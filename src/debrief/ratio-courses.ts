/**
 * What do all these flights together say in the order flown?
 *
 * In: debriefed flights of one pilot. Out: the course of every aeroplane's ratios.
 */
import type { ComparedQuantity, Comparison } from '../calibration/comparison.ts';
import {
  driftTest,
  FEWEST_FOR_DRIFT,
  individualsChart,
  weightedCourse,
  type DriftTest,
} from '../calibration/control-chart.ts';
import { isUndetermined } from '../result.ts';
import type { Flight } from './debrief.ts';
import { COMPARED_QUANTITIES } from './own-factors.ts';

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

/** Courses of every aeroplane and distance with five or more that count. */
export function ratioCourses(flights: readonly Flight[]): RatioCourse[] {
  const inOrder = flights.toSorted((a, b) => a.track.timeS[0] - b.track.timeS[0]);
  const all = inOrder.flatMap(comparedBy);
  const aeroplanes = [...new Set(all.map(({ aeroplane }) => aeroplane))];
  return aeroplanes.flatMap((aeroplane) =>
    COMPARED_QUANTITIES.flatMap((quantity) => {
      const own = all.filter(
        (each) => each.aeroplane === aeroplane && each.comparison.quantity === quantity,
      );
      return courseOf(quantity, aeroplane, own);
    }),
  );
}

interface ComparedBy {
  readonly comparison: Comparison;
  readonly aeroplane: string;
}

function comparedBy({ aeroplane, compared }: Flight): ComparedBy[] {
  if (isUndetermined(aeroplane)) return [];
  return [...compared.approaches, ...compared.takeOffs]
    .flatMap(({ roll, whole }) => [roll, whole])
    .filter(({ ratio }) => !isUndetermined(ratio))
    .map((comparison) => ({ comparison, aeroplane: aeroplane.id }));
}

function courseOf(
  quantity: ComparedQuantity,
  aeroplane: string,
  own: readonly ComparedBy[],
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
