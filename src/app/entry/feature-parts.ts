/**
 * How is a part of a kept document changed, and everything else left as it is?
 *
 * A default stays a default and unknown properties survive: only a value that differs is written, and
 * one that is taken out leaves no trace.
 */
import type { Feature, Json } from '../../logbook/entry.ts';

/** Properties of a feature or of a part of a document. */
export type JsonRecord = Readonly<Record<string, Json>>;

/** The value as an object; null where it is something else. */
export function recordIn(value: Json | undefined): JsonRecord | null {
  const isRecord = typeof value === 'object' && value !== null && !Array.isArray(value);
  return isRecord ? (value as JsonRecord) : null;
}

/** A feature's properties; none where it has none. */
export function propertiesOf(feature: Feature | null): JsonRecord {
  return recordIn(feature?.properties) ?? {};
}

/** A number, or null. */
export function numberIn(value: Json | undefined): number | null {
  return typeof value === 'number' ? value : null;
}

/** A text, or empty. */
export function textIn(value: Json | undefined): string {
  return typeof value === 'string' ? value : '';
}

/** The record with a value; null takes the property out. Unchanged where it says so already. */
export function withValue(record: JsonRecord, name: string, value: Json): JsonRecord {
  const before = record[name] ?? null;
  if (JSON.stringify(before) === JSON.stringify(value)) return record;
  if (value !== null) return { ...record, [name]: value };
  return Object.fromEntries(Object.entries(record).filter(([each]) => each !== name));
}

/** The list of a record's objects; empty where it has none. */
export function listIn(value: Json | undefined): readonly JsonRecord[] {
  if (!Array.isArray(value)) return [];
  return value.map((each: Json) => recordIn(each)).filter((each) => each !== null);
}

/** Several values at once, as `withValue`. */
export function withValues(record: JsonRecord, values: JsonRecord): JsonRecord {
  return Object.entries(values).reduce(
    (changed, [name, value]) => withValue(changed, name, value),
    record,
  );
}
