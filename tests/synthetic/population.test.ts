/** Do the simulated pilots arrive as pilots do? docs/decisions/0032-how-pilots-arrive.md and 0061. */
import { beforeAll, describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { drawAeroplane } from './population.ts';
import { flyDrawnApproach } from './scenarios.ts';
import type { ApproachTruth } from './truth.ts';

const LANDINGS = 100;
const landings: { truth: ApproachTruth; stallMps: number }[] = [];

beforeAll(() => {
  for (let k = 0; k < LANDINGS; k++) {
    const aeroplane = drawAeroplane(createRandom(40_000 + k));
    const { flown } = flyDrawnApproach(30_000 + k, 'full-stop', { aeroplane });
    landings.push({ truth: flown.truth.approaches[0], stallMps: aeroplane.stallMps });
  }
});

function middle(of: (truth: ApproachTruth) => number): number {
  const values = landings.map(({ truth }) => of(truth)).sort((a, b) => a - b);
  return values[LANDINGS / 2];
}

describe('[POP1] the population of arrivals', () => {
  // Handbook air distances of light singles from 50 ft: 630 ft in the landing table of FAA-H-8083-25B,
  // figure 11-26 (1,075 ft less 445 ft of roll; from memory), somewhat longer in practice.
  test('[POP1] takes a little longer from 50 ft to touchdown than handbooks say', () => {
    const airM = middle(({ touchdown, fiftyFeet }) =>
      touchdown && fiftyFeet ? touchdown.alongM - fiftyFeet.alongM : NaN,
    );
    expect(airM).toBeGreaterThan(190);
    expect(airM).toBeLessThan(280);
  });

  // The same table over its approach at 52 kt (from memory): 7.2 s; NASA TN D-8283 (abstract read): pilots float.
  test('[POP4] takes from 50 ft longer than the handbook, by less than three quarters', () => {
    const airS = middle(({ touchdown, fiftyFeet }) =>
      touchdown && fiftyFeet ? touchdown.timeS - fiftyFeet.timeS : NaN,
    );
    expect(airS).toBeGreaterThan(7.2);
    expect(airS).toBeLessThan(12.6);
  });

  // NASA TN D-8283 (abstract read): touchdowns at speeds well above the stall.
  test('[POP2] touches down above the stall, most often well above', () => {
    const over = landings
      .map(({ truth, stallMps }) => (truth.touchdown?.airspeedMps ?? NaN) / stallMps)
      .sort((a, b) => a - b);
    // A gust may take a tenth of the airspeed away just before contact.
    expect(over[LANDINGS / 10]).toBeGreaterThan(0.98);
    expect(over[0]).toBeGreaterThan(0.85);
    expect(over[LANDINGS / 2]).toBeGreaterThan(1.08);
    expect(over[LANDINGS / 2]).toBeLessThan(1.3);
  });

  // Range common practice, no source; the firmest arrivals of the population are meant to reach it.
  test('[POP3] sinks at contact at less than 2 m/s, but for one in fifty', () => {
    const sinks = landings
      .map(({ truth }) => truth.touchdown?.sinkMps ?? NaN)
      .sort((a, b) => a - b);
    expect(sinks[0]).toBeGreaterThanOrEqual(0);
    expect(sinks[LANDINGS - 3]).toBeLessThan(2);
    expect(sinks[LANDINGS - 1]).toBeLessThan(3);
  });
});
