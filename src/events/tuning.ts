/**
 * Every tuned number of finding and measuring: its unit and the reason for it.
 *
 * No number names a speed of one type: speeds are shares of the flight's own, accelerations, times and
 * heights those of light aeroplanes. Tests in tests/truth and tests/synthetic pin what they do.
 */

/**
 * Model of the motion along the strip. Terms in order: position at touchdown, speed at touchdown
 * (both without prior), acceleration on the approach, in the float, on the ground, by the brakes.
 */
export const ALONG = {
  /** Approach near steady speed; float near the drag of an idle light aeroplane (glide ratio 8 to 12), free roll at rolling friction of 0.03 to 0.1 g plus little drag; brakes from none to hard. */
  priorMean: [0, 0, 0.08, -0.75, -0.7, -1.2],
  priorSd: [Infinity, Infinity, 0.4, 0.5, 0.3, 1.5],
  /** Seconds before touchdown at which the float's deceleration may begin. */
  floatStartsS: [0.5, 1.5, 2.5, 3.5, 4.5, 5.5, 7, 8.5, 10, 14],
  /** Seconds over which it grows: power off and round-out are not a step. */
  floatRampS: 2.5,
  /** Seconds from touchdown to the brakes; pilots take 1 to 4 s, or do not brake at all: on grass one in five, common practice, no source. */
  brakeDelaysS: [0.4, 1, 1.6, 2.2, 2.9, 3.8, 5, 7, Infinity],
  brakeWeights: [0.5, 1, 1.3, 1.4, 1.3, 1, 0.8, 0.5, 1.8],
  /** Seconds in which braking builds up. */
  brakeRampS: 1,
  /** Receiver drift over one landing: 2 to 3 m with a correlation time of minutes. */
  driftSdM: 2,
  driftTimeS: 150,
  /** What the model leaves out: gusts, uneven ground, changing pedal force. */
  wanderSdMps2: 0.2,
  wanderTimeS: 2.5,
  wanderKnotS: 1,
} as const;

/**
 * Model of the height over the strip. Terms in order: level of the satellite height (no prior),
 * drop after contact, sink at contact, sink before the round-out, and where a pressure height is
 * used its own level (no prior), a share of the dynamic height v2/2g, and a share of v/g.
 */
export const HEIGHT = {
  /** Nose lowering and gear taking the weight move the antenna down after first contact. Normal to firm arrivals sink at 0.1 to 2 m/s; 2.1 m/s is 3 to 6 degrees at 45 to 60 kt. */
  dropM: 0.18,
  dropSdM: 0.1,
  steadySinkMps: 2.1,
  steadySinkSdMps: 0.6,
  /** Sink in the last seconds before contact: flown on or let down, or held off and settling. */
  contactSinks: [
    { meanMps: 0.85, sdMps: 0.35, weight: 0.75, heldOff: false },
    { meanMps: 0.35, sdMps: 0.2, weight: 0.25, heldOff: true },
  ],
  /** Cabin static error to a tenth of the dynamic pressure; the second term stands for the wind in it. */
  pressurePriorSd: [Infinity, 0.08, 0.4],
  /** Seconds for which the antenna settles after contact. */
  settleS: 1.2,
  /** Seconds before contact at constant sink (the hold-off), and over which the round-out goes there. */
  holdOffsS: [0, 1, 2, 3.5, 5, 7, 10, 14],
  holdOffDecayS: 4,
  roundOutsS: [1.2, 3, 5],
  /** Vertical drift as a variance rate 2 sigma2 / tau, m2/s, and its correlation time: from quiet to restless receivers; the roll-out weighs them. */
  driftRates: [0.06, 0.2, 0.5],
  driftTimeS: 150,
  /** Drift rate of a pressure height over a strip, m2/s: a sensor's own is 0.01, the rest is ground that neither a line nor a bow follows. */
  pressureDriftRate: 0.05,
  /** Slope where no elevations were entered, metres a metre: grass strips lie within 2 %; where the ends' were, how far the ground half-way lies off their line, and on how many strips it does. Common practice, no source. */
  slopeSd: 0.01,
  bowSdM: 1.3,
  bowedShare: 0.3,
  /** Vertical speed that the model leaves out, before touchdown only, calmer close to the ground. */
  wanderSdMps: 0.25,
  wanderTimeS: 1.5,
  wanderShareAtContact: 0.3,
  wanderGrowsOverS: 4,
} as const;

/** How the two models are tied and where candidates lie. */
export const TOUCHDOWN = {
  /** Candidates reach from this long before the slow-down to just after it, seconds. */
  searchBeforeS: 20,
  searchAfterS: 0.3,
  /** A first, rough look goes in these steps, seconds; the close one only where it weighs more than this share of the likeliest. */
  roughStepS: 1.32,
  negligibleShare: 1e-3,
  /** Where the last candidate of the rough look weighs more than this, it goes on by so many seconds, so often. */
  edgeWeight: 0.05,
  furtherS: 4,
  furtherSearches: 3,
  stepS: 0.33,
  /** Share of the approach speed at which a slow-down can no longer be a float. */
  slowedShare: 0.72,
  /** The float's deceleration begins about when the round-out does: sd in seconds, and a floor for flights that do otherwise. */
  tieSdS: 3,
  tieFloor: 0.02,
  /** The evidence is raised to this power: without it bands of 90 % hold 91.6 % of drawn landings that judge nothing (docs/decisions/0073). */
  evidencePower: 1.08,
  /** Landing well short of the threshold is rare: logistic middle and width, metres, and a share that lands further before it, thinning out over metres. Nothing says where on the strip. */
  shortShare: 0.02,
  shortReachM: 50,
  shortMiddleM: -10,
  shortWidthM: 8,
  /** Data used before the first candidate (from where the course is this near that over the strip on, degrees), and after the slow-down, seconds. */
  leadS: 5,
  straightDeg: 10,
  alongTailS: 8,
  heightTailS: 21,
  afterStopS: 10,
  /** Logs faster than this are averaged in blocks of it, seconds. */
  blockS: 0.6,
  /** The wheels may be on the ground before this share of the approach speed is passed, not after. */
  latestShare: 0.2,
} as const;

/** Finding passes along a strip. */
export const PASS = {
  /** Greatest angle between track and strip, degrees (the definition of an approach). */
  alignedDeg: 30,
  /** Half-width of the corridor over the strip, metres, and how it widens before the threshold and behind the far end. */
  corridorM: 60,
  corridorSlope: 0.12,
  /** How far before the threshold and past the far end a pass is followed, metres. */
  reachBeforeM: 2500,
  reachAfterM: 1500,
  /** A strip this far from the track at its nearest is not looked at, metres. */
  nearM: 4000,
  /** Shortest pass: seconds, and metres of strip or final covered. */
  leastS: 5,
  leastM: 60,
  /** Slower than this share of the approach speed the aircraft is taxiing. */
  taxiShare: 0.25,
  /** A run may begin this far before the near end: thresholds are entered too far in, metres. */
  runBeforeM: 150,
  /** Misaligned for up to this long a pass goes on, seconds. */
  bridgeS: 3,
  /** A hole in the log up to this long does not end a pass, seconds, where the aircraft came on by this share of the slower end's speed. */
  holeS: 30,
  holeShare: 0.6,
  /** An approach has come down by this much, metres. */
  descentM: 12,
  climbM: 12,
  /** Within these spans before and after its lowest point, seconds. */
  descentS: 90,
  climbS: 60,
  /** Lowest point at most this far past the strip, metres. */
  lowestPastM: 250,
  /** 400 ft: the height that divides an approach from an overflight (definition). */
  overflightM: 121.92,
} as const;

/** The end of the landing roll. */
export const ROLL = {
  /** Standstill (definition), m/s, and what smoothed speeds can be off by. */
  stoppedMps: 0.5,
  speedDoubtMps: 0.35,
  /** Seconds over which a standstill is judged, the least that will do, and what is skipped before the place is averaged. */
  standstillS: 4,
  leastStandstillS: 2,
  settleS: 1,
  longestMeanS: 8,
  /** The last crawl to a standstill, metres: what the average misses. */
  creepSdM: 0.5,
  /** Turned off: degrees, for how long, and the slowest speed whose direction means anything. */
  turnedDeg: 35,
  turnedForS: 2,
  turningMps: 1,
  /** Beside the strip: metres from its edge, and never less than this from the centreline (receiver error). */
  besideM: 8,
  leastBesideM: 15,
  /** Steady taxi: judged over this many seconds; slower loss of speed than this is no braking. */
  taxiS: 6,
  taxiSlowingMps2: 0.08,
  /** A pass is slow from half the approach speed. */
  slowShare: 0.5,
  /** Rolling on, the aircraft took off again once this share of the approach speed came back. */
  againShare: 0.75,
  /** Seconds after the aligned stretch in which the aircraft must have become slow. */
  watchedAfterPassS: 20,
  /** A log that ends on the strip slower than this share of the approach speed ended in the roll. */
  logEndShare: 0.6,
  /** A log that ends after a touch, before this much speed or height came back, says nothing of a take-off. */
  logEndGainMps: 1.5,
  logEndGainM: 4,
  /** Ground that nobody entered rises by no more along a roll, metres: 300 m at 3 %, and an error of the height. */
  logEndRiseM: 11,
  /** Taking off again the same way: within seconds, and never this far back. */
  sameWayS: 180,
  sameWayBackM: 15,
} as const;

/** Telling a touch from a pass. */
export const CONTACT = {
  /** Seconds of final before the low part whose speed the slowest is held against. */
  finalFromS: 20,
  finalToS: 5,
  /** And the last seconds before it: the faster of the two counts. */
  lateS: 4,
  /** Shares of the speed on final: the least it is believed to wander by, and what is taken where it cannot be seen. */
  wanderLeast: 0.04,
  wanderUnknown: 0.05,
  /** A loss of speed is that of a roll where it is so many wanders. */
  lossWanders: 3.5,
  /** Speed changes are read over these seconds, which end at most so long before and begin at most so long after the slowest fix: real pilots slow down long before they touch, and roll on before they open the throttle. */
  notchS: 4,
  notchBeforeS: 12,
  notchAfterS: 8,
  notchStepS: 0.5,
  /** As slow as the slowest fix, by this share, is all of a roll at an even speed. */
  evenShare: 1.05,
  /** A change of speed is that of a roll from here on, m/s2, or where the speed wanders, from its wander in these seconds; beyond the most it counts no more. */
  notchMps2: 0.7,
  notchWanderS: 2,
  notchMostMps2: 1,
  /** Slow logs flatten what the speed shows: by this share for each second of the interval beyond the first, up to so many. */
  flattenedPerS: 0.1,
  flattenedMostS: 4,
  /** Near the lowest height: within these metres of it; longer than these seconds counts no more. */
  nearM: 1.8,
  lowTimeMostS: 8,
  /** Lowest this far outside a known strip, metres, no wheel touches it. */
  offStripM: 100,
  /** Higher over its lowest point than this the aircraft is not low, metres: after it little, because climbing away costs speed too; before it more, because recorded heights may lag and sink during a roll. Power for the take-off is opened while low, but the height may rise before the speed does. */
  lowBeforeM: 14,
  lowAfterM: 4,
  powerLowM: 8,
  /** A pass without contact may be lowest anywhere in these first metres, evenly. */
  passSpanM: 25,
  /** Most that the height may say, as a log ratio: its errors have longer tails than the model's. */
  groundMost: 6,
  /** Share of receivers whose height strays by tens of metres within a flight, and by how much: a tie is no proof. */
  strayShare: 0.15,
  straySdM: 25,
  /** Log odds of a roll of some seconds, and of a skim where there was none. Fitted to simulated passes, and held back for low go-arounds (docs/decisions/0059). */
  withHeight: {
    roll: { even: -8.5, inSpeed: 14.5, lowTime: 0.33, ground: 0.3 },
    skim: { even: -2.64, ground: 0.65 },
  },
  withoutHeight: {
    roll: { even: -6.4, inSpeed: 13, lowTime: 0, ground: 0 },
    skim: { even: -1.85, ground: 0 },
  },
  /** Between the first two of these probabilities the outcome is undetermined; from the third on where a hole of the log over the strip hides the signs. */
  touchAbove: 0.7,
  passBelow: 0.3,
  holeBelow: 0.05,
} as const;

/** What a pilot's word about a touch may be off by, and what it cannot go before. Ours, no source. */
export const SAID = {
  /** Further than this from a pass, seconds, a word is about another: as for all entries about a landing. */
  withinS: 30,
  /** Surely higher than this at its lowest, metres, no wheel touched: beyond what heights of a receiver that strays are off by in most flights. */
  tooHighM: 30,
  /** Surely higher than this, metres, the word counts and what the log has is told beside it. */
  notedM: 3,
  /** A light aeroplane comes down to the strip and climbs away no faster than this on the mean, m/s. */
  betweenFixesMps: 4,
  /** Heights this near to the lowest are as low, metres, one sd; and the share of a step by which a height may be told late or early. */
  lowSdM: 1,
  stepShare: 0.35,
} as const;

/** Vertical drift of a receiver from minute to minute, for carrying a ground tie through the air. */
export const TIE = {
  driftSdM: 4,
  driftTimeS: 150,
  /** Error of one tie: level of a roll-out of some seconds, metres. */
  tieSdM: 0.5,
  /** Seconds after a standstill that still belong to the roll. */
  afterStopS: 5,
  /** Seconds of standing before a take-off run that belong to it. */
  beforeRunS: 5,
  /** Height of the antenna over the ground with the wheels down. */
  antennaM: 1.5,
  /** Without a tie nothing is known of a flight's constant: so wide that the first tie decides it, metres. */
  constantSdM: 35,
  /** The elevation at another strip's ground may be off by this much as entered, metres. */
  elevationSdM: 3,
  /** An entered elevation this far off the tied one is worth a note, metres. */
  noteM: 8,
} as const;

/** A low pass: over this share of the strip and for seconds, rising by less than metres, or a share of its height up to a limit, or slowly. */
export const PASS_SHAPE = {
  levelM: 4,
  levelOfHeight: 0.5,
  levelMostM: 10,
  /** Rising by more, up to the limit, but slower than this in the mean, m/s: no climb at once. Gusts and a receiver's drift lift a level pass at up to 0.4 m/s, go-arounds climb at 0.5 and more (250 of each, simulated). */
  levelClimbMps: 0.45,
  levelShare: 0.75,
  levelS: 4,
} as const;
