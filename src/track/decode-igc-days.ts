/**
 * On which day is a time of day, when an IGC file states a date only now and then?
 *
 * Inputs: the dates of the H records and the times of day of the fixes, in file order. Output: UTC
 * seconds since 1970 of each fix. The specification gives no rule for crossing midnight UTC, so
 * here: when the time of day falls by more than twelve hours, a new day has begun; a smaller step
 * back is a clock being corrected and stays on its day.
 * Source: FAI Technical Specification for IGC-approved GNSS Flight Recorders, 2nd edition with
 * Amendment 8 (2023), A2.5.4 (the date is that of the first valid fix); the twelve hours are ours.
 */

const DAY_S = 86400;
/** A continuous log falls by almost 24 h at midnight; half a day leaves room for a long gap. */
const MIDNIGHT_FALL_S = DAY_S / 2;
/** A date written again after midnight belongs to the flight that began before it, within this gap. */
const SAME_FLIGHT_GAP_S = 3 * 3600;
/** Just after midnight a step back across it is a corrected clock, not a day lost. */
const AROUND_MIDNIGHT_S = 3600;

/** The calendar of one file: told of dates and times in file order. */
export class IgcCalendar {
  private day: number;
  private statedDay: number;
  private lastTimeOfDayS = NaN;
  private midnightsSinceDate = 0;
  private restated = false;

  /** `day` is days since 1970 of the first date record, also for fixes that stand before it. */
  constructor(day: number) {
    this.day = day;
    this.statedDay = day;
  }

  /** A date record: days since 1970. The same date again does not turn the calendar back over midnight. */
  date(day: number): void {
    this.restated = day === this.statedDay && !Number.isNaN(this.lastTimeOfDayS);
    if (this.restated) return;
    this.day = day;
    this.statedDay = day;
    this.midnightsSinceDate = 0;
    this.lastTimeOfDayS = NaN;
  }

  /**
   * UTC seconds of the next fix, time of day in seconds. `crossed` tells that midnight passed just
   * before it.
   */
  fix(timeOfDayS: number): { timeS: number; crossed: boolean } {
    const fall = this.lastTimeOfDayS - timeOfDayS;
    const gapOverMidnight = DAY_S - fall;
    const crossed =
      fall > MIDNIGHT_FALL_S && !(this.restated && gapOverMidnight > SAME_FLIGHT_GAP_S);
    if (crossed) {
      this.day += 1;
      this.midnightsSinceDate += 1;
    }
    this.restated = false;
    const stepBack =
      this.midnightsSinceDate > 0 &&
      this.lastTimeOfDayS < AROUND_MIDNIGHT_S &&
      timeOfDayS > DAY_S - AROUND_MIDNIGHT_S;
    if (!stepBack) this.lastTimeOfDayS = timeOfDayS;
    return { timeS: (stepBack ? this.day - 1 : this.day) * DAY_S + timeOfDayS, crossed };
  }

  /** Takes back a midnight: the fixes before it were on the day before, not this one on the day after. */
  takeBackMidnight(): void {
    this.day -= 1;
    this.midnightsSinceDate -= 1;
  }

  /** UTC seconds of an event that stands near the last fix, without turning the calendar. */
  near(timeOfDayS: number): number {
    const timeS = this.day * DAY_S + timeOfDayS;
    if (Number.isNaN(this.lastTimeOfDayS)) return timeS;
    const fall = this.lastTimeOfDayS - timeOfDayS;
    if (fall > MIDNIGHT_FALL_S) return timeS + DAY_S;
    return fall < -MIDNIGHT_FALL_S && this.midnightsSinceDate > 0 ? timeS - DAY_S : timeS;
  }
}
