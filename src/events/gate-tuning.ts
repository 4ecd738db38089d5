/** Tuned numbers of heights passed in the air, 50 ft after take-off and the gates of a final: unit and reason. */

/** The climb to 50 ft. */
export const SCREEN = {
  /** Seconds of the run before the earliest lift-off whose heights give its level. */
  levelS: 15,
  /** Drift of a satellite height from the run to 50 ft, some 15 s later, metres. */
  driftSdM: 2,
  /** 50 ft is looked for until so many seconds after the latest lift-off. */
  searchS: 90,
  /** Drift of a pressure sensor itself, m2/s. */
  pressureDriftRate: 0.01,
  /** What the smoothed climb may miss between two fixes, m/s2 of their interval squared, one sd: climbs change by 1 to 2 m/s within a second or two after lift-off. */
  bendMps2: 0.06,
} as const;

/** What smoothed speeds on a final, and on a take-off run, are off by. */
export const FINAL = {
  /** Share of the smoother's white jerk that a steady final or run has: two simulators fly finals with 0.01 to 0.02 m2/s5, where the smoother allows for 0.35. */
  jerkShare: 0.06,
  /** Drift of a receiver's positions and satellite heights, as a variance rate over their white noise, m2/s for each metre: noisy receivers wander more (common practice, no source). */
  levelDriftMps: 0.14,
  heightDriftMps: 0.32,
  /** In faster logs noise hangs together from fix to fix: it is judged on means of so many seconds. */
  blockS: 1.4,
  /** A bend of the smoothed speed is told from fixes no further apart than so many times the smoother's own time: a fix every 2 s of a usual receiver tells it, one every 4 s does not and holds without. */
  bendReaches: 2.5,
  /** Flattest descent that a height's error is carried along, m/s. */
  leastSinkMps: 0.3,
} as const;
