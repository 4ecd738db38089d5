/** What pilots usually do to their speed in turns, and how far it is counted; rule WI5 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { FittedWind } from '../../src/events/wind-from-track.ts';
import { expectNear } from '../expect-near.ts';
import { fitted, flownInWind, SLOWING, type Moment } from './made-wind.ts';

const CALM = { east: 0, north: 0 };

/** North, round to the right within half a minute, and back south, all at one airspeed. */
const U_TURN: Moment[] = Array.from({ length: 150 }, (_, k) => ({
  headingDeg: k < 60 ? 0 : k < 90 ? 6 * (k - 60) : 180,
  ...{ airspeedMps: 30, aboveM: 0 },
}));

/** The turn flown in calm air at one rate of climb; after half of it a pause of the log. */
function turned(climbMps: number, holeS = 0): FittedWind {
  const motion = flownInWind(U_TURN, CALM);
  return fitted({
    ...motion,
    timeS: motion.timeS.map((t, i) => (i < 75 ? t : t + holeS)),
    verticalSpeedMps: new Float64Array(motion.length).fill(climbMps),
  });
}

describe('[WI5] the usual change of speed in a turn', () => {
  test('[WI5] of a climbing turn and of a descending one are opposite, and none is level', () => {
    const [up, level, down] = [1.5, 0, -1.5].map((climbMps) => turned(climbMps).northMps);
    // A third of a sixtieth of the speed a second over 30 s is 1.5 m/s, of which the wind gets a part.
    expect(up).toBeGreaterThan(0.5);
    // The steps end where one moves the wind little.
    expectNear(down, -up, 1e-3);
    expectNear(level, 0, 1e-3);
  });

  test('[WI5] grows with the rate of climb up to 1.5 m/s, and no further', () => {
    const [half, whole, brisk] = [0.75, 1.5, 6].map((climbMps) => turned(climbMps).northMps);
    // Half the habit; what it then leaves open is less too, so the half is not quite exact.
    expectNear(half / whole, 0.5, 0.04);
    expectNear(brisk, whole, 1e-9);
  });

  test('[WI5] is counted for 12 s of a hole in the turn, however long the hole', () => {
    // What the speed did before a hole of minutes says nothing of it after: only the habit is left.
    const [none, long, longer] = [0, 80, 160].map((holeS) => turned(-1.5, holeS).northMps);
    expectNear(long, none, 0.06);
    expectNear(longer, none, 0.06);
  });
});

describe('[WI5] the steps to the wind', () => {
  test('[WI5] go on until it has settled: a strong wind has the doubt of its own gusts', () => {
    // The first step knows no wind yet, and so no gusts but the least.
    const steady = SLOWING.map((moment) => ({ ...moment, airspeedMps: 34, aboveM: 0 }));
    const [calm, strong] = [CALM, { east: 0, north: -18 }].map((wind) =>
      fitted(flownInWind(steady, wind)),
    );
    // Gusts of 2.5 m/s instead of 0.3 on pilots' changes of 1 m/s (0.25 m/s2 for 4 s): some twice.
    expectNear(Math.sqrt(strong.varEast / calm.varEast), 2, 0.25);
    expectNear(Math.sqrt(strong.varNorth / calm.varNorth), 2, 0.25);
  });
});
