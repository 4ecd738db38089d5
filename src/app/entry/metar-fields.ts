/**
 * What does a pasted METAR put into the fields of a flight's conditions?
 *
 * In: the fields as they stand, the text, the pilot's units, and what an earlier METAR put there. Out:
 * the new fields with each group as read, or what is wrong with the text. What the pilot typed stays:
 * a METAR fills what is empty, and what an earlier one filled.
 */
import type { ShownUnits } from '../../logbook/entry.ts';
import type { Problem } from '../../result.ts';
import { NO_CONDITIONS } from '../../weather/conditions.ts';
import { readMetar, withMetar, type MetarReading } from '../../weather/metar.ts';
import {
  conditionsUnits,
  fieldsFromConditions,
  type ConditionsFields,
} from './conditions-fields.ts';
import { showQuantity } from './shown-unit.ts';

/** One group of the report: as read, and whether the pilot's own entry stands instead. */
export interface MetarGroup {
  readonly name: 'Wind' | 'Temperature' | 'QNH';
  readonly words: string;
  readonly isOwnKept: boolean;
}

/** What a METAR makes of the fields. */
export type MetarEntered =
  | {
      readonly ok: true;
      readonly fields: ConditionsFields;
      /** What came from the METAR, to be told from what is typed afterwards. */
      readonly filled: Partial<ConditionsFields>;
      /** Where and when it was observed; empty where it does not say. */
      readonly from: string;
      readonly groups: readonly MetarGroup[];
      /** Groups that are not reported. */
      readonly notes: readonly Problem[];
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

const WIND_FIELDS = [
  ...(['isCalm', 'isVariable', 'windFrom', 'reference', 'windSpeed', 'gust'] as const),
  'windReportedAt' as const,
];

/**
 * Reads the METAR into the fields.
 *
 * Fails: as the reader of METARs does, with the group, what was found and what was expected.
 */
export function fieldsWithMetar(
  fields: ConditionsFields,
  text: string,
  units: ShownUnits,
  filledBefore: Partial<ConditionsFields>,
): MetarEntered {
  const read = readMetar(text);
  if (!read.ok) return { ok: false, problems: read.problems };
  const reading = read.value;
  const reported = fieldsFromConditions(
    { conditions: withMetar(NO_CONDITIONS, reading), aeroplaneId: null },
    units,
  );
  const isFree = (names: readonly (keyof ConditionsFields)[]): boolean =>
    names.every((name) => isEmpty(fields[name])) ||
    names.every((name) => fields[name] === filledBefore[name]);
  const groups: MetarGroup[] = [];
  let filled: Partial<ConditionsFields> = {};
  const take = (
    name: MetarGroup['name'],
    words: string | null,
    names: readonly (keyof ConditionsFields)[],
  ): void => {
    if (words === null) return;
    const isOwnKept = !isFree(names);
    groups.push({ name, words, isOwnKept });
    if (isOwnKept) return;
    filled = { ...filled, ...Object.fromEntries(names.map((each) => [each, reported[each]])) };
  };
  take('Wind', windWords(reading, units), WIND_FIELDS);
  take('Temperature', temperatureWords(reading, units), ['temperature']);
  take('QNH', figureWords(reading.qnhHpa, 'qnh', units), ['qnh']);
  return {
    ok: true,
    fields: { ...fields, ...filled },
    filled: { ...filledBefore, ...filled },
    from: [reading.station, reading.observed].filter((part) => part !== null).join(', '),
    groups,
    notes: read.problems,
  };
}

/**
 * The fields after the pilot changed some: a wind that was touched is the pilot's own, no longer the
 * one that was reported elsewhere.
 */
export function afterChange(
  fields: ConditionsFields,
  change: Partial<ConditionsFields>,
): ConditionsFields {
  const isWind = WIND_FIELDS.some((name) => name in change);
  return { ...fields, ...(isWind ? { windReportedAt: '' } : {}), ...change };
}

function isEmpty(value: string | boolean): boolean {
  return value === '' || value === false;
}

function windWords({ wind, sectorDeg }: MetarReading, units: ShownUnits): string | null {
  if (wind === null) return null;
  const { fromDeg, speedKt, gustKt } = wind;
  const unit = conditionsUnits(units).windSpeed;
  if (speedKt === 0 && gustKt === null) return 'calm';
  const from = fromDeg === null ? 'variable' : `${String(fromDeg).padStart(3, '0')}° true`;
  return [
    `${from} at ${showQuantity(speedKt, unit)} ${unit.symbol}`,
    ...(gustKt === null ? [] : [`gusting ${showQuantity(gustKt, unit)} ${unit.symbol}`]),
    ...(sectorDeg ? [`varying ${sectorDeg[0]}° to ${sectorDeg[1]}°`] : []),
  ].join(', ');
}

function temperatureWords({ tempC, dewPointC }: MetarReading, units: ShownUnits): string | null {
  const air = figureWords(tempC, 'temperature', units);
  const dew = figureWords(dewPointC, 'temperature', units);
  return air === null || dew === null ? air : `${air}, dew point ${dew}`;
}

function figureWords(
  kept: number | null,
  name: 'temperature' | 'qnh',
  units: ShownUnits,
): string | null {
  const unit = conditionsUnits(units)[name];
  return kept === null ? null : `${showQuantity(kept, unit)} ${unit.symbol}`;
}
