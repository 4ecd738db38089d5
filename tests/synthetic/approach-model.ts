/**
 * Final approach, round-out, hold-off and first contact; or a go-around, or a low pass.
 *
 * In: an aeroplane somewhere on final, a plan. The path is held with small wanderings, the sink is
 * arrested over the last metres, the engine is idle, speed bleeds off until the wheels touch.
 * Writes the truth of the approach; after contact the roll takes over.
 */
import { bankForLine, stepClimb } from './air-guidance.ts';
import { stepAir, thrustForSpeed } from './air-motion.ts';
import { idleThrustMps2 } from './aeroplane-model.ts';
import { contact, type ContactPlan } from './contact-model.ts';
import { aboveM, alongOf, alongSpeedMps, clamp, momentOf, sinkMps, type Flight } from './flight.ts';
import { endCircuit } from './leg-record.ts';
import { slopeAt, toAlongCross, type Runway } from './runway.ts';
import { axisOf, plainTakeOff, SCREEN_M, takeOff } from './take-off-model.ts';
import { openApproach, type ApproachTruth, type Moment } from './truth.ts';

/** How an approach is flown and what becomes of it. */
export interface ApproachPlan extends ContactPlan {
  /** True airspeed on short final, m/s. */
  readonly speedMps: number;
  readonly pathDeg: number;
  /** Where the path meets the surface. */
  readonly aimAlongM: number;
  /** Wheel height at which the round-out begins, and of the hold-off. */
  readonly flareHeightM: number;
  readonly holdHeightM: number;
  readonly holdSinkMps: number;
  /** Sink asked for at the end of the hold-off, and the airspeed that ends it. */
  readonly contactSinkMps: number;
  readonly touchdownMps: number;
  /**
   * How the sink goes with the height left in the round-out: its power. 0.5 is a steady pull that ends
   * in finite time, 1 (where not given) a sink that dies away.
   */
  readonly flarePower?: number;
  /** Time over which the throttle is closed from the round-out on. */
  readonly throttleCutS: number;
  /** Standard deviations of the slow wandering of path (degrees) and speed (m/s). */
  readonly pathWanderDeg: number;
  readonly speedWanderMps: number;
  /** How much faster it is flown further out: m/s by metres to go to the threshold. */
  readonly fasterMps?: (toGoM: number) => number;
  readonly ending:
    | { readonly kind: 'land' }
    | { readonly kind: 'go-around'; readonly atAboveM: number }
    | { readonly kind: 'low-pass'; readonly aboveM: number };
}

/** Flies the approach from wherever the aeroplane is on final. After a landing the wheels are down. */
export function flyApproach(flight: Flight, runway: Runway, plan: ApproachPlan): ApproachTruth {
  const truth = openApproach(runway.stripId, runway.designator);
  flight.truth.approaches.push(truth);
  flight.flapWish = 1;
  flight.noseWish = 0;
  flight.groundMslM = runway.groundMslM(0);
  const endM = endOfPathM(plan);
  const pathWander = slowWander(flight, plan.pathWanderDeg);
  const speedWander = slowWander(flight, plan.speedWanderMps);
  while (aboveM(flight, runway) > endM) {
    const pathTan = Math.tan(((plan.pathDeg + pathWander()) * Math.PI) / 180);
    const climbMps = climbOnPathMps(flight, runway, plan.aimAlongM, pathTan);
    const speedMps = plan.speedMps + speedWander() + (plan.fasterMps?.(toGoM(flight, runway)) ?? 0);
    stepAir(flight, {
      bankRad: bankForLine(flight, axisOf(runway), bankLimit(aboveM(flight, runway)), 7),
      climbMps,
      thrustMps2: thrustForSpeed(flight, speedMps, climbMps),
    });
    watchDescent(flight, runway, truth);
  }
  if (plan.ending.kind === 'land') {
    roundOut(flight, runway, plan, truth, 0);
    contact(flight, runway, plan, truth);
    endCircuit(flight);
  } else if (plan.ending.kind === 'go-around') {
    const atM = plan.ending.atAboveM;
    if (atM < plan.flareHeightM) roundOut(flight, runway, plan, truth, atM);
    goAround(flight, runway, truth);
  } else passLow(flight, runway, plan, plan.ending.aboveM, truth);
  return truth;
}

function toGoM(flight: Flight, runway: Runway): number {
  const { alongM, crossM } = toAlongCross(runway, flight.eastM, flight.northM);
  return Math.abs(crossM) - alongM;
}

/** Rate of climb (negative) that holds the path to the aiming point. */
export function climbOnPathMps(
  flight: Flight,
  runway: Runway,
  aimAlongM: number,
  pathTan: number,
): number {
  const place = toAlongCross(runway, flight.eastM, flight.northM);
  const toGoM = aimAlongM - place.alongM + Math.abs(place.crossM);
  const pathMslM = runway.groundMslM(aimAlongM) + toGoM * pathTan;
  const speed = Math.hypot(flight.eastMps, flight.northMps);
  const wanted = -speed * pathTan + (pathMslM - flight.wheelMslM) * 0.2;
  return clamp(wanted, -speed * pathTan * 1.7 - 0.5, 0);
}

/** Round-out and hold-off down to a wheel height: 0 is first contact. */
function roundOut(
  flight: Flight,
  runway: Runway,
  plan: ApproachPlan,
  truth: ApproachTruth,
  untilM: number,
): void {
  truth.roundOut = { ...momentOf(flight, runway), aboveM: aboveM(flight, runway) };
  const startS = flight.timeS;
  const startThrust = flight.thrustMps2;
  const startSink = Math.max(sinkMps(flight, runway), plan.holdSinkMps + 0.1);
  flight.noseWish = 1;
  let letDown = false;
  while (aboveM(flight, runway) > untilM) {
    const heightM = aboveM(flight, runway);
    letDown ||= flight.airspeedMps <= plan.touchdownMps;
    const rest = clamp(
      (heightM - 0.6 * sinkMps(flight, runway) - plan.holdHeightM) /
        (plan.flareHeightM - plan.holdHeightM),
      0,
      1,
    );
    const holdSink = letDown ? plan.contactSinkMps : plan.holdSinkMps;
    const sinkWish = holdSink + (startSink - holdSink) * rest ** (plan.flarePower ?? 1);
    const surfaceMps = alongSpeedMps(flight, runway) * slopeAt(runway, alongOf(flight, runway));
    const idle = idleThrustMps2(flight.aeroplane, flight.airspeedMps);
    const open = Math.max(0, 1 - (flight.timeS - startS) / plan.throttleCutS);
    stepAir(flight, {
      bankRad: bankForLine(flight, axisOf(runway), bankLimit(heightM), 7),
      climbMps: surfaceMps - sinkWish,
      thrustMps2: idle + (startThrust - idle) * open,
    });
    watchDescent(flight, runway, truth);
  }
}

/** Opens the throttle and climbs away. One begun too low touches all the same, and is told so. */
function goAround(flight: Flight, runway: Runway, truth: ApproachTruth): void {
  const start = momentOf(flight, runway);
  const startAboveM = aboveM(flight, runway);
  let lowest = { ...start, aboveM: startAboveM };
  endCircuit(flight);
  flight.climbSinceS = start.timeS;
  flight.flapWish = 0.3;
  flight.noseWish = 0;
  while (aboveM(flight, runway) < Math.max(startAboveM, SCREEN_M) + 15) {
    const heightM = aboveM(flight, runway);
    if (heightM <= 0) {
      touchAndClimb(flight, runway, truth, start);
      return;
    }
    if (heightM < lowest.aboveM) lowest = { ...momentOf(flight, runway), aboveM: heightM };
    stepClimb(flight, {
      bankRad: bankForLine(flight, axisOf(runway), 0.15),
      speedMps: flight.aeroplane.climbMps,
      leastClimbMps: heightM < 2 ? 1 : 0.5,
    });
    watchThreshold(flight, runway, truth);
  }
  flight.flapWish = 0;
  truth.outcome = 'go-around';
  truth.goAround = {
    initiationTimeS: start.timeS,
    initiationAboveM: startAboveM,
    lowestTimeS: lowest.timeS,
    lowestAboveM: lowest.aboveM,
    lowestAlongM: lowest.alongM,
  };
}

/** A go-around that touched: to the truth it is a touch-and-go with the throttle opened before contact. */
function touchAndClimb(flight: Flight, runway: Runway, truth: ApproachTruth, power: Moment): void {
  contact(flight, runway, { bouncesMps: [] }, truth);
  truth.outcome = 'touch-and-go';
  truth.rollEnd = { ...momentOf(flight, runway), kind: 'power' };
  takeOff(flight, runway, { ...plainTakeOff(flight), power });
}

/** Flies level along the strip, then climbs away past its end. */
function passLow(
  flight: Flight,
  runway: Runway,
  plan: ApproachPlan,
  passM: number,
  truth: ApproachTruth,
): void {
  truth.outcome = 'low-pass';
  let lowestM = aboveM(flight, runway);
  endCircuit(flight);
  flight.flapWish = 0.5;
  while (alongOf(flight, runway) < runway.farEndAlongM - 30) {
    const climbMps = clamp((passM - aboveM(flight, runway)) / 3, -2, 2);
    stepAir(flight, {
      bankRad: bankForLine(flight, axisOf(runway), bankLimit(passM), 7),
      climbMps,
      thrustMps2: thrustForSpeed(flight, plan.speedMps * 1.08, climbMps),
    });
    if (aboveM(flight, runway) <= 0) brush(flight, runway, truth);
    lowestM = Math.min(lowestM, aboveM(flight, runway));
    watchThreshold(flight, runway, truth);
  }
  truth.lowestPassM = lowestM;
  flight.climbSinceS = flight.timeS;
  while (aboveM(flight, runway) < passM + 30) {
    const bankRad = bankForLine(flight, axisOf(runway), 0.15);
    stepClimb(flight, { bankRad, speedMps: flight.aeroplane.climbMps, leastClimbMps: 0.5 });
  }
  flight.flapWish = 0;
}

/** Wheels that meet the ground on a low pass throw the aeroplane up again a little; it flies on. */
function brush(flight: Flight, runway: Runway, truth: ApproachTruth): void {
  if (truth.touchdown === null) {
    contact(flight, runway, { bouncesMps: [] }, truth);
    truth.outcome = 'touch-and-go';
    truth.rollEnd = { ...momentOf(flight, runway), kind: 'power' };
  }
  flight.upMps += BRUSH_UP_MPS + sinkMps(flight, runway);
}

const BRUSH_UP_MPS = 0.4;

function endOfPathM(plan: ApproachPlan): number {
  if (plan.ending.kind === 'go-around') return Math.max(plan.ending.atAboveM, plan.flareHeightM);
  if (plan.ending.kind === 'low-pass') return plan.ending.aboveM + 4;
  return plan.flareHeightM;
}

function watchDescent(flight: Flight, runway: Runway, truth: ApproachTruth): void {
  if (aboveM(flight, runway) > SCREEN_M) truth.fiftyFeet = null;
  else truth.fiftyFeet ??= momentOf(flight, runway);
  watchThreshold(flight, runway, truth);
}

function watchThreshold(flight: Flight, runway: Runway, truth: ApproachTruth): void {
  const place = toAlongCross(runway, flight.eastM, flight.northM);
  if (truth.threshold !== null || place.alongM < 0) return;
  truth.threshold = {
    ...momentOf(flight, runway),
    aboveM: Math.max(0, aboveM(flight, runway)),
    crossM: place.crossM,
  };
  endCircuit(flight);
}

/** Wings are kept near level close to the ground. */
function bankLimit(heightM: number): number {
  return clamp(0.05 + heightM * 0.01, 0.06, 0.45);
}

/** A slow wandering with a given spread, drawn anew every 10 s and smoothed between. */
function slowWander(flight: Flight, spread: number): () => number {
  let target = spread * flight.random.normal();
  let value = 0;
  let nextS = flight.timeS + 10;
  return () => {
    if (flight.timeS >= nextS) {
      target = spread * flight.random.normal();
      nextS += 10;
    }
    value += (target - value) * 0.004;
    return value;
  };
}
