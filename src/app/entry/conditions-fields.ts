/**
 * How do the conditions of a flight stand in a form, and what do its fields say?
 *
 * In: conditions as kept and the pilot's units, or the texts of the fields. Out: the one or the
 * other, or a message for each field that is wrong. Nothing is assumed: an empty field was not
 * entered, and calm is a field of its own. The ranges are those of the reader of conditions.
 */
import type { ShownUnits } from '../../logbook/entry.ts';
import type { Conditions, EnteredWind, SurfaceState } from '../../weather/conditions.ts';
import { decodeConditions } from '../../weather/decode-conditions.ts';
import type { FieldMessages } from './field-messages.ts';
import {
  fieldsFromLimits,
  limitMessage,
  limitsFromFields,
  type GateLimitFields,
} from './gate-limit-fields.ts';
import {
  inTypedUnit,
  massUnit,
  pressureUnit,
  readQuantity,
  sameUnit,
  showQuantity,
  speedUnit,
  temperatureUnit,
  type FieldUnit,
} from './shown-unit.ts';

/** The texts of the form; an empty one was not entered. */
export interface ConditionsFields extends GateLimitFields {
  readonly isCalm: boolean;
  readonly isVariable: boolean;
  readonly windFrom: string;
  readonly reference: '' | EnteredWind['reference'];
  readonly windSpeed: string;
  readonly gust: string;
  /** Where the wind was reported, when it is not the strip's own; empty for the pilot's own. */
  readonly windReportedAt: string;
  readonly temperature: string;
  readonly qnh: string;
  readonly landingMass: string;
  readonly takeOffMass: string;
  readonly surface: '' | SurfaceState;
  /** A label of the aeroplane's tables. */
  readonly flap: string;
  readonly aeroplane: string;
  readonly effort: '' | NonNullable<Conditions['effort']>;
}

/** What a form was filled from: an untouched field gives this back exactly. */
export interface ConditionsBefore {
  readonly conditions: Conditions | null;
  readonly aeroplaneId: string | null;
}

/** What the fields say. */
export type EnteredConditions =
  | { readonly ok: true; readonly conditions: Conditions; readonly aeroplaneId: string | null }
  | { readonly ok: false; readonly messages: FieldMessages<keyof ConditionsFields> };

type Quantity =
  'windFrom' | 'windSpeed' | 'gust' | 'temperature' | 'qnh' | 'landingMass' | 'takeOffMass';

/** The unit of each figure of the form. */
export function conditionsUnits(units: ShownUnits): Readonly<Record<Quantity, FieldUnit>> {
  return {
    windFrom: sameUnit('°'),
    windSpeed: speedUnit(units),
    gust: speedUnit(units),
    temperature: temperatureUnit(units),
    qnh: pressureUnit(units),
    landingMass: massUnit(units),
    takeOffMass: massUnit(units),
  };
}

/** The fields as conditions fill them. */
export function fieldsFromConditions(
  { conditions, aeroplaneId }: ConditionsBefore,
  units: ShownUnits,
): ConditionsFields {
  const unitOf = conditionsUnits(units);
  const kept = keptFigures(conditions);
  const show = (name: Quantity) => showQuantity(kept[name], unitOf[name]);
  const wind = conditions?.wind ?? null;
  const isCalm = wind !== null && saysCalm(wind);
  const hasDirection = wind !== null && wind.fromDeg !== null;
  return {
    isCalm,
    isVariable: wind !== null && !isCalm && !hasDirection,
    windFrom: show('windFrom'),
    // A wind without a direction has none to refer: with a new direction it is asked again.
    reference: hasDirection ? wind.reference : '',
    windSpeed: isCalm ? '' : show('windSpeed'),
    gust: show('gust'),
    windReportedAt: conditions?.windReportedAt ?? '',
    temperature: show('temperature'),
    qnh: show('qnh'),
    landingMass: show('landingMass'),
    takeOffMass: show('takeOffMass'),
    surface: conditions?.surface ?? '',
    flap: conditions?.flap ?? '',
    aeroplane: aeroplaneId ?? conditions?.aeroplane ?? '',
    effort: conditions?.effort ?? '',
    ...fieldsFromLimits(conditions?.gateLimits ?? null, units),
  };
}

/**
 * The conditions that the fields say, judged by the reader of conditions.
 *
 * Fails: a message for each wrong field, what was found and what was expected.
 */
export function conditionsFromFields(
  fields: ConditionsFields,
  units: ShownUnits,
  before: ConditionsBefore,
): EnteredConditions {
  const unitOf = conditionsUnits(units);
  const kept = keptFigures(before.conditions);
  const messages: FieldMessages<keyof ConditionsFields> = {};
  const read = (name: Quantity): number | null => {
    const entered = readQuantity(fields[name], unitOf[name], kept[name]);
    if (!entered.ok) messages[name] = entered.message;
    return entered.ok ? entered.value : null;
  };
  const wasAeroplane = before.aeroplaneId ?? before.conditions?.aeroplane ?? '';
  const isSameAeroplane = fields.aeroplane === wasAeroplane;
  const wind = readWind(fields, read, before.conditions?.wind ?? null, messages);
  const { windReportedAt } = fields;
  const limitsBefore = before.conditions?.gateLimits ?? null;
  const gateLimits = limitsFromFields(fields, units, limitsBefore, messages);
  const conditions: Conditions = {
    wind,
    ...(wind !== null && windReportedAt !== '' ? { windReportedAt } : {}),
    tempC: read('temperature'),
    qnhHpa: read('qnh'),
    massKg: read('landingMass'),
    takeOffMassKg: read('takeOffMass'),
    surface: orNull(fields.surface),
    flap: orNull(fields.flap),
    // The chosen one is told beside the conditions; an old one among them must not outlive it.
    aeroplane: isSameAeroplane ? (before.conditions?.aeroplane ?? null) : null,
    factorSet: before.conditions?.factorSet ?? null,
    effort: orNull(fields.effort),
    ...(gateLimits === null ? {} : { gateLimits }),
  };
  judge(conditions, fields, units, messages);
  if (Object.keys(messages).length > 0) return { ok: false, messages };
  const aeroplaneId = isSameAeroplane ? before.aeroplaneId : orNull(fields.aeroplane);
  return { ok: true, conditions, aeroplaneId };
}

/** Calm, as it is kept: no speed, no direction, no gust. */
const CALM: EnteredWind = { fromDeg: null, reference: 'true', speedKt: 0, gustKt: null };

function saysCalm({ fromDeg, speedKt, gustKt }: EnteredWind): boolean {
  return fromDeg === null && speedKt === 0 && gustKt === null;
}

function keptFigures(conditions: Conditions | null): Readonly<Record<Quantity, number | null>> {
  const wind = conditions?.wind ?? null;
  return {
    windFrom: wind?.fromDeg ?? null,
    windSpeed: wind?.speedKt ?? null,
    gust: wind?.gustKt ?? null,
    temperature: conditions?.tempC ?? null,
    qnh: conditions?.qnhHpa ?? null,
    landingMass: conditions?.massKg ?? null,
    takeOffMass: conditions?.takeOffMassKg ?? null,
  };
}

/** The wind of the fields; null where none was entered or something is wrong. */
function readWind(
  fields: ConditionsFields,
  read: (name: Quantity) => number | null,
  before: EnteredWind | null,
  messages: FieldMessages<keyof ConditionsFields>,
): EnteredWind | null {
  if (fields.isCalm) return before && saysCalm(before) ? before : CALM;
  const fromDeg = fields.isVariable ? null : read('windFrom');
  const speedKt = read('windSpeed');
  const gustKt = read('gust');
  const isTyped = (text: string) => text.trim() !== '';
  const hasDirection = !fields.isVariable && isTyped(fields.windFrom);
  if (!isTyped(fields.windSpeed) && (hasDirection || isTyped(fields.gust) || fields.isVariable)) {
    messages.windSpeed = 'found nothing, expected the speed; calm has its own button';
  }
  if (isTyped(fields.windSpeed) && !hasDirection && !fields.isVariable) {
    messages.windFrom = 'found nothing, expected where it blows from, or "variable"';
  }
  if (hasDirection && fields.reference === '') {
    messages.reference = 'found neither, expected true or magnetic';
  }
  if (speedKt === null) return null;
  const isStillWithout = before !== null && before.fromDeg === null && fields.isVariable;
  const reference = isStillWithout ? before.reference : fields.reference || 'true';
  return { fromDeg, reference, speedKt, gustKt };
}

/** Sets the reader's problems beside the fields that they name. */
function judge(
  conditions: Conditions,
  fields: ConditionsFields,
  units: ShownUnits,
  messages: FieldMessages<keyof ConditionsFields>,
): void {
  const unitOf = conditionsUnits(units);
  const document = { schema: 1, kind: 'conditions', all: conditions };
  const judged = decodeConditions(JSON.stringify(document));
  if (judged.ok) return;
  for (const { where, message } of judged.problems) {
    const path = where.replace(/^all\./, '');
    const limit = limitMessage(path, message, fields, units);
    if (limit) {
      messages[limit.field] ??= limit.message;
      continue;
    }
    const name = FIELD_OF[path];
    if (name === undefined) throw new Error(`no field of the form answers to ${where}: ${message}`);
    messages[name] ??= isQuantity(name, unitOf)
      ? inTypedUnit(inWords(message), fields[name], unitOf[name])
      : inWords(message);
  }
}

const FIELD_OF: Readonly<Partial<Record<string, keyof ConditionsFields>>> = {
  wind: 'gust',
  'wind.fromDeg': 'windFrom',
  'wind.speedKt': 'windSpeed',
  'wind.gustKt': 'gust',
  tempC: 'temperature',
  qnhHpa: 'qnh',
  massKg: 'landingMass',
  takeOffMassKg: 'takeOffMass',
  flap: 'flap',
  surface: 'surface',
};

function isQuantity(
  name: keyof ConditionsFields,
  unitOf: Readonly<Record<Quantity, FieldUnit>>,
): name is Quantity {
  return name in unitOf;
}

/** The names of a document's fields, as the form calls them. */
function inWords(message: string): string {
  return message.replace('expected gustKt at or above speedKt', 'expected a gust at or above it');
}

function orNull<T extends string>(text: '' | T): T | null {
  return text === '' ? null : text;
}
