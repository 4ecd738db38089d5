/** The report of `calibrate` as one document: docs/schema/calibrate.schema.json. */
import { undetermined } from '../result.ts';
import type { CalibrationReport } from './calibration-report.ts';
import { CAUTION } from './caution.ts';
import type { UnreadFile } from './debrief-json.ts';

/** The document as plain data. */
export function calibrationDocument(
  report: CalibrationReport,
  unread: readonly UnreadFile[],
): object {
  const { ownFactors, groups, courses, rollSplits, lengths, touchdowns } = report;
  return {
    schema: 1,
    caution: CAUTION,
    ownFactors,
    groups,
    courses,
    rollSplits: rollSplits.map(({ aeroplane, name, brakes, split }) => ({
      ...{ aeroplane, name, landings: split.landings },
      ...{ ratio: split.ratio, touchdownSpeed: split.touchdownSpeed },
      braking: brakes ? split.braking : undetermined('no brakes: cannot be told'),
    })),
    lengthsNeeded: lengths,
    touchdowns,
    currency: {
      today: report.today,
      timeZone: report.timeZone,
      ...report.currency,
      stripDaysThisYear: report.stripDays,
    },
    notRead: unread.map(({ file, problems }) => ({ file, problems })),
  };
}
