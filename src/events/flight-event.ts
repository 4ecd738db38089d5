/**
 * What happened at a strip: take-offs and approaches with their measured quantities.
 *
 * Definitions of each quantity: docs/spec/measuring.md. Every quantity carries a 90 % band or the
 * reason why it cannot be had. Times are UTC seconds since 1970, lengths metres, speeds m/s.
 */
import type { Measured, Undetermined } from '../result.ts';

/** How an approach ended. */
export type Outcome =
  'full-stop' | 'touch-and-go' | 'stop-and-go' | 'go-around' | 'low-pass' | 'overflight';

/** Passing alongM = 0. */
export interface ThresholdCrossing {
  readonly timeS: Measured;
  readonly aboveM: Measured;
  readonly crossM: Measured;
  readonly groundSpeedMps: Measured;
}

/** First main-wheel contact. */
export interface Touchdown {
  readonly timeS: Measured;
  readonly alongM: Measured;
  readonly crossM: Measured;
  readonly groundSpeedMps: Measured;
  /** Probability that it lies before the threshold; 0 where nobody can tell: at guessed ends, of a touch that the log does not show. */
  readonly shortProbability: number;
  readonly bounces: Measured;
}

/** Why the roll ended where it did. */
export type RollEndKind = 'stopped' | 'taxi' | 'vacated' | 'power';

/** The end of the landing roll. */
export interface RollEnd {
  readonly kind: RollEndKind;
  readonly timeS: Measured;
  readonly alongM: Measured;
  readonly groundSpeedMps: Measured;
}

/** An approach broken off. */
export interface GoAround {
  readonly initiationTimeS: Measured;
  readonly lowestTimeS: Measured;
  readonly lowestAboveM: Measured;
  readonly lowestAlongM: Measured;
  /** Probability that the wheels touched all the same, 0 to 1. */
  readonly contactProbability: number;
}

/** The aircraft at a height on final. */
export interface Gate {
  readonly heightFt: number;
  readonly timeS: number;
  readonly alongM: Measured;
  readonly crossM: Measured;
  readonly groundSpeedMps: Measured;
  readonly descentRateMps: Measured;
  readonly pathDeg: Measured;
}

/** The touchdown posterior on its grid, for drawing and for what is derived from it. */
export interface TouchdownPosterior {
  readonly timeS: Float64Array;
  readonly weight: Float64Array;
  readonly alongM: Float64Array;
  readonly alongSdM: Float64Array;
  readonly speedMps: Float64Array;
  readonly speedSdMps: Float64Array;
  /** How each candidate's weight is shared between the manners of arriving; null for one put by hand where the log rules it out. */
  readonly arrival: ArrivalShares | null;
}

/** Weights of candidates in rows: of `ALONG.brakeDelaysS`, and of `HEIGHT_SHAPES` (null without heights). */
export interface ArrivalShares {
  readonly brakes: Float64Array;
  readonly shapes: Float64Array | null;
}

/** What the pilot says of the wheels' contact, and what was measured. */
export interface SaidContact {
  /** The moment that the word was given for, UTC seconds. */
  readonly aroundS: number;
  readonly touched: boolean;
  /** As measured; NaN where the fixes are too far apart for one. */
  readonly measuredProbability: number;
  /** Why the word does not count; null: it does. */
  readonly refused: string | null;
  /** What the log has against a word that counts; null: nothing. */
  readonly againstIt: string | null;
}

/** One approach to one strip direction. */
export interface Approach {
  readonly strip: string | null;
  readonly direction: string | null;
  /** Fixes of the pass, half open, in the flight's columns. */
  readonly from: number;
  readonly to: number;
  readonly outcome: Outcome | Undetermined;
  /** NaN where the fixes are too far apart for one; 1 or 0 where the pilot's word counts. */
  readonly contactProbability: number;
  /** Null: the pilot says nothing. */
  readonly saidContact: SaidContact | null;
  readonly thresholdCrossing: ThresholdCrossing | Undetermined;
  readonly touchdown: Touchdown | Undetermined;
  readonly rollEnd: RollEnd | Undetermined;
  /** From the threshold, or from 50 ft where later, to touchdown. */
  readonly airDistanceM: Measured;
  /** From the same place to standstill. */
  readonly landingDistanceM: Measured;
  readonly groundRollM: Measured;
  readonly fullStopRollM: Measured;
  readonly hardestBrakingRollM: Measured;
  readonly stripLeftM: Measured;
  readonly goAround: GoAround | null;
  readonly gates: readonly Gate[];
  readonly posterior: TouchdownPosterior | null;
  readonly notes: readonly string[];
}

/** Ground speed at half the TORA against 70 % of the lift-off speed: a reason to stop, never a reason to go. */
export interface HalfwayCheck {
  readonly groundSpeedMps: Measured;
  readonly shareOfLiftOff: Measured;
}

/** One take-off, or one given up. */
export interface TakeOff {
  readonly kind: 'take-off' | 'rejected';
  /** Launched by a winch or towed (both never compared); null: by its own engine as far as the log tells. */
  readonly launch: 'winch' | 'tow' | null;
  readonly strip: string | null;
  readonly direction: string | null;
  readonly from: number;
  readonly to: number;
  readonly brakeRelease: { readonly timeS: Measured; readonly alongM: Measured } | Undetermined;
  readonly liftOff:
    | { readonly timeS: Measured; readonly alongM: Measured; readonly groundSpeedMps: Measured }
    | Undetermined;
  readonly groundRollM: Measured;
  /** 50 ft above the lift-off surface: when, and how far from brake release. */
  readonly screen: { readonly timeS: Measured; readonly distanceM: Measured } | Undetermined;
  readonly stripLeftM: Measured;
  readonly halfway: HalfwayCheck | Undetermined;
  readonly notes: readonly string[];
}

/** Taxiing along a known strip against a landing or a take-off. */
export interface Backtrack {
  readonly strip: string;
  /** The direction of the landing or take-off that it ran against; alongM counts in it and falls. */
  readonly direction: string;
  readonly from: number;
  readonly to: number;
  readonly afterLanding: boolean;
  readonly beforeTakeOff: boolean;
  readonly startTimeS: Measured;
  readonly endTimeS: Measured;
  readonly fromAlongM: Measured;
  readonly toAlongM: Measured;
  readonly lengthM: Measured;
  /** Greatest ground speed. */
  readonly fastestMps: Measured;
}
