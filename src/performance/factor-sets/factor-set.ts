/**
 * What is a factor set? Published multipliers as data, each with its source.
 *
 * A set is chosen for a prediction. Where it has no figure the value is null, and the prediction
 * says so instead of guessing.
 */

import type { SurfaceState } from '../../weather/conditions.ts';

/**
 * How a figure came here: `read` in a copy of the source itself, `quoted` by another text that was
 * read, or `from memory`.
 */
export type Reading = 'read' | 'quoted' | 'from memory';

/** One published multiplier of the whole distance from or to 50 ft. */
export interface PublishedFactor {
  readonly factor: number;
  /** Document, edition, and place in it. */
  readonly source: string;
  readonly reading: Reading;
  /** The sentence that explains it. */
  readonly why: string;
}

/** A multiplier for each full step of something. */
export interface SteppedFactor extends PublishedFactor {
  /** Size of one step, in the unit that the field of PhaseFactors names. */
  readonly step: number;
  /** How part steps and several steps count: in proportion (linear, the default) or as powers. */
  readonly scaling?: 'linear' | 'power';
}

/** The multiplier of a surface. */
export interface SurfaceFactor extends PublishedFactor {
  /** Multiplier for planning, where the source warns of more; null: the same. */
  readonly plannedFactor: number | null;
  /** A caution to show with it, or null. */
  readonly caution: string | null;
}

/** The figures of a set for landing, or for take-off. */
export interface PhaseFactors {
  /** Take-off only: the declared distance that the planned one must fit; absent: TODA. */
  readonly heldAgainst?: 'TORA' | 'TODA';
  /** Step as a share of the mass at which the handbook figure holds. */
  readonly massShare: SteppedFactor | null;
  /** Step in feet of altitude. */
  readonly altitudeFt: SteppedFactor | null;
  /** Step in degrees Celsius. */
  readonly tempC: SteppedFactor | null;
  /** Step as a share of the landing or lift-off speed. */
  readonly tailwindShare: SteppedFactor | null;
  /** Step as a ratio of rise to run, downhill for landing and uphill for take-off. */
  readonly slopeRatio: SteppedFactor | null;
  /**
   * What the source itself grants for the other slope (below 1), which the plan then takes too;
   * null or absent: no credit.
   */
  readonly slopeCredit?: SteppedFactor | null;
  /** By state of the surface; relative to a hard dry one. A missing state has no published factor. */
  readonly surface: Partial<Readonly<Record<SurfaceState, SurfaceFactor>>>;
  /** The safety factor on the whole distance. */
  readonly safety: PublishedFactor;
}

/** A published set. */
export interface FactorSet {
  readonly id: string;
  readonly name: string;
  /** True where the handbook's own slope and surface corrections are used instead of published ones. */
  readonly prefersHandbook: boolean;
  readonly landing: PhaseFactors;
  readonly takeOff: PhaseFactors;
}

/**
 * The multiplier for so many units of what the factor counts.
 *
 * The leaflet's own example takes 1.05 for 500 ft at 1.10 per 1,000 ft: linear. By powers it is 1.0488.
 * Units: `amount` in the unit of `step`, not negative. Fails: not positive where a linear credit is
 * carried too far.
 */
export function factorFor({ factor, step, scaling }: SteppedFactor, amount: number): number {
  const steps = amount / step;
  return scaling === 'power' ? factor ** steps : 1 + (factor - 1) * steps;
}

/** Source of a figure, and how it came here: `Leaflet 7c, January 2013 (from memory)`. */
export function sourceOf({ source, reading }: PublishedFactor): string {
  return `${source} (${reading})`;
}
