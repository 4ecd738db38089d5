/**
 * What is one step of a factor chain, and what do the rules that find it look at?
 */

import type { Undetermined } from '../result.ts';
import type { SurfaceState } from '../weather/conditions.ts';
import type { CorrectionCondition, HandbookCorrection, Phase, TableSurface } from './aeroplane.ts';
import type { FactorSet, PhaseFactors } from './factor-sets/factor-set.ts';
import type { HandbookDay, HandbookFigure } from './handbook-table.ts';
import type { PredictionNote } from './prediction.ts';

/** Source line of a correction that the handbook itself gives. */
export const HANDBOOK_SOURCE = "the aeroplane's handbook, corrections";
/** Mark of a credit that no source gives: its penalty turned round. */
export const OURS_REVERSED = 'the published penalty reversed; ours';

/** Whether the figure is the honest expectation or the cautious plan. */
export type Purpose = 'expected' | 'planned';

/** One step before it is applied. */
export interface Effect {
  readonly name: string;
  /** Multiplier of the whole distance, or of the ground roll where `of` says so. */
  readonly factor: number;
  readonly of: 'whole distance' | 'ground roll';
  /** Multiplier of the air part; 1 where the step leaves it alone. */
  readonly airFactor: number;
  /** Published factors act on the whole distance and need one. */
  readonly isPublished: boolean;
  readonly source: string;
  readonly why: string;
}

/** Everything the rules look at. */
export interface StepInputs {
  readonly phase: Phase;
  readonly purpose: Purpose;
  readonly set: FactorSet;
  readonly figure: HandbookFigure;
  readonly tableSurface: TableSurface;
  readonly corrections: readonly HandbookCorrection[];
  readonly day: HandbookDay;
  /** Knots; positive: headwind. */
  readonly headwindKt: number;
  /** Landing or lift-off speed at that mass, knots. */
  readonly referenceSpeedKt: number;
  /** The mass that the distance stands for; heavier than the day's where no credit is taken for a lighter one. */
  readonly referenceMassKg: number;
  /** Ground roll over whole distance in the handbook; null where it lacks one of them. */
  readonly rollShare: number | null;
  /** Rise over run in the direction of movement; positive: uphill. */
  readonly slopeRatio: number;
  readonly surface: SurfaceState;
  readonly onGrass: boolean;
}

/** Effects in the order of the chain, or why there can be none, with remarks on the way. */
export interface StepList {
  readonly effects: readonly Effect[] | Undetermined;
  readonly notes: readonly PredictionNote[];
}

/** Notes that something would shorten the distance and is not counted; `take-off, slope: no credit is taken for ...`. */
export function creditNotTaken(
  { phase }: Pick<StepInputs, 'phase'>,
  notes: PredictionNote[],
  name: string,
  what: string,
): null {
  const text = `${phase}, ${name}: no credit is taken for ${what}`;
  notes.push({ code: 'credit-not-taken', text });
  return null;
}

/** The figures of a set for this use of the strip. */
export function factorsFor(set: FactorSet, phase: Phase): PhaseFactors {
  return phase === 'landing' ? set.landing : set.takeOff;
}

/** The handbook's own correction for a condition, or undefined. */
export function correctionFor(
  inputs: StepInputs,
  condition: CorrectionCondition,
): HandbookCorrection | undefined {
  return inputs.corrections.find(
    (correction) => correction.phase === inputs.phase && correction.condition === condition,
  );
}
