/**
 * Can the dates of this track be right?
 *
 * GPS counts weeks modulo 1,024 and receivers whose software is too old show a day 1,024 weeks
 * (7,168 days) early or late. Inputs: the track, dates that the file states elsewhere, the file's
 * name. Output: a warning that says what the date would be; the times are never changed.
 * Source: ICD-GPS-200, 10-bit week number; roll-overs on 22 August 1999 and 7 April 2019, next in
 * November 2038 (from memory).
 */

import type { Problem } from '../result.ts';
import { problem } from '../result.ts';
import { daysSince1970, isoDate } from './decode-time.ts';
import type { Track } from './track.ts';

const DAY_S = 86400;
const ROLLOVER_DAYS = 1024 * 7;
/** A file may be saved or a day counted some days after the flight. */
const SLACK_DAYS = 3;
/**
 * Logs of before 2007 are rarer now than receivers that are 1,024 weeks behind: 1,024 weeks after
 * the end of 2006 is August 2026. Move it on as time passes.
 */
const EARLIEST_LIKELY_S = daysSince1970(2007, 1, 1) * DAY_S;
/** And nobody has flown yet after 2035. */
const LATEST_LIKELY_S = daysSince1970(2036, 1, 1) * DAY_S;

/**
 * Warns of a date that is, or may be, wrong by 1,024 weeks.
 *
 * Units: `statedTimesS` are UTC seconds of other dates in the file (when it was written), NaN
 * allowed. The file's name counts where it carries a date as `2026-06-07` or `20260607`.
 * Fails: never; an empty track gives nothing.
 */
export function checkDate(
  track: Track,
  statedTimesS: readonly number[],
  fileName: string,
): Problem[] {
  const firstS = track.timeS.find((timeS) => !Number.isNaN(timeS));
  if (firstS === undefined) return [];
  const where = `line ${track.line[0]}`;
  for (const statedS of [...statedTimesS, dateInName(fileName)]) {
    const days = (statedS - firstS) / DAY_S;
    if (Math.abs(Math.abs(days) - ROLLOVER_DAYS) <= SLACK_DAYS) {
      return [
        warning(
          where,
          `The fixes are dated ${isoDate(firstS)}, but the file is dated ${isoDate(statedS)}: 1,024 weeks apart, as when a receiver's week counter rolls over. The day is probably ${shifted(firstS, Math.sign(days))}; nothing was changed.`,
        ),
      ];
    }
  }
  if (firstS >= EARLIEST_LIKELY_S && firstS < LATEST_LIKELY_S) return [];
  const direction = firstS < EARLIEST_LIKELY_S ? 1 : -1;
  return [
    warning(
      where,
      `The fixes are dated ${isoDate(firstS)}. If the receiver's week counter rolled over (1,024 weeks), the day was ${shifted(firstS, direction)}; nothing was changed.`,
    ),
  ];
}

function warning(where: string, message: string): Problem {
  return problem('date-1024-weeks', 'warning', where, message);
}

function shifted(timeS: number, direction: number): string {
  return isoDate(timeS + direction * ROLLOVER_DAYS * DAY_S);
}

function dateInName(fileName: string): number {
  const found = /(?:^|\D)((?:19|20)\d\d)[-_.]?(\d\d)[-_.]?(\d\d)(?:\D|$)/.exec(fileName);
  if (found === null) return NaN;
  return daysSince1970(Number(found[1]), Number(found[2]), Number(found[3])) * DAY_S;
}
