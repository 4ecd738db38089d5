/**
 * From standing (or from a touch-and-go) to the climb-out.
 *
 * In: where the aeroplane stands, a plan. Writes brake release, lift-off and the 50 ft point to the
 * truth. A take-off may be rejected at a speed.
 */
import { METRES_PER_FOOT } from '../../src/units/convert.ts';
import { bankForLine, stepClimb, type GuideLine } from './air-guidance.ts';
import { fullThrustMps2 } from './aeroplane-model.ts';
import { aboveM, alongSpeedMps, momentOf, sinkMps, type Flight } from './flight.ts';
import { putOnGround, stepRoll } from './ground-motion.ts';
import { PLAIN_ROLL, rollOut, standStill } from './roll-model.ts';
import type { Runway } from './runway.ts';
import type { Moment, TakeOffTruth } from './truth.ts';

/** 50 ft over the surface, m. */
export const SCREEN_M = 50 * METRES_PER_FOOT;

/** How a take-off is flown. */
export interface TakeOffPlan {
  /** Airspeed of lift-off, m/s. */
  readonly liftOffMps: number;
  readonly climbMps: number;
  readonly crossM: number;
  /** Throttle opened in a touch-and-go; null for one from standing. */
  readonly power: Moment | null;
  /** Ground speed at which it is given up, or null. */
  readonly rejectAtMps: number | null;
}

/** The aeroplane's own speeds, from standing. */
export function plainTakeOff(flight: Flight): TakeOffPlan {
  return {
    liftOffMps: flight.aeroplane.liftOffMps,
    climbMps: flight.aeroplane.climbMps,
    crossM: 0,
    power: null,
    rejectAtMps: null,
  };
}

/** Puts the aeroplane on a strip, standing. */
export function standAt(flight: Flight, runway: Runway, alongM: number, crossM: number): void {
  putOnGround(flight, runway, alongM, crossM, 0, 0);
}

/** Takes off and climbs 15 m past the screen height, or stops again where it is rejected. */
export function takeOff(flight: Flight, runway: Runway, plan: TakeOffPlan): TakeOffTruth {
  const truth: TakeOffTruth = {
    strip: runway.stripId,
    direction: runway.designator,
    kind: plan.rejectAtMps === null ? 'take-off' : 'rejected',
    brakeRelease: null,
    power: plan.power,
    liftOff: null,
    groundRollM: null,
    screen: null,
    rejected: null,
  };
  flight.truth.takeOffs.push(truth);
  flight.flapWish = 0.3;
  flight.noseWish = 0;
  let rotating = false;
  while (flight.airspeedMps < plan.liftOffMps || !rotating) {
    const speed = alongSpeedMps(flight, runway);
    if (plan.power === null && speed > 0) truth.brakeRelease ??= momentOf(flight, runway);
    if (plan.rejectAtMps !== null && speed >= plan.rejectAtMps) {
      rejectTakeOff(flight, runway, truth);
      return truth;
    }
    rotating ||= flight.airspeedMps > 0.94 * plan.liftOffMps;
    stepRoll(flight, runway, {
      thrustMps2: fullThrustMps2(flight.aeroplane, flight.airspeedMps),
      brakeMps2: 0,
      crossM: plan.crossM,
      rotating,
    });
  }
  const liftOff = momentOf(flight, runway);
  flight.climbSinceS = liftOff.timeS;
  truth.liftOff = { ...liftOff, airspeedMps: flight.airspeedMps };
  const from = truth.brakeRelease ?? plan.power;
  if (from) truth.groundRollM = liftOff.alongM - from.alongM;
  climbPastScreen(flight, runway, plan, truth, from);
  return truth;
}

/** The strip's axis as a line to fly along. */
export function axisOf(runway: Runway): GuideLine {
  return {
    eastM: runway.thresholdEastM,
    northM: runway.thresholdNorthM,
    bearingRad: runway.bearingRad,
  };
}

function climbPastScreen(
  flight: Flight,
  runway: Runway,
  plan: TakeOffPlan,
  truth: TakeOffTruth,
  from: Moment | null,
): void {
  flight.climbMps2 = 0;
  while (aboveM(flight, runway) < SCREEN_M + 15) {
    if (aboveM(flight, runway) >= SCREEN_M && truth.screen === null) {
      const moment = momentOf(flight, runway);
      truth.screen = { ...moment, distanceM: moment.alongM - (from?.alongM ?? moment.alongM) };
    }
    const bankRad = bankForLine(flight, axisOf(runway), 0.15);
    const surfaceMps = -sinkMps(flight, runway) - flight.upMps;
    stepClimb(flight, { bankRad, speedMps: plan.climbMps, leastClimbMps: 0.6 - surfaceMps });
  }
  flight.flapWish = 0;
}

function rejectTakeOff(flight: Flight, runway: Runway, truth: TakeOffTruth): void {
  let fastestMps = 0;
  const before = alongSpeedMps(flight, runway);
  fastestMps = Math.max(fastestMps, before);
  rollOut(flight, runway, null, { ...PLAIN_ROLL, brakeDelayS: 1, brakes: { mps2: 2 } });
  truth.rejected = {
    fastestMps,
    stopTimeS: flight.timeS,
    stopAlongM: momentOf(flight, runway).alongM,
  };
  standStill(flight, runway, 5);
}
