/**
 * A record from a file meets the one in the logbook: which of them stays?
 *
 * The newer one, and where both are of the same second the one whose text is greater, so that two
 * logbooks that take in each other end up the same. Where the two say different things the other is
 * listed whole; nothing goes without a word.
 */

import { listed, type Entry, type Listed } from './entry.ts';
import { canonicalText } from './plain-json.ts';

/** Two records with one id that say different things. The logs among them come without their bytes. */
export interface Conflict {
  readonly kept: Listed;
  readonly other: Listed;
  readonly keptFrom: 'logbook' | 'file';
}

/** What becomes of one incoming record. */
export interface Meeting {
  /** True where the incoming record is to be written. */
  readonly write: boolean;
  readonly outcome: 'added' | 'unchanged' | Conflict;
}

/** Decides what becomes of `incoming` where the logbook has `there`, or null, under its id. */
export function meet(there: Listed | null, incoming: Entry): Meeting {
  if (!there) return { write: true, outcome: 'added' };
  const other = listed(incoming);
  const write = isAfter(other, there);
  if (contentText(there) === contentText(other)) return { write, outcome: 'unchanged' };
  const outcome: Conflict = write
    ? { kept: other, other: there, keptFrom: 'file' }
    : { kept: there, other, keptFrom: 'logbook' };
  return { write, outcome };
}

function isAfter(one: Listed, than: Listed): boolean {
  if (one.changedS !== than.changedS) return one.changedS > than.changedS;
  return canonicalText(one) > canonicalText(than);
}

/** What a record says, without the times at which it was taken in. A log's digest stands for its bytes. */
function contentText(record: Listed): string {
  const content: Record<string, unknown> = { ...record };
  delete content.changedS;
  delete content.addedS;
  return canonicalText(content);
}
