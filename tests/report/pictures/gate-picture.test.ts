/** The gates, the float and the commit point as pictures have them, from demo flights. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Flight } from '../../../src/debrief/debrief.ts';
import { figureLine } from '../../../src/report/figure-text.ts';
import { GATE_FIGURES, type Verdict } from '../../../src/report/pictures/gate-picture.ts';
import { isUndetermined } from '../../../src/result.ts';
import { finalOf, flightOf, limitedFlightOf } from '../../drawings/demo-pictures.ts';

const CIRCUITS = '2024-04-20-first-circuits-ternholm.gpx';

let limited: Flight;
let free: Flight;
let valley: Flight;

beforeAll(async () => {
  limited = await limitedFlightOf(CIRCUITS);
  free = await flightOf(CIRCUITS);
  valley = await flightOf('2025-05-18-wet-hollowmere.igc');
});

describe('gates', () => {
  test('[GP1] each verdict is that of its whole band against the limits entered', () => {
    const limits = {
      ...{ airspeed: [54, 58], groundSpeed: [40, 47], descent: [250, 450], path: [3, 5] },
      centreline: [-10, 10],
    };
    const scale = { airspeed: 3600 / 1852, groundSpeed: 3600 / 1852, descent: 60 / 0.3048 };
    const seen = new Set<Verdict>();
    limited.events.approaches.forEach((approach, k) => {
      const { gateTable } = finalOf(limited, k);
      expect(gateTable.map(({ heightFt }) => heightFt)).toEqual(
        approach.gates.map(({ heightFt }) => heightFt),
      );
      approach.gates.forEach((gate, g) => {
        const measured = {
          airspeed: limited.finals[k].gates[g].estimatedAirspeedMps,
          groundSpeed: gate.groundSpeedMps,
          descent: gate.descentRateMps,
          path: gate.pathDeg,
          centreline: gate.crossM,
        };
        for (const name of GATE_FIGURES) {
          const { limit } = gateTable[g].cells[name];
          const band = measured[name];
          if (gate.heightFt > 300) expect(limit).toBeNull();
          else if (isUndetermined(band)) expect(limit?.verdict).toBe('cannot tell');
          else {
            const per = (scale as Partial<Record<string, number>>)[name] ?? 1;
            const [low, high] = [band.low * per, band.high * per];
            const [least, most] = limits[name];
            const isIn = low >= least && high <= most;
            const isOut = high < least || low > most;
            const verdict: Verdict = isIn ? 'in' : isOut ? 'out' : 'cannot tell';
            expect(limit?.verdict, `${gate.heightFt} ft ${name}`).toBe(verdict);
            seen.add(verdict);
          }
        }
      });
    });
    expect([...seen].sort()).toEqual(['cannot tell', 'in', 'out']);
  });

  test('[GP2] without limits there is no verdict, and the figures are the same', () => {
    const [with_, without] = [finalOf(limited, 0), finalOf(free, 0)];
    expect(without.gates.map(({ paceLimit, slope }) => paceLimit ?? slope)).toEqual(
      without.gates.map(() => null),
    );
    for (const name of GATE_FIGURES) {
      const lines = ({ gateTable }: typeof with_) =>
        gateTable.map(({ cells }) => figureLine(cells[name].figure));
      expect(lines(with_)).toEqual(lines(without));
      expect(without.gateTable.every(({ cells }) => cells[name].limit === null)).toBe(true);
    }
  });

  test('[GP3] limits stand in the words of the figure, the place between them on one scale', () => {
    const { cells } = finalOf(limited, 0).gateTable.at(-1) ?? {};
    expect(cells?.airspeed.limit?.words).toBe('54\u201358\u00a0kt');
    expect(cells?.descent.limit?.words).toBe('250\u2013450\u00a0ft/min');
    expect(cells?.centreline.limit?.words).toBe('\u221210 to 10\u00a0m');
    const gate = limited.events.approaches[0].gates.at(-1);
    if (!gate || isUndetermined(gate.pathDeg)) throw new Error('no path at the lowest gate');
    // 3 to 5 degrees: 4 is the middle.
    expect(cells?.path.limit?.at).toBeCloseTo(gate.pathDeg.value - 4, 9);
  });

  test('[GP4] they are read out with their verdicts', () => {
    const { rows } = finalOf(limited, 0);
    const gate = rows.find(({ label }) => label === '50\u00a0ft gate');
    expect(gate?.value).toMatch(/airspeed, estimated .* (in|out|cannot tell) against 54\u201358/);
    expect(gate?.value).toMatch(/; at \u2212?\d+\u00a0m/);
  });
});

describe('the float', () => {
  test('[GP5] ends at the touchdown and begins as much before it as it was long', () => {
    const { float, touchdown } = finalOf(free, 2);
    const measured = free.finals[2].float;
    if (!float || !touchdown || isUndetermined(measured) || isUndetermined(measured.distanceM)) {
      throw new Error('no float in the demo');
    }
    const { value, low, high } = measured.distanceM;
    expect(float.toM).toBe(touchdown.atM);
    expect(float.toM - float.fromM).toBeCloseTo(value, 9);
    expect([float.toM - float.fromLowM, float.toM - float.fromHighM]).toEqual([
      expect.closeTo(high, 9),
      expect.closeTo(low, 9),
    ]);
  });
});

describe('the commit point', () => {
  test('[GP6] a go-around stands against it as measured; it advises nothing', () => {
    const { commit } = finalOf(valley, 0);
    const check = valley.finals[0].commitPoint;
    if (!check || isUndetermined(check.beforeM)) throw new Error('no go-around at a commit point');
    expect(commit?.commitM).toBe(-300);
    const before = Math.round(check.beforeM.value);
    expect(commit?.begun?.words).toBe(`begun ${before}\u00a0m before the commit point`);
    expect(finalOf(valley, 0).spoken).not.toMatch(/go around!|should|must/i);
  });

  test('[GP7] a landing shows only where it is, a strip without one nothing', () => {
    expect(finalOf(valley, 1).commit).toEqual({ commitM: -300, begun: null });
    expect(finalOf(free, 0).commit).toBeNull();
  });
});
