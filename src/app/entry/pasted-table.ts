/**
 * How does a table pasted from a spreadsheet come into the aeroplane's form?
 *
 * In: the fields, the table's key, the text, the pilot's units. Out: the fields with its axes and
 * distances as if typed, or what is wrong, by line and column. What the headings do not name holds at
 * the one value that stands in the table's own field.
 */
import type { ShownUnits } from '../../logbook/entry.ts';
import type { HandbookQuantity, HandbookTable } from '../../performance/aeroplane.ts';
import { pasteTable, type PasteFrame } from '../../performance/paste-table.ts';
import type { Problem } from '../../result.ts';
import {
  aeroplaneUnit,
  axisParts,
  cellName,
  cellsOf,
  STANDARD,
  TABLE_AXES,
  type AeroplaneFields,
} from './aeroplane-fields.ts';
import { readQuantity, showQuantity } from './shown-unit.ts';

/** The fields with the table, or what is wrong with the text. */
export type PastedTable =
  | { readonly ok: true; readonly fields: AeroplaneFields; readonly count: number }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** See the file's head. Fails: as the reader of pasted tables does. */
export function withPastedTable(
  fields: AeroplaneFields,
  key: string,
  text: string,
  units: ShownUnits,
): PastedTable {
  const read = pasteTable(text, frameOf(fields, key, units));
  if (!read.ok) return { ok: false, problems: read.problems };
  const table = read.value;
  // What was typed for other masses, altitudes or temperatures waits until they are typed again.
  const texts: Record<string, string> = { ...fields.texts };
  for (const axis of TABLE_AXES) texts[`${key}.${axis}`] = axisText(table, axis, units);
  const axes = TABLE_AXES.map((axis) => axisParts(texts[`${key}.${axis}`]));
  const cells = cellsOf(table.distanceM);
  for (const [place, distanceM] of cells) {
    const shown = rounded(distanceM as number, 'distanceM', units);
    texts[`${key}.${cellName(axes, place)}`] = shown;
  }
  return { ok: true, fields: { ...fields, texts }, count: cells.length };
}

/** What the text cannot say. Flap, surface and screen are judged later, with the whole form. */
function frameOf({ texts }: AeroplaneFields, key: string, units: ShownUnits): PasteFrame {
  const quantity = texts[`${key}.quantity`] as HandbookQuantity;
  const only = (axis: (typeof TABLE_AXES)[number]): string | null => {
    const parts = axisParts(texts[`${key}.${axis}`] ?? '');
    return parts.length === 1 ? parts[0] : null;
  };
  const holds = (axis: (typeof TABLE_AXES)[number]): number | null => {
    const read = readQuantity(only(axis) ?? '', aeroplaneUnit(axis, units), null);
    return read.ok ? read.value : null;
  };
  const isStandard = only('tempC') === STANDARD;
  return {
    quantity,
    flap: 'as entered',
    surface: 'hard-dry',
    screenHeightM: quantity.includes('screen') ? 15.24 : null,
    distanceUnit: units.length,
    holdsAt: {
      pressureAltitudeFt: holds('pressureAltitudeFt'),
      tempC: isStandard ? STANDARD : holds('tempC'),
      massKg: holds('massKg'),
    },
  };
}

function axisText(
  table: HandbookTable,
  axis: (typeof TABLE_AXES)[number],
  units: ShownUnits,
): string {
  const values = table[axis];
  if (values === STANDARD) return STANDARD;
  return values.map((value) => rounded(value, axis, units)).join('; ');
}

/** Tenths of the unit in which it is kept, else whole ones: 1,115 ft stay 1,115 ft. */
function rounded(kept: number, path: string, units: ShownUnits): string {
  const unit = aeroplaneUnit(path, units);
  return showQuantity(kept, { ...unit, decimals: unit.symbol === unit.keptSymbol ? 1 : 0 });
}
