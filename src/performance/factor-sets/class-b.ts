/**
 * The factors of commercial operations in performance class B (single piston engine).
 *
 * Source: Regulation (EU) 965/2012, Annex IV, Subpart C, Section 2 (CAT.POL.A.305 for take-off,
 * 330 and 335 for landing) with its AMC and GM. Each figure says whether it was read or quoted.
 * Mass, altitude and temperature come from the flight manual alone. The take-off factor is the one
 * for a strip without stopway or clearway.
 */

import type { FactorSet, Reading, SurfaceFactor } from './factor-set.ts';

const REGULATION = 'Regulation (EU) 965/2012';

/** Class B factors, for landing and for take-off. */
export const CLASS_B: FactorSet = {
  id: 'class-b',
  name: 'class B operations',
  prefersHandbook: false,
  landing: {
    massShare: null,
    altitudeFt: null,
    tempC: null,
    tailwindShare: null,
    slopeRatio: {
      step: 0.01,
      factor: 1.05,
      source: `${REGULATION}, AMC2 CAT.POL.A.330 (read for 430)`,
      reading: 'read',
      why: 'Each 1 % of downhill slope adds 5 %.',
    },
    surface: {
      'hard-dry': surface(1, 'AMC1 CAT.POL.A.330', 'quoted', 'A hard, dry surface adds nothing.'),
      'hard-wet': surface(1.15, 'CAT.POL.A.335', 'read', 'A wet surface adds 15 %.'),
      'grass-dry': surface(1.15, 'AMC1 CAT.POL.A.330', 'quoted', 'Grass on firm soil adds 15 %.'),
      'grass-wet': surface(
        1.15 * 1.15,
        'AMC1 CAT.POL.A.330 and CAT.POL.A.335',
        'quoted',
        'Grass adds 15 % and wet another 15 %: 1.15 x 1.15.',
      ),
      'grass-wet-very-short': {
        ...surface(
          1.15 * 1.15,
          'GM1 CAT.POL.A.335',
          'read',
          'Grass adds 15 % and wet another 15 %; very short wet grass on firm subsoil may add 60 %, which the plan takes.',
        ),
        plannedFactor: 1.6,
        caution:
          'Very short wet grass on firm subsoil can leave very little braking: up to 60 % more, and the expected figure takes less.',
      },
    },
    safety: {
      factor: 1.43,
      source: `${REGULATION}, CAT.POL.A.330(a)`,
      reading: 'read',
      why: 'A full stop from 50 ft within 70 % of the landing distance available: 1 / 0.7.',
    },
  },
  takeOff: {
    heldAgainst: 'TORA',
    massShare: null,
    altitudeFt: null,
    tempC: null,
    tailwindShare: null,
    slopeRatio: {
      step: 0.01,
      factor: 1.05,
      source: `${REGULATION}, AMC2 CAT.POL.A.305`,
      reading: 'read',
      why: 'Each 1 % of uphill slope adds 5 %.',
    },
    surface: {
      'hard-dry': surface(1, 'AMC1 CAT.POL.A.305', 'quoted', 'A hard, dry surface adds nothing.'),
      'hard-wet': surface(1, 'AMC1 CAT.POL.A.305', 'quoted', 'Wet adds nothing on a hard surface.'),
      'grass-dry': surface(
        1.2,
        'AMC1 CAT.POL.A.305',
        'quoted',
        'Dry grass on firm soil adds 20 %.',
      ),
      'grass-wet': surface(
        1.3,
        'AMC1 CAT.POL.A.305',
        'quoted',
        'Wet grass on firm soil adds 30 %.',
      ),
      'grass-wet-very-short': surface(
        1.3,
        'AMC1 CAT.POL.A.305',
        'quoted',
        'Wet grass on firm soil adds 30 %.',
      ),
    },
    safety: {
      factor: 1.25,
      source: `${REGULATION}, CAT.POL.A.305(b)`,
      reading: 'quoted',
      why: 'Without stopway or clearway the factored distance must fit into the TORA: 25 %.',
    },
  },
};

function surface(factor: number, place: string, reading: Reading, why: string): SurfaceFactor {
  const source = `${REGULATION}, ${place}`;
  return { factor, source, reading, why, plannedFactor: null, caution: null };
}
