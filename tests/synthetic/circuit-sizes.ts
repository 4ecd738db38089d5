/**
 * The size and the speeds of a simulated circuit against what was found.
 *
 * A turn begins where its rate over half a second to either side first reaches three tenths of its
 * greatest, and is over where it no longer does; lined up is where the track comes within 15 degrees
 * of the landing direction for good. Circuits with an orbit are left out, and of the rest legs that
 * have no straight part.
 */
import type { Circuit } from '../../src/events/circuit-figures.ts';
import { firstAtOrAfter } from '../../src/events/arrival-data.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import type { CircuitFlight } from './circuit-population.ts';
import type { Against } from './circuit-score.ts';
import type { FlownFlight } from './flight.ts';
import { createRunway, toAlongCross, type Runway } from './runway.ts';
import type { CircuitTruth, LegName, LegTruth } from './truth.ts';

/** Names of the figures; lengths in metres, speeds in m/s. */
export const SIZES = ['base turn', 'final', 'spacing', 'leg speed'] as const;

/** One figure against its truth. */
export interface SizeScore extends Against {
  readonly figure: (typeof SIZES)[number];
}

/** Rows of the flown flight in which a turn was flown. */
interface Turn {
  readonly from: number;
  readonly to: number;
}

/** All figures of one circuit, the `k`th of the flight; `found`: what was found of it. */
export function scoreSizes(flight: CircuitFlight, k: number, found: Circuit): SizeScore[] {
  const { flown, strip, orbits, shapes } = flight;
  if (orbits[k].length > 0) return [];
  const truth = flown.truth.circuits[k];
  const runway = createRunway(strip, truth.direction, flown.map);
  const legOf = (name: LegName): LegTruth | undefined => truth.legs.find(({ leg }) => leg === name);
  const turnTo = (name: LegName): Turn | null => turnOf(flown, legOf(name));
  const [down, base, final] = [turnTo('downwind'), turnTo('base'), turnTo('final')];
  const place = (row: number): { alongM: number; crossM: number } =>
    toAlongCross(runway, flown.eastM[row], flown.northM[row]);
  const scores: SizeScore[] = [];
  const add = (
    figure: SizeScore['figure'],
    quantity: Measured | undefined,
    value: number,
  ): void => {
    if (quantity === undefined || isUndetermined(quantity)) return;
    const { low, high } = quantity;
    const held = low <= value && value <= high;
    scores.push({ figure, error: quantity.value - value, held, width: high - low });
  };
  if (base && legOf('downwind')) {
    add('base turn', found.baseTurnPastThresholdM, -place(base.from).alongM);
  }
  const own = legOf('final');
  if (own) {
    const row = linedUpRow(flown, runway, own, found.endTimeS);
    add('final', found.finalLengthM, Math.max(0, -place(row).alongM));
  }
  const { roundedToDownwind, roundedToFinal } = shapes[k];
  const straights: readonly [LegName, Turn | null, Turn | null, boolean][] = [
    ['downwind', down, base, roundedToDownwind],
    ['base', base, final, roundedToFinal],
  ];
  for (const [name, before, after, isRounded] of straights) {
    if (!before || !after || isRounded || after.from - before.to < LEAST_ROWS) continue;
    const mean = (valueOf: (row: number) => number): number => {
      let sum = 0;
      for (let row = before.to; row < after.from; row++) sum += valueOf(row);
      return sum / (after.from - before.to);
    };
    const seen = found.legs.find(({ leg }) => leg === name);
    const speedMps = mean((row) => Math.hypot(flown.eastMps[row], flown.northMps[row]));
    add('leg speed', seen?.groundSpeedMps, speedMps);
    if (name === 'downwind') {
      add('spacing', found.downwindSpacingM, Math.abs(mean((row) => place(row).crossM)));
    }
  }
  return scores;
}

/** The circuit found that shares more than half of a true one's time. */
export function circuitFound(
  found: readonly Circuit[],
  { legs }: CircuitTruth,
): Circuit | undefined {
  const [fromS, toS] = [legs[0].startTimeS, legs[legs.length - 1].endTimeS];
  return found.find(
    ({ startTimeS, endTimeS }) =>
      Math.min(endTimeS, toS) - Math.max(startTimeS, fromS) > (toS - fromS) / 2,
  );
}

const TURNING_SHARE = 0.3;
const HALF_S = 0.5;
const LONGEST_TURN_S = 25;
const LINED_UP_RAD = (15 * Math.PI) / 180;
/** Fewer rows than this between two turns are no straight part. */
const LEAST_ROWS = 20;

function turnOf(flown: FlownFlight, leg: LegTruth | undefined): Turn | null {
  if (!leg) return null;
  const { timeS } = flown;
  const first = firstAtOrAfter(timeS, leg.startTimeS - 1);
  const last = firstAtOrAfter(timeS, Math.min(leg.endTimeS, leg.startTimeS + LONGEST_TURN_S));
  const rates = Array.from({ length: last - first }, (_, j) => {
    const before = firstAtOrAfter(timeS, timeS[first + j] - HALF_S);
    const after = Math.min(flown.length - 1, firstAtOrAfter(timeS, timeS[first + j] + HALF_S));
    const turnedRad = wrapped(trackRad(flown, after) - trackRad(flown, before));
    return Math.abs(turnedRad) / (timeS[after] - timeS[before]);
  });
  const peak = rates.indexOf(Math.max(...rates));
  const least = TURNING_SHARE * rates[peak];
  let to = peak;
  while (to < rates.length - 1 && rates[to] >= least) to++;
  return { from: first + rates.findIndex((each) => each >= least), to: first + to };
}

function linedUpRow(flown: FlownFlight, runway: Runway, final: LegTruth, endS: number): number {
  let row = firstAtOrAfter(flown.timeS, endS);
  const isLinedUp = (): boolean =>
    Math.abs(wrapped(trackRad(flown, row) - runway.bearingRad)) < LINED_UP_RAD;
  while (row > 0 && flown.timeS[row] > final.startTimeS && isLinedUp()) row--;
  return row;
}

function trackRad({ eastMps, northMps }: FlownFlight, row: number): number {
  return Math.atan2(eastMps[row], northMps[row]);
}

function wrapped(rad: number): number {
  return Math.atan2(Math.sin(rad), Math.cos(rad));
}
