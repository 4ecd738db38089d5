/** What must stand wherever a figure could be acted on, and how the figures are read. */
import { airspeedError, type PilotUnits } from './figure-text.ts';

/** The caution, a sentence a line. */
export const CAUTION_LINES: readonly string[] = [
  'An aid to debriefing; not for use in flight or for navigation, and no evidence about another pilot.',
  "The aeroplane's approved flight manual, the strip's operator, local rules and a qualified instructor come first.",
  'Satellite positions have errors: they are shown in the bands, not removed.',
  'An own factor describes past landings and promises nothing about the next.',
];

/** The caution in full, for prints, documents and the end of a report. */
export const CAUTION = CAUTION_LINES.join(' ');

/** The caution in short, for the line where planned figures stand. */
export const SHORT_CAUTION = 'an aid to debriefing; the flight manual comes first';

/** What an estimated airspeed is good for; a subject in the plural stands before it. */
export function airspeedCaution(units: PilotUnits): string {
  return `within ${airspeedError(units)}; they say nothing about a margin over the stall`;
}

/** Said once, above the tables. */
export const HOW_TO_READ: readonly string[] = [
  'Each measured figure is followed by its band, meant to hold the truth nine times in ten: 46 m 12–98.',
  'Metres count from the landing threshold. – means that there is no such figure or that the data cannot tell.',
];
