/** Tuned numbers of take-offs: unit and reason. */

/** The run, lift-off and the first climb. */
export const TAKE_OFF = {
  /** Climb after lift-off: mean and sd, m/s, and how long it takes to build up, seconds: pulled up at a fifth of gravity, or after gathering speed just above the ground. */
  climbMps: 2.8,
  climbSdMps: 1.2,
  rampsS: [1.5, 3, 6, 10],
  /** Vertical speed that the model leaves out, after lift-off only. */
  wanderSdMps: 0.8,
  wanderTimeS: 4,
  /** Antenna rising as the gear unloads and the nose comes up before lift-off, metres. */
  riseM: 0.2,
  riseSdM: 0.15,
  riseS: 1.5,
  stepS: 0.4,
  /** Candidates that weigh less than this share of the likeliest in a rough look are not looked at closely. */
  negligibleShare: 1e-3,
  /** Candidates: from this share of the greatest speed on. */
  earliestShare: 0.4,
  /** Seconds of flight used after the last candidate. */
  afterS: 14,
  /** Lift-off speed as a share of that of the first climb, mean and sd: light aeroplanes leave the ground at 1.1 to 1.2 times their stalling speed and climb at 1.25 to 1.6 times it, some much faster (common practice, no source). Where no height says anything else it is taken for better known. */
  usualSpeed: { share: 0.82, sd: 0.15 },
  usualSpeedAlone: { share: 0.8, sd: 0.1 },
  /** A run faster than this share of the lift-off or approach speed that ends on the strip is a rejected take-off. */
  rejectedShare: 0.45,
  /** 50 ft in metres (definition). */
  screenM: 15.24,
} as const;
