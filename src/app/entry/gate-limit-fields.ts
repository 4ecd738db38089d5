/**
 * How do the pilot's own limits for a final stand in a form, and what do its fields say?
 *
 * In: limits as kept and the pilot's units, or the texts of the fields. Out: the one or the other,
 * or a message for each field that is wrong. A figure without either end is not limited; one with
 * only one end is asked for the other. The ranges are those of the reader of conditions.
 */
import type { ShownUnits } from '../../logbook/entry.ts';
import { NBSP } from '../../report/figure-text.ts';
import type { GateLimits, Limits } from '../../weather/gate-limits.ts';
import type { FieldMessages } from './field-messages.ts';
import {
  inTypedUnit,
  lengthUnit,
  readQuantity,
  sameUnit,
  showQuantity,
  speedUnit,
  verticalSpeedUnit,
  type FieldUnit,
} from './shown-unit.ts';

/** Figures of a gate that may be limited, in the order of the form. */
export const LIMITED = ['airspeed', 'groundSpeed', 'descent', 'path', 'centreline'] as const;
export type Limited = (typeof LIMITED)[number];
/** The two fields of a figure. */
export type LimitField = `${Limited}${'Least' | 'Most'}`;

/** The texts of the form. */
export interface GateLimitFields extends Readonly<Record<LimitField, string>> {
  /** Height of the highest gate that is held against the limits, feet. */
  readonly limitsFrom: `${GateLimits['fromFt']}`;
}

/** Gates from which limits may count; the highest first, which leaves none out. */
export const LIMITS_FROM = ['500', '300', '200', '100', '50'] as const;

const KEPT_AS = {
  airspeed: 'airspeedKt',
  groundSpeed: 'groundSpeedKt',
  descent: 'descentRateFpm',
  path: 'pathDeg',
  centreline: 'crossM',
} as const;

/**
 * The unit of each figure. Beside the centreline both ends are typed as distances, the one to the
 * left and the one to the right; kept is the left as a negative number.
 */
export function limitUnit(of: Limited, end: 'Least' | 'Most', units: ShownUnits): FieldUnit {
  if (of === 'descent') return verticalSpeedUnit(units);
  if (of === 'path') return sameUnit('°');
  if (of !== 'centreline') return speedUnit(units);
  const length = lengthUnit(units);
  return end === 'Least' ? { ...length, scale: -length.scale } : length;
}

/** The fields as limits fill them; all empty where there are none. */
export function fieldsFromLimits(limits: GateLimits | null, units: ShownUnits): GateLimitFields {
  const fields: Partial<Record<LimitField, string>> = {};
  for (const of of LIMITED) {
    const pair = limits?.[KEPT_AS[of]] ?? [null, null];
    fields[`${of}Least`] = showQuantity(pair[0], limitUnit(of, 'Least', units));
    fields[`${of}Most`] = showQuantity(pair[1], limitUnit(of, 'Most', units));
  }
  const limitsFrom = `${limits?.fromFt ?? 500}` as const;
  return { ...(fields as Record<LimitField, string>), limitsFrom };
}

/**
 * The limits that the fields say; null where no figure is limited.
 *
 * @param before what the fields were filled from: an untouched field gives it back exactly
 * @param messages gets what is wrong with single texts
 */
export function limitsFromFields(
  fields: GateLimitFields,
  units: ShownUnits,
  before: GateLimits | null,
  messages: FieldMessages<LimitField>,
): GateLimits | null {
  const pairOf = (of: Limited): Limits | null => {
    const pair = before?.[KEPT_AS[of]] ?? [null, null];
    const read = (end: 'Least' | 'Most', kept: number | null): number | null => {
      const entered = readQuantity(fields[`${of}${end}`], limitUnit(of, end, units), kept);
      if (!entered.ok) messages[`${of}${end}`] = entered.message;
      // The left of the centreline is kept with its sign changed: no minus zero.
      return entered.ok && entered.value !== null ? entered.value + 0 : null;
    };
    const [least, most] = [read('Least', pair[0]), read('Most', pair[1])];
    if (least !== null && most !== null) return [least, most];
    const lacking = least === null ? (`${of}Least` as const) : (`${of}Most` as const);
    const isHalf = (least === null) !== (most === null);
    if (isHalf) messages[lacking] ??= 'found nothing, expected both ends of the limit, or neither';
    return null;
  };
  const limits: GateLimits = {
    fromFt: Number(fields.limitsFrom) as GateLimits['fromFt'],
    airspeedKt: pairOf('airspeed'),
    groundSpeedKt: pairOf('groundSpeed'),
    descentRateFpm: pairOf('descent'),
    pathDeg: pairOf('path'),
    crossM: pairOf('centreline'),
  };
  return LIMITED.some((of) => limits[KEPT_AS[of]] !== null) ? limits : null;
}

/**
 * Where a problem of the reader stands in the form, and how it is said there; null where it is about
 * something else.
 *
 * @param where the reader's path, such as `gateLimits.airspeedKt.1`
 */
export function limitMessage(
  where: string,
  message: string,
  fields: GateLimitFields,
  units: ShownUnits,
): { readonly field: LimitField; readonly message: string } | null {
  const found = /^gateLimits\.(?<name>\w+)(?:\.(?<index>[01]))?$/.exec(where)?.groups;
  const of = LIMITED.find((each) => KEPT_AS[each] === found?.name);
  if (!of) return null;
  const index = found?.index;
  const end = index === '1' ? 'Most' : 'Least';
  const field = `${of}${end}` as const;
  if (index === undefined) {
    return { field, message: of === 'centreline' ? LEFT_PAST_RIGHT : message };
  }
  const unit = limitUnit(of, end, units);
  const told = inTypedUnit(message, fields[field], unit);
  // Typed as a distance to the left, kept as a negative one: the message shows what was typed.
  const isTurned = unit.scale < 0 && told === message;
  return { field, message: isTurned ? message.replace(/^found -/, 'found ') : told };
}

const LEFT_PAST_RIGHT =
  'the left limit lies right of the right one, expected the left one on the left';

/** The limits in one line, for a closed form; empty where there are none. */
export function limitsLine(fields: GateLimitFields, units: ShownUnits): string {
  const limited = LIMITED.flatMap((of) => {
    const [least, most] = [fields[`${of}Least`].trim(), fields[`${of}Most`].trim()];
    if (least === '' || most === '') return [];
    const { symbol } = limitUnit(of, 'Most', units);
    const unit = symbol === '°' ? symbol : NBSP + symbol;
    if (of === 'centreline') return [`${least} left to ${most}${unit} right of the centreline`];
    return [`${LIMIT_WORDS[of]} ${least} to ${most}${unit}`];
  });
  return limited.length === 0
    ? ''
    : `from ${fields.limitsFrom}${NBSP}ft down: ${limited.join(', ')}`;
}

/** What is limited, in words. */
const LIMIT_WORDS: Readonly<Record<Limited, string>> = {
  airspeed: 'airspeed',
  groundSpeed: 'ground speed',
  descent: 'descent',
  path: 'path',
  centreline: 'centreline',
};

/** The label of a field: `Airspeed, least`. */
export function limitLabel(field: LimitField): string {
  if (field === 'centrelineLeast') return 'Left of the centreline, most';
  if (field === 'centrelineMost') return 'Right of the centreline, most';
  const [, of, end] = /^(.*)(Least|Most)$/.exec(field) ?? [];
  const words = LIMIT_WORDS[of as Limited];
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}, ${end.toLowerCase()}`;
}

/** The fields in the order of the form. */
export const LIMIT_FIELDS: readonly LimitField[] = LIMITED.flatMap((of) => [
  `${of}Least` as const,
  `${of}Most` as const,
]);
