/**
 * Everything that all given flights together say about the pilot, and as text for people.
 *
 * In: debriefed flights of one pilot, the day to count back from, the pilot's zone, the winds that the
 * flights were planned with. Out: the report, and
 * its lines.
 */
import { currencyOn, stripDaysIn, type Currency, type StripDays } from '../calibration/currency.ts';
import type { Flight } from '../debrief/debrief.ts';
import type { FlownForecast } from '../debrief/forecast-pairs.ts';
import { directionTouchdowns, flownDays, type DirectionTouchdowns } from '../debrief/flown-days.ts';
import { ownFactors, type AeroplaneFactors } from '../debrief/own-factors.ts';
import { ratioCourses, type RatioCourse } from '../debrief/ratio-courses.ts';
import { shortLengths, type ShortLength } from '../debrief/short-lengths.ts';
import { whyRolls, type AeroplaneSplit } from '../debrief/why-roll.ts';
import { currencyLines, dispersionLines, lengthLines, splitLines } from './calibration-lengths.ts';
import { forecastLines } from './calibration-forecast.ts';
import { courseLines } from './calibration-tables.ts';
import { factorLines } from './factor-tables.ts';
import { isoDay } from './local-time.ts';

/** The report of `calibrate`. */
export interface CalibrationReport {
  /** ISO day from which days are counted back, and the zone whose midnight parts them. */
  readonly today: string;
  readonly timeZone: string;
  readonly ownFactors: readonly AeroplaneFactors[];
  readonly courses: readonly RatioCourse[];
  readonly rollSplits: readonly AeroplaneSplit[];
  readonly lengths: readonly ShortLength[];
  /** Headwinds that flights were planned with, and met. */
  readonly forecasts: readonly FlownForecast[];
  readonly touchdowns: readonly DirectionTouchdowns[];
  readonly currency: Currency;
  readonly stripDays: readonly StripDays[];
}

/** The report. Never fails: what there is too little of says so. */
export function calibrationReport(
  flights: readonly Flight[],
  { today, timeZone, forecasts }: Pick<CalibrationReport, 'today' | 'timeZone' | 'forecasts'>,
): CalibrationReport {
  const { landings, uses } = flownDays(flights, (timeS) => isoDay(timeS, timeZone));
  return {
    ...{ today, timeZone, forecasts },
    ownFactors: ownFactors(flights),
    courses: ratioCourses(flights),
    rollSplits: whyRolls(flights),
    lengths: shortLengths(flights),
    touchdowns: directionTouchdowns(flights),
    currency: currencyOn(today, landings),
    stripDays: stripDaysIn(today.slice(0, 4), uses),
  };
}

/** The report as lines for people. */
export function calibrationReportLines(report: CalibrationReport): string[] {
  const compared = [
    ...factorLines(report.ownFactors),
    ...splitLines(report.rollSplits),
    ...courseLines(report.courses),
    ...lengthLines(report.lengths),
    ...forecastLines(report.forecasts),
  ];
  const none = [
    'Nothing could be compared: strips, an aeroplane and conditions are needed, and landings at those strips.',
    '',
  ];
  return [
    ...(compared.length > 0 ? compared : none),
    ...dispersionLines(report.touchdowns),
    ...currencyLines(report),
  ];
}
