/**
 * Which properties may the features of a strips file carry, in which units and ranges?
 *
 * Each schema's messages complete the sentence "found ..., expected ...". An absent optional
 * property and one that is null mean the same: not given. Properties that are not listed are left
 * alone. The same rules stand as a JSON Schema in docs/schema/strips.schema.json.
 *
 * The ranges are ours: wide enough for any place where a light aircraft lands, tight enough to
 * catch feet for metres and a slipped decimal point.
 */

import * as v from 'valibot';

const text = (expected: string, longest = 200) =>
  v.pipe(v.string(expected), v.trim(), v.nonEmpty(expected), v.maxLength(longest, expected));

const numberWithin = (low: number, high: number, unit: string) => {
  const expected = `a number from ${low} to ${high}${unit}`;
  return v.pipe(v.number(expected), v.minValue(low, expected), v.maxValue(high, expected));
};

const metresWithin = (low: number, high: number) => numberWithin(low, high, ' metres');

/** Given, or null where it is absent. */
const optional = <S extends v.GenericSchema>(schema: S) => v.nullish(schema, null);

const ELEVATION_M = metresWithin(-500, 6000);
const DECLARED_M = metresWithin(20, 6000);

const direction = v.object(
  {
    designator: text('a designator such as "09" or "27L", as text', 12),
    from: v.picklist(['A', 'B'], '"A" or "B"'),
    use: optional(v.picklist(['both', 'landing', 'take-off'], '"both", "landing" or "take-off"')),
    displacedM: optional(metresWithin(0, 5000)),
    ldaM: optional(DECLARED_M),
    toraM: optional(DECLARED_M),
    todaM: optional(DECLARED_M),
    asdaM: optional(DECLARED_M),
    circuit: optional(v.picklist(['left', 'right'], '"left" or "right"')),
    circuitHeightM: optional(metresWithin(30, 3000)),
    commitM: optional(metresWithin(-20000, 5000)),
  },
  'a direction with designator and from',
);

/** A direction as the file gives it. */
export type DirectionProperties = v.InferOutput<typeof direction>;

/** Properties of a strip. */
export const stripProperties = v.object({
  id: text('an id, as text'),
  name: optional(text('a name, as text')),
  widthM: metresWithin(1, 300),
  surface: v.picklist(['grass', 'hard', 'gravel', 'earth'], '"grass", "hard", "gravel" or "earth"'),
  elevationM: optional(
    v.strictTuple([ELEVATION_M, ELEVATION_M], 'two elevations in metres, [end A, end B]'),
  ),
  profile: optional(
    v.pipe(
      v.array(
        v.strictTuple([metresWithin(0, 5000), ELEVATION_M], '[distance from A, elevation]'),
        'a list of [distance from A, elevation]',
      ),
      v.minLength(2, 'two or more of [distance from A, elevation]'),
      v.maxLength(2000, 'at most 2000 of [distance from A, elevation]'),
    ),
  ),
  positionErrorM: optional(metresWithin(0, 200)),
  endsGuessed: optional(v.boolean('true or false')),
  directions: optional(
    v.pipe(
      v.array(direction, 'a list of one or two directions'),
      v.minLength(1, 'one or two directions'),
      v.maxLength(2, 'one or two directions'),
    ),
  ),
});

/** Properties of a strip as the file gives them. */
export type StripProperties = v.InferOutput<typeof stripProperties>;

/** Properties of an obstacle. */
export const obstacleProperties = v.object({
  strip: optional(text('the id of a strip, as text')),
  name: optional(text('a name, as text')),
  topMslM: optional(ELEVATION_M),
  topAboveThresholdM: optional(metresWithin(-500, 2000)),
  heightM: optional(metresWithin(0, 2000)),
});

/** Properties of an area not to be overflown. */
export const avoidProperties = v.object({
  name: optional(text('a name, as text')),
  belowMslM: optional(metresWithin(-500, 20000)),
});

/** Properties of a preferred approach path. */
export const approachPathProperties = v.object({
  strip: text('the id of a strip, as text'),
  designator: text('the designator of a direction, as text', 12),
});
