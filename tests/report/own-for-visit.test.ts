/** Which own factors go with a visit: those of its ground and of its factor set. */
import { describe, expect, test } from 'vitest';
import { calibrate } from '../../src/calibration/calibrate.ts';
import { compare, type UsedFactorSet } from '../../src/calibration/comparison.ts';
import type { AeroplaneFactors } from '../../src/debrief/own-factors.ts';
import { summariseFlight, type EventSummary } from '../../src/report/flight-summary.ts';
import { shortPairs } from '../../src/report/logged-lengths.ts';
import { ownForVisit } from '../../src/report/own-for-visit.ts';
import { demoFlight } from './demo-flight.ts';

const LEAFLET: UsedFactorSet = {
  id: 'uk-leaflet',
  name: 'UK leaflet 7c',
  isOwn: false,
  safetyFactor: 1.43,
};
const MINE: UsedFactorSet = { id: 'mine', name: 'my own set', isOwn: true, safetyFactor: 1.6 };

/** Eight landings on dry ground, expected with these sets in turn. */
function factorsWith(...sets: readonly UsedFactorSet[]): AeroplaneFactors {
  const comparisons = Array.from({ length: 8 }, (_, k) =>
    compare({
      ...{ quantity: 'landing-from-50-ft', expectedM: 300, effort: 'full', slopeRatio: 0 },
      ...{ measuredM: { value: 300 + 5 * k, low: 290 + 5 * k, high: 310 + 5 * k } },
      ...{ dayKey: `day ${k >> 1}`, stripLeftM: { value: 50, low: 45, high: 55 }, ldaM: 400 },
      factorSet: sets[k % sets.length],
    }),
  );
  return {
    ...{ aeroplane: 'reed-1', name: 'Reed 1', goArounds: 0 },
    factors: [calibrate('landing-from-50-ft', comparisons, [], 'dry')],
  };
}

describe('[VI33] the own factor of a visit', () => {
  test('[VI33] is that found with the factor set of the visit', () => {
    const { own, missing } = ownForVisit(factorsWith(MINE), 'grass-dry', 'mine');
    expect(own.landingWhole).toBeGreaterThan(1);
    expect(missing.landing).toBeNull();
  });

  test('[VI33] found with another set, or with several, it is not shown, and says why', () => {
    const other = ownForVisit(factorsWith(LEAFLET), 'grass-dry', 'mine');
    expect(other.own.landingWhole).toBeNull();
    expect(other.missing.landing).toMatch(/^No own factor: yours was found with UK leaflet 7c, /);
    const mixed = ownForVisit(factorsWith(LEAFLET, MINE), 'grass-dry', 'mine');
    expect(mixed.own.landingWhole).toBeNull();
    expect(mixed.missing.landing).toContain('my own set and UK leaflet 7c');
  });
});

describe('[VI34] the landings behind the length needed', () => {
  test('[VI34] are those compared with the same factor set', async () => {
    const { flight } = await demoFlight('2024-05-12-first-visit-sedge.gpx');
    const summary = summariseFlight(flight);
    const pair = { dayKey: 'd', alongM: 50, rollLog: 0, alongVariance: 9, covariance: 0 };
    const expectedWith = (factorSet: UsedFactorSet): EventSummary[] =>
      summary.events.map((event) => ({
        ...event,
        roll: { ...event.roll, factorSet },
        short: { ...pair, rollVariance: 0.01 },
      }));
    const flights = [LEAFLET, MINE].map((set, flightIndex) => ({
      id: 'log',
      flightIndex,
      summary: { ...summary, events: expectedWith(set) },
    }));
    const approaches = summary.events.filter(({ kind }) => kind === 'approach').length;
    expect(approaches).toBeGreaterThan(0);
    expect(shortPairs(flights, 'marram-160')).toHaveLength(2 * approaches);
    expect(shortPairs(flights, 'marram-160', 'mine')).toHaveLength(approaches);
    expect(shortPairs(flights, 'marram-160', 'class-b')).toHaveLength(0);
  });
});
