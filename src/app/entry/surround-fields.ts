/**
 * How do an obstacle, an area to avoid or a path stand in a form?
 *
 * In: the kept feature, or the texts of name and height. Out: the one or the other, or messages. The
 * reader of strips files judges; everything else of the feature survives.
 */
import type { Feature, ShownUnits } from '../../logbook/entry.ts';
import { decodeStrips } from '../../strips/decode-strips.ts';
import { numberIn, propertiesOf, textIn, withValues } from './feature-parts.ts';
import type { FieldMessages } from './field-messages.ts';
import { heightUnit, inTypedUnit, readQuantity, showQuantity } from './shown-unit.ts';

/** From where an obstacle's height counts: the property that keeps it. */
export const HEIGHT_KINDS = [
  { value: 'heightM', words: 'above the ground' },
  { value: 'topAboveThresholdM', words: 'above the nearer threshold' },
  { value: 'topMslM', words: 'above the sea' },
] as const;

type HeightKind = (typeof HEIGHT_KINDS)[number]['value'];

/** The texts of the form. */
export interface SurroundFields {
  readonly name: string;
  readonly height: string;
  /** Only for obstacles. */
  readonly heightKind: HeightKind;
}

/** What the fields say. */
export type EnteredSurround =
  | { readonly ok: true; readonly feature: Feature }
  | { readonly ok: false; readonly messages: FieldMessages<keyof SurroundFields> };

/** The fields as a feature fills them. */
export function fieldsFromSurround(feature: Feature, units: ShownUnits): SurroundFields {
  const properties = propertiesOf(feature);
  const { height, heightKind } = keptHeight(feature);
  return {
    name: textIn(properties.name),
    height: showQuantity(height, heightUnit(units)),
    heightKind,
  };
}

/** The feature that the fields make. Fails: a message for each wrong field. */
export function surroundFromFields(
  fields: SurroundFields,
  units: ShownUnits,
  before: Feature,
): EnteredSurround {
  const kept = propertiesOf(before);
  const { height, heightKind } = keptHeight(before);
  const read = readQuantity(fields.height, heightUnit(units), height);
  if (!read.ok) return { ok: false, messages: { height: read.message } };
  const isObstacle = kept.kind === 'obstacle';
  if (isObstacle && read.value === null) {
    return {
      ok: false,
      messages: { height: 'found nothing, expected the height of the obstacle' },
    };
  }
  const shown = fieldsFromSurround(before, units);
  const isUntouched = fields.height === shown.height && heightKind === fields.heightKind;
  const changed = isObstacle
    ? { heightM: null, topAboveThresholdM: null, topMslM: null, [fields.heightKind]: read.value }
    : { belowMslM: read.value };
  const heights = isUntouched ? {} : changed;
  const properties = withValues(kept, { name: fields.name.trim() || null, ...heights });
  const feature: Feature = { ...before, properties };
  const judged = decodeStrips(JSON.stringify({ type: 'FeatureCollection', features: [feature] }));
  if (judged.ok) return { ok: true, feature };
  const messages: FieldMessages<keyof SurroundFields> = {};
  for (const { message } of judged.problems) {
    const text = message.replace(/^[\w.[\]]+: /, '');
    if (message.startsWith('name')) messages.name ??= text;
    else messages.height ??= inTypedUnit(text, fields.height, heightUnit(units));
  }
  return { ok: false, messages };
}

/** Height and what it counts from: the most exact of those given, as the reader takes it. */
function keptHeight(feature: Feature): { height: number | null; heightKind: HeightKind } {
  const properties = propertiesOf(feature);
  if (properties.kind !== 'obstacle') {
    return { height: numberIn(properties.belowMslM), heightKind: 'topMslM' };
  }
  const order: readonly HeightKind[] = ['topMslM', 'topAboveThresholdM', 'heightM'];
  const heightKind = order.find((each) => numberIn(properties[each]) !== null) ?? 'heightM';
  return { height: numberIn(properties[heightKind]), heightKind };
}
