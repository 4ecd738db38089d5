/**
 * On which day is a time of day, when an IGC file states a date only now and then?
 *
 * Inputs: the dates of the H records and the times of day of the fixes, in file order. Output: UTC
 * seconds since 1970 of each fix. The specification gives no rule for crossing midnight UTC, so
 * here: when the time of day falls by more than twelve hours, a new day has begun; a smaller step
 * back is a clock being corrected and stays on its day. The stated date is that of the first valid
 * fix under it, so void fixes of an evening before it are on the day before; where no fix is valid
 * nobody can know better, and it is that of the first fix.
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
  private fixDay: number;
  private midnightsSinceDate = 0;
  private restated = false;
  private hasValid = false;

  /** `day` is days since 1970 of the first date record, also for fixes that stand before it. */
  constructor(day: number) {
    this.day = day;
    this.statedDay = day;
    this.fixDay = day;
  }

  /**
   * A date record: days since 1970. The same date again does not turn the calendar back over
   * midnight: then the result is false, else true.
   */
  date(day: number): boolean {
    this.restated = day === this.statedDay && !Number.isNaN(this.lastTimeOfDayS);
    if (this.restated) return false;
    this.day = day;
    this.statedDay = day;
    this.fixDay = day;
    this.midnightsSinceDate = 0;
    this.lastTimeOfDayS = NaN;
    this.hasValid = false;
    return true;
  }

  /** UTC seconds of the next fix, time of day in seconds. */
  fix(timeOfDayS: number): number {
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
    this.fixDay = stepBack ? this.day - 1 : this.day;
    return this.fixDay * DAY_S + timeOfDayS;
  }

  /**
   * Told that the last fix is valid. Seconds by which all fixes under this date must be taken back,
   * for their first valid one to stand on it (A2.5.4); 0 for every later one.
   */
  takeBackS(): number {
    if (this.hasValid) return 0;
    this.hasValid = true;
    const days = this.fixDay - this.statedDay;
    this.day -= days;
    this.fixDay -= days;
    return days * DAY_S;
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
