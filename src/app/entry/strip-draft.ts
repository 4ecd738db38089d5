/**
 * What does a new strip begin with, where a landing showed the place?
 *
 * In: the two ends of a roll as the address carries them, `lat,lon` each. Out: a feature that fills a
 * form and is no strip yet, its ends marked as guessed; null where the address says something else.
 */
import type { Feature } from '../../logbook/entry.ts';

/** The beginning of a new strip. */
export function draftFromEnds(ends: readonly string[]): Feature | null {
  const coordinates = ends.map((end) => end.split(',').map(Number).reverse());
  const isLine =
    coordinates.length === 2 &&
    coordinates.every((each) => each.length === 2 && each.every(Number.isFinite));
  if (!isLine) return null;
  return {
    type: 'Feature',
    properties: { kind: 'strip', endsGuessed: true },
    geometry: { type: 'LineString', coordinates },
  };
}
