/**
 * What conditions did the pilot enter, for all flights and for single ones?
 *
 * Input: the text of a conditions document,
 * `{ "schema": 1, "kind": "conditions", "all": {...}, "flights": { "<file name>": {...} } }`.
 * Output: a ConditionsBook; a field that is absent or null was not entered and stays null.
 * The ranges are limits of the plausible, wide enough for any light aeroplane on any strip
 * (our own, no source): they catch a slip of unit or of a digit, not a bad idea.
 */

import * as v from 'valibot';
import { success, type Problem, type Result } from '../result.ts';
import {
  decodeDocument,
  expecting,
  numberBetween,
  oneOf,
  orNull,
  shortText,
  unknownFields,
} from '../units/entered-field.ts';
import type { Conditions, ConditionsBook } from './conditions.ts';
import { gateLimitsSchema } from './gate-limits.ts';
import { readMetar, withMetar } from './metar.ts';

const SURFACES = [
  'hard-dry',
  'hard-wet',
  'grass-dry',
  'grass-wet',
  'grass-wet-very-short',
  'grass-long',
  'soft',
  'standing-water',
  'snow',
] as const;

const windSchema = v.pipe(
  v.object(
    {
      fromDeg: orNull(numberBetween(0, 360, 'degrees')),
      reference: oneOf(['true', 'magnetic']),
      speedKt: numberBetween(0, 100, 'kt'),
      gustKt: orNull(numberBetween(0, 130, 'kt')),
    },
    expecting('an object with fromDeg, reference, speedKt and gustKt'),
  ),
  v.check(
    (wind) => wind.gustKt === null || wind.gustKt >= wind.speedKt,
    'the gust is below the wind speed, expected gustKt at or above speedKt',
  ),
);

const enteredSchema = v.object(
  {
    metar: v.exactOptional(v.nullable(shortText(2000))),
    wind: orNull(windSchema),
    windReportedAt: v.exactOptional(v.nullable(shortText(40))),
    tempC: orNull(numberBetween(-50, 60, 'degrees Celsius')),
    qnhHpa: orNull(numberBetween(850, 1100, 'hPa')),
    massKg: orNull(numberBetween(50, 10_000, 'kg')),
    takeOffMassKg: orNull(numberBetween(50, 10_000, 'kg')),
    surface: orNull(oneOf(SURFACES)),
    flap: orNull(shortText(100)),
    aeroplane: orNull(shortText(100)),
    factorSet: orNull(shortText(100)),
    effort: orNull(oneOf(['full', 'normal', 'coasted'])),
    gateLimits: v.exactOptional(v.nullable(gateLimitsSchema)),
  },
  expecting('an object of conditions'),
);

/** A METAR fills in what was not entered; one that cannot be read is a wrong field. */
const conditionsSchema = v.pipe(
  enteredSchema,
  v.rawTransform(({ dataset, addIssue, NEVER }): Conditions => {
    const { metar, ...entered } = dataset.value;
    if (typeof metar !== 'string') return entered;
    const reading = readMetar(metar);
    if (reading.ok) return withMetar(entered, reading.value);
    for (const { where, message } of reading.problems) {
      addIssue({ message: `${where}: ${message}`, path: pathTo(dataset.value, 'metar') });
    }
    return NEVER;
  }),
);

const bookSchema = v.object(
  {
    schema: v.literal(1, expecting('1, the only schema known')),
    kind: v.literal('conditions', expecting('"conditions"')),
    all: orNull(conditionsSchema),
    flights: v.optional(
      v.record(v.string(), conditionsSchema, expecting('an object of conditions by file name')),
      {},
    ),
  },
  expecting('an object with schema, kind, all and flights'),
);

const BOOK_FIELDS = Object.keys(bookSchema.entries);
const CONDITION_FIELDS = Object.keys(enteredSchema.entries);

/**
 * Reads a conditions document.
 *
 * Units: as the field names say. Fails: a failure names each wrong field, what was found and what
 * was expected; an unknown field is kept out with a warning, so that a misspelt one is noticed.
 */
export function decodeConditions(text: string): Result<ConditionsBook> {
  const decoded = decodeDocument(text, 'conditions', bookSchema);
  if (!decoded.ok) return decoded;
  const { json, value } = decoded.value;
  const byFile = new Map<string, Conditions>(Object.entries(value.flights));
  return success({ all: value.all, byFile }, findUnknownFields(json));
}

/**
 * The conditions of one file: its own fields where entered, else those for all flights.
 *
 * Input: the file's own name without folders. Output: null where nothing at all was entered.
 */
export function conditionsFor(book: ConditionsBook, fileName: string): Conditions | null {
  const own = book.byFile.get(fileName);
  if (own === undefined) return book.all;
  if (book.all === null) return own;
  return {
    wind: own.wind ?? book.all.wind,
    ...reportedWith(own.wind === null ? book.all : own),
    tempC: own.tempC ?? book.all.tempC,
    qnhHpa: own.qnhHpa ?? book.all.qnhHpa,
    massKg: own.massKg ?? book.all.massKg,
    takeOffMassKg: own.takeOffMassKg ?? book.all.takeOffMassKg,
    surface: own.surface ?? book.all.surface,
    flap: own.flap ?? book.all.flap,
    aeroplane: own.aeroplane ?? book.all.aeroplane,
    factorSet: own.factorSet ?? book.all.factorSet,
    effort: own.effort ?? book.all.effort,
    ...limitsOf(own.gateLimits ? own : book.all),
  };
}

/** The mark of a wind reported elsewhere goes with that wind. */
function reportedWith({ windReportedAt }: Conditions): Pick<Conditions, 'windReportedAt'> {
  return typeof windReportedAt === 'string' ? { windReportedAt } : {};
}

function limitsOf({ gateLimits }: Conditions): Pick<Conditions, 'gateLimits'> {
  return gateLimits ? { gateLimits } : {};
}

function pathTo(input: Record<string, unknown>, key: string): [v.ObjectPathItem] {
  return [{ type: 'object', origin: 'value', input, key, value: input[key] }];
}

function findUnknownFields(json: unknown): Problem[] {
  const book = json as { all?: unknown; flights?: Record<string, unknown> };
  const found = unknownFields('conditions', book, BOOK_FIELDS, '');
  found.push(...unknownFields('conditions', book.all, CONDITION_FIELDS, 'all.'));
  for (const [file, own] of Object.entries(book.flights ?? {})) {
    found.push(...unknownFields('conditions', own, CONDITION_FIELDS, `flights.${file}.`));
  }
  return found;
}
