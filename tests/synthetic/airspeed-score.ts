/**
 * Estimated airspeeds at the gates against the truth of a simulated flight.
 *
 * The day's temperature is drawn: the simulator flies by true airspeed, what an indicator shows
 * depends on the air. In: the flown flight, what was found, a seed. Out: error and band of each gate.
 */
import type { Flight } from '../../src/debrief/debrief.ts';
import { densityRatio, standardTempC } from '../../src/atmosphere/standard-atmosphere.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { METRES_PER_FOOT, MPS_PER_KNOT } from '../../src/units/convert.ts';
import type { Conditions } from '../../src/weather/conditions.ts';
import { valueAt } from '../../src/events/arrival-data.ts';
import type { FlownFlight } from './flight.ts';
import type { WindDay } from './wind-model.ts';

/** One gate. Speeds in m/s. */
export interface AirspeedScore {
  readonly heightFt: number;
  readonly error: number;
  readonly held: boolean;
  readonly width: number;
}

/** How far the day's temperature is off the standard's, one sd, kelvin. */
const DAY_SD_K = 8;

/**
 * The day's wind as a pilot may enter it: read at one place and moment, off by 1.5 m/s and a fifth of its
 * speed, one sd, in each component (common practice, no source).
 */
export function windAsEntered(day: WindDay, seed: number): NonNullable<Conditions['wind']> {
  const random = createRandom(seed + ENTERED_SEEDS);
  const sd = Math.hypot(1.5, 0.2 * day.speedMps);
  const rad = (day.fromDeg * Math.PI) / 180;
  const east = day.speedMps * Math.sin(rad) + sd * random.normal();
  const north = day.speedMps * Math.cos(rad) + sd * random.normal();
  const fromDeg = ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360;
  const speedKt = Math.hypot(east, north) / MPS_PER_KNOT;
  return { fromDeg, reference: 'true', speedKt, gustKt: null };
}

const ENTERED_SEEDS = 800_000_000;

/** All gates of a flight that have an airspeed. */
export function scoreAirspeeds(
  flown: FlownFlight,
  { events, finals }: Pick<Flight, 'events' | 'finals'>,
  elevationMslM: number,
  seed: number,
): AirspeedScore[] {
  const offK = DAY_SD_K * createRandom(seed).normal();
  return events.approaches.flatMap(({ gates }, k) =>
    gates.flatMap(({ heightFt, timeS }, g) => {
      const found = finals[k].gates[g].estimatedAirspeedMps;
      if (isUndetermined(found)) return [];
      const heightM = elevationMslM + heightFt * METRES_PER_FOOT;
      const root = Math.sqrt(densityRatio(heightM, standardTempC(heightM) + offK));
      const truth = root * valueAt(flown.timeS, flown.airspeedMps, timeS);
      const held = found.low <= truth && truth <= found.high;
      return [{ heightFt, error: found.value - truth, held, width: found.high - found.low }];
    }),
  );
}
