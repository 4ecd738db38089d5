/**
 * Is an entered field of the right kind and within its range, and if not, what is said about it?
 *
 * The building blocks of the readers of JSON documents: each gives a valibot schema whose message
 * says what was found and what was expected. Ranges and units are the caller's.
 */

import * as v from 'valibot';
import { failure, problem, type Problem, type Result } from '../result.ts';
import { parseJson } from './json-text.ts';

const LONGEST_QUOTE = 60;

/** A number from `low` to `high`; the unit only serves the message. NaN and infinity are refused. */
export function numberBetween(low: number, high: number, unit: string) {
  const message = expecting(`a number from ${low} to ${high} ${unit}`);
  return v.pipe(v.number(message), v.minValue(low, message), v.maxValue(high, message));
}

/** One of a few words. */
export function oneOf<const T extends readonly string[]>(words: T) {
  return v.picklist(words, expecting(`one of ${words.join(', ')}`));
}

/** A text of 1 to `longest` characters. */
export function shortText(longest: number) {
  const message = expecting(`a text of 1 to ${longest} characters`);
  return v.pipe(v.string(message), v.minLength(1, message), v.maxLength(longest, message));
}

/** Absent and null both mean: not entered. */
export function orNull<S extends v.GenericSchema>(schema: S) {
  return v.optional(v.nullable(schema), null);
}

/** Says what was found and what was expected; a missing field is called missing. */
export function expecting(expected: string): (issue: v.BaseIssue<unknown>) => string {
  return (issue) => {
    // A missing field is reported by the object around it, whose own text would mislead.
    const isMissing = issue.kind === 'schema' && issue.input === undefined;
    if (isMissing) return 'this field is missing';
    return `found ${quote(issue.received)}, expected ${expected}`;
  };
}

/**
 * Parses JSON text and checks it against a schema.
 *
 * Fails: one problem `<kind>-not-json`, or `<kind>-field` for each wrong field, where = its path.
 */
export function decodeDocument<S extends v.GenericSchema>(
  text: string,
  kind: string,
  schema: S,
): Result<{ readonly json: unknown; readonly value: v.InferOutput<S> }> {
  let json: unknown;
  try {
    json = parseJson(text);
  } catch (cause) {
    const found = cause instanceof Error ? quote(cause.message) : 'unreadable text';
    const message = `not a JSON document (${found}), expected JSON of the kind "${kind}"`;
    return failure([problem(`${kind}-not-json`, 'error', 'document', message)]);
  }
  const parsed = v.safeParse(schema, json);
  if (parsed.success) return { ok: true, value: { json, value: parsed.output }, problems: [] };
  return failure(
    parsed.issues.map((issue) =>
      problem(`${kind}-field`, 'error', v.getDotPath(issue) ?? 'document', issue.message),
    ),
  );
}

/** A warning for each field of a record that the reader does not know, so that a slip is noticed. */
export function unknownFields(
  kind: string,
  record: unknown,
  known: readonly string[],
  path: string,
): Problem[] {
  if (typeof record !== 'object' || record === null) return [];
  return Object.keys(record)
    .filter((field) => !known.includes(field))
    .map((field) =>
      problem(
        `${kind}-unknown-field`,
        'warning',
        path + field,
        `this field is not used; fields known here: ${known.join(', ')}`,
      ),
    );
}

function quote(found: string): string {
  return found.length <= LONGEST_QUOTE ? found : `${found.slice(0, LONGEST_QUOTE)}...`;
}
