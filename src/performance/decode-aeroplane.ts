/**
 * Is this a usable aeroplane record, and if not, which field is wrong and what was expected?
 *
 * Input: the text of a document `{ "schema": 1, "kind": "aeroplane", ... }` with the fields of
 * Aeroplane. Output: the Aeroplane, or one problem for each wrong field.
 * The ranges are limits of the plausible for light aeroplanes (our own, no source): wide enough
 * for any microlight or light twin, narrow enough to catch a slip of unit or digit.
 */

import * as v from 'valibot';
import { failure, success, type Problem, type Result } from '../result.ts';
import {
  decodeDocument,
  expecting,
  numberBetween,
  oneOf,
  orNull,
  shortText,
  unknownFields,
} from '../units/entered-field.ts';
import type { Aeroplane, HandbookCorrection, HandbookTable } from './aeroplane.ts';
import { mass, tableProblems, tableSchema, wrongField } from './decode-table.ts';

const SURFACE_CONDITIONS = ['hard-wet', 'grass-dry', 'grass-wet', 'soft'];

const speed = numberBetween(10, 200, 'kt');

const correctionSchema = v.object(
  {
    phase: oneOf(['landing', 'take-off']),
    condition: oneOf([
      'headwind',
      'tailwind',
      'upslope',
      'downslope',
      'temperature-above-standard',
      'hard-wet',
      'grass-dry',
      'grass-wet',
      'soft',
    ]),
    percent: numberBetween(-50, 200, '%'),
    per: orNull(numberBetween(0.1, 100, 'kt, % of slope or degrees Celsius')),
    upTo: orNull(numberBetween(0.1, 100, 'kt, % of slope or degrees Celsius')),
    of: oneOf(['distance', 'ground-roll']),
    text: shortText(300),
  },
  expecting('a correction'),
);

const aeroplaneSchema = v.object(
  {
    schema: v.literal(1, expecting('1, the only schema known')),
    kind: v.literal('aeroplane', expecting('"aeroplane"')),
    id: shortText(100),
    name: shortText(100),
    invented: v.optional(v.boolean(expecting('true or false')), false),
    note: orNull(shortText(1000)),
    massKg: v.object({ min: mass, maxTakeOff: mass, maxLanding: mass }, expecting('masses')),
    gear: oneOf(['nose', 'tail']),
    brakes: v.boolean(expecting('true or false')),
    speeds: v.object(
      {
        atMassKg: mass,
        stallLandingKt: speed,
        stallTakeOffKt: speed,
        approachKt: orNull(speed),
        touchdownKt: orNull(speed),
        liftOffKt: orNull(speed),
      },
      expecting('reference speeds'),
    ),
    tables: listUpTo(tableSchema, 40, 'tables'),
    corrections: v.optional(listUpTo(correctionSchema, 60, 'corrections'), []),
  },
  expecting('an aeroplane record'),
);

/**
 * Reads an aeroplane document.
 *
 * Units: as the field names say. Fails: a failure names each wrong field, what was found and what
 * was expected; an unknown field is kept out with a warning.
 */
export function decodeAeroplane(text: string): Result<Aeroplane> {
  const decoded = decodeDocument(text, 'aeroplane', aeroplaneSchema);
  if (!decoded.ok) return decoded;
  const { json, value } = decoded.value;
  const aeroplane: Aeroplane = {
    id: value.id,
    name: value.name,
    invented: value.invented,
    note: value.note,
    massKg: value.massKg,
    gear: value.gear,
    brakes: value.brakes,
    speeds: value.speeds,
    tables: value.tables,
    corrections: value.corrections,
  };
  const wrong = [
    ...massProblems(aeroplane),
    ...speedProblems(aeroplane),
    ...aeroplane.tables.flatMap((table, index) => tableProblems(table, `tables.${index}`)),
    ...duplicateProblems(aeroplane.tables),
    ...aeroplane.corrections.flatMap(correctionProblems),
  ];
  if (wrong.length > 0) return failure(wrong);
  const known = Object.keys(aeroplaneSchema.entries);
  return success(aeroplane, unknownFields('aeroplane', json, known, ''));
}

function massProblems({ massKg }: Aeroplane): Problem[] {
  const { min, maxTakeOff, maxLanding } = massKg;
  if (min < maxLanding && maxLanding <= maxTakeOff) return [];
  return [
    wrongField(
      'massKg',
      `found min ${min}, maxLanding ${maxLanding}, maxTakeOff ${maxTakeOff}, expected them to rise in this order`,
    ),
  ];
}

function speedProblems({ speeds, massKg }: Aeroplane): Problem[] {
  const found: Problem[] = [];
  if (speeds.atMassKg < massKg.min || speeds.atMassKg > massKg.maxTakeOff) {
    found.push(
      wrongField(
        'speeds.atMassKg',
        `found ${speeds.atMassKg}, expected a mass from ${massKg.min} to ${massKg.maxTakeOff} kg`,
      ),
    );
  }
  for (const name of ['approachKt', 'touchdownKt'] as const) {
    const given = speeds[name];
    if (given !== null && given < speeds.stallLandingKt) {
      found.push(
        wrongField(
          `speeds.${name}`,
          `found ${given}, expected at least the stall speed ${speeds.stallLandingKt} kt`,
        ),
      );
    }
  }
  return found;
}

function duplicateProblems(tables: readonly HandbookTable[]): Problem[] {
  const seen = new Set<string>();
  return tables.flatMap((table, index) => {
    const key = `${table.quantity} with flap ${table.flap}`;
    if (!seen.has(key)) {
      seen.add(key);
      return [];
    }
    return [wrongField(`tables.${index}`, `a second table of ${key}, expected one`)];
  });
}

function correctionProblems(correction: HandbookCorrection, index: number): Problem[] {
  const where = `corrections.${index}`;
  const isSurface = SURFACE_CONDITIONS.includes(correction.condition);
  const found: Problem[] = [];
  if (isSurface !== (correction.per === null)) {
    const expected = isSurface ? 'none for a surface' : 'a number for wind, slope or temperature';
    found.push(wrongField(`${where}.per`, `found ${correction.per}, expected ${expected}`));
  }
  const shortens = correction.percent < 0;
  if (shortens !== (correction.condition === 'headwind') && !isSlopeCredit(correction)) {
    const expected = shortens ? 'a positive percentage here' : 'a negative percentage for headwind';
    found.push(wrongField(`${where}.percent`, `found ${correction.percent}, expected ${expected}`));
  }
  return found;
}

/** Landing uphill and taking off downhill are the slopes that shorten. */
function isSlopeCredit({ phase, condition, percent }: HandbookCorrection): boolean {
  return percent < 0 && condition === (phase === 'landing' ? 'upslope' : 'downslope');
}

function listUpTo<S extends v.GenericSchema>(item: S, most: number, what: string) {
  const message = expecting(`a list of up to ${most} ${what}`);
  return v.pipe(v.array(item, message), v.maxLength(most, message));
}
