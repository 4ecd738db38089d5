/** The height offset between contacts, against Gaussian conditioning by hand; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { tieHeights, type Tie } from '../../src/events/ground-tie.ts';
import { TIE } from '../../src/events/tuning.ts';
import { expectNear } from '../expect-near.ts';

const at = (timeS: number, offsetM: number, stripId = 'here'): Tie => ({
  timeS,
  offsetM,
  sdM: TIE.tieSdM,
  stripId,
  elevationKnown: true,
});

/** Constant, drift and tie variances. */
const CONSTANT = TIE.geoidSdM ** 2;
const DRIFT = TIE.driftSdM ** 2;
const OWN = TIE.tieSdM ** 2;

describe('[GT1] heights between contacts', () => {
  test('[GT1] one tie: its own offset everywhere, sure at the contact, drifting away from it', () => {
    const offsetAt = tieHeights([at(1000, 47)], 'unstated', 'here');
    for (const gapS of [0, 60, 300, 3600]) {
      const found = offsetAt(1000 + gapS);
      expect(found.tied).toBe(true);
      expectNear(found.offsetM, 47, 1e-9, `after ${gapS} s`);
      // One observation of a sum: prior less covariance squared over the observation's variance.
      const shared = CONSTANT + DRIFT * Math.exp(-gapS / TIE.driftTimeS);
      const variance = CONSTANT + DRIFT - shared ** 2 / (CONSTANT + DRIFT + OWN);
      expectNear(found.sdM, Math.sqrt(variance), 1e-6, `sd after ${gapS} s`);
    }
    // An hour later both drifts count: root two of 4 m.
    expectNear(offsetAt(4600).sdM, Math.hypot(4, 4), 0.2);
  });

  test('[GT1] between two ties the offset lies between them and is surer than from one', () => {
    const both = tieHeights([at(0, 40), at(200, 50)], 'unstated', 'here');
    expectNear(both(100).offsetM, 45, 1e-6);
    expectNear(both(0).offsetM, 40, 0.5);
    expect(both(100).sdM).toBeLessThan(tieHeights([at(0, 40)], 'unstated', 'here')(100).sdM);
  });

  test('[GT1] a tie at another strip brings the error of its entered elevation', () => {
    const here = tieHeights([at(0, 40)], 'unstated', 'here')(0).sdM;
    const there = tieHeights([at(0, 40, 'there')], 'unstated', 'here')(0).sdM;
    expectNear(Math.sqrt(there ** 2 - here ** 2), TIE.elevationSdM, 0.1);
  });

  test('[GT2] without a contact: near the antenna for sea level, wide and shifted where nothing is stated', () => {
    const sea = tieHeights([], 'geoid', 'here')(0);
    const unstated = tieHeights([], 'unstated', 'here')(0);
    const ellipsoid = tieHeights([], 'ellipsoid', 'here')(0);
    expect([sea.tied, unstated.tied, ellipsoid.tied]).toEqual([false, false, false]);
    expectNear(sea.offsetM, TIE.antennaM, 1e-9);
    expectNear(sea.sdM, Math.hypot(TIE.seaLevelSdM, TIE.driftSdM), 1e-9);
    expect(unstated.sdM).toBeGreaterThan(2 * sea.sdM);
    expect(ellipsoid.offsetM).toBeGreaterThan(unstated.offsetM);
  });
});
