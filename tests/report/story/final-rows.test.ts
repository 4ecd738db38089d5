/** What the page says of a final; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { Final } from '../../../src/debrief/finals.ts';
import type { Approach } from '../../../src/events/flight-event.ts';
import { figureLine, USUAL_UNITS } from '../../../src/report/figure-text.ts';
import { finalRows } from '../../../src/report/story/final-rows.ts';
import { undetermined } from '../../../src/result.ts';
import { demoFlight } from '../demo-flight.ts';

const { flight } = await demoFlight('2024-04-20-first-circuits-ternholm.gpx');
const index = flight.events.approaches.length - 1;
const approach = flight.events.approaches[index];
const final = flight.finals[index];
const lines = (changes: Partial<Final>, of: Approach = approach): string[] =>
  finalRows(of, { ...final, ...changes }, USUAL_UNITS).map(({ label, figure, beside }) =>
    `${label}: ${figureLine(figure)} ${beside}`.replaceAll('\u00a0', ' ').trim(),
  );
const from = (value: number, half: number) => ({ value, low: value - half, high: value + half });

describe('[FR1] [PG26] a final on the page', () => {
  test('[FR1] has the airspeed at its lowest gate, and the float', () => {
    const estimatedAirspeedMps = from(28.3, 1);
    const gates = approach.gates.map(() => ({ estimatedAirspeedMps, limits: [] }));
    const float = { durationS: from(3, 2), distanceM: from(70, 40) };
    const [airspeed, floated] = lines({ gates, float, airspeedWind: 'entered' });
    // 28.3 m/s is 55.0 kt (1 kt = 1852 m an hour exactly).
    expect(airspeed).toBe('airspeed at 50 ft, estimated: 55 kt 53–57');
    expect(floated).toBe('float: 3 s 1–5 over 70 m 30–110');
    const [{ how }] = finalRows(
      approach,
      { ...final, gates, airspeedWind: 'entered' },
      USUAL_UNITS,
    );
    expect(how).toContain('the wind entered');
    expect(how).toContain('nothing about a margin over the stall');
  });

  test('[FR1] gives the reason where a figure cannot be had', () => {
    const none = undetermined('no wind was entered');
    const gates = approach.gates.map(() => ({ estimatedAirspeedMps: none, limits: [] }));
    const [airspeed, floated] = lines({ gates, float: undetermined('no heights') });
    expect(airspeed).toBe('airspeed at 50 ft, estimated: no wind was entered');
    expect(floated).toBe('float: no heights');
    const [{ how }] = finalRows(approach, { ...final, gates, airspeedWind: null }, USUAL_UNITS);
    expect(how).toContain('neither the track nor an entry');
    expect(how).not.toContain('implies');
  });

  test('[FR2] tells the preferred path and the commit point where the strip has them', () => {
    const preferredPath = {
      found: 'left',
      ...{ withinM: 100, meanOffM: from(90, 10), parts: [] },
      greatestOffM: from(240, 20),
    } as const;
    const commit = { commitM: -300, initiationAlongM: from(-320, 30) };
    const before = { ...commit, beforeM: from(20, 30), beforeProbability: 0.86 };
    const past = { ...commit, beforeM: from(-80, 30), beforeProbability: 0 };
    expect(lines({ preferredPath, commitPoint: before }).slice(-2)).toEqual([
      'furthest off the preferred path: 240 m 220–260 not kept to within 100 m',
      'go-around begun before the commit point by: 20 m −10–50 before it with 86 %',
    ]);
    expect(lines({ commitPoint: past }).at(-1)).toBe(
      'go-around begun past the commit point by: 80 m 50–110',
    );
    expect(lines({ preferredPath: null, commitPoint: null })).toHaveLength(2);
  });
});
