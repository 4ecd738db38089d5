/**
 * How does an aeroplane stand in a form?
 *
 * In: the kept document (null: a new aeroplane) and the pilot's units. Out: the texts of the fields, by
 * their path in the document; rows of tables and corrections by a key of their own.
 */
import type { AeroplaneRecord, Json, ShownUnits } from '../../logbook/entry.ts';
import type { HandbookQuantity } from '../../performance/aeroplane.ts';
import { numberIn, recordIn, textIn } from './feature-parts.ts';
import {
  lengthUnit,
  massUnit,
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
  /** True where it was taken out; its texts wait to be put back. */
  readonly isRemoved?: boolean;
}

/** The texts of the form, by path; an empty one was not entered. */
export interface AeroplaneFields {
  readonly texts: Readonly<Record<string, string>>;
  readonly tables: readonly FieldRow[];
  readonly corrections: readonly FieldRow[];
  readonly lastKey: number;
}

const PLAIN = ['name', 'id', 'note', 'gear'] as const;
/** Paths of the plain figures. */
export const FIGURES = [
  ...['massKg.min', 'massKg.maxTakeOff', 'massKg.maxLanding', 'speeds.atMassKg'],
  ...['speeds.stallLandingKt', 'speeds.stallTakeOffKt', 'speeds.approachKt'],
  ...['speeds.touchdownKt', 'speeds.liftOffKt'],
];
/** Texts of a table. */
export const TABLE_TEXTS = ['quantity', 'flap', 'surface'] as const;
/** The axes of a table, in the order in which its distances are nested. */
export const TABLE_AXES = ['pressureAltitudeFt', 'tempC', 'massKg'] as const;
/** Texts of a correction. */
export const CORRECTION_TEXTS = ['phase', 'condition', 'of', 'text'] as const;
/** Figures of a correction. */
export const CORRECTION_FIGURES = ['percent', 'per', 'upTo'] as const;

/** The unit of a field: masses, speeds, distances and temperatures as the pilot reads them. */
export function aeroplaneUnit(path: string, units: ShownUnits): FieldUnit {
  if (path.includes('distanceM') || path.includes('.cell ')) return lengthUnit(units);
  if (/massKg|atMassKg/i.test(path)) return massUnit(units);
  if (path.endsWith('Kt')) return speedUnit(units);
  if (path.endsWith('tempC')) return temperatureUnit(units);
  if (path.endsWith('Ft')) return sameUnit('ft');
  return sameUnit(path.endsWith('percent') ? '%' : '');
}

/** The fields as a document fills them; those of a new aeroplane for null. */
export function fieldsFromAeroplane(document: Document | null, units: ShownUnits): AeroplaneFields {
  const texts: Record<string, string> = { name: '', gear: '', brakes: '' };
  const show = (path: string, value: Json | undefined): string =>
    showQuantity(numberIn(value), aeroplaneUnit(path, units));
  if (!document) return { texts, tables: [], corrections: [], lastKey: 0 };
  for (const path of PLAIN) texts[path] = textIn(document[path]);
  if (typeof document.brakes === 'boolean') texts.brakes = document.brakes ? 'yes' : 'no';
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
    const axes = axesOf(texts, key);
    for (const [place, value] of cellsOf(table.distanceM)) {
      texts[`${key}.${cellName(axes, place)}`] = show('distanceM', value);
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
  const texts = {
    ...fields.texts,
    [`${key}.quantity`]: quantity,
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

/** The fields with a row taken out, or put back where it was with all its texts. */
export function withRemoved(
  fields: AeroplaneFields,
  key: string,
  isRemoved: boolean,
): AeroplaneFields {
  const mark = (rows: readonly FieldRow[]): FieldRow[] =>
    rows.map((row) => (row.key === key ? { ...row, isRemoved } : row));
  return { ...fields, tables: mark(fields.tables), corrections: mark(fields.corrections) };
}

/** The fields without what was taken out. */
export function standingFields(fields: AeroplaneFields): AeroplaneFields {
  const keep = (rows: readonly FieldRow[]): FieldRow[] =>
    rows.filter(({ isRemoved }) => isRemoved !== true);
  return { ...fields, tables: keep(fields.tables), corrections: keep(fields.corrections) };
}

/** The parts of an axis as typed: `850; 975; 1100`. */
export function axisParts(text: string): string[] {
  return text
    .trim()
    .split(/\s*;\s*|,\s+|\s+/)
    .map((part) => (/^standard$/i.test(part) ? STANDARD : part.replace(UNIT_BEHIND, '')))
    .filter((part) => part !== '');
}

/** A unit left behind a figure of an axis. */
const UNIT_BEHIND = /(?:kg|lb|ft|°?[CF])$/i;
/** The word for standard temperatures. */
export const STANDARD = 'standard';

/** The axes of a table as typed: altitudes, temperatures, masses. */
export function axesOf(texts: AeroplaneFields['texts'], key: string): readonly string[][] {
  return TABLE_AXES.map((axis) => axisParts(texts[`${key}.${axis}`] ?? ''));
}

/**
 * The field of a distance. It is named after the values of its axes, not after its place: where an
 * axis changes, a distance stays with the mass, the altitude and the temperature it was typed for.
 */
export function cellName(axes: readonly (readonly string[])[], place: string): string {
  const values = place.split('.').map((at, axis) => axes[axis].at(Number(at)) ?? STANDARD);
  return `cell ${values.join(' | ')}`;
}

function valueAt(document: Document, path: string): Json | undefined {
  const [part, name] = path.split('.');
  return recordIn(document[part])?.[name];
}

/** A list of the document; empty where it has none. */
export function listAt(document: Document | null, name: string): readonly Json[] {
  const list = document?.[name];
  return Array.isArray(list) ? (list as readonly Json[]) : [];
}

/** An axis as the form shows it. */
export function axisText(kept: Json | undefined, axis: string, units: ShownUnits): string {
  if (!Array.isArray(kept)) return textIn(kept);
  const unit = aeroplaneUnit(axis, units);
  return (kept as readonly Json[]).map((each) => showQuantity(numberIn(each), unit)).join('; ');
}

/** Every distance with its place: altitude, temperature, mass. */
export function cellsOf(distanceM: Json | undefined): [string, Json][] {
  const inside = (value: Json | undefined): readonly Json[] =>
    Array.isArray(value) ? (value as readonly Json[]) : [];
  return inside(distanceM).flatMap((rows, a) =>
    inside(rows).flatMap((cells, t) =>
      inside(cells).map((cell, m): [string, Json] => [`${a}.${t}.${m}`, cell]),
    ),
  );
}
