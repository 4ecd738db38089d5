/** `calibrate`: what do all the given tracks together say about the pilot's own factors? */
import { debriefFile } from '../../debrief/debrief.ts';
import { groupedFactors, ratioCourses } from '../../debrief/grouped-factors.ts';
import { ownFactors } from '../../debrief/own-factors.ts';
import { courseLines, pooledLines } from '../../report/calibration-tables.ts';
import { CAUTION, CAUTION_LINES } from '../../report/caution.ts';
import { problemLines } from '../../report/debrief-tables.ts';
import { factorLines } from '../../report/factor-tables.ts';
import { readArgs, UsageError } from '../args.ts';
import { debriefFiles } from '../debrief-files.ts';
import { readRecords, RECORD_OPTIONS, RECORD_OPTIONS_HELP } from '../read-records.ts';

/** Shown by `--help`. */
export const CALIBRATE_HELP = `calibrate [--strips FILE.geojson] [--aeroplane FILE.json] [--conditions FILE.json] [--json] TRACK...

Compares every landing and take-off of all given logs with what was expected, and finds one pilot's own
factors: by aeroplane, by surface, and their course in the order flown. All logs must be one pilot's.

${RECORD_OPTIONS_HELP}
  --json             one JSON document instead of tables

Exit code: 0 when every file was read, 2 when some could not be, 1 for wrong usage.`;

/** Runs the command; returns the exit code. Writes results to stdout, problems of unread files to stderr. */
export async function runCalibrate(args: readonly string[]): Promise<number> {
  const given = readArgs(args, { ...RECORD_OPTIONS, json: { type: 'boolean' } });
  if (given.flag('help')) {
    process.stdout.write(`${CALIBRATE_HELP}\n`);
    return 0;
  }
  if (given.rest.length === 0) throw new UsageError('no track was given');
  const context = await readRecords(given);
  const { read, unread } = await debriefFiles(given.rest, (bytes, file) =>
    debriefFile(bytes, file, context),
  );
  const flights = read.flatMap(({ debrief }) => debrief.flights);
  const factors = ownFactors(flights);
  const groups = groupedFactors(flights);
  const courses = ratioCourses(flights);
  if (given.flag('json')) {
    const notRead = unread.map(({ file, problems }) => ({ file, problems }));
    const document = { schema: 1, caution: CAUTION, ownFactors: factors, groups, courses, notRead };
    process.stdout.write(`${JSON.stringify(document, null, 2)}\n`);
  } else {
    const found = [...factorLines(factors), ...pooledLines(groups), ...courseLines(courses)];
    const none = [
      'Nothing could be compared: strips, an aeroplane and conditions are needed, and landings at those strips.',
      '',
    ];
    process.stdout.write(
      `${[...(found.length > 0 ? found : none), ...CAUTION_LINES].join('\n')}\n`,
    );
  }
  for (const { file, problems } of unread) {
    process.stderr.write(`${[file, ...problemLines(problems)].join('\n')}\n`);
  }
  return unread.length === 0 ? 0 : 2;
}
