/**
 * The pilot of the demo flights: each of its habits is one call, so that a flight reads like a story.
 *
 * In: an aeroplane at a mass, a day, a seed. The rolls are asked for as a share of what the handbook
 * would lead one to expect that day, spread as a real pilot's are; the brakes then do what they can.
 * The expectation is this file's own rough sum, only good for choosing a believable roll.
 */
import { createRandom, type Random } from '../../../src/numeric/random.ts';
import { MPS_PER_KNOT } from '../../../src/units/convert.ts';
import { flyCircuit, joinCircuit, type CircuitPlan } from '../circuit-plan.ts';
import { FOUR_SEATER, MICROLIGHT, type AeroplaneModel } from '../aeroplane-model.ts';
import { flyApproach, type ApproachPlan } from '../approach-model.ts';
import { beginFlight, finishFlight, type Flight, type FlownFlight } from '../flight.ts';
import { between } from '../population.ts';
import { PLAIN_ROLL, standStill, type RollPlan } from '../roll-model.ts';
import { createMap, createRunway, type Runway } from '../runway.ts';
import { afterTouchdown, climbAway } from '../scenarios.ts';
import { plainTakeOff, standAt, takeOff } from '../take-off-model.ts';
import { backtrack } from '../taxi-model.ts';
import type { JoinKind, Outcome } from '../truth.ts';
import { windOf, type WindDay } from '../wind-model.ts';
import { demoStrips, type DemoStripId } from './doggerland-strips.ts';

/** The day and the aeroplane, as they will also stand in the conditions file. */
export interface DemoDay {
  readonly startTimeS: number;
  readonly aeroplane: 'marram-160' | 'eelgrass-450';
  readonly massKg: number;
  readonly windFromDeg: number;
  readonly windKt: number;
  readonly gusty: boolean;
  readonly wet: boolean;
  /** How hard the landings of the day are braked. */
  readonly effort: 'full' | 'normal' | 'coasted';
  readonly seed: number;
}

/** What a landing may be asked to be. */
export interface LandingWish {
  /** Where the wheels should touch; the float decides where they do. */
  readonly alongM?: number;
  /** Roll over the expected one; drawn where not given. */
  readonly ratio?: number;
  readonly end?: RollPlan['end'];
  readonly approach?: Partial<ApproachPlan>;
}

/** The calls a story is made of. */
export interface DemoPilot {
  lineUp(strip: DemoStripId, designator: string, alongM?: number): void;
  takeOff(): void;
  rejectTakeOff(atMps: number): void;
  backtrack(toAlongM: number): void;
  /** After a landing: taxis on to the far end, turns round and stands ready to leave the other way. */
  turnRound(strip: DemoStripId, designator: string, toAlongM: number): void;
  goTo(strip: DemoStripId, designator: string, join: JoinKind): void;
  circuit(): void;
  land(wish?: LandingWish): void;
  touchAndGo(wish?: LandingWish): void;
  stopAndGo(wish?: LandingWish): void;
  goAround(atAboveM: number): void;
  lowPass(aboveM: number): void;
  finish(): FlownFlight;
}

/** Boards an aeroplane on a day. */
export function boardAeroplane(day: DemoDay): DemoPilot {
  const map = createMap();
  const strips = demoStrips(map);
  const random = createRandom(day.seed);
  const aeroplane = aeroplaneOf(day);
  const wind = windOfDay(day);
  const flight = beginFlight({ aeroplane, wind, seed: day.seed + 1, startTimeS: day.startTimeS });
  let runway = createRunway(strips.ternholm, '25', map);
  const use = (strip: DemoStripId, designator: string): void => {
    runway = createRunway(strips[strip], designator, map);
  };
  const arrive = (outcome: Outcome, wish: LandingWish, roll: Partial<RollPlan>): void => {
    flyApproach(flight, runway, approachFor(flight, runway, random, wish));
    afterTouchdown(flight, runway, outcome, {
      ...rollFor(runway, day, random, wish),
      ...roll,
    });
  };
  return {
    turnRound: (strip, designator, toAlongM) => {
      use(strip, designator);
      backtrack(flight, runway, toAlongM, runway.bearingRad + Math.PI);
    },
    lineUp: (strip, designator, alongM = 12) => {
      use(strip, designator);
      standAt(flight, runway, runway.nearEndAlongM + alongM, between(random, -1.5, 1.5));
      standStill(flight, runway, between(random, 25, 45));
    },
    takeOff: () => void takeOff(flight, runway, plainTakeOff(flight)),
    rejectTakeOff: (atMps) =>
      void takeOff(flight, runway, { ...plainTakeOff(flight), rejectAtMps: atMps }),
    backtrack: (toAlongM) => {
      backtrack(flight, runway, toAlongM);
    },
    goTo: (strip, designator, join) => {
      climbAway(flight, runway, 20);
      use(strip, designator);
      joinCircuit(flight, runway, circuitFor(flight, runway, random), join);
    },
    circuit: () => {
      flyCircuit(flight, runway, circuitFor(flight, runway, random));
    },
    land: (wish = {}) => {
      arrive('full-stop', wish, { end: wish.end ?? 'stopped' });
    },
    touchAndGo: (wish = {}) => {
      arrive('touch-and-go', wish, { end: 'power', powerAfterS: between(random, 2.5, 5) });
    },
    stopAndGo: (wish = {}) => {
      arrive('stop-and-go', wish, { end: 'stopped' });
    },
    goAround: (atAboveM) => {
      const wish = { approach: { ending: { kind: 'go-around' as const, atAboveM } } };
      flyApproach(flight, runway, approachFor(flight, runway, random, wish));
    },
    lowPass: (aboveM) => {
      const wish = { approach: { ending: { kind: 'low-pass' as const, aboveM } } };
      flyApproach(flight, runway, approachFor(flight, runway, random, wish));
    },
    finish: () => finishFlight(flight),
  };
}

/** The day's aeroplane: stall with the root of the mass, wheels on dry or wet grass. */
function aeroplaneOf(day: DemoDay): AeroplaneModel {
  const [base, fullKg] = day.aeroplane === 'marram-160' ? [FOUR_SEATER, 1100] : [MICROLIGHT, 450];
  const speeds = Math.sqrt(day.massKg / fullKg);
  return {
    ...base,
    stallMps: base.stallMps * speeds,
    liftOffMps: base.liftOffMps * speeds,
    climbMps: base.climbMps * speeds,
    staticThrustMps2: (base.staticThrustMps2 * fullKg) / day.massKg,
    rollingFriction: base.rollingFriction + (day.wet ? 0.015 : 0),
    brakeFriction: base.brakeFriction * (day.wet ? 0.55 : 1),
  };
}

function windOfDay(day: DemoDay): WindDay {
  return windOf(day.windFromDeg, day.windKt * MPS_PER_KNOT, day.gusty ? 0.2 : 0.1);
}

function circuitFor(flight: Flight, runway: Runway, random: Random): CircuitPlan {
  const stall = flight.aeroplane.stallMps;
  const big = stall > 20;
  return {
    side: runway.circuitSide,
    heightM: runway.circuitHeightM + between(random, -12, 12),
    spacingM: between(random, 0.92, 1.1) * (big ? 950 : 600),
    baseAlongM: -between(random, 0.9, 1.15) * (big ? 900 : 560),
    crosswindAtM: between(random, 90, 125),
    bankRad: between(random, 0.36, 0.46),
    downwindMps: 1.75 * stall,
    baseMps: 1.45 * stall,
    pathDeg: big ? 4.6 : 7,
    aimAlongM: 0,
  };
}

/** A usual approach of this pilot; the aim allows for the float that speed and flare lead to. */
function approachFor(
  flight: Flight,
  runway: Runway,
  random: Random,
  wish: LandingWish,
): ApproachPlan {
  const stall = flight.aeroplane.stallMps;
  const big = stall > 20;
  const isShort = !big || runway.farEndAlongM < 450;
  const alongM = wish.alongM ?? (isShort ? between(random, 15, 60) : between(random, 40, 120));
  const approachRatio = isShort ? between(random, 1.22, 1.3) : between(random, 1.26, 1.36);
  const holdRatio = isShort ? between(random, 1.16, 1.24) : between(random, 1.12, 1.22);
  const floatM = 0.2 * stall ** 2 * (approachRatio ** 2 - holdRatio ** 2) + 20;
  return {
    speedMps: approachRatio * stall,
    pathDeg: big ? between(random, 3.8, 5) : between(random, 6.9, 8.1),
    aimAlongM: alongM - floatM,
    flareHeightM: (big ? between(random, 0.16, 0.24) : between(random, 0.22, 0.3)) * stall,
    holdHeightM: between(random, 0.2, 0.4),
    holdSinkMps: between(random, 0.12, 0.3),
    flarePower: 0.6,
    contactSinkMps: between(random, 0.3, 0.8),
    touchdownMps: holdRatio * stall,
    throttleCutS: between(random, 0.8, 2.2),
    pathWanderDeg: 0.3,
    speedWanderMps: 0.02 * stall,
    bouncesMps: [],
    ending: { kind: 'land' },
    ...wish.approach,
  };
}

function rollFor(runway: Runway, day: DemoDay, random: Random, wish: LandingWish): RollPlan {
  const drawn = 1.12 * Math.exp(0.14 * random.normal());
  const byEffort = { full: 0.92, normal: 1, coasted: 1.35 }[day.effort];
  const ratio = wish.ratio ?? Math.min(1.55, drawn * byEffort * (day.wet ? 1.08 : 1));
  const stopInM = ratio * roughExpectedRollM(day, runway);
  const brakes = day.effort === 'coasted' && wish.ratio === undefined ? { mps2: 0 } : { stopInM };
  return {
    ...PLAIN_ROLL,
    brakeDelayS: between(random, 0.8, 2.6),
    brakes,
    end: wish.end ?? 'stopped',
    crossM: between(random, -1.2, 1.2),
    endMps: between(random, 3, 4.5),
  };
}

/** A rough expectation: the handbook's roll at sea level, on grass, in the day's wind, on the slope. */
function roughExpectedRollM(day: DemoDay, runway: Runway): number {
  const big = day.aeroplane === 'marram-160';
  const hardM = big ? 166 + 0.16 * (day.massKg - 975) : 62 * (day.massKg / 450);
  const wetGrass = day.wet ? 1.25 : 1;
  const angle = (day.windFromDeg * Math.PI) / 180 - runway.bearingRad;
  const headKt = day.windKt * Math.cos(angle);
  const wind = headKt > 0 ? 1 - 0.1 * (headKt / 9) : 1 - 0.1 * (headKt / 2);
  const riseM = runway.groundMslM(runway.farEndAlongM) - runway.groundMslM(0);
  const slope = riseM / runway.farEndAlongM;
  return hardM * 1.4 * wetGrass * wind * (1 - 7 * slope);
}
