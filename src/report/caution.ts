/** What must stand wherever a figure could be acted on. */

/** The caution in full, for prints, documents and the end of a report. */
export const CAUTION =
  'An aid to debriefing; not for use in flight or for navigation, and no evidence about another pilot. ' +
  "The aeroplane's approved flight manual, the strip's operator, local rules and a qualified instructor come first. " +
  'Satellite positions have errors: they are shown in the bands, not removed. ' +
  'An own factor describes past landings and promises nothing about the next.';
