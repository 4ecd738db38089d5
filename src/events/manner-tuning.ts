/**
 * Tuned numbers of learning how a pilot arrives from touchdowns known from outside the log: units and
 * reasons as in tuning.ts.
 */
export const MANNER = {
  /**
   * The manner of pilots at large counts as so many landings: chosen on simulated pilots who keep and who
   * change their own (docs/decisions/0062).
   */
  priorLandings: 10,
  /** Error of a mark on the ground, paced or taped from the threshold, metres. */
  markSdM: 3,
  /** A place that is not even this likely to be so far from the touchdown teaches nothing. */
  leastChance: 0.001,
} as const;
