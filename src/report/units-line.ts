/**
 * The pilot's units in a few signs, as they stand in the head of the page.
 *
 * In: settings. Out: `m · kt · UTC`.
 */
import type { SettingsRecord } from '../logbook/entry.ts';

/** Length, speed, zone. */
export function unitsLine({ units, timeZone }: SettingsRecord): string {
  return [units.length, units.speed, timeZone].join(' · ');
}
