/** Tuned numbers of learning a strip: unit and reason. */
export const LEARN = {
  /** Receiver drift across the strip: 2 to 3 m with a correlation time of minutes; upward about twice that. */
  driftSdM: 2.2,
  upDriftSdM: 4,
  driftTimeS: 150,
  /** Error of the first or last place of a trace along the strip: drift, noise, a receiver's delay at speed; metres. */
  endSdM: 3,
  /** How far beside the middle a pilot rolls, from roll to roll, and weaves within one; metres (common practice, no source). */
  besideSdM: 2,
  weaveSdM: 1.3,
  weaveLengthM: 100,
  /** Bumps and hollows of a grass strip about its mean slope, and their length; metres. */
  unevenSdM: 0.5,
  unevenLengthM: 100,
  /** Blocks of strip over which fixes are averaged, at least, and how many are weighed at most. */
  blockM: 20,
  mostBlocks: 360,
  /** Points of the profile, metres apart. */
  profileStepM: 50,
  /** A trace shorter than this says nothing of a direction, metres. */
  leastTraceM: 40,
  /** Error that the heights of all visits share: a receiver's own coarse geoid, its antenna; metres. */
  commonLevelSdM: 3,
  /** An elevation known worse than this is none, metres (one standard deviation). */
  worstLevelSdM: 10,
  /** Differences from the line drawn smaller than this are not worth a note: metres, degrees, slope. */
  noteBesideM: 3,
  noteTurnedDeg: 0.5,
  noteSlope: 0.003,
} as const;
