/** The copied independent flights are whole and agree with their own events. */
import { describe, expect, test } from 'vitest';
import { expectNear } from '../expect-near.ts';
import { numberOf, readTruthFlights } from './read-truth.ts';

const flights = readTruthFlights();

describe('independent flights', () => {
  test('[TRUTH1] are twelve, with equal columns at ten rows a second', () => {
    expect(flights.length).toBe(12);
    for (const { name, columns } of flights) {
      for (const column of Object.values(columns))
        expect(column.length, name).toBe(columns.t.length);
      const last = columns.t.length - 1;
      expectNear(columns.t[last] / last, 0.1, 1e-3, `${name} step`);
    }
  });

  test('[TRUTH2] have the wheels at the surface when they touch, and in the air a second before', () => {
    const landings = flights.flatMap(({ columns, events }) =>
      events.filter(({ type }) => type === 'landing').map((event) => ({ columns, event })),
    );
    expect(landings.length).toBeGreaterThanOrEqual(9);
    for (const { columns, event } of landings) {
      const row = Math.round(numberOf(event, 'td_t') * 10);
      // Rows are rounded to a tenth of a second: at 2 m/s that is 0.1 m either way.
      expectNear(columns.agl[row], 0, 0.2, 'height at touchdown');
      expect(columns.agl[row - 10]).toBeGreaterThan(columns.agl[row] + 0.02);
      expectNear(columns.gs[row], numberOf(event, 'td_gs'), 0.2, 'ground speed at touchdown');
    }
  });

  test('[TRUTH3] have rolls that end where the truth says', () => {
    const stops = flights.flatMap(({ columns, events }) =>
      events
        .filter((event) => typeof event.stop_t === 'number')
        .map((event) => ({ columns, event })),
    );
    expect(stops.length).toBeGreaterThanOrEqual(8);
    for (const { columns, event } of stops) {
      expectNear(
        columns.gs[Math.round(numberOf(event, 'stop_t') * 10)],
        0.3,
        0.3,
        'speed at the stop',
      );
      const rollM = numberOf(event, 'stop_x') - numberOf(event, 'td_x');
      expectNear(numberOf(event, 'ground_roll'), rollM, 0.01, 'roll');
    }
  });
});
