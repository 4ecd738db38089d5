/**
 * What truly happened in a simulated flight, event by event.
 *
 * Times are UTC seconds since 1970, along and cross metres from the landing threshold of the
 * direction (cross positive right), speeds m/s, heights metres of the wheels over the strip's
 * surface. A null stands for something that did not happen.
 */

/** A moment and where it was along the strip. */
export interface Moment {
  readonly timeS: number;
  readonly alongM: number;
  readonly groundSpeedMps: number;
}

/** First main-wheel contact. `sinkMps` is against the surface. */
export interface TouchdownTruth extends Moment {
  readonly crossM: number;
  readonly airspeedMps: number;
  readonly sinkMps: number;
}

/** One hop after the first contact: it left the ground, how high it went, when it was down again. */
export interface BounceTruth {
  readonly offTimeS: number;
  readonly onTimeS: number;
  readonly onAlongM: number;
  readonly highestM: number;
}

/** An approach broken off with no contact. Initiation: the throttle is opened. */
export interface GoAroundTruth {
  readonly initiationTimeS: number;
  readonly initiationAboveM: number;
  readonly lowestTimeS: number;
  readonly lowestAboveM: number;
  readonly lowestAlongM: number;
}

export type Outcome = 'full-stop' | 'touch-and-go' | 'stop-and-go' | 'go-around' | 'low-pass';
export type RollEndKind = 'stopped' | 'taxi' | 'vacated' | 'power';

/** One approach to a strip direction, whatever came of it. */
export interface ApproachTruth {
  readonly strip: string;
  readonly direction: string;
  outcome: Outcome;
  /** Passing along = 0, or null where contact or the climb came first. */
  threshold: (Moment & { aboveM: number; crossM: number }) | null;
  /** Last descent through 50 ft over the surface. */
  fiftyFeet: Moment | null;
  /** Height at which the round-out began; time of it. */
  roundOut: (Moment & { aboveM: number }) | null;
  touchdown: TouchdownTruth | null;
  bounces: BounceTruth[];
  brakesOn: Moment | null;
  /** First below 10 kt and below 5 kt after touchdown. */
  tenKnots: Moment | null;
  fiveKnots: Moment | null;
  rollEnd: (Moment & { kind: RollEndKind }) | null;
  /** Touchdown to the stop (below 0.5 m/s) where the roll ended in one, else null. */
  groundRollM: number | null;
  goAround: GoAroundTruth | null;
  /** Lowest height over the strip of a low pass. */
  lowestPassM: number | null;
}

/** One take-off, also out of a touch-and-go (then brakeRelease is null and the run counts from power). */
export interface TakeOffTruth {
  readonly strip: string;
  readonly direction: string;
  kind: 'take-off' | 'rejected';
  brakeRelease: Moment | null;
  /** Throttle opened in a touch-and-go. */
  power: Moment | null;
  liftOff: (Moment & { airspeedMps: number }) | null;
  groundRollM: number | null;
  /** First climb through 50 ft over the surface; distance from brake release or power. */
  screen: (Moment & { distanceM: number }) | null;
  /** Greatest speed and stop of a rejected take-off. */
  rejected: { fastestMps: number; stopTimeS: number; stopAlongM: number } | null;
}

export type LegName = 'climb-out' | 'crosswind' | 'downwind' | 'base' | 'final';

/** A leg lasts from the moment the turn on to it begins to the moment the next turn begins. */
export interface LegTruth {
  readonly leg: LegName;
  readonly startTimeS: number;
  endTimeS: number;
}

/** A circuit, from lift-off, go-around or joining to the threshold (or the go-around). */
export interface CircuitTruth {
  readonly strip: string;
  readonly direction: string;
  readonly side: 'left' | 'right';
  legs: LegTruth[];
}

export type JoinKind = 'overhead' | 'crosswind' | 'downwind' | 'base' | 'straight-in';

/** How a circuit was joined, and when the joined leg began. */
export interface JoinTruth {
  readonly strip: string;
  readonly direction: string;
  readonly kind: JoinKind;
  readonly timeS: number;
}

/** Everything that happened, in order. */
export interface FlightTruth {
  readonly takeOffs: TakeOffTruth[];
  readonly approaches: ApproachTruth[];
  readonly circuits: CircuitTruth[];
  readonly joins: JoinTruth[];
}

/** A record of nothing yet. */
export function emptyTruth(): FlightTruth {
  return { takeOffs: [], approaches: [], circuits: [], joins: [] };
}

/** An approach about which nothing has happened yet. */
export function openApproach(strip: string, direction: string): ApproachTruth {
  return {
    strip,
    direction,
    outcome: 'full-stop',
    threshold: null,
    fiftyFeet: null,
    roundOut: null,
    touchdown: null,
    bounces: [],
    brakesOn: null,
    tenKnots: null,
    fiveKnots: null,
    rollEnd: null,
    groundRollM: null,
    goAround: null,
    lowestPassM: null,
  };
}
