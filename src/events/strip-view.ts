/**
 * The flight as seen from one direction of one strip: along, across, and above its surface.
 *
 * In: motion and a strip frame. Out: columns with a slot for every fix; NaN where the aircraft is
 * far away. Heights keep the log's own datum: only differences mean anything before the ground tie.
 */
import { undetermined, type Undetermined } from '../result.ts';
import { completeDirections } from '../strips/declared-distances.ts';
import { createStripFrame, type StripFrame } from '../strips/strip-frame.ts';
import { ENDS_GUESSED, type Strip, type StripDirection } from '../strips/strip.ts';
import type { Motion } from '../track/motion.ts';
import { PLACE } from './place-tuning.ts';

/** One direction's columns. Lengths in metres, speeds in m/s. */
export interface StripView {
  /** The strip's id, or null for a place nobody has kept as a strip. */
  readonly stripId: string | null;
  readonly strip: Strip;
  readonly direction: StripDirection;
  /** False where the strip does not list this direction for landing. */
  readonly listed: boolean;
  /** False where the strip does not list this direction for taking off. */
  readonly listedForTakeOff: boolean;
  readonly frame: StripFrame;
  /** Where it begins and ends at the most, alongM: as drawn, or further out where its ends are guessed. */
  readonly beginsAlongM: number;
  readonly endsAlongM: number;
  /** Measured positions. */
  readonly alongM: Float64Array;
  readonly crossM: Float64Array;
  /** Smoothed positions. */
  readonly smoothAlongM: Float64Array;
  readonly smoothCrossM: Float64Array;
  readonly forwardMps: Float64Array;
  readonly rightMps: Float64Array;
  /** Elevation of the strip's surface below the aircraft; level beyond the ends; 0 where unknown. */
  readonly groundM: Float64Array;
  /** Smoothed height less the surface's elevation, on the log's datum. */
  readonly smoothAboveM: Float64Array;
}

/**
 * Looks at a flight from both directions of a strip; one that the strip does not list, or not for
 * landing, is looked at all the same and marked.
 *
 * @param stripId null for a place nobody has kept as a strip.
 */
export function viewsOf(motion: Motion, strip: Strip, stripId: string | null): StripView[] {
  return (['A', 'B'] as const).map((from) => {
    const listed = strip.directions.find((each) => each.from === from);
    const direction = listed ?? unlistedDirection(strip, from);
    const frame = createStripFrame(strip, direction);
    const uses = {
      listed: listed !== undefined && listed.use !== 'take-off',
      listedForTakeOff: listed !== undefined && listed.use !== 'landing',
    };
    return viewFromStrip(motion, strip, direction, frame, stripId, uses);
  });
}

/** The missing direction of a one-way strip: the whole strip, without displacement. */
function unlistedDirection(strip: Strip, from: 'A' | 'B'): StripDirection {
  const frame = createStripFrame(strip, strip.directions[0]);
  const reverse = strip.directions[0].from === 'A' ? 0 : 180;
  const both = completeDirections(null, frame.lengthM, frame.trueBearingDeg + reverse);
  return both[from === 'A' ? 0 : 1];
}

/** True where it is known where the strip begins and ends: it is a kept one, and its ends are no guess. */
export function knowsEnds({ stripId, strip }: StripView): boolean {
  return stripId !== null && !strip.endsGuessed;
}

/** Why nothing that counts from the ends of the strip can be told, null where it can. */
export function endsUnknown(view: StripView): Undetermined | null {
  if (view.stripId === null) return undetermined('no strip is known here');
  return knowsEnds(view) ? null : undetermined(ENDS_GUESSED);
}

/** As far as a slope that nobody entered goes on, alongM: to the strip's ends, and without end where those are a guess. */
export function slopeSpan({ strip, beginsAlongM, endsAlongM }: StripView): {
  fromM: number;
  toM: number;
} {
  return strip.endsGuessed
    ? { fromM: -Infinity, toM: Infinity }
    : { fromM: beginsAlongM, toM: endsAlongM };
}

/** So far a strip is taken to go on at the most beyond ends that are guessed, metres: as beyond the rolls of a place nobody has kept. */
const BEYOND_GUESSED_M = PLACE.beyondM;

/** Looks at a flight from one direction. */
function viewFromStrip(
  motion: Motion,
  strip: Strip,
  direction: StripDirection,
  frame: StripFrame,
  stripId: string | null,
  uses: Pick<StripView, 'listed' | 'listedForTakeOff'>,
): StripView {
  const n = motion.length;
  const { alongM, crossM } = frame.toAlongCross(motion.latDeg, motion.lonDeg);
  const smoothAlongM = new Float64Array(n);
  const smoothCrossM = new Float64Array(n);
  const forwardMps = new Float64Array(n);
  const rightMps = new Float64Array(n);
  const groundM = new Float64Array(n);
  const smoothAboveM = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const bearing = (frame.bearingAt(alongM[i]) * Math.PI) / 180;
    const east = Math.sin(bearing);
    const north = Math.cos(bearing);
    forwardMps[i] = motion.velocityEastMps[i] * east + motion.velocityNorthMps[i] * north;
    rightMps[i] = motion.velocityEastMps[i] * north - motion.velocityNorthMps[i] * east;
    const offEast = motion.smoothEastOffM[i];
    const offNorth = motion.smoothNorthOffM[i];
    smoothAlongM[i] = alongM[i] + offEast * east + offNorth * north;
    smoothCrossM[i] = crossM[i] + offEast * north - offNorth * east;
    const ground = frame.elevationMslM(smoothAlongM[i]);
    groundM[i] = Number.isNaN(ground) ? 0 : ground;
    smoothAboveM[i] = motion.smoothHeightM[i] - groundM[i];
  }
  const beyondM = stripId !== null && strip.endsGuessed ? BEYOND_GUESSED_M : 0;
  return {
    stripId,
    strip,
    direction,
    ...uses,
    frame,
    beginsAlongM: frame.nearEndAlongM - beyondM,
    endsAlongM: frame.farEndAlongM + beyondM,
    alongM,
    crossM,
    smoothAlongM,
    smoothCrossM,
    forwardMps,
    rightMps,
    groundM,
    smoothAboveM,
  };
}

/** Track relative to the landing direction, degrees, positive to the right, -180 to 180. */
export function trackDeg(view: StripView, i: number): number {
  return (Math.atan2(view.rightMps[i], view.forwardMps[i]) * 180) / Math.PI;
}
