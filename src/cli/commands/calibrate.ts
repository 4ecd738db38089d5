/** `calibrate`: what do all the given tracks together say about the pilot's own factors? */
import { forecastPairs } from '../../debrief/forecast-pairs.ts';
import { calibrationDocument } from '../../report/calibration-json.ts';
import { calibrationReport, calibrationReportLines } from '../../report/calibration-report.ts';
import { CAUTION_LINES } from '../../report/caution.ts';
import { problemLines } from '../../report/debrief-tables.ts';
import { isKnownZone, isoDay, UTC } from '../../report/local-time.ts';
import type { ConditionsBook } from '../../weather/conditions.ts';
import { readArgs, UsageError, type ParsedArgs } from '../args.ts';
import { countReadAloud } from '../count-flights.ts';
import { debriefTracks, TOUCHDOWNS_HELP, TOUCHDOWNS_OPTION } from '../known-touchdowns.ts';
import {
  FACTOR_SET_HELP,
  FACTOR_SET_OPTION,
  FORECAST_HELP,
  FORECAST_OPTION,
  readForecasts,
  readRecordsAndFactorSet,
  RECORD_OPTIONS,
  RECORD_OPTIONS_HELP,
} from '../read-records.ts';

/** Shown by `--help`. */
export const CALIBRATE_HELP = `calibrate [--strips FILE.geojson] [--aeroplane FILE.json] [--conditions FILE.json]
        [--touchdowns FILE.json] [--forecast FILE.json] [--factor-set SET] [--day YYYY-MM-DD]
        [--time-zone NAME] [--json] TRACK...

Compares every landing and take-off of all given logs with what was expected, and finds one pilot's own
factors: by aeroplane, by surface, and their course in the order flown; why the rolls differed; the length
that 95 of 100 short landings would need; how closely touchdowns lie; how current. All logs must be one pilot's.

${RECORD_OPTIONS_HELP}
${TOUCHDOWNS_HELP}
${FORECAST_HELP}
${FACTOR_SET_HELP}
  --day              counts days back from it; today where it is not given
  --time-zone NAME   whose midnight parts the days, as Europe/London; UTC where it is not given
  --json             one JSON document instead of tables

Exit code: 0 when every file was read, 2 when some could not be, 1 for wrong usage.`;

const OPTIONS = {
  ...RECORD_OPTIONS,
  ...TOUCHDOWNS_OPTION,
  ...FORECAST_OPTION,
  ...FACTOR_SET_OPTION,
  day: { type: 'string' },
  'time-zone': { type: 'string' },
  json: { type: 'boolean' },
} as const;

/** Nothing was said of what the flights were planned with. */
const NO_FORECASTS: ConditionsBook = { all: null, byFile: new Map() };

/** Runs the command; returns the exit code. Writes results to stdout, problems of unread files to stderr. */
export async function runCalibrate(args: readonly string[]): Promise<number> {
  const given = readArgs(args, OPTIONS);
  if (given.flag('help')) {
    process.stdout.write(`${CALIBRATE_HELP}\n`);
    return 0;
  }
  if (given.rest.length === 0) throw new UsageError('no track was given');
  const timeZone = readZone(given);
  const today = readDay(given, timeZone);
  const context = await readRecordsAndFactorSet(given);
  const planned = (await readForecasts(given)) ?? NO_FORECASTS;
  const { read, unread } = await debriefTracks(given, context);
  const flights = countReadAloud(read);
  const forecasts = forecastPairs(flights, planned);
  const report = calibrationReport(flights, { today, timeZone, forecasts });
  process.stdout.write(
    given.flag('json')
      ? `${JSON.stringify(calibrationDocument(report, unread), null, 2)}\n`
      : `${[...calibrationReportLines(report), ...CAUTION_LINES].join('\n')}\n`,
  );
  for (const { file, problems } of unread) {
    process.stderr.write(`${[file, ...problemLines(problems)].join('\n')}\n`);
  }
  return unread.length === 0 ? 0 : 2;
}

function readZone(given: ParsedArgs): string {
  const zone = given.texts('time-zone').at(-1) ?? UTC;
  if (isKnownZone(zone)) return zone;
  throw new UsageError(`--time-zone: found "${zone}", expected a name as Europe/London or UTC`);
}

function readDay(given: ParsedArgs, timeZone: string): string {
  const day = given.texts('day').at(-1) ?? isoDay(Date.now() / 1000, timeZone);
  const isDay = /^\d{4}-\d\d-\d\d$/.test(day) && !Number.isNaN(Date.parse(`${day}T00:00Z`));
  if (isDay) return day;
  throw new UsageError(`--day: found "${day}", expected YYYY-MM-DD`);
}
