/**
 * One direction of a kept strip with its frame: what is landed on, or would be.
 *
 * In: a strip and a designator. Out: the place; null where the strip lists no such direction.
 */
import { createStripFrame, type StripFrame } from '../strips/strip-frame.ts';
import type { Strip, StripDirection } from '../strips/strip.ts';

/** One direction of a strip with its frame. */
export interface StripPlace {
  readonly strip: Strip;
  readonly direction: StripDirection;
  readonly frame: StripFrame;
}

/** The direction of a designator; null where the strip lists none of that name. */
export function stripPlaceOf(strip: Strip, designator: string): StripPlace | null {
  const direction = strip.directions.find((each) => each.designator === designator);
  return direction ? { strip, direction, frame: createStripFrame(strip, direction) } : null;
}
