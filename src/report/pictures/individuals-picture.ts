/**
 * In the order flown: does the ratio drift, and is a landing unlike the others?
 *
 * In: compared landings of one aeroplane and one distance. Out: an individuals chart: points in the
 * order flown, their smoothed course, limits from the moving range, steps from each to the next.
 * Worked on logarithms, as the calibration is. Sources, from memory: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 6.3.2.2 (individuals and moving range: middle 3/1.128 mean ranges wide to
 * either side, ranges below 3.267 of their mean) and 6.3.2 (eight in a row on one side of the
 * middle are a shift).
 */
import type { Comparison } from '../../calibration/comparison.ts';
import { isUndetermined, undetermined, type Undetermined } from '../../result.ts';
import { hasFigure, ratioFigure, type FigureText } from '../figure-text.ts';
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
  /** The course at this landing, smoothed over its neighbours. */
  readonly smoothed: number;
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
  /** Steps above it are unlike the others. */
  readonly stepLimit: number;
  readonly verdict: string;
}

/** Fewer landings than this give no limits worth drawing. */
const FEWEST = 5;
/** So many in a row on one side of the middle are a shift. */
const RUN = 8;
/** Landings over which the course is smoothed: the width of a Gaussian, in landings. */
const SMOOTHED_OVER = 2;

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
  const limits = individualsLimits(logs);
  const smoothed = smoothedCourse(logs);
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
        smoothed: Math.exp(smoothed[i]),
        step: i === 0 ? null : Math.exp(Math.abs(log - logs[i - 1])),
        isBeyond: log > limits.upper || log < limits.lower,
        isStepBeyond: i > 0 && Math.abs(log - logs[i - 1]) > limits.range,
      },
    ];
  });
  const title = RATIO_TITLES[flown[0].comparison.quantity];
  const verdict = verdictOf(logs, limits, points);
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
    stepLimit: Math.exp(limits.range),
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

/** Limits of single values from their moving range, in the values' unit. */
export interface IndividualsLimits {
  readonly middle: number;
  readonly lower: number;
  readonly upper: number;
  /** Upper limit of the moving range. */
  readonly range: number;
}

/** Three standard deviations to either side, the deviation taken from steps between neighbours. */
export function individualsLimits(values: readonly number[]): IndividualsLimits {
  if (values.length < 2) throw new Error('limits need two values or more');
  const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
  let steps = 0;
  for (let i = 1; i < values.length; i++) steps += Math.abs(values[i] - values[i - 1]);
  const meanRange = steps / (values.length - 1);
  const reach = (3 / 1.128) * meanRange;
  return { middle, lower: middle - reach, upper: middle + reach, range: 3.267 * meanRange };
}

/** Each value weighed with its neighbours, nearer ones more. */
function smoothedCourse(values: readonly number[]): number[] {
  return values.map((_, i) => {
    let sum = 0;
    let weights = 0;
    values.forEach((value, j) => {
      const weight = Math.exp(-0.5 * ((i - j) / SMOOTHED_OVER) ** 2);
      sum += weight * value;
      weights += weight;
    });
    return sum / weights;
  });
}

function verdictOf(
  logs: readonly number[],
  { middle }: IndividualsLimits,
  points: readonly IndividualPoint[],
): string {
  const beyond = points.filter(({ isBeyond }) => isBeyond).length;
  const run = longestRun(logs.map((log) => log > middle));
  const drift =
    run.length >= RUN
      ? `${run.length} in a row ${run.isAbove ? 'above' : 'below'} the middle: a drift`
      : 'no drift found';
  const steps = points.filter(({ isStepBeyond }) => isStepBeyond).length;
  return [
    drift,
    ...(beyond === 0 ? [] : [`${beyond} beyond the limits`]),
    ...(steps === 0 ? [] : [`${steps} ${steps === 1 ? 'step' : 'steps'} larger than the others`]),
  ].join('; ');
}

function longestRun(above: readonly boolean[]): { length: number; isAbove: boolean } {
  let best = { length: 0, isAbove: false };
  let length = 0;
  above.forEach((isAbove, i) => {
    length = i > 0 && above[i - 1] === isAbove ? length + 1 : 1;
    if (length > best.length) best = { length, isAbove };
  });
  return best;
}
