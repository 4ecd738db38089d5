/**
 * The factors of the United Kingdom's general aviation leaflet on aeroplane performance.
 *
 * Source: UK CAA Safety Sense Leaflet 7c, "Aeroplane Performance", January 2013, section 8. The
 * edition was read in a copy; the table of factors is from memory, except where a figure says
 * otherwise. Factors multiply the whole distance from or to 50 ft. Part steps count in proportion:
 * the leaflet's own example takes 1.05 for 500 ft where 1,000 ft is 1.10.
 */

import type { FactorSet, PublishedFactor, SurfaceFactor } from './factor-set.ts';

const LEAFLET = 'UK CAA Safety Sense Leaflet 7c, January 2013, section 8';
const CAT_WET_GRASS = 'Regulation (EU) 965/2012, GM1 CAT.POL.A.335, as retained in the UK';

/** The leaflet's factors, for landing and for take-off. */
export const UK_LEAFLET: FactorSet = {
  id: 'uk-leaflet',
  name: 'UK leaflet 7c',
  prefersHandbook: false,
  landing: {
    massShare: { step: 0.1, ...leaflet(1.1, 'Each 10 % of mass adds 10 %.') },
    altitudeFt: { step: 1000, ...leaflet(1.05, 'Each 1,000 ft of elevation adds 5 %.') },
    tempC: { step: 10, ...leaflet(1.05, 'Each 10 degrees Celsius adds 5 %.') },
    tailwindShare: {
      step: 0.1,
      ...leaflet(1.2, 'A tailwind of a tenth of the landing speed adds 20 %.'),
    },
    slopeRatio: { step: 0.02, ...leaflet(1.1, 'Each 2 % of downhill slope adds 10 %.') },
    surface: {
      'hard-dry': surface(1, 'The leaflet counts from a hard, dry surface.'),
      'hard-wet': surface(1.15, 'A wet hard surface adds 15 %.'),
      'grass-dry': surface(1.15, 'Dry grass up to 20 cm on firm soil adds 15 %.'),
      'grass-wet': surface(1.35, 'Wet grass up to 20 cm on firm soil adds 35 %.'),
      'grass-wet-very-short': {
        factor: 1.35,
        plannedFactor: 1.6,
        source: `${LEAFLET}; ${CAT_WET_GRASS}`,
        reading: 'read',
        why: 'Wet grass adds 35 %; very short wet grass on firm subsoil may add up to 60 %, which the plan takes.',
        caution:
          'Very short wet grass on firm subsoil can leave very little braking: up to 60 % more, and the expected figure takes only 35 %.',
      },
      soft: softGround(),
    },
    safety: leaflet(1.43, 'Distances from the handbook are unfactored: 43 % for safety.'),
  },
  takeOff: {
    massShare: { step: 0.1, ...leaflet(1.2, 'Each 10 % of mass adds 20 %.') },
    altitudeFt: { step: 1000, ...leaflet(1.1, 'Each 1,000 ft of elevation adds 10 %.') },
    tempC: { step: 10, ...leaflet(1.1, 'Each 10 degrees Celsius adds 10 %.') },
    tailwindShare: {
      step: 0.1,
      ...leaflet(1.2, 'A tailwind of a tenth of the lift-off speed adds 20 %.'),
    },
    slopeRatio: { step: 0.02, ...leaflet(1.1, 'Each 2 % of uphill slope adds 10 %.') },
    surface: {
      'hard-dry': surface(1, 'The leaflet counts from a hard, dry surface.'),
      'hard-wet': surface(1, 'A wet hard surface adds nothing to a take-off.'),
      'grass-dry': surface(1.2, 'Dry grass up to 20 cm on firm soil adds 20 %.'),
      'grass-wet': surface(1.3, 'Wet grass up to 20 cm on firm soil adds 30 %.'),
      'grass-wet-very-short': surface(1.3, 'Wet grass up to 20 cm on firm soil adds 30 %.'),
      soft: softGround(),
    },
    safety: leaflet(1.33, 'Distances from the handbook are unfactored: 33 % for safety.'),
  },
};

function leaflet(factor: number, why: string): PublishedFactor {
  return { factor, source: LEAFLET, reading: 'from memory', why };
}

function surface(factor: number, why: string): SurfaceFactor {
  return { ...leaflet(factor, why), plannedFactor: null, caution: null };
}

function softGround(): SurfaceFactor {
  return {
    ...leaflet(1.25, 'Soft ground adds 25 % or more, on top of what the grass adds.'),
    plannedFactor: null,
    caution: 'The factor for soft ground is a least one: there is no published upper limit.',
  };
}
