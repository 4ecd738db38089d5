/**
 * Which document do the fields of an aeroplane's form make, or what is wrong with them?
 *
 * In: the fields, the pilot's units, the kept document (null: a new aeroplane). Out: the document, or a
 * message for each wrong field. The reader of aeroplane documents judges; unknown properties survive,
 * and what nobody touched goes back exactly as it was.
 */
import type { Json, ShownUnits } from '../../logbook/entry.ts';
import { decodeAeroplane } from '../../performance/decode-aeroplane.ts';
import {
  aeroplaneUnit,
  axesOf,
  axisParts,
  axisText,
  cellName,
  cellsOf,
  CORRECTION_FIGURES,
  CORRECTION_TEXTS,
  FIGURES,
  listAt,
  standingFields,
  STANDARD,
  TABLE_AXES,
  TABLE_TEXTS,
  type AeroplaneFields,
  type Document,
} from './aeroplane-fields.ts';
import { numberIn, recordIn, textIn, withValue, type JsonRecord } from './feature-parts.ts';
import type { FieldMessages } from './field-messages.ts';
import { idFromName } from './id-from-name.ts';
import { inTypedUnit, lengthUnit, readQuantity } from './shown-unit.ts';

/** A document, or what is wrong by field. */
export type EnteredAeroplane =
  | { readonly ok: true; readonly document: Document }
  | { readonly ok: false; readonly messages: FieldMessages };

/** The document that the fields make; `others` are the ids of the other aeroplanes. */
export function aeroplaneFromFields(
  filled: AeroplaneFields,
  units: ShownUnits,
  before: Document | null,
  others: readonly string[],
): EnteredAeroplane {
  const fields = standingFields(filled);
  const { texts } = fields;
  const messages: FieldMessages = {};
  const text = (path: string): string => (texts[path] ?? '').trim();
  /** A text that nobody touched stays as it is, blanks and all. */
  const words = (path: string, kept: Json | undefined): Json =>
    typeof kept === 'string' && texts[path] === kept ? kept : text(path) || null;
  const figure = (path: string, kept: Json | undefined, unit = aeroplaneUnit(path, units)) => {
    const read = readQuantity(texts[path] ?? '', unit, numberIn(kept));
    if (!read.ok) messages[path] = read.message;
    return read.ok ? read.value : null;
  };
  const axis = (path: string, kept: Json | undefined): Json => {
    const parts = axisParts(text(path));
    if (path.endsWith('tempC') && parts.length === 1 && parts[0] === STANDARD) return STANDARD;
    const unit = aeroplaneUnit(path, units);
    return parts.map((part, k) => {
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
  document = withValue({ ...document, id }, 'name', words('name', document.name));
  document = withValue(document, 'note', words('note', document.note));
  document = withValue(document, 'gear', text('gear') || null);
  const brakes = text('brakes');
  document = withValue(document, 'brakes', brakes === '' ? null : brakes === 'yes');
  for (const path of FIGURES) {
    const [part, name] = path.split('.');
    const kept = recordIn(document[part]) ?? {};
    const value = figure(path, kept[name]);
    document = { ...document, [part]: withValue(kept, name, value) };
  }
  const tables = fields.tables.map(({ key, origin }): JsonRecord => {
    const kept = origin === null ? {} : (recordIn(listAt(before, 'tables')[origin]) ?? {});
    let table: JsonRecord = kept;
    for (const name of TABLE_TEXTS) {
      table = withValue(table, name, words(`${key}.${name}`, kept[name]));
    }
    const screen = text(`${key}.screenHeightM`);
    table = withValue(table, 'screenHeightM', screen === '' ? null : Number(screen));
    for (const name of TABLE_AXES) table = { ...table, [name]: axis(`${key}.${name}`, kept[name]) };
    const axes = axesOf(texts, key);
    const [altitudes, temps, masses] = axes;
    const keptCells = keptByName(kept, units);
    const distanceM = altitudes.map((_, a) =>
      temps.map((__, t) =>
        masses.map((___, m) => {
          const name = cellName(axes, `${a}.${t}.${m}`);
          return figure(`${key}.${name}`, keptCells.get(name), lengthUnit(units));
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
    for (const { where, message } of judged.problems) {
      const path = fieldOf(where, fields);
      messages[path] ??= asTyped(message, path, texts[path] ?? '', units);
    }
  }
  // An id is made from the name: what is missing is the name.
  if (messages.name !== undefined && text('id') === '') delete messages.id;
  return Object.keys(messages).length > 0 ? { ok: false, messages } : { ok: true, document };
}

/** The field that a place in the document belongs to: rows by their key. */
function fieldOf(where: string, fields: AeroplaneFields): string {
  const found = /^(tables|corrections)\.(\d+)(.*)$/.exec(where);
  if (!found) return where;
  const [, name, number, rest] = found;
  const rows = name === 'tables' ? fields.tables : fields.corrections;
  const key = rows.at(Number(number))?.key;
  if (key === undefined) return name;
  const cell = /^\.distanceM\.(\d+\.\d+\.\d+)$/.exec(rest);
  if (cell) return `${key}.${cellName(axesOf(fields.texts, key), cell[1])}`;
  // What is wrong with one value of an axis is said beside the axis.
  return key + rest.replace(/^(\.(?:pressureAltitudeFt|tempC|massKg))\.\d+$/, '$1');
}

/** The reader's message with the figure as it was typed, and without words of the program. */
function asTyped(message: string, path: string, text: string, units: ShownUnits): string {
  if (message === 'this field is missing') return 'found nothing, expected an entry';
  const plain = message.replace(/^found null,/, 'found nothing,');
  return inTypedUnit(plain, text, aeroplaneUnit(path, units));
}

/** Kept distances by the names of their fields. */
function keptByName(table: JsonRecord, units: ShownUnits): Map<string, Json> {
  const axes = TABLE_AXES.map((axis) => axisParts(axisText(table[axis], axis, units)));
  return new Map(cellsOf(table.distanceM).map(([place, value]) => [cellName(axes, place), value]));
}
