/**
 * Which states can the surface have, in a pilot's words, and for which is there a published factor?
 *
 * In: the factor set. Out: every state, those without a published factor saying so beforehand.
 */
import type { FactorSet } from '../../performance/factor-sets/factor-set.ts';
import { findFactorSet } from '../../performance/factor-sets/published.ts';
import { isUndetermined, type Undetermined } from '../../result.ts';
import type { SurfaceState } from '../../weather/conditions.ts';

/** One state to choose. */
export interface SurfaceChoice {
  readonly value: SurfaceState;
  readonly words: string;
  /** What a factor set lacks for it; empty where it lacks nothing. */
  readonly caution: string;
}

/** Every state in the pilot's words. */
export const SURFACE_WORDS: Readonly<Record<SurfaceState, string>> = {
  'hard-dry': 'hard, dry',
  'hard-wet': 'hard, wet',
  'grass-dry': 'grass, dry, up to 20 cm',
  'grass-wet': 'grass, wet, up to 20 cm',
  'grass-wet-very-short': 'grass, wet, very short on firm ground',
  'grass-long': 'grass, long, over 20 cm',
  soft: 'soft ground',
  'standing-water': 'standing water',
  snow: 'snow',
};

/** Every state in the order of the list, with what the set (null: the default) lacks for it. */
export function surfaceChoices(
  factorSet: string | null,
  own: readonly FactorSet[] = [],
): readonly SurfaceChoice[] {
  return (Object.keys(SURFACE_WORDS) as SurfaceState[]).map((value) => ({
    value,
    words: SURFACE_WORDS[value],
    caution: lacking(value, findFactorSet(factorSet, own)),
  }));
}

function lacking(state: SurfaceState, set: FactorSet | Undetermined): string {
  if (isUndetermined(set)) return '';
  const landing = set.landing.surface[state];
  const takeOff = set.takeOff.surface[state];
  if (landing && takeOff) return '';
  if (set.prefersHandbook && !NEVER_PUBLISHED.includes(state)) {
    return 'only by a correction of the handbook';
  }
  if (landing) return 'no published factor for take-off, so no prediction';
  if (takeOff) return 'no published factor for landing, so no prediction';
  return 'no published factor, so no prediction';
}

/** States for which neither a set nor a handbook's correction of ours has a term. */
const NEVER_PUBLISHED: readonly SurfaceState[] = ['grass-long', 'standing-water', 'snow'];
