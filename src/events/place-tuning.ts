/** Tuned numbers of places that are no known strip: unit and reason. */

/** Touches at places that are no known strip. */
export const TOUCH = {
  /** Lowest within this time either way, between a descent and a climb of this height. */
  aroundS: 60,
  climbM: 40,
  /** Straight and low for this long either side, with the speed down to this share of the final's. */
  lowS: 14,
  saggedShare: 0.82,
} as const;

/** Rolls at places that are no known strip. */
export const PLACE = {
  /** Slower flights than this (90th percentile, m/s) are no aeroplane's: a wing one can run with lands without a roll. */
  leastFlightMps: 14,
  /** Before a run and after a roll the aircraft stays slow at least this long, seconds. */
  slowForS: 6,
  /** A roll runs between these shares of the flight's typical speed. */
  slowShare: 0.2,
  fastShare: 0.5,
  /** Seconds and metres between the two, at least and at most: no aeroplane stops quicker (from 8 to 3 m/s at 3.5 m/s2) or takes longer. */
  leastS: 2,
  longestS: 60,
  leastM: 8,
  longestGapS: 10,
  /** Straight within metres, and no speed changes faster than wheels and brakes allow, m/s2. */
  straightM: 12,
  greatestMps2: 8,
  /** Rolls belong to one place within these limits. */
  sameLineDeg: 12,
  sameLineM: 60,
  sameLineReachM: 1500,
  /** How far the line is taken to go on beyond the rolls seen on it: touches may lie there, metres. */
  beyondM: 500,
  /** What is taken for its width and position error (radius of 95 times in 100), metres. */
  widthM: 30,
  positionErrorM: 25,
} as const;

/** Taxiing along the strip: backtracks, and what a strip is learned from beside rolls and runs. */
export const BACKTRACK = {
  /** Aligned with the strip within degrees, in a swerve on the way within more, and this near its middle or its half-width, metres. */
  alignedDeg: 15,
  swerveDeg: 30,
  besideM: 10,
  /** Speeds of a taxi that goes somewhere, m/s, and the least that it covers, metres. */
  slowestMps: 1.5,
  fastestMps: 15,
  leastM: 40,
  /** A halt up to this long does not end a backtrack, seconds. */
  haltS: 20,
  /** Speed gathered faster than this, m/s2, over seconds: a take-off run. Open throttles give 1.2 m/s2 and more, on soft grass too; taxiing takes half of that (common practice, no source). */
  throttleMps2: 1.1,
  throttleS: 4,
  /** Before a roll that ends by vacating the aircraft is already turning, seconds. */
  turningS: 3,
} as const;

/** Launches by something else than an own engine. */
export const LAUNCH = {
  /** On a winch: faster upward than light aeroplanes climb, m/s, and steeper over the ground, kept up for seconds within the first ones. */
  climbMps: 7,
  climbGradient: 0.35,
  climbS: 10,
  climbWithinS: 40,
  /** Engine noise (0 to 999) in the run and shortly after lift-off below which no engine runs aboard. */
  quietNoise: 200,
  listenS: 15,
} as const;
