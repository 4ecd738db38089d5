/** The report of `calibrate` as one document: docs/schema/calibrate.schema.json. */
import { forecastSpread } from '../calibration/forecast-spread.ts';
import type { AeroplaneFactors } from '../debrief/own-factors.ts';
import { undetermined } from '../result.ts';
import type { CalibrationReport } from './calibration-report.ts';
import { CAUTION } from './caution.ts';
import type { UnreadFile } from './debrief-json.ts';
import { factorWhy } from './factor-words.ts';

/** The document as plain data. */
export function calibrationDocument(
  report: CalibrationReport,
  unread: readonly UnreadFile[],
): object {
  const { ownFactors, courses, rollSplits, lengths, forecasts, touchdowns } = report;
  return {
    schema: 1,
    caution: CAUTION,
    ownFactors,
    groups: ownFactors.flatMap(groupsOf),
    courses,
    rollSplits: rollSplits.map(({ aeroplane, name, brakes, split }) => ({
      ...{ aeroplane, name, landings: split.landings },
      ...{ ratio: split.ratio, touchdownSpeed: split.touchdownSpeed },
      braking: brakes ? split.braking : undetermined('no brakes: cannot be told'),
    })),
    lengthsNeeded: lengths,
    forecast: { ...forecastSpread(forecasts), flights: forecasts },
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

/** The same figures in a row for each aeroplane, kind of surface and distance compared. */
function groupsOf({ aeroplane, factors }: AeroplaneFactors): object[] {
  return factors.flatMap((each): object[] => {
    const { quantity, surface, counts } = each;
    if (counts.counted + counts.upperBounds + counts.leftOut === 0) return [];
    const group = { quantity, aeroplane, surface, counts };
    if (each.kind === 'too-few') {
      const none = { factor: null, why: each.reason, typicalRatio: null, alone: null };
      return [{ ...group, restsOn: counts, ...none, isFloor: false }];
    }
    const { restsOn, factor, typicalRatio, alone, isFloor } = each;
    return [{ ...group, restsOn, factor, why: factorWhy(each), typicalRatio, alone, isFloor }];
  });
}
