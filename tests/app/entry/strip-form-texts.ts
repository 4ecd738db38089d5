/** Strips for the tests of their form: those of the demonstration, and fields of an invented one. */
import { readFileSync } from 'node:fs';
import { fieldsFromStrip, type StripFields } from '../../../src/app/entry/strip-fields.ts';
import {
  stripFromFields,
  type StripBefore,
  type StripMessages,
} from '../../../src/app/entry/strip-from-fields.ts';
import type { Feature, ShownUnits } from '../../../src/logbook/entry.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';

/** Metres of strip, feet of height. */
export const UNITS = makeSettings(0).units;
/** Feet everywhere. */
export const FEET: ShownUnits = { ...UNITS, length: 'ft' };

const DEMO = new URL('../../../tracks-sample/strips.geojson', import.meta.url);

/** The text of the demonstration's strips file. */
export const demoText = readFileSync(DEMO, 'utf8');
/** Its features. */
export const demoFeatures = (JSON.parse(demoText) as { features: Feature[] }).features;

/** A feature of the demonstration by the id of its strip. */
export function demoStrip(id: string): Feature {
  const found = demoFeatures.find(({ properties }) => (properties as { id?: string }).id === id);
  if (!found) throw new Error(`the demonstration has no strip ${id}`);
  return found;
}

/** The least that a new strip needs: 400 m to the east, by 0.0062 degrees at 54.7 north. */
export const NEW_STRIP = {
  name: 'Long Flat',
  surface: 'grass',
  width: '18',
  'a.lat': '54.7',
  'a.lon': '2.3',
  'b.lat': '54.7',
  'b.lon': '2.3062',
} as const;

/** What the form makes of the given fields, all others as `before` fills them. */
export function enter(
  change: Partial<StripFields>,
  before: Feature | null = null,
  { units = UNITS, otherIds = [] }: { units?: ShownUnits; otherIds?: string[] } = {},
) {
  const against: StripBefore = { feature: before, otherIds };
  return stripFromFields({ ...fieldsFromStrip(before, units), ...change }, units, against);
}

/** As `enter`, where it must be taken. */
export function entered(...args: Parameters<typeof enter>) {
  const read = enter(...args);
  if (!read.ok) throw new Error(JSON.stringify(read.messages));
  return read;
}

/** As `enter`, where it must be refused. */
export function messagesOf(...args: Parameters<typeof enter>): StripMessages {
  const read = enter(...args);
  return read.ok ? {} : read.messages;
}
