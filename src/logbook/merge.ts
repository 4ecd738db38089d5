/**
 * A record from a file meets the one in the logbook: what stands afterwards?
 *
 * Two copies of a visit are united (merge-visits.ts). Of any other record the newer stays, and where
 * both are of the same second the one whose text is greater, so that two logbooks that take in each
 * other end up the same. What is not taken is listed whole; nothing goes without a word.
 */

import { listed, type Entry, type Listed, type VisitRecord } from './entry.ts';
import { mergeVisits, notTaken } from './merge-visits.ts';
import { canonicalText } from './plain-json.ts';

/** A record of which something was not taken. The logs among them come without their bytes. */
export interface Conflict {
  /** What stands: the newer record, of a visit the two united. */
  readonly kept: Listed;
  /** The one of which something does not stand. */
  readonly other: Listed;
  readonly otherFrom: 'logbook' | 'file';
}

/** What becomes of one incoming record. */
export interface Meeting {
  /** What is to be written; null: the logbook has it already. */
  readonly write: Entry | null;
  /** `completed`: the logbook's record now says more, or other things, than it did. */
  readonly outcome: 'added' | 'unchanged' | 'completed';
  readonly conflicts: readonly Conflict[];
}

/** Decides what becomes of `incoming` where the logbook has `there`, or null, under its id. */
export function meet(there: Listed | null, incoming: Entry): Meeting {
  if (!there) return { write: incoming, outcome: 'added', conflicts: [] };
  const other = listed(incoming);
  const isSame = contentText(there) === contentText(other);
  if (!isSame && there.kind === 'visit' && incoming.kind === 'visit') {
    return meetVisits(there, incoming);
  }
  const write = isAfter(other, there) ? incoming : null;
  if (isSame) return { write, outcome: 'unchanged', conflicts: [] };
  const conflict: Conflict = write
    ? { kept: other, other: there, otherFrom: 'logbook' }
    : { kept: there, other, otherFrom: 'file' };
  return { write, outcome: write ? 'completed' : 'unchanged', conflicts: [conflict] };
}

function meetVisits(there: VisitRecord, incoming: VisitRecord): Meeting {
  const kept = mergeVisits(there, incoming);
  const sides = [
    { kept, other: there, otherFrom: 'logbook' },
    { kept, other: incoming, otherFrom: 'file' },
  ] as const;
  return {
    write: canonicalText(kept) === canonicalText(there) ? null : kept,
    outcome: contentText(kept) === contentText(there) ? 'unchanged' : 'completed',
    conflicts: sides.filter(({ other }) => notTaken(other, kept).length > 0),
  };
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
