/** Tuned numbers of circuits, joins and the wind: unit and reason. */

/** Legs of a circuit. */
export const LEG = {
  /** A leg's track is within this angle of its name's direction, degrees: half way to the next leg. */
  halfTurnDeg: 45,
  /** A shorter stretch is part of a turn, seconds. */
  leastS: 4,
  /** A turn has begun once the track leaves the settled track of the leg before by this, degrees. */
  turnBeganDeg: 12,
  /** A circuit is flown within this distance of the strip, metres; further out it is a transit. */
  reachM: 6000,
  /** A circuit is joined within this distance of the threshold, metres, or this many times the downwind spacing. */
  leastReachM: 1800,
  reachPerSpacing: 2.5,
  /** Downwind lies this far to the side at least, metres: nearer is a pass along the strip. */
  leastSpacingM: 150,
  /** Longest circuit, seconds. */
  longestS: 1200,
} as const;

/** How a circuit was joined. */
export const JOIN = {
  /** Overhead: over the strip within this distance of its centreline and ends, metres. */
  overheadM: 400,
  /** Higher over the strip than the downwind leg by this factor, or by metres where the heights are small. */
  higherShare: 1.25,
  /** At most this long before the joined leg, seconds. */
  withinS: 360,
} as const;

/** Wind from the track. */
export const WIND = {
  /** Ground speeds this far apart are compared, seconds: airspeed hardly changes, the track may turn. */
  stepS: 5,
  /** What is believed beforehand of each component, m/s. */
  priorSdMps: 9,
  /** Least scatter of the airspeed over one step, m/s: gusts and hands. */
  leastScatterMps: 0.5,
  /** A step that turns less than this tells scatter, not wind, degrees. */
  straightDeg: 4,
  /** Total turning needed, degrees: less shows one side of the wind only. */
  leastTurnDeg: 150,
  /** Airspeed changes go with turns (base is flown slower than downwind): bands are widened by this. */
  widen: 1.6,
} as const;
