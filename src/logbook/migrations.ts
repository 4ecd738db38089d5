/**
 * How does a record written by an older Windrow become one of today?
 *
 * A sequence of numbered steps, `logbook/1`, `logbook/2` and so on. Step n makes a record of version
 * n from one of version n - 1. The sequence is append-only: a step that was published is never
 * changed, moved or taken out, and a frozen sample of its outcome stands in tests/logbook/samples.
 *
 * To add one: append it here, freeze a sample, describe the change in the changelog.
 */

import { failure, problem, success, type Result } from '../result.ts';

/** A record of a version whose fields nobody knows any more but its migration. */
export type RawRecord = Readonly<Record<string, unknown>>;

/** One step; `change` gets a copy of the record and gives the record as the next version has it. */
export interface Migration {
  readonly id: string;
  readonly change: (record: RawRecord) => RawRecord;
}

/** Steps in order; `version` is the number of the last. */
export interface MigrationSequence {
  readonly name: string;
  readonly version: number;
  readonly steps: readonly Migration[];
}

/**
 * Makes a sequence.
 *
 * Fails: throws unless the ids are `name/1`, `name/2` and so on without a gap; a slip here would
 * spoil everybody's records.
 */
export function migrationSequence(name: string, steps: readonly Migration[]): MigrationSequence {
  if (steps.length === 0) throw new Error(`the sequence ${name} needs a first step ${name}/1`);
  for (const [index, { id }] of steps.entries()) {
    const expected = `${name}/${index + 1}`;
    if (id !== expected) throw new Error(`found the migration ${id}, expected ${expected}`);
  }
  return { name, version: steps.length, steps };
}

/**
 * Version 2: a visit knows when its plain fields were entered, and what was taken out of it, so that two
 * people's copies can be merged. What was entered before counts from the record's own time.
 */
function withMergeTimes(record: RawRecord): RawRecord {
  if (record.kind !== 'visit') return record;
  const { plannedForS, aeroplaneId, conditions, landings, changedS } = record;
  const isEntered = [plannedForS, aeroplaneId, conditions].some(
    (field) => (field ?? null) !== null,
  );
  return {
    ...record,
    enteredS: isEntered ? changedS : null,
    removedRemarks: [],
    // Anything else than a list is refused by the check that follows, which names the field.
    landings: Array.isArray(landings)
      ? landings.map((landing: RawRecord) => ({ ...landing, unmarkedS: null }))
      : landings,
  };
}

/** The logbook's own sequence. The first step stands for the first form and is never run. */
export const LOGBOOK_SEQUENCE = migrationSequence('logbook', [
  { id: 'logbook/1', change: (record) => record },
  { id: 'logbook/2', change: withMergeTimes },
]);

/**
 * Brings a record of version `fromVersion` to the sequence's last version. The input is never changed.
 *
 * Fails: `logbook-too-new` where a newer Windrow wrote it, which is refused and not guessed;
 * `logbook-too-old` where the version is none that ever was; `logbook-migration` where a step threw.
 */
export function bringUpToDate(
  record: RawRecord,
  fromVersion: unknown,
  sequence: MigrationSequence = LOGBOOK_SEQUENCE,
): Result<RawRecord> {
  const known = checkVersion(fromVersion, sequence);
  if (!known.ok) return known;
  let current = record;
  for (const { id, change } of sequence.steps.slice(known.value)) {
    try {
      current = change(structuredClone(current));
    } catch (error) {
      const words = error instanceof Error ? error.message : String(error);
      const message = `the record could not be brought to ${id} (${words}), expected a record of the version before`;
      return failure([problem('logbook-migration', 'error', id, message)]);
    }
  }
  return success(current);
}

/** A version that this Windrow can read. Fails as `bringUpToDate` does. */
export function checkVersion(
  found: unknown,
  sequence: MigrationSequence = LOGBOOK_SEQUENCE,
): Result<number> {
  const expected = `expected a version from 1 to ${sequence.version}`;
  if (typeof found !== 'number' || !Number.isInteger(found) || found < 1) {
    const shown = typeof found === 'number' ? String(found) : typeof found;
    const message = `found the version ${shown}, ${expected}`;
    return failure([problem('logbook-too-old', 'error', 'version', message)]);
  }
  if (found > sequence.version) {
    const message = `found the version ${found}, ${expected}: it was written by a newer Windrow; open it with that one, or bring this one up to date`;
    return failure([problem('logbook-too-new', 'error', 'version', message)]);
  }
  return success(found);
}
