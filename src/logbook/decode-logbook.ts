/**
 * Is this a usable record, and if not, which field is wrong and what was expected?
 *
 * In: data of unknown shape, from a form, a file or the disk. Out: the record, or one problem for
 * each wrong field that names the record, the field, what was found and what was expected. What is
 * accepted comes back as it went in: no field is dropped and none is made up, except that conditions
 * not entered are null.
 */

import * as v from 'valibot';
import { failure, problem, success, type Problem, type Result } from '../result.ts';
import {
  ENTRY_KINDS,
  nameOf,
  SETTINGS_ID,
  type Entry,
  type EntryKind,
  type Listed,
} from './entry.ts';
import { ENTRY_SCHEMAS, LOG_SUMMARY_SCHEMA } from './entry-schemas.ts';

/** More problems of one record than anybody reads. */
const MOST_PROBLEMS = 20;

/**
 * Checks one record.
 *
 * Fails: `logbook-kind` where it is no record of a known kind, `logbook-field` for each field that
 * does not fit; `where` is `visit "abc": landings.0.aroundS`.
 */
export function decodeEntry(raw: unknown): Result<Entry> {
  return decode(raw, ENTRY_SCHEMAS) as Result<Entry>;
}

/** Checks one record as it is listed, a log without its bytes. Fails as `decodeEntry` does. */
export function decodeListed(raw: unknown): Result<Listed> {
  return decode(raw, { ...ENTRY_SCHEMAS, log: LOG_SUMMARY_SCHEMA }) as Result<Listed>;
}

function decode(raw: unknown, schemas: Record<EntryKind, v.GenericSchema>): Result<unknown> {
  const { kind, id } = (typeof raw === 'object' && raw !== null ? raw : {}) as Partial<Entry>;
  if (!ENTRY_KINDS.some((known) => known === kind) || kind === undefined) {
    const found =
      typeof kind === 'string' ? JSON.stringify((kind as string).slice(0, 40)) : typeof kind;
    const message = `found a record of the kind ${found}, expected ${ENTRY_KINDS.join(', ')}`;
    return failure([problem('logbook-kind', 'error', 'record', message)]);
  }
  const name = nameOf({ kind, id: typeof id === 'string' ? id : '?' });
  const parsed = v.safeParse(schemas[kind], raw, { abortPipeEarly: true });
  if (!parsed.success) {
    return failure(
      parsed.issues
        .slice(0, MOST_PROBLEMS)
        .map((issue) => wrongField(name, v.getDotPath(issue) ?? '', issue.message)),
    );
  }
  const unfit = checkTogether(parsed.output as Entry).map(([field, message]) =>
    wrongField(name, field, message),
  );
  return unfit.length === 0 ? success(parsed.output) : failure(unfit);
}

function wrongField(name: string, field: string, message: string): Problem {
  return problem('logbook-field', 'error', field === '' ? name : `${name}: ${field}`, message);
}

/** Rules that join several fields: [field, message] of each that is broken. */
function checkTogether(entry: Entry): [string, string][] {
  switch (entry.kind) {
    case 'log':
      return same('id', entry.id, entry.sha256, "the log's own SHA-256");
    case 'result':
      return same('logId', entry.logId, entry.id, "the result's own id");
    case 'settings':
      return same('id', entry.id, SETTINGS_ID, 'the only settings');
    case 'aeroplane':
    case 'factor-set':
      return same('id', entry.id, entry.document.id, "the document's own id");
    case 'strip':
      return [
        ...entry.versions.flatMap(({ feature }) => ownStripId(entry.id, feature)),
        ...risingVersions(entry.versions.map(({ fromS }) => fromS)),
      ];
    case 'visit':
      return [...twice('remarks', entry.remarks), ...twice('removedRemarks', entry.removedRemarks)];
  }
}

function same(field: string, found: string, expected: unknown, what: string): [string, string][] {
  if (found === expected) return [];
  return [[field, `found ${JSON.stringify(found)}, expected ${what}, ${show(expected)}`]];
}

function show(value: unknown): string {
  return typeof value === 'string' ? JSON.stringify(value.slice(0, 200)) : 'which is no text';
}

/** A strip is known by its own id everywhere; other features have none of their own. */
function ownStripId(id: string, feature: Readonly<Record<string, unknown>>): [string, string][] {
  const properties = (feature.properties ?? {}) as { kind?: unknown; id?: unknown };
  if (properties.kind !== 'strip') return [];
  const own = typeof properties.id === 'string' ? properties.id.trim() : properties.id;
  return same('id', id, own, "the id of the strip's feature");
}

function risingVersions(from: readonly (number | null)[]): [string, string][] {
  return from.flatMap((fromS, i): [string, string][] => {
    if (i === 0) return [];
    const before = from[i - 1] ?? Number.NEGATIVE_INFINITY;
    if (fromS !== null && fromS > before) return [];
    const message = `found ${fromS} after ${from[i - 1]}, expected versions that rise in time`;
    return [[`versions.${i}.fromS`, message]];
  });
}

function twice(list: string, items: readonly { readonly id: string }[]): [string, string][] {
  const ids = items.map(({ id }) => id);
  return ids.flatMap((id, i): [string, string][] =>
    ids.indexOf(id) === i
      ? []
      : [[`${list}.${i}.id`, `found ${show(id)} again, expected ids that differ`]],
  );
}
