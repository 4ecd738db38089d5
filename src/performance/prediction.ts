/**
 * What is a prediction? The distances for one direction of a strip on one day, and the working.
 *
 * Lengths in metres, speeds in metres a second. A figure that cannot be had is undetermined.
 */

import type { Undetermined } from '../result.ts';
import type { Phase } from './aeroplane.ts';

/** A predicted figure, or why there is none. */
export type Figure = number | Undetermined;

/** What a step acts on. */
export type ActsOn = 'whole distance' | 'air part' | 'ground roll';

/** One line of the working: multiply by `factor` or add `addM`, giving `runningM`. */
export interface ChainStep {
  readonly name: string;
  /** Multiplier; null on a line that only adds or takes off metres. */
  readonly factor: number | null;
  /** Metres added (negative: taken off); null on a line that multiplies what went before. */
  readonly addM: number | null;
  readonly actsOn: ActsOn;
  readonly source: string;
  readonly why: string;
  /** The whole distance, air part or ground roll after this line, as `actsOn` says for a multiplier. */
  readonly runningM: number;
}

/** A remark on the prediction that does not stop it. */
export interface PredictionNote {
  readonly code: string;
  readonly text: string;
  /** The use it is about; absent: both. */
  readonly phase?: Phase;
}

/** The working of the expected and of the planned figures, in order. */
export interface FactorChain {
  readonly expected: readonly ChainStep[];
  readonly planned: readonly ChainStep[];
}

/** Distances of a landing. */
export interface LandingPrediction {
  readonly expectedRollM: Figure;
  readonly plannedRollM: Figure;
  readonly expectedFrom50FtM: Figure;
  readonly plannedFrom50FtM: Figure;
  /** From 50 ft to touchdown. */
  readonly expectedAirM: Figure;
  /** LDA less the planned distance from 50 ft; negative: the strip is too short for the plan. */
  readonly marginM: Figure;
  /** LDA less the planned roll, as alongM: touching down later leaves less than the planned roll. */
  readonly latestTouchdownAlongM: Figure;
  readonly chain: FactorChain;
}

/** Distances of a take-off. */
export interface TakeOffPrediction {
  readonly expectedRollM: Figure;
  readonly plannedRollM: Figure;
  readonly expectedTo50FtM: Figure;
  readonly plannedTo50FtM: Figure;
  /** Declared distance less the planned distance to 50 ft; negative: the strip is too short for the plan. */
  readonly marginM: Figure;
  /** The declared distance against which the set holds the planned one; absent: TODA. */
  readonly heldAgainst?: 'TORA' | 'TODA';
  /** Height of the screen in the handbook's table, metres: 15.24 (50 ft) or 15; absent: 50 ft. */
  readonly screenHeightM?: number;
  readonly chain: FactorChain;
}

/** The air and the wind of the day at the strip. */
export interface DayAtStrip {
  /** Positive: headwind. Undetermined where the wind has a speed and no direction. */
  readonly headwindMps: Figure;
  /** Positive: from the right. */
  readonly crosswindMps: Figure;
  readonly pressureAltitudeM: number;
  readonly densityAltitudeM: number;
  readonly densityRatio: number;
}

/** Speeds for the day, indicated, at the landing mass. */
export interface SpeedsForTheDay {
  readonly stallMps: number;
  /** 1.3 times the stall speed. */
  readonly approachMps: number;
  /** Half the gust above the mean wind, to be added. Zero without an entered gust. */
  readonly gustAdditionMps: number;
  /** Speed at touchdown that the handbook's landing rests on: its own, or 1.15 times the stall speed. */
  readonly touchdownMps: number;
}

/** The answer of the predictor. */
export interface Prediction {
  readonly factorSet: string;
  readonly day: DayAtStrip;
  readonly speeds: SpeedsForTheDay | Undetermined;
  readonly landing: LandingPrediction | Undetermined;
  readonly takeOff: TakeOffPrediction | Undetermined;
  readonly notes: readonly PredictionNote[];
}
