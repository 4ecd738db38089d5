/** `strips`: learn strips from the rolls of the given tracks. */
import { debriefFile, type DebriefContext } from '../../debrief/debrief.ts';
import { bookWithLearned, learnStrips } from '../../debrief/learn-strips.ts';
import { CAUTION_LINES } from '../../report/caution.ts';
import { problemLines } from '../../report/debrief-tables.ts';
import { learnedLines } from '../../report/learned-tables.ts';
import { decodeStrips } from '../../strips/decode-strips.ts';
import { encodeStrips } from '../../strips/encode-strips.ts';
import { EMPTY_STRIP_BOOK } from '../../strips/strip.ts';
import { readArgs, UsageError } from '../args.ts';
import { countReadAloud } from '../count-flights.ts';
import { debriefFiles } from '../debrief-files.ts';
import { readAll } from '../read-records.ts';

/** Shown by `--help`. */
export const STRIPS_HELP = `strips [--strips FILE.geojson] [--json] TRACK...

Learns where strips really lie from the rolls, runs and backtracks of all the tracks together: axis,
the part used, slope and profile, each with a 90 % band. Strips of the file are held against what
was drawn; places that are in no file are proposed as new strips.

  --strips FILE   strips as drawn (GeoJSON)
  --json          the strips file with refined and proposed strips instead of tables; what the rolls
                  say stands in each feature's property "learned", everything else is kept

Exit code: 0 when every file was read, 2 when some could not be, 1 for wrong usage.`;

/** Runs the command; returns the exit code. Writes results to stdout, problems of unread files to stderr. */
export async function runStrips(args: readonly string[]): Promise<number> {
  const given = readArgs(args, { strips: { type: 'string' }, json: { type: 'boolean' } });
  if (given.flag('help')) {
    process.stdout.write(`${STRIPS_HELP}\n`);
    return 0;
  }
  if (given.rest.length === 0) throw new UsageError('no track was given');
  const books = await readAll(given.texts('strips'), decodeStrips);
  const book = books.at(0) ?? EMPTY_STRIP_BOOK;
  const context: DebriefContext = { strips: book, aeroplanes: [], conditions: null };
  const { read, unread } = await debriefFiles(given.rest, (bytes, file) =>
    debriefFile(bytes, file, context),
  );
  const flights = countReadAloud(read);
  const places = learnStrips(flights, book);
  process.stdout.write(
    given.flag('json')
      ? encodeStrips(bookWithLearned(book, places))
      : `${[...learnedLines(places), ...CAUTION_LINES].join('\n')}\n`,
  );
  for (const { file, problems } of unread) {
    process.stderr.write(`${[file, ...problemLines(problems)].join('\n')}\n`);
  }
  return unread.length === 0 ? 0 : 2;
}
