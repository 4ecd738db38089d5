/**
 * When was a simulated descent broken, by the rule that the measurement goes by (GA1)?
 *
 * In: a flown flight, the time of its lowest point. Out: UTC seconds, from vertical speeds over a second.
 */
import { firstAtOrAfter } from '../../src/events/arrival-data.ts';
import { percentile } from '../../src/events/passes.ts';
import type { FlownFlight } from './flight.ts';

/** The last moment before the lowest point at which it sank at half its steady rate: the median from 25 to 5 s before. */
export function halfRateS({ timeS, wheelMslM }: FlownFlight, lowestS: number): number {
  const row = (atS: number): number => firstAtOrAfter(timeS, atS);
  const upMps = (i: number): number => {
    const [before, after] = [row(timeS[i] - HALF_S), row(timeS[i] + HALF_S)];
    return (wheelMslM[after] - wheelMslM[before]) / (timeS[after] - timeS[before]);
  };
  const [from, to, lowest] = [row(lowestS - 25), row(lowestS - 5), row(lowestS)];
  const rates = Float64Array.from({ length: to - from }, (_, k) => upMps(from + k));
  const steady = percentile(rates, 0.5);
  for (let i = lowest; i > from; i--) if (upMps(i) <= steady / 2) return timeS[i];
  return lowestS;
}

const HALF_S = 0.5;
