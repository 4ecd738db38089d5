/**
 * Worked table look-ups of a published handbook, through the predictor's own tables.
 *
 * Sources: FAA-H-8083-25A, Pilot's Handbook of Aeronautical Knowledge (2008), p. 10-19 (the
 * interpolation 1,115 and 1,230 ft to 1,173 ft: read), and the landing distance table of
 * FAA-H-8083-25B, Fig. 11-26, with its sample problem (from memory).
 * The tables are entered in metres, so feet are converted both ways; tolerances are the book's
 * rounding to whole feet, or to 5 ft where it says so.
 */

import { describe, expect, test } from 'vitest';
import { splitRoll } from '../../src/calibration/roll-split.ts';
import { standardTempC } from '../../src/atmosphere/standard-atmosphere.ts';
import type {
  Aeroplane,
  HandbookCorrection,
  HandbookTable,
} from '../../src/performance/aeroplane.ts';
import { HANDBOOK_ONLY } from '../../src/performance/factor-sets/handbook-only.ts';
import { readTable } from '../../src/performance/handbook-table.ts';
import { KG_PER_POUND, METRES_PER_FOOT, MPS_PER_KNOT } from '../../src/units/convert.ts';
import { expectNear } from '../expect-near.ts';
import {
  landing,
  metres,
  oneRow,
  predicted,
  reasonOf,
  takeOff,
} from '../performance/invented-aeroplane.ts';

const feet = (ft: number): number => ft * METRES_PER_FOOT;

test('[HBK1] interpolates 1,115 ft at 2,000 ft and 1,230 ft at 3,000 ft to 1,173 ft at 2,500 ft', () => {
  const table = oneRow('take-off-to-screen', 1, {
    pressureAltitudeFt: [2000, 3000],
    tempC: [20],
    massKg: [1100],
    distanceM: [[[feet(1115)]], [[feet(1230)]]],
  });
  const found = readTable(table, { pressureAltitudeFt: 2500, tempC: 20, massKg: 1100 }, 'refuse');
  if ('undetermined' in found) throw new Error(found.undetermined);
  // The mean is 1,172.5 and the book prints 1,173.
  expectNear(found.distanceM / METRES_PER_FOOT, 1173, 0.5 + 1e-9, 'distance');
});

describe('[HBK2] landing distance table over standard temperatures', () => {
  const column = (ft: readonly number[]): number[][][] => ft.map((value) => [[feet(value)]]);
  const table = (quantity: HandbookTable['quantity'], ft: readonly number[]): HandbookTable =>
    oneRow(quantity, 1, {
      pressureAltitudeFt: [0, 2500, 5000, 7500],
      tempC: 'standard',
      massKg: [1600 * KG_PER_POUND],
      distanceM: column(ft),
    });
  const aeroplane: Partial<Aeroplane> = {
    massKg: { min: 450, maxTakeOff: 1600 * KG_PER_POUND, maxLanding: 1600 * KG_PER_POUND },
    tables: [
      table('landing-roll', [445, 470, 495, 520]),
      table('landing-from-screen', [1075, 1135, 1195, 1255]),
    ],
    corrections: [
      {
        phase: 'landing',
        condition: 'headwind',
        percent: -10,
        per: 4,
        upTo: null,
        of: 'distance',
        text: '10 % less for each 4 kt of headwind.',
      },
      {
        phase: 'landing',
        condition: 'temperature-above-standard',
        percent: 10,
        per: (60 * 5) / 9,
        upTo: null,
        of: 'distance',
        text: '10 % more for each 60 degrees F above standard.',
      },
    ],
  };
  const base = {
    set: HANDBOOK_ONLY,
    aeroplane,
    direction: { surface: 'hard', elevationMslM: feet(1250) },
    conditions: {
      surface: 'hard-dry',
      massKg: 1600 * KG_PER_POUND,
      tempC: standardTempC(feet(1250)),
    },
  } as const;

  test('[HBK2] gives roll 458 ft and 1,105 ft over 50 ft at 1,250 ft, standard temperature, calm', () => {
    const found = landing(base);
    // The midpoint is 457.5 and the book prints 458.
    expectNear(metres(found.expectedRollM) / METRES_PER_FOOT, 458, 0.5 + 1e-6, 'roll');
    expectNear(metres(found.expectedFrom50FtM) / METRES_PER_FOOT, 1105, 0.5, 'from 50 ft');
  });

  test('[HBK3] takes 10 % off both for 4 kt of headwind', () => {
    const wind = { fromDeg: 90, reference: 'true', speedKt: 4, gustKt: null } as const;
    const found = landing({ ...base, conditions: { ...base.conditions, wind } });
    expectNear(metres(found.expectedRollM) / METRES_PER_FOOT, 457.5 * 0.9, 0.01, 'roll');
    expectNear(metres(found.expectedFrom50FtM) / METRES_PER_FOOT, 1105 * 0.9, 0.01, 'whole');
  });

  test('[HBK3] adds 10 % for 60 degrees F above standard and nothing for the standard itself', () => {
    const tempC = base.conditions.tempC + (60 * 5) / 9;
    const found = landing({ ...base, conditions: { ...base.conditions, tempC } });
    expectNear(metres(found.expectedFrom50FtM) / METRES_PER_FOOT, 1105 * 1.1, 0.01, 'whole');
  });

  test('[HBK4] gives no figure for grass that this handbook does not cover', () => {
    const found = landing({
      ...base,
      direction: { ...base.direction, surface: 'grass' },
      conditions: { ...base.conditions, surface: 'grass-wet' },
    });
    expect(reasonOf(found.expectedRollM)).toContain('no landing correction for short wet grass');
  });
});

describe('[HBK5] grass as a share of the ground roll', () => {
  test('[HBK5] 45 % of a 200 m roll is added to both distances', () => {
    // Notes of this form stand in several public copies of light single handbooks (quoted).
    const found = landing({
      set: HANDBOOK_ONLY,
      aeroplane: {
        corrections: [
          {
            phase: 'landing',
            condition: 'grass-dry',
            percent: 45,
            per: null,
            upTo: null,
            of: 'ground-roll',
            text: 'On dry grass add 45 % of the ground roll.',
          },
        ],
      },
    });
    expectNear(metres(found.expectedFrom50FtM), 540, 1e-9, 'whole');
    expectNear(metres(found.expectedRollM), 290, 1e-9, 'roll');
  });
});

describe('[HBK6] notes as light single handbooks print them', () => {
  // Quoted in several public copies: dry grass + 15 % of the ground roll at take-off, 10 % less for
  // each 9 kt of headwind, 10 % more for each 2 kt of tailwind up to 10 kt.
  const note = (
    condition: HandbookCorrection['condition'],
    percent: number,
    per: number | null,
    upTo: number | null,
    of: HandbookCorrection['of'],
  ): HandbookCorrection => ({
    ...{ phase: 'take-off', condition, percent, per, upTo, of },
    text: 'As printed.',
  });
  const corrections = [
    note('grass-dry', 15, null, null, 'ground-roll'),
    note('headwind', -10, 9, null, 'distance'),
    note('tailwind', 10, 2, 10, 'distance'),
  ];
  const out = (fromDeg: number, speedKt: number) =>
    takeOff({
      set: HANDBOOK_ONLY,
      aeroplane: { corrections },
      conditions: { wind: { fromDeg, reference: 'true', speedKt, gustKt: null } },
    });

  test('[HBK6] take-off: 15 % of a 300 m roll is added to both distances', () => {
    expectNear(metres(out(90, 0).expectedTo50FtM), 545, 1e-9, 'whole');
    expectNear(metres(out(90, 0).expectedRollM), 345, 1e-9, 'roll');
  });

  test('[HBK6] 9 kt of headwind take 10 % off; 10 kt of tailwind add 50 %, and 12 kt have no figure', () => {
    // The wind acts on roll and air alike, the grass on the roll that is left.
    expectNear(metres(out(90, 9).expectedTo50FtM), 500 * 0.9 + 0.15 * 300 * 0.9, 1e-9, 'head');
    expectNear(metres(out(270, 10).expectedTo50FtM), 500 * 1.5 + 0.15 * 300 * 1.5, 1e-9, 'tail');
    expect(reasonOf(out(270, 12).expectedTo50FtM)).toContain('ends at 10');
  });
});

test('[HBK7] 10 % more speed at touchdown is 21 % more roll, all of it speed and none of it braking', () => {
  // FAA-H-8083-25, chapter on performance: 10 % excess landing speed, 21 % more distance (quoted).
  const split = splitRoll({
    measuredM: { value: 1.21 * 200, low: 240, high: 244 },
    expectedM: 200,
    touchdownMps: { value: 1.1 * 25, low: 27, high: 28 },
    referenceMps: 25,
  });
  if (!split) throw new Error('no split');
  expectNear(split.touchdownSpeed.metres.value, 42, 1e-9, 'speed');
  expectNear(split.braking.metres.value, 0, 1e-9, 'braking');
  expectNear(Math.exp(split.touchdownSpeed.logShare + split.braking.logShare), 1.21, 1e-12, 'sum');
});

test('[HBK8] final approach: 1.3 times the stall speed, and half the gust added', () => {
  // FAA-H-8083-3C, Airplane Flying Handbook, p. 9-20 and following (read).
  const wind = { fromDeg: 90, reference: 'true', speedKt: 10, gustKt: 18 } as const;
  const { speeds } = predicted({ conditions: { wind } });
  if ('undetermined' in speeds) throw new Error(speeds.undetermined);
  expectNear(speeds.approachMps / speeds.stallMps, 1.3, 1e-12, 'approach');
  expectNear(speeds.gustAdditionMps / MPS_PER_KNOT, 4, 1e-9, 'half of 8 kt');
});
