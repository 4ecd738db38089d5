/**
 * Debriefs the given tracks with the touchdowns that are known from outside their logs.
 *
 * In: parsed options, what the tracks are debriefed with. Out: what was read, as without them, but each
 * known touchdown lies where it was put, and the other logs of the aeroplane are measured by what those
 * teach. Entries that are about no landing, or that teach nothing, are warned of on stderr.
 */
import { baseName, debriefFile, type Debrief, type DebriefContext } from '../debrief/debrief.ts';
import { decodeTouchdowns, type KnownTouchdown } from '../debrief/decode-touchdowns.ts';
import type { LandingMarks } from '../debrief/hand-corrections.ts';
import { touchdownsPut } from '../debrief/lessons.ts';
import { SAME_LANDING_S } from '../debrief/landing-limits.ts';
import {
  lessonsFor,
  lessonsOfLog,
  type LoggedLesson,
  type TaughtLog,
} from '../debrief/who-teaches.ts';
import type { ReadFile, UnreadFile } from '../report/debrief-json.ts';
import { problemLines } from '../report/debrief-tables.ts';
import { countedFlights } from '../report/recorded-twice.ts';
import { isUndetermined, problem, undetermined, type Problem } from '../result.ts';
import type { OptionSpec, ParsedArgs } from './args.ts';
import { debriefFiles, debriefGuarded, type DebriefBytes } from './debrief-files.ts';
import { readAll } from './read-records.ts';

/** The option, and its help. */
export const TOUCHDOWNS_OPTION: OptionSpec = { touchdowns: { type: 'string' } };
export const TOUCHDOWNS_HELP = `  --touchdowns FILE  touchdowns known from outside the log, as from the first mark of a main wheel (JSON): they
                     lie there, and the other logs of the aeroplane are measured by what they teach`;

/** The files that were read and those that were not. */
interface Debriefed {
  readonly read: readonly ReadFile[];
  readonly unread: readonly UnreadFile[];
}

/** Debriefs all tracks given. Fails: throws a UsageError that names the touchdowns file and its problems. */
export async function debriefTracks(
  given: ParsedArgs,
  context: DebriefContext,
): Promise<Debriefed> {
  const file = given.texts('touchdowns').at(-1);
  if (file === undefined) {
    return debriefFiles(given.rest, (bytes, name) => debriefFile(bytes, name, context));
  }
  const [known] = await readAll([file], decodeTouchdowns);
  const bytesOf = new Map<string, Uint8Array<ArrayBuffer>>();
  const landings = known.map(asMarks);
  const first = await debriefFiles(given.rest, (bytes, name) => {
    bytesOf.set(name, bytes);
    return debriefFile(bytes, name, { ...context, landings });
  });
  warnOf(file, [
    ...known.flatMap((each) => unusedProblem(each, first.read)),
    ...first.read.flatMap(({ debrief }) => silentProblem(debrief, first.read.length > 1)),
  ]);
  return measureTaught(first, context, bytesOf);
}

/** Measures the logs again that others teach; the rest stays as it is. */
async function measureTaught(
  { read, unread }: Debriefed,
  context: DebriefContext,
  bytesOf: ReadonlyMap<string, Uint8Array<ArrayBuffer>>,
): Promise<Debriefed> {
  const counted = countedFlights(read.flatMap(({ debrief }) => debrief.flights));
  const lessons: LoggedLesson[] = counted.flatMap(({ flight }) =>
    lessonsOfLog(flight.source.sha256, [flight]),
  );
  const again: (ReadFile | UnreadFile)[] = [];
  for (const each of read) {
    const { file } = each.debrief.source;
    const bytes = bytesOf.get(file);
    const taught = lessonsFor(lessons, logOf(each.debrief));
    const measure: DebriefBytes = (given, name) =>
      debriefFile(given, name, { ...context, lessons: taught });
    const isTaught = bytes && taught.length > 0;
    again.push(isTaught ? await debriefGuarded(bytes, file, measure) : each);
  }
  return {
    read: again.flatMap((each) => ('debrief' in each ? [each] : [])),
    unread: [...unread, ...again.flatMap((each) => ('debrief' in each ? [] : [each]))],
  };
}

function logOf({ source, flights }: Debrief): TaughtLog {
  return {
    logId: source.sha256,
    aeroplane: flights.at(0)?.aeroplane ?? undetermined('nothing was flown'),
    teaches: touchdownsPut(flights) > 0,
  };
}

/** The time of the file only names the landing: the track says when the place was passed. */
function asMarks({ timeS, alongM }: KnownTouchdown): LandingMarks {
  return { aroundS: timeS, effort: null, touchdown: { alongM }, rollEnd: null };
}

/** A touchdown that no landing took, and why. */
function unusedProblem(
  { timeS, alongM, note }: KnownTouchdown,
  read: readonly ReadFile[],
): Problem[] {
  const near = read
    .flatMap(({ debrief }) => debrief.flights.flatMap(({ byHand }) => byHand))
    .filter(({ measuredTouchdown }) => {
      const awayS = Math.abs((measuredTouchdown?.timeS ?? NaN) - timeS);
      return awayS <= SAME_LANDING_S;
    });
  const isPut = near.some(({ marks }) => marks?.touchdown?.alongM === alongM);
  if (isPut) return [];
  const isOwn = near.some(({ marks }) => marks?.aroundS === timeS);
  const why =
    near.length === 0
      ? `not used: found no landing at a kept strip within ${SAME_LANDING_S} s of it in these logs`
      : isOwn
        ? `not used: that landing did not pass ${alongM} m from the threshold before its roll ended`
        : 'not used: another touchdown of the file is nearer to that landing';
  const named = note === null ? why : `${why} (${note})`;
  return [problem('touchdown-unused', 'warning', utcText(timeS), named)];
}

/** A log whose touchdowns were put by hand and teach less than they could. */
function silentProblem({ source, flights }: Debrief, hasOthers: boolean): Problem[] {
  const put = touchdownsPut(flights);
  const silent = put - flights.reduce((sum, { lessons }) => sum + lessons.length, 0);
  const why: string[] = [];
  if (silent > 0) {
    why.push(
      `${silent} of ${put} put there by hand teach nothing: the log all but rules the place out, so one of the two is wrong`,
    );
  }
  const aeroplane = flights.at(0)?.aeroplane;
  if (put > 0 && hasOthers && isUndetermined(aeroplane)) {
    why.push(`what was put there by hand teaches no other log: ${aeroplane.undetermined}`);
  }
  return why.map((message) =>
    problem('touchdown-teaches-nothing', 'warning', baseName(source.file), message),
  );
}

function utcText(timeS: number): string {
  return new Date(timeS * 1000).toISOString().replace('.000Z', 'Z');
}

function warnOf(file: string, problems: readonly Problem[]): void {
  if (problems.length === 0) return;
  process.stderr.write(`${[file, ...problemLines(problems)].join('\n')}\n`);
}
