/**
 * What happens between the wheels being down and the roll being over?
 *
 * A free roll, then the brakes as planned, down to a stop, a taxi, a turn off the strip, or power
 * again. A plan may ask for a stop after a wished distance: then the braking that gives it is
 * found first, as a pilot feels his way to the end he wants. Writes the truth of the roll.
 */
import { MPS_PER_KNOT } from '../../src/units/convert.ts';
import { idleThrustMps2 } from './aeroplane-model.ts';
import { alongOf, alongSpeedMps, momentOf, STEP_S, type Flight } from './flight.ts';
import { rollAccelerationMps2, stepRoll } from './ground-motion.ts';
import { slopeAt, type Runway } from './runway.ts';
import type { ApproachTruth, RollEndKind } from './truth.ts';

/** How a roll is braked and what ends it. */
export interface RollPlan {
  /** Touchdown to brakes, s. */
  readonly brakeDelayS: number;
  /** Slowing asked of the brakes at full weight, m/s2; or the roll that the stop shall come after, m. */
  readonly brakes: { readonly mps2: number } | { readonly stopInM: number };
  readonly end: RollEndKind;
  /** Ground speed at which a taxi or a turn-off begins, m/s. */
  readonly endMps: number;
  /** Touchdown to throttle where the end is power, s. */
  readonly powerAfterS: number;
  /** Where across the strip it is steered to. */
  readonly crossM: number;
}

/** A normal full stop. */
export const PLAIN_ROLL: RollPlan = {
  brakeDelayS: 2,
  brakes: { mps2: 1.2 },
  end: 'stopped',
  endMps: 4,
  powerAfterS: 4,
  crossM: 0,
};

/** Below this the definition of the ground roll counts as stopped, m/s. */
export const STOPPED_MPS = 0.5;

/** Rolls until the plan's end; the wheels are down already. Fills in the approach's truth. */
export function rollOut(
  flight: Flight,
  runway: Runway,
  approach: ApproachTruth | null,
  plan: RollPlan,
): void {
  const startS = flight.timeS;
  const brakeMps2 =
    'mps2' in plan.brakes
      ? plan.brakes.mps2
      : brakesForStop(flight, runway, plan, plan.brakes.stopInM);
  for (;;) {
    const rolledS = flight.timeS - startS;
    const speed = alongSpeedMps(flight, runway);
    const braking = rolledS >= plan.brakeDelayS && brakeMps2 > 0;
    if (approach) watchRoll(flight, runway, approach, speed, braking);
    if (isOver(plan, speed, rolledS)) break;
    // Nobody rolls off the end with the brakes untouched.
    const leftM = runway.farEndAlongM - alongOf(flight, runway);
    const needed =
      leftM < 60 && plan.end !== 'power' ? speed ** 2 / (2 * Math.max(leftM - 10, 2)) : 0;
    stepRoll(flight, runway, {
      thrustMps2: idleThrustMps2(flight.aeroplane, flight.airspeedMps),
      brakeMps2: Math.max(braking ? brakeMps2 : 0, needed > 0.6 ? needed * 1.3 : 0),
      crossM: plan.crossM,
    });
  }
  if (!approach) return;
  approach.rollEnd = { ...momentOf(flight, runway), kind: plan.end };
  if (plan.end === 'stopped' && approach.touchdown) {
    approach.groundRollM = approach.rollEnd.alongM - approach.touchdown.alongM;
  }
}

/** Holds the brakes until the aeroplane stands, then stands for a while. */
export function standStill(flight: Flight, runway: Runway, seconds: number): void {
  const until = flight.timeS + seconds;
  while (flight.timeS < until || alongSpeedMps(flight, runway) > 0) {
    stepRoll(flight, runway, { thrustMps2: 0, brakeMps2: 3, crossM: 0 });
  }
  flight.loadFactor = 0;
}

/** Brakes that end a roll after so many metres: more braking, shorter roll, so halving finds it. */
function brakesForStop(flight: Flight, runway: Runway, plan: RollPlan, stopInM: number): number {
  let low = 0;
  let high = 6;
  for (let round = 0; round < 16; round++) {
    const middle = (low + high) / 2;
    if (foreseenRollM(flight, runway, plan.brakeDelayS, middle) > stopInM) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The roll in the wind of this moment, without gusts to come. */
function foreseenRollM(
  flight: Flight,
  runway: Runway,
  brakeDelayS: number,
  brakeMps2: number,
): number {
  const aeroplane = flight.aeroplane;
  const startM = alongOf(flight, runway);
  let speed = alongSpeedMps(flight, runway);
  const windMps = speed - flight.airspeedMps;
  let { loadFactor, thrustMps2 } = flight;
  let rolledM = 0;
  let brake = 0;
  for (let timeS = 0; speed > STOPPED_MPS && timeS < 200; timeS += STEP_S) {
    const airspeedMps = speed - windMps;
    const resting = 0.3 * Math.min(1, (airspeedMps / aeroplane.stallMps) ** 2);
    loadFactor += ((resting - loadFactor) * STEP_S) / aeroplane.noseDownS;
    thrustMps2 += (idleThrustMps2(aeroplane, airspeedMps) - thrustMps2) * (STEP_S / 0.7);
    brake += ((timeS >= brakeDelayS ? brakeMps2 : 0) - brake) * (STEP_S / 0.4);
    const accel = rollAccelerationMps2(aeroplane, {
      airspeedMps,
      thrustMps2,
      loadFactor,
      brakeMps2: brake,
      slope: slopeAt(runway, startM + rolledM),
      flap: flight.flap,
    });
    rolledM += speed * STEP_S;
    speed += accel * STEP_S;
  }
  return rolledM;
}

function isOver(plan: RollPlan, speedMps: number, rolledS: number): boolean {
  if (plan.end === 'power') return rolledS >= plan.powerAfterS;
  if (plan.end === 'stopped') return speedMps < STOPPED_MPS;
  return speedMps < plan.endMps;
}

function watchRoll(
  flight: Flight,
  runway: Runway,
  approach: ApproachTruth,
  speedMps: number,
  braking: boolean,
): void {
  if (braking) approach.brakesOn ??= momentOf(flight, runway);
  if (speedMps < 10 * MPS_PER_KNOT) approach.tenKnots ??= momentOf(flight, runway);
  if (speedMps < 5 * MPS_PER_KNOT) approach.fiveKnots ??= momentOf(flight, runway);
  if (approach.threshold === null && alongOf(flight, runway) >= 0) {
    approach.threshold = { ...momentOf(flight, runway), aboveM: 0, crossM: 0 };
  }
}
