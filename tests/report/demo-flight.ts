/** One demo flight, and the same with parts replaced, for tests of what is printed. */
import type { Debrief, Flight } from '../../src/debrief/debrief.ts';
import type { Approach } from '../../src/events/flight-event.ts';
import { undetermined, type Estimate } from '../../src/result.ts';
import { debriefDemo, demoContext } from '../debrief/demo-flights.ts';

/** Debriefs a demo log and gives its one flight. */
export async function demoFlight(file: string): Promise<{ debrief: Debrief; flight: Flight }> {
  const debrief = await debriefDemo(file, demoContext());
  return { debrief, flight: debrief.flights[0] };
}

/** A band of five either way. */
export function about(value: number): Estimate {
  return { value, low: value - 5, high: value + 5 };
}

/** A landing made up figure by figure: touchdown at 40 m with 20 m/s, 180 m of roll, standing at 220 m. */
export function landingLike(model: Approach, changes: Partial<Approach>): Approach {
  const none = undetermined('not part of this test');
  return {
    ...model,
    outcome: 'full-stop',
    contactProbability: 1,
    thresholdCrossing: none,
    touchdown: {
      timeS: about(Date.UTC(2025, 5, 1, 10, 0, 0) / 1000),
      alongM: about(40),
      crossM: about(-2),
      groundSpeedMps: { value: 20, low: 19, high: 21 },
      shortProbability: 0,
      bounces: { value: 1, low: 1, high: 1 },
    },
    rollEnd: {
      kind: 'stopped',
      timeS: about(Date.UTC(2025, 5, 1, 10, 0, 20) / 1000),
      alongM: about(220),
      groundSpeedMps: about(0),
    },
    airDistanceM: about(40),
    landingDistanceM: about(220),
    groundRollM: about(180),
    fullStopRollM: about(180),
    stripLeftM: about(135),
    goAround: null,
    gates: [],
    notes: [],
    ...changes,
  };
}
