/**
 * Is this a usable factor set of the pilot's own, and if not, which figure is wrong?
 *
 * Input: the text of a document `{ "schema": 1, "kind": "factor-set", ... }` with the fields of
 * FactorSet. Output: the FactorSet, or one problem for each wrong field. Every figure names its
 * source with the edition, and says whether it was read, quoted by another text, or is from memory.
 * The ranges are limits of the plausible (ours, no source): no published factor lies near their ends.
 */
import * as v from 'valibot';
import { failure, problem, success, type Problem, type Result } from '../../result.ts';
import {
  decodeDocument,
  expecting,
  numberBetween,
  oneOf,
  orNull,
  shortText,
  unknownFields,
} from '../../units/entered-field.ts';
import type { FactorSet } from './factor-set.ts';
import { PUBLISHED_SETS } from './published.ts';

const provenance = {
  source: shortText(300),
  reading: oneOf(['read', 'quoted', 'from memory']),
  why: shortText(300),
};

/** A penalty lengthens; what shortens is a credit and stands in a field of its own. */
const penalty = numberBetween(1, 5, 'times');

function stepped(step: v.GenericSchema<number>, factor: v.GenericSchema<number> = penalty) {
  const scaling = v.exactOptional(oneOf(['linear', 'power']));
  const schema = v.object({ step, factor, scaling, ...provenance }, expecting('a factor'));
  return orNull(schema);
}

const surfaceFactor = v.object(
  {
    factor: numberBetween(0.8, 5, 'times'),
    ...provenance,
    plannedFactor: orNull(penalty),
    caution: orNull(shortText(300)),
  },
  expecting('the factor of a surface'),
);
const surfaces = v.object(
  {
    'hard-dry': v.exactOptional(surfaceFactor),
    'hard-wet': v.exactOptional(surfaceFactor),
    'grass-dry': v.exactOptional(surfaceFactor),
    'grass-wet': v.exactOptional(surfaceFactor),
    'grass-wet-very-short': v.exactOptional(surfaceFactor),
    'grass-long': v.exactOptional(surfaceFactor),
    soft: v.exactOptional(surfaceFactor),
    'standing-water': v.exactOptional(surfaceFactor),
    snow: v.exactOptional(surfaceFactor),
  },
  expecting('factors by surface'),
);

const phase = v.object(
  {
    heldAgainst: v.exactOptional(oneOf(['TORA', 'TODA'])),
    massShare: stepped(numberBetween(0.01, 1, 'of the mass')),
    altitudeFt: stepped(numberBetween(100, 10_000, 'ft')),
    tempC: stepped(numberBetween(1, 50, 'degrees Celsius')),
    tailwindShare: stepped(numberBetween(0.01, 0.5, 'of the speed')),
    slopeRatio: stepped(numberBetween(0.001, 0.1, 'rise over run')),
    slopeCredit: stepped(
      numberBetween(0.001, 0.1, 'rise over run'),
      numberBetween(0.5, 1, 'times'),
    ),
    surface: surfaces,
    safety: v.object(
      { factor: numberBetween(1, 3, 'times'), ...provenance },
      expecting('a factor'),
    ),
  },
  expecting('the factors of landing or take-off'),
);

const factorSet = v.object(
  {
    schema: v.literal(1, expecting('1, the only schema known')),
    kind: v.literal('factor-set', expecting('"factor-set"')),
    id: shortText(100),
    name: shortText(100),
    prefersHandbook: v.optional(v.boolean(expecting('true or false')), false),
    landing: phase,
    takeOff: phase,
  },
  expecting('a factor set'),
);

/**
 * Reads a factor set.
 *
 * Units: as the field names say. Fails: a failure names each wrong field, what was found and what
 * was expected; an unknown field is kept out with a warning.
 */
export function decodeFactorSet(text: string): Result<FactorSet> {
  const decoded = decodeDocument(text, 'factor-set', factorSet);
  if (!decoded.ok) return decoded;
  const { json, value } = decoded.value;
  if (PUBLISHED_SETS.some(({ id }) => id === value.id)) {
    const message = `found "${value.id}", which is the id of a published set, expected one of your own`;
    return failure([problem('factor-set-field', 'error', 'id', message)]);
  }
  const { id, name, prefersHandbook, landing, takeOff } = value;
  return success({ id, name, prefersHandbook, landing, takeOff }, unknownIn(json));
}

function unknownIn(json: unknown): Problem[] {
  const document = json as Readonly<Record<string, unknown>>;
  const found = unknownFields('factor-set', document, Object.keys(factorSet.entries), '');
  for (const use of ['landing', 'takeOff'] as const) {
    const factors = document[use] as Readonly<Record<string, unknown>>;
    const known = Object.keys(phase.entries);
    found.push(...unknownFields('factor-set', factors, known, `${use}.`));
    const states = Object.keys(surfaces.entries);
    found.push(...unknownFields('factor-set', factors.surface, states, `${use}.surface.`));
  }
  return found;
}
