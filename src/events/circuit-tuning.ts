/** Tuned numbers of circuits, joins and the wind: unit and reason. */

/** Legs of a circuit. */
export const LEG = {
  /** A leg's track is within this angle of its name's direction, degrees: half way to the next leg. */
  halfTurnDeg: 45,
  /**
   * What a turn from one leg to the next must be worth, seconds flown wholly off the leg's
   * direction: a shorter excursion of the track is no leg.
   */
  turnCostS: 4,
  /** Most that one second may speak against a leg: a track off by the half turn speaks with 1. */
  mostAgainst: 2,
  /** A turn begins where its rate reaches this share of its greatest, and is over where it falls below. */
  turnBeganShare: 0.3,
  /** A pause in turning shorter than this belongs to the turn, seconds. */
  pauseS: 3,
  /** Final begins to count where the track keeps within this of the landing direction, degrees. */
  linedUpDeg: 15,
  /** A leg shorter than this has not been joined, seconds. */
  leastS: 4,
  /** Of a joined leg only what follows the last turn of more than this belongs to it, degrees. */
  turnBeganDeg: 12,
  /** A circuit is flown within this distance of the strip, metres; further out it is a transit. */
  reachM: 6000,
  /** A circuit is joined within this distance of the threshold, metres, or this many times the downwind spacing. */
  leastReachM: 1800,
  reachPerSpacing: 2.2,
  /** ... but no further than this: wider is a transit past the strip. */
  mostReachM: 2800,
  /** A base leg to a final no longer than this is part of the circuit, metres; a longer one is a transit. */
  longestFinalM: 3000,
  /** How far beyond the turn to final such a base leg reaches, as a share of the final. */
  reachPerFinal: 1.2,
  /** Downwind lies this far to the side at least, metres: nearer is a pass along the strip. */
  leastSpacingM: 150,
  /** Longest circuit, seconds. */
  longestS: 1200,
  /** What the mean speed of a leg is off by beside its ends, one sd, m/s: fixed, and for each second between fixes. */
  speedSdMps: 0.25,
  speedSdPerStep: 0.06,
} as const;

/**
 * How well the moments of a turn are known: so much later than found, and one sd of that, fixed in
 * seconds and for each second between the fixes there, because smoothing spreads a turn. Found on
 * simulated circuits that judge nothing; the bands are a little wider, as all those pilots roll alike.
 */
export const TURN = {
  began: { lateS: 0, latePerStep: 0.24, sdS: 0.25, sdPerStep: 0.12 },
  linedUp: { lateS: 0.1, latePerStep: -0.11, sdS: 0.2, sdPerStep: 0.14 },
} as const;

/** Full turns within a circuit. */
export const ORBIT = {
  /** Degrees of track that make a full turn; the last of it is rolling out. */
  fullDeg: 320,
  /** No orbit begins within this of the landing direction, degrees, and of the centreline, metres, past the threshold. */
  climbOutDeg: 45,
  climbOutM: 200,
  /** An orbit is rather flown on downwind than on another leg whose direction is nearer by this, degrees. */
  otherLegDeg: 20,
  /** So many degrees off a leg's direction count as much as a second longer. */
  degPerS: 6,
  /** Slower than this it is a wide circle flown on purpose, seconds. */
  longestS: 150,
  /** Turning slower than this share of the mean rate is flying straight; wind makes the rate uneven. */
  leastShare: 0.2,
  /** Straight moments allowed, as a share of the time. */
  slackShare: 0.08,
} as const;

/**
 * Bank from the track. Smoothing rounds off a short steep moment, the more the slower the log: what
 * is added, and the 90 % band, are those found on simulated circuits that judge nothing, degrees.
 */
export const BANK = {
  /** Added for each second between fixes, less what a log once a second hardly loses. */
  roundedOffPerS: 1.2,
  seenDeg: 0.9,
  /** Band below and above: fixed, and for each second between fixes. */
  belowDeg: 1.7,
  belowPerS: 0.55,
  aboveDeg: 3.5,
  abovePerS: 0.7,
  /** Fixes with more than this share of the steepest bank beside it belong to its turn. */
  turningShare: 0.3,
} as const;

/** How a circuit was joined. */
export const JOIN = {
  /** Overhead: over the strip within this distance of its centreline and ends, metres. */
  overheadM: 400,
  /** Higher over the strip than the highest of the downwind leg by this, metres (300 ft). */
  higherM: 90,
  /** At most this long before the joined leg, seconds. */
  withinS: 360,
} as const;

/** Wind from the track. Chosen on simulated circuits that judge nothing (decision 0071). */
export const WIND = {
  /** Moments this far apart are taken, seconds: between them a gust has half gone. */
  stepS: 2,
  /** Slower than this share of the typical flying speed is taxiing. */
  flyingShare: 0.45,
  /** What is believed beforehand of each component at the reference height, m/s. */
  priorSdMps: 7,
  /** How fast pilots gather or lose airspeed, one sd, m/s2 in an aeroplane of the reference speed, m/s; in others in proportion. */
  rateSdMps2: 0.25,
  /** ... as it looks without heights: what climbing and levelling off do to the speed cannot be told. */
  blindRateSdMps2: 0.35,
  referenceMps: 30,
  /** For how long they go on doing so, seconds. */
  rateS: 4,
  /** ... and the more the rate of climb changes, m/s2 a m/s: then speed is changed too. */
  ratePerClimb: 0.2,
  /** In a turn of so many degrees without a pause, an orbit, speed is held: it changes by this share as fast. */
  fullTurnDeg: 300,
  heldInFullTurn: 0.4,
  /** Gusts along the track: one sd as a share of the wind, at least so many m/s, and how long they last, seconds. */
  gustShare: 0.14,
  leastGustMps: 0.3,
  gustS: 4,
  /**
   * Speed usually gathered in climbing turns and lost in descending ones, m/s2 at the reference speed,
   * and how pilots differ in it: flaps go up after take-off, power comes off before landing (common
   * practice, no source).
   */
  habit: 0.05,
  habitSd: 0.04,
  /** The habit is whole from this climb or descent, m/s, and this rate of turn, degrees a second, on. */
  habitClimbMps: 1.5,
  habitTurnDegPs: 6,
  /** Degrees of freedom of the Student weights: a moment in which the pilot changed speed at once is an outlier. */
  freedom: 4,
  /** Gauss-Newton steps at most; they end where one moves the wind by less than this, m/s. */
  passes: 10,
  settledMps: 0.05,
  /** Turning slower than this is flying straight, degrees a second: a gust turns the track too. */
  straightDegPs: 0.7,
  /** A longer hole tells nothing of how the turn within it was flown, seconds. */
  longestStepS: 12,
  /** Total turning needed, degrees: less shows one side of the wind only. */
  leastTurnDeg: 150,
  /** A worse standard deviation than this is no estimate, m/s. */
  mostSdMps: 4,
  /** A wind holds for about so long: a longer flight makes its mean no surer, seconds. */
  steadyS: 1800,
  /** Power law of the wind over open country: exponent, near 1/7, and the height where its share is 1. */
  exponent: 0.15,
  referenceM: 100,
  /** Lower than this the wind is not followed down, metres. */
  lowestM: 2,
} as const;

/** Airspeed from the track. */
export const AIRSPEED = {
  /** Surface winds are measured at this height over open ground, metres (WMO-No. 8, from memory). */
  windMeasuredAtM: 10,
  /** Error of an entered wind in each component, there where winds are measured: fixed, m/s, and as a share of its speed: it was read at one place and moment (common practice, no source). */
  enteredSdMps: 1.5,
  enteredShare: 0.2,
  /** Gusts along the track, one sd as a share of the wind at the reference height (a tenth to a fifth over grass, common practice). */
  gustShare: 0.1,
  /** Square root of the density ratio: 8 K, 10 hPa and 400 m of what nobody entered, one sd. */
  unknownTempSd: 0.014,
  unknownQnhSd: 0.005,
  unknownElevationSd: 0.019,
} as const;

/** The preferred approach path. */
export const PATH = {
  /** Followed means nowhere further off than this, metres: a path is drawn to miss a house by more (common practice, no source). */
  withinM: 100,
  /** Places on the path are held against the track every so many metres. */
  stepM: 50,
  /** Error of a path drawn by hand, one sd, metres. */
  drawnSdM: 10,
  /** The approach may have come on to its path so long before its end, seconds. */
  longestS: 600,
  /** Flown within this angle of a part the track goes its way: an aircraft on another leg, or wandering, does not. */
  goesItsWayDeg: 60,
} as const;

/** The float. */
export const FLOAT = {
  /** Each hold-off considered stands for those around it: half the way to the next, one sd, seconds. */
  gridSds: [0.4, 0.4, 0.5, 0.7, 0.8, 1, 1.4, 1.8],
  /** A wider band of its time tells nothing that was not known before, seconds. */
  mostWidthS: 8,
} as const;
