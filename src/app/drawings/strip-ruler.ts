/**
 * The strip ruler: the strip on its tape with everything measured and expected there.
 *
 * In: the model and a width in CSS pixels. Out: the drawing, lying from 560 px up, standing below:
 * a phone is held upright, and so is the strip.
 */
import type { StripPicture } from '../../report/pictures/strip-picture.ts';
import type { Cursor, Drawing } from './drawing.ts';
import { rulerSpan } from './ruler-span.ts';
import { lyingRuler } from './strip-ruler-lying.ts';
import { standingRuler } from './strip-ruler-standing.ts';

/** Narrower drawings stand up, CSS pixels. */
export const STANDS_BELOW = 560;

/** Draws the ruler; `cursor.at` is alongM. */
export function stripRuler(
  picture: StripPicture,
  widthPx: number,
  cursor: Cursor | null = null,
): Drawing {
  // The approach began before the ground that is drawn: there the line does not hang here.
  const { fromM, toM } = rulerSpan(picture);
  const here = cursor && cursor.at >= fromM && cursor.at <= toM ? cursor : null;
  return widthPx < STANDS_BELOW
    ? standingRuler(picture, widthPx, here)
    : lyingRuler(picture, widthPx, here);
}
