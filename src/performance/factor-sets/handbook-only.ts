/**
 * The handbook's own corrections and no published ones, except the safety factor of the plan.
 *
 * For aeroplanes whose handbook covers wind, slope and surface itself. A penalty the handbook does
 * not cover gives no prediction; a credit it does not cover is not taken.
 * Source of the safety factors: UK CAA Safety Sense Leaflet 7c, January 2013, section 8, from
 * memory.
 */

import type { FactorSet, PhaseFactors } from './factor-set.ts';

const LEAFLET = 'UK CAA Safety Sense Leaflet 7c, January 2013, section 8';

const NO_PUBLISHED_STEPS: Omit<PhaseFactors, 'safety'> = {
  massShare: null,
  altitudeFt: null,
  tempC: null,
  tailwindShare: null,
  slopeRatio: null,
  surface: {},
};

/** The handbook's own corrections, with the leaflet's safety factors for the plan. */
export const HANDBOOK_ONLY: FactorSet = {
  id: 'handbook-only',
  name: "the handbook's own corrections",
  prefersHandbook: true,
  landing: {
    ...NO_PUBLISHED_STEPS,
    safety: {
      factor: 1.43,
      source: LEAFLET,
      reading: 'from memory',
      why: 'Distances from the handbook are unfactored: 43 % for safety.',
    },
  },
  takeOff: {
    ...NO_PUBLISHED_STEPS,
    safety: {
      factor: 1.33,
      source: LEAFLET,
      reading: 'from memory',
      why: 'Distances from the handbook are unfactored: 33 % for safety.',
    },
  },
};
