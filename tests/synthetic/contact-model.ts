/**
 * The moment the wheels meet the strip, and the hops that may follow.
 *
 * The contact falls between two steps: its time and place are interpolated to where the height was
 * zero. A planned bounce sends the aeroplane up again with a given speed; the wing still carries
 * most of the weight, so it comes down slowly.
 */
import { stepAir } from './air-motion.ts';
import { bankForLine } from './air-guidance.ts';
import { idleThrustMps2 } from './aeroplane-model.ts';
import {
  aboveM,
  alongSpeedMps,
  correctRow,
  groundSpeedMps,
  momentOf,
  sinkMps,
  STEP_S,
  type Flight,
} from './flight.ts';
import { putOnGround } from './ground-motion.ts';
import { slopeAt, toAlongCross, type Runway } from './runway.ts';
import { axisOf } from './take-off-model.ts';
import type { ApproachTruth } from './truth.ts';

/** What the first contact leads to. */
export interface ContactPlan {
  /** Upward speeds of the hops, m/s, in order; none for a clean arrival. */
  readonly bouncesMps: readonly number[];
}

/** First contact and hops; the wheels are down for good afterwards. */
export function contact(
  flight: Flight,
  runway: Runway,
  plan: ContactPlan,
  truth: ApproachTruth,
): void {
  const first = contactMoment(flight, runway);
  truth.touchdown = {
    ...first,
    groundSpeedMps: groundSpeedMps(flight),
    crossM: toAlongCross(runway, flight.eastM, flight.northM).crossM,
    airspeedMps: flight.airspeedMps,
    sinkMps: sinkMps(flight, runway),
  };
  for (const upMps of plan.bouncesMps) hop(flight, runway, upMps, truth);
  settle(flight, runway);
  flight.noseWish = 0;
}

function hop(flight: Flight, runway: Runway, upMps: number, truth: ApproachTruth): void {
  const offTimeS = flight.timeS;
  const surfaceMps = settle(flight, runway);
  flight.springMps -= upMps;
  flight.upMps = surfaceMps + upMps;
  flight.climbMps2 = -1.5;
  let highestM = 0;
  do {
    stepAir(flight, {
      bankRad: bankForLine(flight, axisOf(runway), 0.05),
      climbMps: surfaceMps - 0.8,
      thrustMps2: idleThrustMps2(flight.aeroplane, flight.airspeedMps),
    });
    highestM = Math.max(highestM, aboveM(flight, runway));
  } while (aboveM(flight, runway) > 0);
  const on = contactMoment(flight, runway);
  truth.bounces.push({ offTimeS, onTimeS: on.timeS, onAlongM: on.alongM, highestM });
}

/** Puts the wheels on the surface; the antenna keeps its own downward speed and the gear takes it up. */
function settle(flight: Flight, runway: Runway): number {
  const place = toAlongCross(runway, flight.eastM, flight.northM);
  const alongMps = alongSpeedMps(flight, runway);
  const crossMps = flight.eastMps * runway.unitNorth - flight.northMps * runway.unitEast;
  const surfaceMps = alongMps * slopeAt(runway, place.alongM);
  flight.springMps += flight.upMps - surfaceMps;
  flight.springM += flight.wheelMslM - runway.groundMslM(place.alongM);
  putOnGround(flight, runway, place.alongM, place.crossM, alongMps, crossMps);
  correctRow(flight);
  return surfaceMps;
}

/** When and where the height was zero, within the last step. */
function contactMoment(flight: Flight, runway: Runway): { timeS: number; alongM: number } {
  const now = momentOf(flight, runway);
  const sink = Math.max(sinkMps(flight, runway), 0.02);
  const agoS = Math.min(STEP_S, -aboveM(flight, runway) / sink);
  return { timeS: now.timeS - agoS, alongM: now.alongM - agoS * alongSpeedMps(flight, runway) };
}
