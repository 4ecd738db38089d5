/**
 * The flights of the files that were read, each landing once, however many logs recorded it.
 *
 * In: the files as read. Out: the flights with the events that count; the files with a note for each
 * flight that another log recorded too.
 */
import type { Flight } from '../debrief/debrief.ts';
import type { ReadFile } from '../report/debrief-json.ts';
import { problemLines } from '../report/debrief-tables.ts';
import { countedFlights } from '../report/recorded-twice.ts';

/** What counts, and the files with what is said of it. */
interface CountedRead {
  readonly flights: readonly Flight[];
  readonly read: readonly ReadFile[];
}

/** See the file's head. Never fails. */
export function countRead(read: readonly ReadFile[]): CountedRead {
  const counted = countedFlights(read.flatMap(({ debrief }) => debrief.flights));
  let next = 0;
  return {
    flights: counted.map(({ flight }) => flight),
    read: read.map((each) => {
      const own = counted.slice(next, (next += each.debrief.flights.length));
      return {
        ...each,
        problems: [...each.problems, ...own.flatMap(({ notes }) => notes)],
        counting: own.map(({ counting }) => counting),
      };
    }),
  };
}

/** The same for a command that prints no debrief: its notes go to stderr, under the names of the files. */
export function countReadAloud(read: readonly ReadFile[]): readonly Flight[] {
  const counted = countRead(read);
  for (const [k, { debrief, problems }] of counted.read.entries()) {
    const notes = problems.slice(read[k].problems.length);
    if (notes.length === 0) continue;
    process.stderr.write(`${[debrief.source.file, ...problemLines(notes)].join('\n')}\n`);
  }
  return counted.flights;
}
