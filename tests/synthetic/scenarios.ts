/**
 * Whole simulated flights by seed, cheap enough for thousands.
 *
 * In: a seed and what is wanted. Out: the strip, the direction and the flown flight with its truth.
 * An approach costs a few milliseconds: it begins on final, 1,200 m out, and ends half a minute
 * after the stop.
 */
import { createRandom, type Random } from '../../src/numeric/random.ts';
import type { Strip } from '../../src/strips/strip.ts';
import { flyApproach, type ApproachPlan } from './approach-model.ts';
import { stepTowards } from './air-guidance.ts';
import type { AeroplaneModel } from './aeroplane-model.ts';
import { beginFlight, finishFlight, STEP_S, type Flight, type FlownFlight } from './flight.ts';
import { inventStrip } from './invent-strip.ts';
import {
  drawAeroplane,
  drawApproach,
  drawRoll,
  drawStrip,
  drawWind,
  between,
} from './population.ts';
import { rollOut, standStill, type RollPlan } from './roll-model.ts';
import { createMap, createRunway, toEastNorth, type Runway } from './runway.ts';
import { takeOff, plainTakeOff, standAt } from './take-off-model.ts';
import { taxi, vacate } from './taxi-model.ts';
import type { Outcome } from './truth.ts';
import { CALM, type WindDay } from './wind-model.ts';

/** A flight and the strip it was flown at. */
export interface Scenario {
  readonly strip: Strip;
  readonly designator: string;
  readonly flown: FlownFlight;
}

/** What may be fixed instead of drawn. */
export interface ScenarioWish {
  readonly aeroplane?: AeroplaneModel;
  readonly strip?: Strip;
  readonly wind?: WindDay;
  /** What is fixed of the drawn plan, as it is or going by what was drawn. */
  readonly approach?: Partial<ApproachPlan> | ((drawn: ApproachPlan) => Partial<ApproachPlan>);
  readonly roll?: Partial<RollPlan>;
}

/** 2025-06-14 09:12:30 UTC and a part of a second that the seed draws: fixes fall anywhere. */
export const SCENARIO_START_S = 1_749_892_350;

/** One drawn approach with a given outcome. */
export function flyDrawnApproach(
  seed: number,
  outcome: Outcome,
  wish: ScenarioWish = {},
): Scenario {
  const random = createRandom(seed);
  const map = createMap();
  const aeroplane = wish.aeroplane ?? drawAeroplane(random);
  const strip = wish.strip ?? drawStrip(map, random, aeroplane.stallMps);
  const designator = strip.directions[random.integer(0, 2)].designator;
  const runway = createRunway(strip, designator, map);
  const wind = wish.wind ?? drawWind(random, (runway.bearingRad * 180) / Math.PI);
  const drawn = { ...drawApproach(random, aeroplane), ...endingFor(outcome, random) };
  const wished = typeof wish.approach === 'function' ? wish.approach(drawn) : wish.approach;
  const approach = { ...drawn, ...wished };
  const drawnRoll = drawRoll(random);
  const roll = { ...drawnRoll, ...rollFor(outcome, random) };
  const flight = beginFlight({
    aeroplane,
    wind,
    seed: random.integer(0, 2 ** 31),
    startTimeS: SCENARIO_START_S + random.uniform(),
  });
  flyAt(flight, runway, approach);
  const truth = flyApproach(flight, runway, approach);
  if (truth.touchdown && truth.rollEnd === null) {
    afterTouchdown(flight, runway, outcome, {
      ...roll,
      powerAfterS: between(random, 2.5, 7),
      ...wish.roll,
    });
  }
  if (outcome !== 'full-stop') climbAway(flight, runway, 20);
  return { strip, designator, flown: finishFlight(flight) };
}

/** One drawn take-off from standing. */
export function flyDrawnTakeOff(seed: number, wish: ScenarioWish = {}): Scenario {
  const random = createRandom(seed);
  const map = createMap();
  const aeroplane = wish.aeroplane ?? drawAeroplane(random);
  const strip = wish.strip ?? drawStrip(map, random, aeroplane.stallMps);
  const designator = strip.directions[random.integer(0, 2)].designator;
  const runway = createRunway(strip, designator, map);
  const wind = wish.wind ?? drawWind(random, (runway.bearingRad * 180) / Math.PI);
  const startTimeS = SCENARIO_START_S + random.uniform();
  const flight = beginFlight({ aeroplane, wind, seed: random.integer(0, 2 ** 31), startTimeS });
  standAt(flight, runway, runway.nearEndAlongM + between(random, 2, 20), between(random, -2, 2));
  standStill(flight, runway, between(random, 10, 25));
  takeOff(flight, runway, plainTakeOff(flight));
  climbAway(flight, runway, 25);
  return { strip, designator, flown: finishFlight(flight) };
}

/** A flight about to begin in calm air at an invented strip of this length, and the strip's runway 07. */
export function beginOnLong(
  seed: number,
  aeroplane: AeroplaneModel,
  lengthM: number,
): { strip: Strip; runway: Runway; flight: Flight } {
  const map = createMap();
  const strip = inventStrip(map, { id: 'long', bearingDeg: 70, lengthM });
  const startTimeS = SCENARIO_START_S + seed / 7;
  const flight = beginFlight({ aeroplane, wind: CALM, seed, startTimeS });
  return { strip, runway: createRunway(strip, '07', map), flight };
}

/** Puts a flying aeroplane on final, 1,200 m before the aiming point, on its path. */
export function flyAt(flight: Flight, runway: Runway, plan: ApproachPlan, outM = 1200): void {
  const place = toEastNorth(runway, plan.aimAlongM - outM, 8);
  const pathTan = Math.tan((plan.pathDeg * Math.PI) / 180);
  flight.eastM = place.eastM;
  flight.northM = place.northM;
  flight.groundMslM = runway.groundMslM(0);
  flight.wheelMslM = runway.groundMslM(plan.aimAlongM) + outM * pathTan;
  const heightM = flight.wheelMslM - flight.groundMslM;
  const windEast = flight.air.windEastMps(heightM);
  const windNorth = flight.air.windNorthMps(heightM);
  const windAlong = windEast * runway.unitEast + windNorth * runway.unitNorth;
  const speed = plan.speedMps * 1.04 + windAlong;
  flight.eastMps = speed * runway.unitEast;
  flight.northMps = speed * runway.unitNorth;
  flight.upMps = -speed * pathTan;
  flight.airspeedMps = plan.speedMps * 1.04;
  flight.flap = 1;
  flight.thrustMps2 = 0.5;
}

/** Climbs straight on for some seconds. */
export function climbAway(flight: Flight, runway: Runway, seconds: number): void {
  for (let k = 0; k < seconds / STEP_S; k++) {
    stepTowards(flight, {
      bankRad: 0,
      heightMslM: runway.groundMslM(0) + 300,
      speedMps: flight.aeroplane.climbMps,
      mostSinkMps: 2,
    });
  }
}

/** The roll and what follows it, for each way a landing can go on. */
export function afterTouchdown(
  flight: Flight,
  runway: Runway,
  outcome: Outcome,
  roll: RollPlan,
): void {
  const approach = flight.truth.approaches[flight.truth.approaches.length - 1];
  approach.outcome = outcome;
  rollOut(flight, runway, approach, roll);
  if (outcome === 'touch-and-go') {
    const power = approach.rollEnd;
    takeOff(flight, runway, { ...plainTakeOff(flight), power });
    return;
  }
  if (outcome === 'stop-and-go') {
    standStill(flight, runway, 6);
    takeOff(flight, runway, plainTakeOff(flight));
    return;
  }
  if (roll.end === 'vacated') vacate(flight, runway, runway.circuitSide);
  if (roll.end === 'taxi') {
    const ahead = {
      alongM: (approach.rollEnd?.alongM ?? 0) + 60,
      crossM: 0,
      speedMps: roll.endMps,
    };
    taxi(flight, runway, [ahead], runway.bearingRad);
  }
  standStill(flight, runway, 25);
}

function rollFor(outcome: Outcome, random: Random): Partial<RollPlan> {
  if (outcome === 'touch-and-go') return { end: 'power' };
  if (outcome === 'stop-and-go') {
    return { end: 'stopped', brakes: { mps2: between(random, 0.8, 2.5) } };
  }
  return {};
}

function endingFor(outcome: Outcome, random: Random): Partial<ApproachPlan> {
  if (outcome === 'go-around') {
    return { ending: { kind: 'go-around', atAboveM: 0.8 * 75 ** random.uniform() } };
  }
  if (outcome === 'low-pass') {
    return { ending: { kind: 'low-pass', aboveM: between(random, 3, 30) } };
  }
  return {};
}
