/** Numbers by which the strip of a pass is chosen among several; see pass-choice.ts. All are compared in metres. */

export const CHOICE = {
  /** A metre beyond the strip's end, where the aircraft was slow or lowest, counts as so many beside its centreline: strips are drawn some metres off, and rolls overrun. */
  beyondShare: 0.5,
  /** And no more than this for the run of a take-off, less than the handicap of an unknown place. */
  runBeforeM: 20,
  /** Nor more than this beyond ends that are a guess, where the strip may go on: less than that handicap too. */
  beyondGuessM: 20,
  /** A metre from where an approach was lowest to a strip still ahead counts as so many. */
  brokenOffShare: 0.1,
  /** Coming down over the strip by more than this, metres, and lowest in its last part or past its end, an approach was heading further on; each metre more is some 16 m of path (3.5 degrees), each counted like one ahead. */
  thresholdM: 15,
  highShare: 1.6,
  lastPartM: 150,
  /** Slow is less than this share of the mean speed over the metres of the pass: no light aeroplane flies so slowly, none taxies so fast (common practice, no source). */
  slowShare: 0.4,
  /** Without heights: each m/s lost and gained again over the strip, or in so many metres before it, counts for it like so many metres beside another. */
  sagM: 5,
  sagBeforeM: 150,
  /** Handicaps: a place nobody has kept, a direction not listed. */
  unknownM: 30,
  unlistedM: 5,
} as const;
