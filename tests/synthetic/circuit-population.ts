/**
 * Circuits and joins of all kinds drawn by seed, flown whole and logged.
 *
 * In: a seed, what is wanted. Out: the strip, the flown flight with its truth, orbits, the wind at
 * the heights flown, and the steepest bank of each turn to final.
 * The ranges are weak and generic on purpose. Source: common practice, no source.
 */
import { createRandom, type Random } from '../../src/numeric/random.ts';
import { GRAVITY_MPS2 } from '../../src/units/convert.ts';
import type { Strip } from '../../src/strips/strip.ts';
import { flyApproach, type ApproachPlan } from './approach-model.ts';
import type { FlyOver } from './circuit-plan.ts';
import { beginFlight, finishFlight, type Flight, type FlownFlight } from './flight.ts';
import {
  between,
  drawAeroplane,
  drawApproach,
  drawReceiver,
  drawRoll,
  drawStrip,
} from './population.ts';
import { logAsGpx, logAsIgc, type LoggedTrack } from './logged-track.ts';
import { receive } from './receiver-model.ts';
import { createMap, createRunway, toEastNorth, type Runway } from './runway.ts';
import { afterTouchdown, climbAway, SCENARIO_START_S } from './scenarios.ts';
import {
  descentOf,
  flyShapedCircuit,
  joinShapedCircuit,
  type CircuitShape,
  type OrbitTruth,
} from './shaped-circuit.ts';
import { standStill } from './roll-model.ts';
import { anotherCircuit, drawSpeedHabit, speedToGo, type SpeedHabit } from './speed-habit.ts';
import { plainTakeOff, standAt, takeOff } from './take-off-model.ts';
import type { JoinKind } from './truth.ts';
import { profile, windOf, type WindDay } from './wind-model.ts';

/** How the flight begins: from the strip, or from afar by one of the joins. */
export type Beginning = 'take-off' | JoinKind;

/** A flight with all that is known of it. */
export interface CircuitFlight {
  readonly strip: Strip;
  readonly beginning: Beginning;
  readonly flown: FlownFlight;
  readonly shapes: readonly CircuitShape[];
  /** Orbits of each circuit. */
  readonly orbits: readonly (readonly OrbitTruth[])[];
  /** Mean wind over the time in the air: towards east and north, m/s. */
  readonly windEastMps: number;
  readonly windNorthMps: number;
  /** The day's wind, at 10 m over the ground. */
  readonly day: WindDay;
}

const KINDS: readonly JoinKind[] = ['overhead', 'crosswind', 'downwind', 'base', 'straight-in'];

/** One drawn flight of one to three circuits. */
export function flyDrawnCircuits(seed: number, wanted?: Beginning): CircuitFlight {
  const random = createRandom(seed);
  // Of their own, so that the shapes of circuits do not depend on how habits are drawn.
  const habits = createRandom(seed + HABIT_SEEDS);
  const pilot = drawSpeedHabit(habits);
  const map = createMap();
  const aeroplane = drawAeroplane(random);
  const strip = drawStrip(map, random, aeroplane.stallMps);
  const runway = createRunway(strip, strip.directions[random.integer(0, 2)].designator, map);
  const side = random.uniform() < 0.5 ? 1 : -1;
  const join = KINDS[random.integer(0, KINDS.length)];
  const beginning = wanted ?? (random.uniform() < 0.5 ? 'take-off' : join);
  const first = drawShape(random, anotherCircuit(habits, pilot), aeroplane.stallMps, side);
  const wind = drawCircuitWind(random, runway, first.heightM, aeroplane.stallMps);
  const startTimeS = SCENARIO_START_S + random.uniform();
  const flight = beginFlight({ aeroplane, wind, seed: random.integer(0, 2 ** 31), startTimeS });
  const count = 1 + (random.uniform() < 0.4 ? 1 : 0) + (random.uniform() < 0.2 ? 1 : 0);
  const shapes: CircuitShape[] = [];
  const orbits: OrbitTruth[][] = [];
  for (let k = 0; k < count; k++) {
    const shape =
      k === 0 ? first : drawShape(random, anotherCircuit(habits, pilot), aeroplane.stallMps, side);
    if (k === 0 && beginning !== 'take-off') {
      const plain = beginning === 'base' ? withBaseLeg(shape) : shape;
      const way = wayIn(random, runway, plain, beginning);
      putInAir(flight, runway, way[0], way[1]);
      orbits.push(joinShapedCircuit(flight, runway, plain, beginning, way.slice(1)));
      shapes.push(plain);
    } else {
      if (k === 0) beginOnStrip(flight, runway, random);
      orbits.push(flyShapedCircuit(flight, runway, shape, 'climb-out'));
      shapes.push(shape);
    }
    land(flight, runway, random, shape, k === count - 1);
  }
  const flown = finishFlight(flight);
  return { strip, beginning, flown, shapes, orbits, day: wind, ...meanWind(flown, wind) };
}

const HABIT_SEEDS = 900_000_000;

/** Joined on base there is a base leg, and room for a final after it. */
function withBaseLeg(shape: CircuitShape): CircuitShape {
  if (!shape.roundedToFinal) return shape;
  return { ...shape, roundedToFinal: false, baseAlongM: Math.min(shape.baseAlongM, -450) };
}

/** Whether no approach came in beside the strip: a turn flown too late may end there. */
export function keptToStrip({ flown }: CircuitFlight): boolean {
  return flown.truth.approaches.every(
    ({ threshold }) => threshold === null || Math.abs(threshold.crossM) < BESIDE_M,
  );
}

/** Twice the width of a wide strip. */
const BESIDE_M = 40;

/** A log of the flight: GPX or IGC, once in 1, 2 or 4 seconds. */
export function logDrawnCircuits(
  { flown }: CircuitFlight,
  seed: number,
  intervalS: number,
): LoggedTrack {
  const random = createRandom(seed);
  const receiver = drawReceiver(random, intervalS);
  const igc = random.uniform() < 0.4;
  const fixes = receive(flown, { ...receiver, heights: igc ? 'ellipsoid' : 'geoid' }, random);
  return igc ? logAsIgc(fixes) : logAsGpx(fixes);
}

/** Steepest true bank in a span of time, degrees: sideways acceleration over half a second against gravity. */
export function steepestBankDeg(flown: FlownFlight, fromS: number, toS: number): number {
  let steepest = 0;
  for (let i = 3; i + 3 < flown.length; i++) {
    if (flown.timeS[i] < fromS || flown.timeS[i] > toS) continue;
    const spanS = flown.timeS[i + 3] - flown.timeS[i - 3];
    const east = (flown.eastMps[i + 3] - flown.eastMps[i - 3]) / spanS;
    const north = (flown.northMps[i + 3] - flown.northMps[i - 3]) / spanS;
    const speed = Math.hypot(flown.eastMps[i], flown.northMps[i]);
    const sideways = Math.abs(flown.eastMps[i] * north - flown.northMps[i] * east) / speed;
    steepest = Math.max(steepest, Math.atan(sideways / GRAVITY_MPS2));
  }
  return (steepest * 180) / Math.PI;
}

function drawShape(
  random: Random,
  habit: SpeedHabit,
  stallMps: number,
  side: 1 | -1,
): CircuitShape {
  const bankRad = (between(random, 16, 34) * Math.PI) / 180;
  const plainMps = stallMps * between(random, 1.5, 1.95);
  const downwindMps = Math.min(plainMps * habit.downwindShare, 2.2 * stallMps);
  const radiusM = downwindMps ** 2 / (GRAVITY_MPS2 * Math.tan(bankRad));
  const roundedToFinal = random.uniform() < 0.2;
  const roundedToDownwind = random.uniform() < 0.2;
  // Room for both turns of a leg, and some of it straight.
  const least = 2 * radiusM + (roundedToFinal || roundedToDownwind ? 40 : 3.5 * downwindMps);
  const spacingM = Math.max(350, least * between(random, 1.05, 1.9));
  const heightM = between(random, 120, 300);
  const extended = random.uniform() < 0.12 ? between(random, 600, 1800) : 0;
  const degrees = (low: number, high: number): number =>
    (between(random, low, high) * Math.PI) / 180;
  const skewed = random.uniform() < 0.5;
  const luck = random.uniform();
  const baseAlongM =
    -(roundedToFinal ? between(random, 150, 700) : between(random, 450, 1300)) - extended;
  // A skew downwind must not lead across the centreline.
  const mostSkew = Math.atan((0.4 * spacingM) / -baseAlongM);
  const skew = skewed ? degrees(-10, 10) : 0;
  return {
    side,
    heightM,
    spacingM,
    baseAlongM,
    crosswindAtM: between(random, 60, 0.75 * heightM),
    bankRad,
    downwindMps,
    baseMps: stallMps * between(random, 1.38, 1.5),
    pathDeg: between(random, 3.5, 6),
    aimAlongM: 0,
    crosswindTurnRad: skewed ? degrees(65, 108) : Math.PI / 2,
    baseTurnRad: skewed ? degrees(65, 108) : Math.PI / 2,
    downwindSkewRad: Math.max(-mostSkew, Math.min(mostSkew, skew)),
    roundedToDownwind,
    roundedToFinal,
    orbit:
      luck < 0.15
        ? { leg: luck < 0.1 ? 'downwind' : 'base', turn: random.uniform() < 0.5 ? 1 : -1 }
        : null,
    habit,
    finalMps: 1.31 * stallMps,
  };
}

/** Up to 12 m/s at circuit height, less where the aeroplane is slow; mostly from ahead on landing. */
function drawCircuitWind(
  random: Random,
  runway: Runway,
  heightM: number,
  stallMps: number,
): WindDay {
  const exponent = between(random, 0.1, 0.22);
  const share = profile(exponent, heightM);
  const topMps = Math.min(12, 0.6 * stallMps) * random.uniform();
  const most = Math.min(4, topMps / share);
  const crossMps = between(random, -most, most);
  const headMps = Math.sqrt(Math.max(0, (topMps / share) ** 2 - crossMps ** 2));
  const behind = random.uniform() < 0.15 && headMps < 2.5 ? -1 : 1;
  const fromRad = runway.bearingRad + Math.atan2(crossMps, behind * headMps);
  const day = windOf(
    (fromRad * 180) / Math.PI,
    Math.hypot(headMps, crossMps),
    between(random, 0.08, 0.2),
  );
  return { ...day, exponent };
}

/** Where each join comes from and leads over before the joined leg; the first place is where it starts. */
function wayIn(random: Random, runway: Runway, shape: CircuitShape, kind: JoinKind): FlyOver[] {
  const { heightM, spacingM, baseAlongM } = shape;
  const speedMps = shape.downwindMps * shape.habit.comingInShare;
  const at = (alongM: number, sideM: number, aboveM: number): FlyOver => ({
    alongM,
    crossM: sideM * shape.side,
    aboveM,
    speedMps,
  });
  const endM = runway.farEndAlongM;
  const farM = between(random, 2500, 4500);
  // Room for the turns of a fast aeroplane.
  const roomM = Math.max(1, speedMps / 28) * between(random, 0.9, 1.4);
  if (kind === 'overhead') {
    const highM = heightM + between(random, 140, 320);
    const from = between(random, -0.9, 0.9);
    const deadM = -900 * roomM;
    return [
      at(-farM * Math.sin(from), farM * Math.cos(from), highM),
      at(endM * between(random, 0, 0.7), between(random, -80, 80), highM),
      at(-300, 0.7 * deadM, highM - 20),
      at(-200, deadM, heightM + 0.7 * (highM - heightM)),
      at(endM + 500 * roomM, deadM, heightM + 40),
      at(endM + between(random, 100, 400), 0, heightM),
      at(endM + between(random, 100, 300), spacingM, heightM),
    ];
  }
  if (kind === 'crosswind') {
    const crossAtM = endM + between(random, -50, 350);
    return [
      at(crossAtM + between(random, -0.4, 0.4) * farM, -farM, heightM + between(random, 0, 80)),
      at(crossAtM, -600, heightM),
      at(crossAtM, spacingM, heightM),
    ];
  }
  if (kind === 'downwind') {
    const slant = between(random, 0, 1) * farM;
    const joinAtM = endM * between(random, 0.3, 1) + 300;
    return [at(joinAtM + farM, spacingM + slant, heightM), at(joinAtM, spacingM, heightM)];
  }
  if (kind === 'base') {
    const lowM = Math.min(heightM, 0.08 * (spacingM - baseAlongM) + 40);
    const aslant = between(random, -0.25, 0.25) * farM;
    return [
      at(baseAlongM + aslant, spacingM + farM, heightM),
      at(baseAlongM, spacingM + 300, Math.max(lowM, 120)),
    ];
  }
  const out = -farM - 1500;
  return [at(out, between(random, -0.15, 0.15) * farM, heightM), at(0.55 * out, 0, heightM)];
}

function putInAir(flight: Flight, runway: Runway, from: FlyOver, to: FlyOver): void {
  const here = toEastNorth(runway, from.alongM, from.crossM);
  const there = toEastNorth(runway, to.alongM, to.crossM);
  const awayM = Math.hypot(there.eastM - here.eastM, there.northM - here.northM);
  flight.eastM = here.eastM;
  flight.northM = here.northM;
  flight.groundMslM = runway.groundMslM(0);
  flight.wheelMslM = runway.groundMslM(0) + from.aboveM;
  flight.eastMps =
    ((there.eastM - here.eastM) / awayM) * from.speedMps + flight.air.windEastMps(from.aboveM);
  flight.northMps =
    ((there.northM - here.northM) / awayM) * from.speedMps + flight.air.windNorthMps(from.aboveM);
  flight.airspeedMps = from.speedMps;
  flight.thrustMps2 = 1;
}

function beginOnStrip(flight: Flight, runway: Runway, random: Random): void {
  standAt(flight, runway, runway.nearEndAlongM + between(random, 2, 20), 0);
  standStill(flight, runway, between(random, 10, 25));
  takeOff(flight, runway, plainTakeOff(flight));
}

function land(
  flight: Flight,
  runway: Runway,
  random: Random,
  shape: CircuitShape,
  last: boolean,
): void {
  const drawn = drawApproach(random, flight.aeroplane);
  const descent = descentOf(flight, shape);
  const plan: ApproachPlan = {
    ...drawn,
    pathDeg: shape.pathDeg,
    fasterMps: (toGoM) => speedToGo(shape.habit, descent, toGoM) - shape.finalMps,
  };
  const goesAround = !last && random.uniform() < 0.5;
  const ending = goesAround
    ? ({ kind: 'go-around', atAboveM: between(random, 8, 40) } as const)
    : ({ kind: 'land' } as const);
  const truth = flyApproach(flight, runway, { ...plan, ending });
  if (goesAround || truth.rollEnd !== null) return;
  const roll = drawRoll(random);
  afterTouchdown(flight, runway, last ? 'full-stop' : 'touch-and-go', {
    ...roll,
    ...(last ? {} : { end: 'power' }),
    powerAfterS: between(random, 2.5, 5),
  });
  if (last) return;
  climbAway(flight, runway, 1);
}

/** Mean over the time off the ground of the wind at the height of the moment, gusts left out. */
function meanWind(
  flown: FlownFlight,
  wind: WindDay,
): { windEastMps: number; windNorthMps: number } {
  let sum = 0;
  let rows = 0;
  const ground = Math.min(...flown.wheelMslM);
  for (let i = 0; i < flown.length; i++) {
    const aboveM = flown.wheelMslM[i] - ground;
    if (aboveM < 12) continue;
    sum += wind.speedMps * profile(wind.exponent, aboveM);
    rows++;
  }
  const towardsRad = ((wind.fromDeg + 180) * Math.PI) / 180;
  const mean = sum / rows;
  return { windEastMps: mean * Math.sin(towardsRad), windNorthMps: mean * Math.cos(towardsRad) };
}
