/** `debrief`: find, measure and compare every landing and take-off of the given tracks. */
import { ownFactors } from '../../debrief/own-factors.ts';
import { CAUTION_LINES, HOW_TO_READ } from '../../report/caution.ts';
import { debriefDocument, debriefJsonText } from '../../report/debrief-json.ts';
import { debriefLines, problemLines } from '../../report/debrief-tables.ts';
import { factorLines } from '../../report/factor-tables.ts';
import { readArgs, UsageError } from '../args.ts';
import { debriefTracks, TOUCHDOWNS_HELP, TOUCHDOWNS_OPTION } from '../known-touchdowns.ts';
import { countRead } from '../count-flights.ts';
import {
  FACTOR_SET_HELP,
  FACTOR_SET_OPTION,
  readRecordsAndFactorSet,
  RECORD_OPTIONS,
  RECORD_OPTIONS_HELP,
} from '../read-records.ts';

/** Shown by `--help`. */
export const DEBRIEF_HELP = `debrief [--strips FILE.geojson] [--aeroplane FILE.json] [--conditions FILE.json]
        [--touchdowns FILE.json] [--factor-set SET] [--json] TRACK...

Reads GPX and IGC logs, finds every take-off, approach, touchdown and ground roll at the known
strips, measures them with 90 % bands, and sets them beside the predicted distances.

${RECORD_OPTIONS_HELP}
${TOUCHDOWNS_HELP}
${FACTOR_SET_HELP}
  --json             one JSON document instead of tables

Exit code: 0 when every file was read, 2 when some could not be, 1 for wrong usage.`;

/** Runs the command; returns the exit code. Writes results to stdout, problems of unread files to stderr. */
export async function runDebrief(args: readonly string[]): Promise<number> {
  const given = readArgs(args, {
    ...RECORD_OPTIONS,
    ...TOUCHDOWNS_OPTION,
    ...FACTOR_SET_OPTION,
    json: { type: 'boolean' },
  });
  if (given.flag('help')) {
    process.stdout.write(`${DEBRIEF_HELP}\n`);
    return 0;
  }
  if (given.rest.length === 0) throw new UsageError('no track was given');
  const context = await readRecordsAndFactorSet(given);
  const debriefed = await debriefTracks(given, context);
  const { read, flights } = countRead(debriefed.read);
  const { unread } = debriefed;
  const factors = ownFactors(flights);
  if (given.flag('json')) {
    process.stdout.write(`${debriefJsonText(debriefDocument(read, unread, factors))}\n`);
  } else {
    const lines = [
      ...HOW_TO_READ,
      '',
      ...read.flatMap(({ debrief, problems }) => [...debriefLines(debrief, problems), '']),
      ...factorLines(factors),
      ...CAUTION_LINES,
    ];
    process.stdout.write(`${lines.join('\n')}\n`);
  }
  for (const { file, problems } of unread) {
    process.stderr.write(`${[file, ...problemLines(problems)].join('\n')}\n`);
  }
  return unread.length === 0 ? 0 : 2;
}
