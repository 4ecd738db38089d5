/**
 * The turf of a side view: the strip's surface, level beyond its ends.
 *
 * In: the ground of a strip, the scales. Out: heights above the threshold, and the path of the turf.
 */
import type { StripGround } from '../../report/pictures/strip-ground.ts';
import { valueAtPlace } from './band.ts';
import { pathThrough, type Point, type Scale } from './scale.ts';

/** The surface above the threshold, metres; level beyond the ends and where no elevation is known. */
export function riseAt({ surface }: StripGround, alongM: number): number {
  if (!surface) return 0;
  const last = surface.alongM.length - 1;
  if (alongM <= surface.alongM[0]) return surface.riseM[0];
  if (alongM >= surface.alongM[last]) return surface.riseM[last];
  const { riseM } = surface;
  return valueAtPlace({ alongM: surface.alongM, value: riseM, low: riseM, high: riseM }, alongM);
}

/** The turf down to the pixel `bottom`. */
export function turfPath(ground: StripGround, along: Scale, rise: Scale, bottom: number): string {
  const inner = Array.from(ground.surface?.alongM ?? []).filter(
    (alongM) => alongM > along.from && alongM < along.to,
  );
  const top = [along.from, ...inner, along.to].map((alongM): Point => [
    along.at(alongM),
    rise.at(riseAt(ground, alongM)),
  ]);
  return pathThrough([[along.at(along.from), bottom], ...top, [along.at(along.to), bottom]], true);
}
