/**
 * What does a consumer receiver make of the true flight?
 *
 * In: a flown flight, the receiver's figures, a seeded generator. Out: fixes in columns, not yet
 * rounded. Errors: a slowly wandering bias (first-order Gauss-Markov), white noise that may hang
 * together from fix to fix, the receiver's own smoothing, dropouts; a pressure altitude with
 * the cabin's static error; recorded speed and course with noise of their own.
 * Source: Gauss-Markov bias and white noise are the usual first-order model of position errors; the
 * standard atmosphere (Doc 7488) turns pressure into height; both from memory. The default sizes
 * are common practice, no source.
 */
import type { Random } from '../../src/numeric/random.ts';
import { GRAVITY_MPS2 } from '../../src/units/convert.ts';
import type { FlownFlight } from './flight.ts';

/** A receiver's figures. Metres, seconds; spreads are standard deviations. */
export interface Receiver {
  /** Time between fixes; fixes fall on whole multiples of it. */
  readonly intervalS: number;
  readonly horizontalBiasM: number;
  readonly horizontalBiasS: number;
  readonly verticalBiasM: number;
  readonly verticalBiasS: number;
  readonly horizontalWhiteM: number;
  readonly verticalWhiteM: number;
  /** Time over which the white noise hangs together; 0: independent from fix to fix. */
  readonly whiteS: number;
  /** Receiver's filter: `late` reports where it was, `tracking` lags only while it accelerates. */
  readonly filter: 'none' | 'late' | 'tracking';
  readonly filterS: number;
  /** Its height is that of so long ago, beyond what the filter makes late, seconds. */
  readonly heightLateS: number;
  /** What satellite heights count from; `none` writes no height. */
  readonly heights: 'geoid' | 'ellipsoid' | 'none';
  /** Noise of recorded speed; null writes no speed and course. */
  readonly speedWhiteMps: number | null;
  readonly pressure: PressureSensor | null;
  /** Chance a fix is lost, and holes of which none comes through: seconds after the start, length. */
  readonly lossChance: number;
  readonly holes: readonly { readonly afterS: number; readonly lengthS: number }[];
}

/** A pressure sensor in the cabin. */
export interface PressureSensor {
  readonly qnhHpa: number;
  /** Static error over dynamic pressure: reads higher in flight where negative. */
  readonly staticError: number;
  readonly lagS: number;
  readonly whiteM: number;
}

/** A receiver with middling errors, once a second. */
export const PLAIN_RECEIVER: Receiver = {
  intervalS: 1,
  horizontalBiasM: 2,
  horizontalBiasS: 150,
  verticalBiasM: 4,
  verticalBiasS: 150,
  horizontalWhiteM: 0.4,
  verticalWhiteM: 0.65,
  whiteS: 0,
  filter: 'none',
  filterS: 0.4,
  heightLateS: 0,
  heights: 'geoid',
  speedWhiteMps: null,
  pressure: null,
  lossChance: 0,
  holes: [],
};

/** A receiver without any error: what is left is rounding. */
export const PERFECT_RECEIVER: Receiver = {
  ...PLAIN_RECEIVER,
  horizontalBiasM: 0,
  verticalBiasM: 0,
  horizontalWhiteM: 0,
  verticalWhiteM: 0,
};

/** Fixes as received, in columns; a missing value is NaN. */
export interface Fixes {
  readonly length: number;
  readonly intervalS: number;
  readonly heights: Receiver['heights'];
  readonly timeS: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  readonly heightM: Float64Array;
  readonly pressureHeightM: Float64Array;
  readonly groundSpeedMps: Float64Array;
  readonly courseDeg: Float64Array;
  readonly accuracyM: Float64Array;
}

/** Receives a flight. */
export function receive(flown: FlownFlight, receiver: Receiver, random: Random): Fixes {
  const seen = filterColumns(flown, receiver);
  const pressure = pressureColumn(flown, receiver.pressure);
  const noise = createNoise(receiver, random);
  const startS = flown.timeS[0];
  const rows: number[][] = [];
  const first = Math.ceil(startS / receiver.intervalS - 1e-6);
  const last = Math.floor(flown.timeS[flown.length - 1] / receiver.intervalS);
  for (let k = first; k <= last; k++) {
    const timeS = k * receiver.intervalS;
    const off = noise();
    if (off.lost || receiver.holes.some((hole) => isIn(timeS - startS, hole))) continue;
    const at = placeInRows(flown.timeS, timeS);
    const eastM = hermite(seen.eastM, seen.eastMps, at) + off.eastM;
    const northM = hermite(seen.northM, seen.northMps, at) + off.northM;
    const { latDeg, lonDeg } = flown.map.toLatLon(eastM, northM);
    const heightM = hermite(seen.heightM, seen.upMps, at) + off.upM;
    const east = linear(seen.eastMps, at) + off.eastMps;
    const north = linear(seen.northMps, at) + off.northMps;
    rows.push([
      timeS,
      latDeg,
      lonDeg,
      writtenHeightM(receiver, heightM, eastM, northM),
      linear(pressure, at) + off.pressureM,
      Math.hypot(east, north),
      ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360,
      off.accuracyM,
    ]);
  }
  const column = (i: number): Float64Array => Float64Array.from(rows, (row) => row[i]);
  const noSpeed = receiver.speedWhiteMps === null;
  const missing = (): Float64Array => new Float64Array(rows.length).fill(NaN);
  return {
    length: rows.length,
    intervalS: receiver.intervalS,
    heights: receiver.heights,
    timeS: column(0),
    latDeg: column(1),
    lonDeg: column(2),
    heightM: column(3),
    pressureHeightM: column(4),
    groundSpeedMps: noSpeed ? missing() : column(5),
    courseDeg: noSpeed ? missing() : column(6),
    accuracyM: column(7),
  };
}

/** Geoid over the ellipsoid in the demo country: invented, of the size usual over the North Sea. */
export function geoidM(eastM: number, northM: number): number {
  return 40.6 + 2e-5 * eastM - 1e-5 * northM;
}

/** Pressure height for a height above sea level on a day with that QNH: the standard atmosphere, Doc 7488. */
export function pressureHeightM(heightMslM: number, qnhHpa: number): number {
  const pressureHpa = qnhHpa * (1 - (0.0065 * heightMslM) / 288.15) ** 5.25588;
  return (288.15 / 0.0065) * (1 - (pressureHpa / 1013.25) ** (1 / 5.25588));
}

function writtenHeightM(
  receiver: Receiver,
  heightMslM: number,
  eastM: number,
  northM: number,
): number {
  if (receiver.heights === 'none') return NaN;
  return receiver.heights === 'geoid' ? heightMslM : heightMslM + geoidM(eastM, northM);
}

interface Seen {
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  readonly heightM: Float64Array;
  readonly eastMps: Float64Array;
  readonly northMps: Float64Array;
  readonly upMps: Float64Array;
}

function filterColumns(flown: FlownFlight, receiver: Receiver): Seen {
  const pass = (positionM: Float64Array, speedMps: Float64Array): [Float64Array, Float64Array] => {
    if (receiver.filter === 'none') return [positionM, speedMps];
    const lagS = receiver.filterS;
    const late = lagged(positionM, lagS, positionM[0] - lagS * speedMps[0]);
    const lateSpeed = lagged(speedMps, lagS, speedMps[0]);
    if (receiver.filter === 'late') return [late, lateSpeed];
    // The speed it carries the position forward with is filtered once more, so it lags in a brake.
    const carried = lagged(lateSpeed, lagS, speedMps[0]);
    return [late.map((value, i) => value + lagS * carried[i]), lateSpeed];
  };
  const [eastM, eastMps] = pass(flown.eastM, flown.eastMps);
  const [northM, northMps] = pass(flown.northM, flown.northMps);
  const [heightM, upMps] = pass(flown.antennaMslM, flown.antennaUpMps);
  const late = (column: Float64Array): Float64Array => delayed(column, receiver.heightLateS);
  return { eastM, northM, heightM: late(heightM), eastMps, northMps, upMps: late(upMps) };
}

/** A column as it was so many seconds before, to the nearest row. */
function delayed(column: Float64Array, lateS: number): Float64Array {
  const rows = Math.round(lateS / ROW_S);
  return column.map((_, i) => column[Math.max(0, i - rows)]);
}

function pressureColumn(flown: FlownFlight, sensor: PressureSensor | null): Float64Array {
  if (sensor === null) return new Float64Array(flown.length).fill(NaN);
  const ideal = flown.antennaMslM.map((heightM, i) => {
    const dynamicM = flown.airspeedMps[i] ** 2 / (2 * GRAVITY_MPS2);
    return pressureHeightM(heightM, sensor.qnhHpa) - sensor.staticError * dynamicM;
  });
  return lagged(ideal, sensor.lagS, ideal[0]);
}

/** First-order lag of a column that runs straight from row to row, 0.1 s apart: the exact solution. */
function lagged(column: Float64Array, lagS: number, first: number): Float64Array {
  const keep = Math.exp(-ROW_S / lagS);
  const out = new Float64Array(column.length);
  out[0] = first;
  for (let i = 1; i < column.length; i++) {
    const slope = (column[i] - column[i - 1]) / ROW_S;
    out[i] = keep * out[i - 1] + (1 - keep) * column[i - 1] + slope * (ROW_S - lagS * (1 - keep));
  }
  return out;
}

interface FixNoise {
  readonly eastM: number;
  readonly northM: number;
  readonly upM: number;
  readonly eastMps: number;
  readonly northMps: number;
  readonly pressureM: number;
  readonly accuracyM: number;
  readonly lost: boolean;
}

function createNoise(receiver: Receiver, random: Random): () => FixNoise {
  const step = receiver.intervalS;
  const sideways = [0, 1].map(() =>
    gaussMarkov(receiver.horizontalBiasM, receiver.horizontalBiasS, step, random),
  );
  const upBias = gaussMarkov(receiver.verticalBiasM, receiver.verticalBiasS, step, random);
  const white = [receiver.horizontalWhiteM, receiver.horizontalWhiteM, receiver.verticalWhiteM].map(
    (sd) => gaussMarkov(sd, receiver.whiteS, step, random),
  );
  const speedSd = receiver.speedWhiteMps ?? 0;
  const pressureSd = receiver.pressure?.whiteM ?? 0;
  return () => ({
    eastM: sideways[0]() + white[0](),
    northM: sideways[1]() + white[1](),
    upM: upBias() + white[2](),
    eastMps: speedSd * random.normal(),
    northMps: speedSd * random.normal(),
    pressureM: pressureSd * random.normal(),
    accuracyM: Math.max(1, 2 * receiver.horizontalBiasM + 0.4 * random.normal()),
    lost: random.uniform() < receiver.lossChance,
  });
}

/** A Gauss-Markov process in its steady state; a time scale of 0 makes it white. */
function gaussMarkov(sd: number, scaleS: number, stepS: number, random: Random): () => number {
  const keep = scaleS > 0 ? Math.exp(-stepS / scaleS) : 0;
  const fresh = sd * Math.sqrt(1 - keep * keep);
  let value = sd * random.normal();
  return () => {
    const now = value;
    value = keep * value + fresh * random.normal();
    return now;
  };
}

interface InRows {
  readonly row: number;
  readonly share: number;
}

function placeInRows(rowTimeS: Float64Array, timeS: number): InRows {
  const exact = (timeS - rowTimeS[0]) / ROW_S;
  const row = Math.max(0, Math.min(rowTimeS.length - 2, Math.floor(exact)));
  return { row, share: exact - row };
}

function linear(column: Float64Array, at: InRows): number {
  return column[at.row] + at.share * (column[at.row + 1] - column[at.row]);
}

/** Cubic between two rows that meets both positions and both speeds. */
function hermite(positionM: Float64Array, speedMps: Float64Array, at: InRows): number {
  const u = at.share;
  const p0 = positionM[at.row];
  const p1 = positionM[at.row + 1];
  const v0 = speedMps[at.row] * ROW_S;
  const v1 = speedMps[at.row + 1] * ROW_S;
  const climb = 3 * (p1 - p0) - 2 * v0 - v1;
  const bend = v0 + v1 - 2 * (p1 - p0);
  return p0 + u * (v0 + u * (climb + u * bend));
}

function isIn(afterS: number, hole: { afterS: number; lengthS: number }): boolean {
  return afterS >= hole.afterS && afterS < hole.afterS + hole.lengthS;
}

/** Time between two rows of a flown flight. */
const ROW_S = 0.1;
