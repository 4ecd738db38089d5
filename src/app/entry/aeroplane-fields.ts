/**
 * How does an aeroplane stand in a form, and which document do its fields make?
 *
 * In: the kept document (null: a new aeroplane) and the pilot's units, or the texts of the fields. Out:
 * the one or the other, or a message for each wrong field. A field's name is its path in the document,
 * rows of tables and corrections by a key of their own. The reader of aeroplane documents judges;
 * unknown properties survive, and what nobody touched goes back exactly as it was.
 */
import type { AeroplaneRecord, Json, ShownUnits } from '../../logbook/entry.ts';
import type { HandbookQuantity } from '../../performance/aeroplane.ts';
import { decodeAeroplane } from '../../performance/decode-aeroplane.ts';
import { numberIn, recordIn, textIn, withValue, type JsonRecord } from './feature-parts.ts';
import type { FieldMessages } from './field-messages.ts';
import { idFromName } from './id-from-name.ts';
import {
  lengthUnit,
  massUnit,
  readQuantity,
  sameUnit,
  showQuantity,
  speedUnit,
  temperatureUnit,
  type FieldUnit,
} from './shown-unit.ts';

/** An aeroplane document as it is kept. */
export type Document = AeroplaneRecord['document'];

/** One row of a list in the document: `origin` is its place in the kept one, null: new. */
export interface FieldRow {
  readonly key: string;
  readonly origin: number | null;
}

/** The texts of the form, by path; an empty one was not entered. */
export interface AeroplaneFields {
  readonly texts: Readonly<Record<string, string>>;
  readonly tables: readonly FieldRow[];
  readonly corrections: readonly FieldRow[];
  readonly lastKey: number;
}

/** A document, or what is wrong by field. */
export type EnteredAeroplane =
  | { readonly ok: true; readonly document: Document }
  | { readonly ok: false; readonly messages: FieldMessages };

const PLAIN = ['name', 'id', 'note', 'gear'] as const;
const FIGURES = [
  ...['massKg.min', 'massKg.maxTakeOff', 'massKg.maxLanding', 'speeds.atMassKg'],
  ...['speeds.stallLandingKt', 'speeds.stallTakeOffKt', 'speeds.approachKt'],
  ...['speeds.touchdownKt', 'speeds.liftOffKt'],
];
const TABLE_TEXTS = ['quantity', 'flap', 'surface'] as const;
/** The axes of a table, in the order in which its distances are nested. */
export const TABLE_AXES = ['pressureAltitudeFt', 'tempC', 'massKg'] as const;
const CORRECTION_TEXTS = ['phase', 'condition', 'of', 'text'] as const;
const CORRECTION_FIGURES = ['percent', 'per', 'upTo'] as const;

/** The unit of a field: masses, speeds, distances and temperatures as the pilot reads them. */
export function aeroplaneUnit(path: string, units: ShownUnits): FieldUnit {
  if (/massKg|atMassKg/i.test(path)) return massUnit(units);
  if (path.endsWith('Kt')) return speedUnit(units);
  if (path.includes('distanceM')) return lengthUnit(units);
  if (path.endsWith('tempC')) return temperatureUnit(units);
  if (path.endsWith('Ft')) return sameUnit('ft');
  return sameUnit(path.endsWith('percent') ? '%' : '');
}

/** The fields as a document fills them; those of a new aeroplane for null. */
export function fieldsFromAeroplane(document: Document | null, units: ShownUnits): AeroplaneFields {
  const texts: Record<string, string> = { name: '', gear: 'nose', brakes: 'yes' };
  const show = (path: string, value: Json | undefined): string =>
    showQuantity(numberIn(value), aeroplaneUnit(path, units));
  if (!document) return { texts, tables: [], corrections: [], lastKey: 0 };
  for (const path of PLAIN) texts[path] = textIn(document[path]);
  texts.brakes = document.brakes === false ? 'no' : 'yes';
  for (const path of FIGURES) texts[path] = show(path, valueAt(document, path));
  let lastKey = 0;
  const rows = (name: 'tables' | 'corrections'): FieldRow[] =>
    listAt(document, name).map((_, origin) => ({ key: `${name}-${++lastKey}`, origin }));
  const tables = rows('tables');
  const corrections = rows('corrections');
  for (const { key, origin } of tables) {
    const table = recordIn(listAt(document, 'tables')[origin ?? 0]) ?? {};
    for (const name of TABLE_TEXTS) texts[`${key}.${name}`] = textIn(table[name]);
    texts[`${key}.screenHeightM`] = String(numberIn(table.screenHeightM) ?? '');
    for (const axis of TABLE_AXES) texts[`${key}.${axis}`] = axisText(table[axis], axis, units);
    for (const [place, value] of cellsOf(table.distanceM)) {
      texts[`${key}.distanceM.${place}`] = show('distanceM', value);
    }
  }
  for (const { key, origin } of corrections) {
    const kept = recordIn(listAt(document, 'corrections')[origin ?? 0]) ?? {};
    for (const name of CORRECTION_TEXTS) texts[`${key}.${name}`] = textIn(kept[name]);
    for (const name of CORRECTION_FIGURES) texts[`${key}.${name}`] = show(name, kept[name]);
  }
  return { texts, tables, corrections, lastKey };
}

/** One more table of a quantity, of one row: the common case is typed straight from the handbook. */
export function withTable(fields: AeroplaneFields, quantity: HandbookQuantity): AeroplaneFields {
  const lastKey = fields.lastKey + 1;
  const key = `tables-${lastKey}`;
  const isWhole = quantity.includes('screen');
  const texts = {
    ...fields.texts,
    [`${key}.quantity`]: quantity,
    [`${key}.surface`]: 'hard-dry',
    [`${key}.screenHeightM`]: isWhole ? '15.24' : '',
    [`${key}.pressureAltitudeFt`]: '0',
    [`${key}.tempC`]: 'standard',
  };
  return { ...fields, texts, tables: [...fields.tables, { key, origin: null }], lastKey };
}

/** One more correction of the handbook's own. */
export function withCorrection(fields: AeroplaneFields): AeroplaneFields {
  const lastKey = fields.lastKey + 1;
  const key = `corrections-${lastKey}`;
  const texts = {
    ...fields.texts,
    [`${key}.phase`]: 'landing',
    [`${key}.condition`]: 'headwind',
    [`${key}.of`]: 'distance',
  };
  return { ...fields, texts, corrections: [...fields.corrections, { key, origin: null }], lastKey };
}

/** The fields without a row. */
export function withoutRow(fields: AeroplaneFields, key: string): AeroplaneFields {
  const keep = (rows: readonly FieldRow[]): FieldRow[] => rows.filter((row) => row.key !== key);
  return { ...fields, tables: keep(fields.tables), corrections: keep(fields.corrections) };
}

/** The parts of an axis as typed: `850; 975; 1100`. */
export function axisParts(text: string): string[] {
  return text
    .trim()
    .split(/\s*;\s*|,\s+|\s+/)
    .filter((part) => part !== '');
}

/** The document that the fields make; `others` are the ids of the other aeroplanes. */
export function aeroplaneFromFields(
  fields: AeroplaneFields,
  units: ShownUnits,
  before: Document | null,
  others: readonly string[],
): EnteredAeroplane {
  const { texts } = fields;
  const messages: FieldMessages = {};
  const text = (path: string): string => (texts[path] ?? '').trim();
  const figure = (path: string, kept: Json | undefined, unit = aeroplaneUnit(path, units)) => {
    const read = readQuantity(texts[path] ?? '', unit, numberIn(kept));
    if (!read.ok) messages[path] = read.message;
    return read.ok ? read.value : null;
  };
  const axis = (path: string, kept: Json | undefined): Json => {
    if (path.endsWith('tempC') && text(path) === 'standard') return 'standard';
    const unit = aeroplaneUnit(path, units);
    return axisParts(text(path)).map((part, k) => {
      const read = readQuantity(
        part,
        unit,
        numberIn(Array.isArray(kept) ? (kept[k] as Json) : null),
      );
      if (!read.ok) messages[path] = read.message;
      return read.ok ? read.value : null;
    });
  };
  let document: JsonRecord = { ...(before ?? {}), schema: 1, kind: 'aeroplane' };
  const id = before ? textIn(before.id) : text('id') || idFromName(text('name'), others);
  if (!before && others.includes(id)) messages.id = `found "${id}", expected one of its own`;
  document = withValue({ ...document, id }, 'name', text('name') || null);
  document = withValue(document, 'note', text('note') || null);
  document = { ...document, gear: text('gear'), brakes: text('brakes') !== 'no' };
  for (const path of FIGURES) {
    const [part, name] = path.split('.');
    const kept = recordIn(document[part]) ?? {};
    const value = figure(path, kept[name]);
    document = { ...document, [part]: withValue(kept, name, value) };
  }
  const tables = fields.tables.map(({ key, origin }): JsonRecord => {
    const kept = origin === null ? {} : (recordIn(listAt(before, 'tables')[origin]) ?? {});
    let table: JsonRecord = kept;
    for (const name of TABLE_TEXTS) table = withValue(table, name, text(`${key}.${name}`) || null);
    const screen = text(`${key}.screenHeightM`);
    table = withValue(table, 'screenHeightM', screen === '' ? null : Number(screen));
    for (const name of TABLE_AXES) table = { ...table, [name]: axis(`${key}.${name}`, kept[name]) };
    const [altitudes, temps, masses] = TABLE_AXES.map((name) => axisParts(text(`${key}.${name}`)));
    const keptCells = new Map(cellsOf(kept.distanceM));
    const distanceM = altitudes.map((_, a) =>
      temps.map((__, t) =>
        masses.map((___, m) => {
          const place = `${a}.${t}.${m}`;
          return figure(`${key}.distanceM.${place}`, keptCells.get(place), lengthUnit(units));
        }),
      ),
    );
    return { ...table, distanceM };
  });
  const corrections = fields.corrections.map(({ key, origin }): JsonRecord => {
    let kept = origin === null ? {} : (recordIn(listAt(before, 'corrections')[origin]) ?? {});
    for (const name of CORRECTION_TEXTS)
      kept = withValue(kept, name, text(`${key}.${name}`) || null);
    for (const name of CORRECTION_FIGURES) {
      kept = withValue(kept, name, figure(`${key}.${name}`, kept[name]));
    }
    return kept;
  });
  document = { ...document, tables };
  if (corrections.length > 0 || before?.corrections !== undefined) {
    document = { ...document, corrections };
  }
  const judged = decodeAeroplane(JSON.stringify(document));
  if (!judged.ok) {
    for (const { where, message } of judged.problems) messages[fieldOf(where, fields)] ??= message;
  }
  return Object.keys(messages).length > 0 ? { ok: false, messages } : { ok: true, document };
}

/** The field that a place in the document belongs to: rows by their key. */
function fieldOf(where: string, fields: AeroplaneFields): string {
  const found = /^(tables|corrections)\.(\d+)(.*)$/.exec(where);
  if (!found) return where;
  const [, name, number, rest] = found;
  const rows = name === 'tables' ? fields.tables : fields.corrections;
  return (rows.at(Number(number))?.key ?? name) + rest;
}

function valueAt(document: Document, path: string): Json | undefined {
  const [part, name] = path.split('.');
  return recordIn(document[part])?.[name];
}

function listAt(document: Document | null, name: string): readonly Json[] {
  const list = document?.[name];
  return Array.isArray(list) ? (list as readonly Json[]) : [];
}

function axisText(kept: Json | undefined, axis: string, units: ShownUnits): string {
  if (!Array.isArray(kept)) return textIn(kept);
  const unit = aeroplaneUnit(axis, units);
  return (kept as readonly Json[]).map((each) => showQuantity(numberIn(each), unit)).join('; ');
}

/** Every distance with its place: altitude, temperature, mass. */
function cellsOf(distanceM: Json | undefined): [string, Json][] {
  const inside = (value: Json | undefined): readonly Json[] =>
    Array.isArray(value) ? (value as readonly Json[]) : [];
  return inside(distanceM).flatMap((rows, a) =>
    inside(rows).flatMap((cells, t) =>
      inside(cells).map((cell, m): [string, Json] => [`${a}.${t}.${m}`, cell]),
    ),
  );
}
