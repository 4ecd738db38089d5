/**
 * How does a strip stand in a form, and which feature do its fields make?
 *
 * In: the kept feature (null: a new strip) and the pilot's units, or the texts of the fields. Out: the
 * one or the other, or a message for each wrong field. The reader of strips files judges. What is left
 * empty is not written, so that a default stays one; unknown properties and further positions of the
 * centreline survive.
 */
import type { Feature, Json, ShownUnits } from '../../logbook/entry.ts';
import type { DirectionUse } from '../../strips/strip.ts';
import {
  listIn,
  numberIn,
  propertiesOf,
  recordIn,
  textIn,
  type JsonRecord,
} from './feature-parts.ts';
import { showDegrees } from './position-text.ts';
import { heightUnit, lengthUnit, showQuantity, type FieldUnit } from './shown-unit.ts';

/** An end of the strip, and the direction that begins there. */
export type End = 'a' | 'b';
/** What a direction may be used for, or that it is not listed. */
export type UseText = DirectionUse | 'none';

/** The figures of a direction by their fields: the property that keeps each. */
export const DIRECTION_FIGURES = {
  displaced: 'displacedM',
  lda: 'ldaM',
  tora: 'toraM',
  toda: 'todaM',
  asda: 'asdaM',
  circuitHeight: 'circuitHeightM',
  commit: 'commitM',
} as const;

/** A figure of a direction. */
export type DirectionFigure = keyof typeof DIRECTION_FIGURES;
/** A field of a direction. */
export type DirectionField = DirectionFigure | 'designator' | 'use' | 'circuit';
/** A field of the form. */
export type StripField =
  | 'name'
  | 'id'
  | 'surface'
  | 'width'
  | 'positionError'
  | 'ends'
  | `${End}.${'lat' | 'lon' | 'elevation' | DirectionField}`;

/** The texts of the form; an empty one was not entered. */
export type StripFields = Readonly<Record<StripField, string>>;

/** The unit of a figure of the form. */
export function stripUnit(field: StripField, units: ShownUnits): FieldUnit {
  const isHeight = field.endsWith('elevation') || field.endsWith('circuitHeight');
  return isHeight ? heightUnit(units) : lengthUnit(units);
}

/** The fields as a feature fills them; those of a new strip for null. */
export function fieldsFromStrip(feature: Feature | null, units: ShownUnits): StripFields {
  const properties = propertiesOf(feature);
  const show = (field: StripField, value: Json | undefined) =>
    showQuantity(numberIn(value), stripUnit(field, units));
  return {
    name: textIn(properties.name) || textIn(properties.id),
    id: textIn(properties.id),
    surface: textIn(properties.surface),
    width: show('width', properties.widthM),
    positionError: show('positionError', properties.positionErrorM),
    ends: hasGuessedEnds(feature) ? 'guessed' : 'known',
    ...endFields('a', feature, show),
    ...endFields('b', feature, show),
  };
}

type EndFields<E extends End> = Pick<StripFields, Extract<StripField, `${E}.${string}`>>;

function endFields<E extends End>(
  end: E,
  feature: Feature | null,
  show: (field: StripField, value: Json | undefined) => string,
): EndFields<E> {
  const [lon, lat] = keptEnd(feature, end);
  const direction = keptDirection(feature, end);
  const figures = Object.entries(DIRECTION_FIGURES).map(([field, property]) => [
    `${end}.${field}`,
    show(`${end}.${field as DirectionFigure}`, direction?.[property]),
  ]);
  return {
    [`${end}.lat`]: lat === null ? '' : showDegrees(lat),
    [`${end}.lon`]: lon === null ? '' : showDegrees(lon),
    [`${end}.elevation`]: show(`${end}.elevation`, keptElevation(feature, end)),
    [`${end}.designator`]: textIn(direction?.designator),
    [`${end}.use`]: useOf(feature, direction),
    [`${end}.circuit`]: textIn(direction?.circuit),
    ...Object.fromEntries(figures),
  } as EndFields<E>;
}

/** A direction that a strip's list leaves out is not used; without a list both are. */
function useOf(feature: Feature | null, direction: JsonRecord | null): UseText {
  if (direction) return (textIn(direction.use) || 'both') as UseText;
  return hasDirections(feature) ? 'none' : 'both';
}

/** True where the ends of a feature are only where wheels were seen. */
export function hasGuessedEnds(feature: Feature | null): boolean {
  return propertiesOf(feature).endsGuessed === true;
}

/** True where a feature lists its directions. */
export function hasDirections(feature: Feature | null): boolean {
  return Array.isArray(propertiesOf(feature).directions);
}

/** The direction that begins at an end, as kept. */
export function keptDirection(feature: Feature | null, end: End): JsonRecord | null {
  const from = end.toUpperCase();
  return listIn(propertiesOf(feature).directions).find((each) => each.from === from) ?? null;
}

/** The positions of the centreline as kept, each with whatever stands behind the two. */
export function keptLine(feature: Feature | null): readonly (readonly Json[])[] {
  const { coordinates } = recordIn(feature?.geometry) ?? {};
  if (!Array.isArray(coordinates)) return [];
  return coordinates.flatMap((each: Json) =>
    Array.isArray(each) ? [each as readonly Json[]] : [],
  );
}

/** Longitude and latitude of an end as kept. */
export function keptEnd(
  feature: Feature | null,
  end: End,
): readonly [number | null, number | null] {
  const position = keptLine(feature).at(end === 'a' ? 0 : -1) ?? [];
  return [numberIn(position[0]), numberIn(position[1])];
}

/** The elevation of an end as kept. */
export function keptElevation(feature: Feature | null, end: End): number | null {
  const { elevationM } = propertiesOf(feature);
  return Array.isArray(elevationM)
    ? numberIn((elevationM as readonly Json[])[end === 'a' ? 0 : 1])
    : null;
}
