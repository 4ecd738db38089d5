/**
 * The state of a simulated flight, its clock and its record.
 *
 * In: an aeroplane, a wind, a seed, a start. Out: a state that the motion files move on in steps
 * of 0.02 s, and columns of where the antenna truly was, ten times a second. All positions are
 * metres on the flat map (runway.ts); heights are above mean sea level.
 */
import type { LocalFrame } from '../../src/geo/local-frame.ts';
import { createRandom, type Random } from '../../src/numeric/random.ts';
import type { AeroplaneModel } from './aeroplane-model.ts';
import { createMap, slopeAt, toAlongCross, type Runway } from './runway.ts';
import { emptyTruth, type CircuitTruth, type FlightTruth, type Moment } from './truth.ts';
import { createAir, type Air, type WindDay } from './wind-model.ts';

/** Step of the motion, seconds. */
export const STEP_S = 0.02;
/** Steps between two rows of the record: ten rows a second. */
const STEPS_PER_ROW = 5;
/** Three hours: no simulated flight lasts longer. */
const MOST_STEPS = (3 * 3600) / STEP_S;

/** The state. Position and velocity are those of the main wheels; the antenna is straight above. */
export interface Flight {
  readonly aeroplane: AeroplaneModel;
  readonly air: Air;
  readonly random: Random;
  readonly map: LocalFrame;
  readonly truth: FlightTruth;
  readonly rows: Rows;
  readonly startTimeS: number;
  timeS: number;
  step: number;
  eastM: number;
  northM: number;
  wheelMslM: number;
  eastMps: number;
  northMps: number;
  upMps: number;
  airspeedMps: number;
  bankRad: number;
  bankRateRadps: number;
  /** Thrust and upward acceleration as they have followed the pilot's wish so far. */
  thrustMps2: number;
  climbMps2: number;
  loadFactor: number;
  brakeMps2: number;
  /** Acceleration along the ground as it was in the last step on the wheels. */
  groundMps2: number;
  /** 0 clean, 1 landing flap; the flaps move in about three seconds. */
  flap: number;
  flapWish: number;
  /** 1 while the nose is held up for landing. */
  noseWish: number;
  noseUpM: number;
  noseUpMps: number;
  /** Gear compression under the antenna: negative is down. */
  springM: number;
  springMps: number;
  /** Ground under the wind profile. */
  groundMslM: number;
  /** When the present climb began: lift-off, go-around or low pass. */
  climbSinceS: number;
  /** The circuit whose legs are still being added to. */
  openCircuit: CircuitTruth | null;
}

interface Rows {
  readonly timeS: number[];
  readonly eastM: number[];
  readonly northM: number[];
  readonly antennaMslM: number[];
  readonly wheelMslM: number[];
  readonly eastMps: number[];
  readonly northMps: number[];
  readonly antennaUpMps: number[];
  readonly airspeedMps: number[];
}

/** A finished flight: true columns at ten rows a second, and the truth. */
export interface FlownFlight {
  readonly map: LocalFrame;
  readonly length: number;
  readonly timeS: Float64Array;
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  readonly antennaMslM: Float64Array;
  readonly wheelMslM: Float64Array;
  readonly eastMps: Float64Array;
  readonly northMps: Float64Array;
  readonly antennaUpMps: Float64Array;
  readonly airspeedMps: Float64Array;
  readonly truth: FlightTruth;
}

/** What a flight starts with. */
export interface FlightStart {
  readonly aeroplane: AeroplaneModel;
  readonly wind: WindDay;
  readonly seed: number;
  /** UTC seconds since 1970. */
  readonly startTimeS: number;
}

/** A flight standing still at the map's origin; put it somewhere with `standAt` or `flyAt`. */
export function beginFlight(start: FlightStart): Flight {
  const random = createRandom(start.seed);
  return {
    aeroplane: start.aeroplane,
    air: createAir(start.wind, random, STEP_S),
    random,
    map: createMap(),
    truth: emptyTruth(),
    rows: emptyRows(),
    startTimeS: start.startTimeS,
    timeS: start.startTimeS,
    step: 0,
    eastM: 0,
    northM: 0,
    wheelMslM: 0,
    eastMps: 0,
    northMps: 0,
    upMps: 0,
    airspeedMps: 0,
    bankRad: 0,
    bankRateRadps: 0,
    thrustMps2: 0,
    climbMps2: 0,
    loadFactor: 1,
    brakeMps2: 0,
    groundMps2: 0,
    flap: 0,
    flapWish: 0,
    noseWish: 0,
    noseUpM: 0,
    noseUpMps: 0,
    springM: 0,
    springMps: 0,
    groundMslM: 0,
    climbSinceS: start.startTimeS,
    openCircuit: null,
  };
}

/** Closes the record: plain columns, and the truth with it. */
export function finishFlight(flight: Flight): FlownFlight {
  const rows = flight.rows;
  return {
    map: flight.map,
    length: rows.timeS.length,
    timeS: Float64Array.from(rows.timeS),
    eastM: Float64Array.from(rows.eastM),
    northM: Float64Array.from(rows.northM),
    antennaMslM: Float64Array.from(rows.antennaMslM),
    wheelMslM: Float64Array.from(rows.wheelMslM),
    eastMps: Float64Array.from(rows.eastMps),
    northMps: Float64Array.from(rows.northMps),
    antennaUpMps: Float64Array.from(rows.antennaUpMps),
    airspeedMps: Float64Array.from(rows.airspeedMps),
    truth: flight.truth,
  };
}

/** Moves flap, nose and gear, the clock and the record by one step; every motion ends with it. */
export function endStep(flight: Flight, noseLagS: number): void {
  flight.flap += clamp(flight.flapWish - flight.flap, -STEP_S / 3, STEP_S / 3);
  const noseBefore = flight.noseUpM;
  const nose = flight.noseWish * flight.aeroplane.noseUpM;
  flight.noseUpM += ((nose - flight.noseUpM) * STEP_S) / noseLagS;
  flight.noseUpMps = (flight.noseUpM - noseBefore) / STEP_S;
  // A critically damped spring brings the antenna to rest after the wheels have stopped short.
  const pull = -flight.springM / GEAR_S ** 2 - (2 * flight.springMps) / GEAR_S;
  flight.springMps += pull * STEP_S;
  flight.springM += flight.springMps * STEP_S;
  flight.step += 1;
  if (flight.step > MOST_STEPS)
    throw new Error('the simulated flight never ends: a plan that cannot be flown');
  flight.timeS = flight.startTimeS + flight.step * STEP_S;
  if (flight.step % STEPS_PER_ROW === 0) recordRow(flight);
}

/** Time scale of the gear's spring, seconds. */
const GEAR_S = 0.12;

/** Height of the wheels over the surface of a runway, there where the aeroplane is. */
export function aboveM(flight: Flight, runway: Runway): number {
  return flight.wheelMslM - runway.groundMslM(alongOf(flight, runway));
}

/** Along of the aeroplane on a runway. */
export function alongOf(flight: Flight, runway: Runway): number {
  return toAlongCross(runway, flight.eastM, flight.northM).alongM;
}

/** Speed along the runway's direction, m/s. */
export function alongSpeedMps(flight: Flight, runway: Runway): number {
  return flight.eastMps * runway.unitEast + flight.northMps * runway.unitNorth;
}

/** How fast the wheels near the surface, m/s, positive down. */
export function sinkMps(flight: Flight, runway: Runway): number {
  return alongSpeedMps(flight, runway) * slopeAt(runway, alongOf(flight, runway)) - flight.upMps;
}

/** Now, as a moment on a runway. */
export function momentOf(flight: Flight, runway: Runway): Moment {
  return {
    timeS: flight.timeS,
    alongM: alongOf(flight, runway),
    groundSpeedMps: groundSpeedMps(flight),
  };
}

/** Speed over the ground, m/s. */
export function groundSpeedMps(flight: Flight): number {
  return Math.hypot(flight.eastMps, flight.northMps);
}

/** A value held between two bounds. */
export function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

/** Writes the row of this step anew, if it has one: contact puts the wheels where they can only be. */
export function correctRow(flight: Flight): void {
  if (flight.step % STEPS_PER_ROW !== 0) return;
  for (const column of Object.values(flight.rows) as number[][]) column.pop();
  recordRow(flight);
}

function recordRow(flight: Flight): void {
  const rows = flight.rows;
  rows.timeS.push(flight.timeS);
  rows.eastM.push(flight.eastM);
  rows.northM.push(flight.northM);
  rows.antennaMslM.push(
    flight.wheelMslM + flight.aeroplane.antennaM + flight.noseUpM + flight.springM,
  );
  rows.wheelMslM.push(flight.wheelMslM);
  rows.eastMps.push(flight.eastMps);
  rows.northMps.push(flight.northMps);
  rows.antennaUpMps.push(flight.upMps + flight.noseUpMps + flight.springMps);
  rows.airspeedMps.push(flight.airspeedMps);
}

function emptyRows(): Rows {
  return {
    timeS: [],
    eastM: [],
    northM: [],
    antennaMslM: [],
    wheelMslM: [],
    eastMps: [],
    northMps: [],
    antennaUpMps: [],
    airspeedMps: [],
  };
}
