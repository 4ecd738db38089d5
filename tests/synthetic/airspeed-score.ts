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
import { METRES_PER_FOOT } from '../../src/units/convert.ts';
import { valueAt } from '../../src/events/arrival-data.ts';
import type { FlownFlight } from './flight.ts';

/** One gate. Speeds in m/s. */
export interface AirspeedScore {
  readonly heightFt: number;
  readonly error: number;
  readonly held: boolean;
  readonly width: number;
}

/** How far the day's temperature is off the standard's, one sd, kelvin. */
const DAY_SD_K = 8;

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
