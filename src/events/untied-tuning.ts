/** Tuned numbers of heights that no contact with the ground ties: unit and reason. */

/** What a recorded height may be off by, and what a pass at a strip says about it. */
export const UNTIED = {
  /** Without any contact: how far a height above sea level may be off, but for the receiver's drift: its own coarse geoid by 2 m, the elevation as entered by 3 m (common practice, no source). */
  seaLevelSdM: 3.6,
  /** Shares of logs whose heights count from the sea and from the ellipsoid, by what the file states: some write the one and state the other, and an IGC file that states nothing counts as ellipsoid. The rest has strayed: in files that state nothing also barometric heights set by hand. */
  datumShares: {
    geoid: [0.92, 0.02],
    ellipsoid: [0.05, 0.8],
    unstated: [0.45, 0.35],
  },
  /** A pressure height counts from 1013.25 hPa, and the day's pressure at sea level is within 20 hPa of that 19 times in 20 (middle latitudes; common practice, no source); 8.3 m a hPa near the sea (ISA). */
  pressureSdM: 85,
  /** Elevation of a strip that nobody entered: middle and sd, metres. */
  anyLevelM: 500,
  anyLevelSdM: 1000,
  /** Receivers do stray by tens of metres (cold start, a geoid applied twice or for another place): sd around the two, metres. */
  strayedSdM: 25,
  /** Lowest heights of passes thin out with these scales, metres, equal shares of each: most are broken off low, and nobody knows beforehand how low. Used only where nothing ties the heights. */
  lowScalesM: [10, 50],
  /** Some passes are overflights: their share, and the span over which their heights lie evenly, metres. */
  overflightShare: 0.2,
  overflightSpanM: 400,
  /** Where a descent's straight path meets the ground: alongM of the middle and sd, metres; where not, how high over it. */
  aimAlongM: 60,
  aimSdM: 110,
  aimMissShare: 0.15,
  aimMissSdM: 120,
  /** The straight path is read over this time before the descent is broken, seconds; it has come down by this much, metres. */
  pathS: 25,
  pathLeastS: 8,
  pathDropM: 10,
  /** Error of the path's continuation, metres for each second of it: drift of the height while the path is read, and the pilot's own changes. */
  pathWanderMps: 0.25,
} as const;
