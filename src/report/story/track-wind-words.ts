/**
 * What does the track say of the wind? A check on the entered one.
 *
 * In: a flight, the pilot's units. Out: a sentence, with the reason where the track does not tell.
 */
import type { Flight } from '../../debrief/debrief.ts';
import { isUndetermined } from '../../result.ts';
import { figureLine, speedFigure, type PilotUnits } from '../figure-text.ts';

/** The sentence. */
export function trackWindWords({ wind }: Flight, units: PilotUnits): string {
  if (isUndetermined(wind)) return `The track does not tell the wind: ${wind.undetermined}.`;
  const speed = figureLine(speedFigure(wind.speedMps, units));
  const { fromDeg } = wind;
  if (isUndetermined(fromDeg)) {
    return `The track suggests a wind of ${speed}, direction not told: ${fromDeg.undetermined}.`;
  }
  const from = String(Math.round(fromDeg.value) % 360).padStart(3, '0');
  return `The track suggests a wind from ${from}° true, ${speed}, at the heights flown.`;
}
