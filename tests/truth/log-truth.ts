/** An independent flight as a receiver of tests/synthetic would have logged it. */
import { createLocalFrame } from '../../src/geo/local-frame.ts';
import type { Random } from '../../src/numeric/random.ts';
import type { Track } from '../../src/track/track.ts';
import type { FlownFlight } from '../synthetic/flight.ts';
import { logAsGpx, logAsIgc, toTrack } from '../synthetic/logged-track.ts';
import { drawReceiver, withPressure } from '../synthetic/population.ts';
import { receive } from '../synthetic/receiver-model.ts';
import { emptyTruth } from '../synthetic/truth.ts';
import type { TruthFlight } from './read-truth.ts';

/** GPX with satellite heights, or IGC with satellite and pressure heights. */
export type LoggedAs = 'gpx' | 'igc';

/** Logs a flight every `intervalS` seconds; every error of the receiver is drawn. `startS` is the UTC time of t = 0. */
export function independentTrack(
  flight: TruthFlight,
  startS: number,
  random: Random,
  as: LoggedAs,
  intervalS = 1,
): Track {
  // Fixes fall on whole seconds, the true moments anywhere between them.
  const flown = independentFlown(flight, startS + random.uniform());
  const receiver = drawReceiver(random, intervalS);
  if (as === 'gpx') return toTrack(logAsGpx(receive(flown, receiver, random)));
  return toTrack(logAsIgc(receive(flown, withPressure(receiver, random), random)));
}

/** A flight as the receiver's model wants it, metres about the threshold. `startS` is the UTC time of t = 0. */
export function independentFlown(flight: TruthFlight, startS: number): FlownFlight {
  const { t, lat, lon, alt, tas } = flight.columns;
  const { thresholdLatDeg, thresholdLonDeg, elevationThresholdM } = flight.strip;
  const map = createLocalFrame(thresholdLatDeg, thresholdLonDeg, elevationThresholdM);
  const { eastM, northM } = map.toEastNorth(Float64Array.from(lat), Float64Array.from(lon));
  const heightM = Float64Array.from(alt);
  return {
    map,
    length: t.length,
    timeS: Float64Array.from(t, (seconds) => startS + seconds),
    eastM,
    northM,
    antennaMslM: heightM,
    wheelMslM: heightM,
    eastMps: rates(t, eastM),
    northMps: rates(t, northM),
    antennaUpMps: rates(t, heightM),
    airspeedMps: Float64Array.from(tas),
    truth: emptyTruth(),
  };
}

/** Central differences of a column, per second. */
function rates(t: readonly number[], column: Float64Array): Float64Array {
  return column.map((_, i) => {
    const before = Math.max(0, i - 1);
    const after = Math.min(column.length - 1, i + 1);
    return (column[after] - column[before]) / (t[after] - t[before]);
  });
}
