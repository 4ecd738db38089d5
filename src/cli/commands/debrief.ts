/** `debrief`: find, measure and compare every landing and take-off of the given tracks. */
import { readFile } from 'node:fs/promises';
import { debriefFile, type DebriefContext } from '../../debrief/debrief.ts';
import { ownFactors } from '../../debrief/own-factors.ts';
import { decodeAeroplane } from '../../performance/decode-aeroplane.ts';
import { CAUTION_LINES, HOW_TO_READ } from '../../report/caution.ts';
import { debriefDocument, debriefJsonText } from '../../report/debrief-json.ts';
import { debriefLines, problemLines } from '../../report/debrief-tables.ts';
import { factorLines } from '../../report/factor-tables.ts';
import type { Problem, Result } from '../../result.ts';
import { decodeStrips } from '../../strips/decode-strips.ts';
import { EMPTY_STRIP_BOOK } from '../../strips/strip.ts';
import { decodeConditions } from '../../weather/decode-conditions.ts';
import { readArgs, UsageError } from '../args.ts';
import { debriefFiles, whyUnread } from '../debrief-files.ts';

/** Shown by `--help`. */
export const DEBRIEF_HELP = `debrief [--strips FILE.geojson] [--aeroplane FILE.json] [--conditions FILE.json] [--json] TRACK...

Reads GPX and IGC logs, finds every take-off, approach, touchdown and ground roll at the known
strips, measures them with 90 % bands, and sets them beside the predicted distances.

  --strips FILE      strips, obstacles and areas (GeoJSON)
  --aeroplane FILE   an aeroplane's handbook distances (JSON); may be given more than once
  --conditions FILE  wind, surface, temperature, mass, for all flights or by file name (JSON)
  --json             one JSON document instead of tables

Exit code: 0 when every file was read, 2 when some could not be, 1 for wrong usage.`;

/** Runs the command; returns the exit code. Writes results to stdout, problems of unread files to stderr. */
export async function runDebrief(args: readonly string[]): Promise<number> {
  const given = readArgs(args, {
    strips: { type: 'string' },
    aeroplane: { type: 'string', multiple: true },
    conditions: { type: 'string' },
    json: { type: 'boolean' },
  });
  if (given.flag('help')) {
    process.stdout.write(`${DEBRIEF_HELP}\n`);
    return 0;
  }
  if (given.rest.length === 0) throw new UsageError('no track was given');
  const strips = await readAll(given.texts('strips'), decodeStrips);
  const conditions = await readAll(given.texts('conditions'), decodeConditions);
  const context: DebriefContext = {
    strips: strips.at(0) ?? EMPTY_STRIP_BOOK,
    aeroplanes: await readAll(given.texts('aeroplane'), decodeAeroplane),
    conditions: conditions.at(0) ?? null,
  };
  const { read, unread } = await debriefFiles(given.rest, (bytes, file) =>
    debriefFile(bytes, file, context),
  );
  const flights = read.flatMap(({ debrief }) => debrief.flights);
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

/** Reads and decodes settings files; a wrong one is wrong usage, told with all its problems. */
export async function readAll<T>(
  files: readonly string[],
  decode: (text: string) => Result<T>,
): Promise<T[]> {
  const values: T[] = [];
  for (const file of files) {
    let text: string;
    try {
      text = (await readFile(file, 'utf8')).replace(/^\uFEFF/, '');
    } catch (error) {
      throw new UsageError(`${file}: ${whyUnread(error)}`);
    }
    const decoded = decode(text);
    if (!decoded.ok) throw new UsageError([file, ...problemLines(decoded.problems)].join('\n'));
    warn(file, decoded.problems);
    values.push(decoded.value);
  }
  return values;
}

function warn(file: string, problems: readonly Problem[]): void {
  if (problems.length === 0) return;
  process.stderr.write(`${[file, ...problemLines(problems)].join('\n')}\n`);
}
