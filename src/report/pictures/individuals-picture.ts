/**
 * In the order flown: does the ratio drift, and is a landing unlike the others?
 *
 * In: compared landings of one aeroplane and one distance. Out: an individuals chart: points in the
 * order flown, limits from the moving range, the weighted course with its limits, steps from each to
 * the next, and what the test for a drift found. Worked on logarithms, as the calibration is; limits,
 * course and test are those of calibration/control-chart.ts.
 */
import type { Comparison } from '../../calibration/comparison.ts';
import {
  driftTest,
  FEWEST_FOR_DRIFT,
  individualsChart,
  weightedCourse,
  type DriftTest,
} from '../../calibration/control-chart.ts';
import { isUndetermined, undetermined, type Undetermined } from '../../result.ts';
import { hasFigure, numberText, ratioFigure, type FigureText } from '../figure-text.ts';
import type { EventAddress } from '../logged-flight.ts';
import { RATIO_TITLES, type FactorEntry } from './factor-picture.ts';
import { dayText, yearOf } from '../local-time.ts';
import type { Picture } from './picture.ts';

/** One landing. */
export interface IndividualPoint extends EventAddress {
  readonly day: string;
  readonly year: number;
  readonly ratio: number;
  readonly figure: FigureText;
  /** The weighted course after this landing: it counts for three tenths, what came before for the rest. */
  readonly course: number;
  /** How many times larger or smaller than the one before, 1 or more; null for the first. */
  readonly step: number | null;
  readonly isBeyond: boolean;
  /** The step to it is larger than the others let expect. */
  readonly isStepBeyond: boolean;
}

/** A level of the chart with its words. */
export interface ChartLevel {
  readonly ratio: number;
  readonly label: string;
}

/** The model. */
export interface IndividualsPicture extends Picture {
  readonly title: string;
  readonly points: readonly IndividualPoint[];
  readonly middle: ChartLevel;
  readonly lower: ChartLevel;
  readonly upper: ChartLevel;
  /** Limits within which the weighted course wanders where nothing changes. */
  readonly courseFrom: number;
  readonly courseTo: number;
  /** Steps above it are unlike the others. */
  readonly stepLimit: number;
  readonly verdict: string;
}

/** Fewer landings than this give no limits worth drawing. */
const FEWEST = 5;

/** The chart of the landings that count; undetermined where they are too few. */
export function individualsPicture(
  entries: readonly FactorEntry[],
  timeZone?: string,
): IndividualsPicture | Undetermined {
  const flown = entries
    .filter(({ comparison }) => comparison.role === 'counts')
    .toSorted((a, b) => a.timeS - b.timeS)
    .flatMap((entry) => {
      const log = logOf(entry.comparison);
      return log === null ? [] : [{ ...entry, log }];
    });
  if (flown.length < FEWEST) {
    return undetermined(`${flown.length} that count; a course needs ${FEWEST} or more`);
  }
  const logs = flown.map(({ log }) => log);
  const limits = individualsChart(logs);
  const course = weightedCourse(logs, {
    start: limits.middle,
    sd: (limits.upper - limits.middle) / 3,
  });
  const points = flown.flatMap(({ comparison, timeS, logId, flightIndex, key, log }, i) => {
    const figure = ratioFigure(comparison.ratio);
    if (!hasFigure(figure)) return [];
    return [
      {
        ...{ logId, flightIndex, key },
        day: dayText(timeS, timeZone),
        year: yearOf(timeS, timeZone),
        ratio: Math.exp(log),
        figure,
        course: Math.exp(course.values[i]),
        step: i === 0 ? null : Math.exp(Math.abs(log - logs[i - 1])),
        isBeyond: log > limits.upper || log < limits.lower,
        isStepBeyond: i > 0 && Math.abs(log - logs[i - 1]) > limits.rangeLimit,
      },
    ];
  });
  const title = RATIO_TITLES[flown[0].comparison.quantity];
  const last = course.values[course.values.length - 1];
  const verdict = verdictOf(points, {
    drift: driftOf(flown.map(({ log, comparison: { dayKey } }) => ({ log, dayKey }))),
    hasCourseLeft: last > course.upper || last < course.lower,
  });
  const level = (log: number, words: string): ChartLevel => {
    const ratio = Math.exp(log);
    const figure = ratioFigure(ratio);
    return { ratio, label: hasFigure(figure) ? `${words} ${figure.value}` : words };
  };
  const model = {
    title,
    points,
    middle: level(limits.middle, 'middle'),
    lower: level(limits.lower, 'lower limit'),
    upper: level(limits.upper, 'upper limit'),
    courseFrom: Math.exp(course.lower),
    courseTo: Math.exp(course.upper),
    stepLimit: Math.exp(limits.rangeLimit),
    verdict,
  };
  return {
    ...model,
    spoken: `${title} in the order flown, ${points.length} landings: ${verdict}; ${model.middle.label}, ${model.lower.label}, ${model.upper.label}.`,
    rows: [
      { label: 'found', value: verdict },
      ...[model.middle, model.lower, model.upper].map(({ label }) => ({
        label: 'level',
        value: label,
      })),
      ...points.map(({ day, year, figure, isBeyond, isStepBeyond }) => ({
        label: `${day} ${year}`,
        value: [
          figure.value,
          ...(isBeyond ? ['beyond the limits'] : []),
          ...(isStepBeyond ? ['a large step from the last'] : []),
        ].join(', '),
      })),
    ],
  };
}

function logOf({ log }: Comparison): number | null {
  return isUndetermined(log) ? null : log.value;
}

/** A chance below this is called a drift: one steady pilot in twenty is called so too (common practice). */
const DRIFT_CHANCE = 0.05;

interface Found {
  readonly drift: DriftTest | null;
  readonly hasCourseLeft: boolean;
}

function verdictOf(points: readonly IndividualPoint[], { drift, hasCourseLeft }: Found): string {
  const beyond = points.filter(({ isBeyond }) => isBeyond).length;
  const steps = points.filter(({ isStepBeyond }) => isStepBeyond).length;
  return [
    driftWords(drift),
    ...(hasCourseLeft ? ['the weighted course has left its limits'] : []),
    ...(beyond === 0 ? [] : [`${beyond} beyond the limits`]),
    ...(steps === 0 ? [] : [`${steps} ${steps === 1 ? 'step' : 'steps'} larger than the others`]),
  ].join('; ');
}

function driftWords(drift: DriftTest | null): string {
  if (drift === null) return `a drift cannot be told on fewer than ${FEWEST_FOR_DRIFT} days`;
  const { chance, slopePerStep } = drift;
  if (chance >= DRIFT_CHANCE) return 'no drift found';
  const percent = numberText(100 * Math.abs(Math.expm1(slopePerStep)), 1);
  const often = Math.max(1, Math.ceil(100 * chance));
  return `a drift: ${slopePerStep > 0 ? 'longer' : 'shorter'} by ${percent} % from day to day, which chance alone brings ${often} times in 100 or less`;
}

/** One value a day, because landings of one day are not independent. */
function driftOf(
  flown: readonly { readonly log: number; readonly dayKey: string }[],
): DriftTest | null {
  const byDay = new Map<string, number[]>();
  for (const { dayKey, log } of flown) byDay.set(dayKey, [...(byDay.get(dayKey) ?? []), log]);
  const days = [...byDay.values()].map(
    (logs) => logs.reduce((sum, log) => sum + log, 0) / logs.length,
  );
  return days.length < FEWEST_FOR_DRIFT ? null : driftTest(days);
}
