/**
 * Which settings can be chosen, in words, and what do the fields of figures say?
 *
 * In: settings as kept, or texts. Out: choices for the form; settings or messages. The logbook's own
 * reader judges.
 */
import type { SettingsRecord, ShownUnits } from '../../logbook/entry.ts';
import { decodeEntry } from '../../logbook/decode-logbook.ts';
import type { FactorSet } from '../../performance/factor-sets/factor-set.ts';
import { PUBLISHED_SETS } from '../../performance/factor-sets/published.ts';
import type { FieldMessages } from './field-messages.ts';
import { readNumber } from './number-text.ts';

/** A unit to choose. */
interface UnitWords<K extends keyof ShownUnits> {
  readonly name: K;
  readonly label: string;
  readonly options: readonly { readonly value: ShownUnits[K]; readonly words: string }[];
}

/** Every kind of quantity whose unit can be chosen. */
export const UNIT_CHOICES: readonly { [K in keyof ShownUnits]: UnitWords<K> }[keyof ShownUnits][] =
  [
    {
      name: 'length',
      label: 'Lengths, widths',
      options: [
        { value: 'm', words: 'metres' },
        { value: 'ft', words: 'feet' },
      ],
    },
    {
      name: 'height',
      label: 'Heights',
      options: [
        { value: 'ft', words: 'feet' },
        { value: 'm', words: 'metres' },
      ],
    },
    {
      name: 'distance',
      label: 'Distances flown',
      options: [
        { value: 'NM', words: 'nautical miles' },
        { value: 'km', words: 'kilometres' },
        { value: 'mile', words: 'statute miles' },
      ],
    },
    {
      name: 'speed',
      label: 'Speeds',
      options: [
        { value: 'kt', words: 'knots' },
        { value: 'mph', words: 'miles an hour' },
        { value: 'km/h', words: 'kilometres an hour' },
      ],
    },
    {
      name: 'verticalSpeed',
      label: 'Climb and descent',
      options: [
        { value: 'ft/min', words: 'feet a minute' },
        { value: 'm/s', words: 'metres a second' },
      ],
    },
    {
      name: 'mass',
      label: 'Masses',
      options: [
        { value: 'kg', words: 'kilograms' },
        { value: 'lb', words: 'pounds' },
      ],
    },
    {
      name: 'pressure',
      label: 'Pressure',
      options: [
        { value: 'hPa', words: 'hectopascal' },
        { value: 'inHg', words: 'inches of mercury' },
      ],
    },
    {
      name: 'temperature',
      label: 'Temperature',
      options: [
        { value: 'C', words: 'degrees Celsius' },
        { value: 'F', words: 'degrees Fahrenheit' },
      ],
    },
  ];

/** The settings in one sentence. */
export function settingsSentence({ units, timeZone }: SettingsRecord): string {
  const words = (name: keyof ShownUnits) =>
    UNIT_CHOICES.find((each) => each.name === name)?.options.find(
      ({ value }) => value === units[name],
    )?.words ?? units[name];
  const length = words('length');
  const sizes =
    length === words('height') ? length : `${length} of strip, ${words('height')} of height`;
  const times = timeZone === 'UTC' ? 'in UTC' : `as in ${timeZone.replaceAll('_', ' ')}`;
  return `Shown in ${sizes} and ${words('speed')}, times ${times}.`;
}

/** Factor sets to choose; the default one is kept as "none chosen". */
export function factorSetChoices(
  own: readonly FactorSet[],
): readonly { value: string; words: string; note: string }[] {
  const words = ({ name }: FactorSet, index: number): string => {
    if (index === 0) return `${name}, the default`;
    return index < PUBLISHED_SETS.length ? name : `${name}, your own`;
  };
  return [...PUBLISHED_SETS, ...own].map((set, index) => ({
    value: set.id,
    words: words(set, index),
    note: `safety ${set.landing.safety.factor} landing, ${set.takeOff.safety.factor} take-off`,
  }));
}

/** The choice as settings keep it: null for the default. */
export function keptFactorSet(id: string): string | null {
  return id === PUBLISHED_SETS[0].id ? null : id;
}

/** The id of the set that settings name, for the list. */
export function shownFactorSet(kept: string | null): string {
  return kept ?? PUBLISHED_SETS[0].id;
}

/** Limits of being current as texts. */
export type CurrencyFields = Readonly<Record<keyof SettingsRecord['currency'], string>>;

/** The texts of the limits; empty for none. */
export function currencyFields({ currency }: SettingsRecord): CurrencyFields {
  const show = (value: number | null) => (value === null ? '' : String(value));
  return {
    landingsIn90Days: show(currency.landingsIn90Days),
    daysSinceStripLanding: show(currency.daysSinceStripLanding),
  };
}

/** Settings with the limits as typed. Fails: a message for each wrong field. */
export function withCurrency(
  settings: SettingsRecord,
  fields: CurrencyFields,
):
  | { readonly ok: true; readonly settings: SettingsRecord }
  | { readonly ok: false; readonly messages: FieldMessages<keyof CurrencyFields> } {
  const messages: FieldMessages<keyof CurrencyFields> = {};
  const read = (name: keyof CurrencyFields, unit: string): number | null => {
    const typed = readNumber(fields[name], unit);
    if (typed.kind === 'wrong') messages[name] = typed.message;
    const value = typed.kind === 'number' ? typed.value : null;
    if (value !== null && !Number.isInteger(value)) {
      messages[name] = `found ${value}, expected a whole number of ${unit}`;
    }
    return value;
  };
  const currency = {
    landingsIn90Days: read('landingsIn90Days', 'landings'),
    daysSinceStripLanding: read('daysSinceStripLanding', 'days'),
  };
  const changed: SettingsRecord = { ...settings, currency };
  const judged = decodeEntry(changed);
  if (!judged.ok) {
    for (const name of Object.keys(currency) as (keyof CurrencyFields)[]) {
      const found = judged.problems.find(({ where, message }) =>
        `${where} ${message}`.includes(name),
      );
      if (found) messages[name] ??= /found .*$/s.exec(found.message)?.[0] ?? found.message;
    }
  }
  return Object.keys(messages).length > 0
    ? { ok: false, messages }
    : { ok: true, settings: changed };
}
