/**
 * Circuits as people fly them: skew legs, tight or wide, turned in one go, with orbits; all joins.
 *
 * In: a flight, a runway, a shape. Out: the aeroplane at the turn to final; the truth of the legs,
 * and beside it orbits. A turn flown in one go from downwind to final has no base leg of its own:
 * base then begins with the turn and final with its middle, where the track crosses the strip's
 * direction; likewise from climb-out to downwind.
 * Source: common practice, no source.
 */
import { GRAVITY_MPS2 } from '../../src/units/convert.ts';
import {
  bankForLine,
  offLine,
  stepTowards,
  turnLeadM,
  wrapRad,
  type GuideLine,
} from './air-guidance.ts';
import { flyOver, type CircuitPlan, type FlyOver } from './circuit-plan.ts';
import { aboveM, clamp, groundSpeedMps, type Flight } from './flight.ts';
import { beginLeg } from './leg-record.ts';
import {
  fasterClimbMps,
  flownSpeedMps,
  speedToGo,
  type Descent,
  type SpeedHabit,
} from './speed-habit.ts';
import { toAlongCross, toEastNorth, type Runway } from './runway.ts';
import { axisOf } from './take-off-model.ts';
import type { JoinKind, LegName } from './truth.ts';

/** A full turn flown to lose time. */
export interface OrbitPlan {
  readonly leg: 'downwind' | 'base';
  /** +1 to the right. */
  readonly turn: 1 | -1;
}

/** A circuit's shape beyond the plan's plain rectangle. Angles in radians. */
export interface CircuitShape extends CircuitPlan {
  /** From climb-out to crosswind, and from downwind to base: a right angle is pi / 2. */
  readonly crosswindTurnRad: number;
  readonly baseTurnRad: number;
  /** Downwind flown towards the strip (positive) or away from it. */
  readonly downwindSkewRad: number;
  readonly roundedToDownwind: boolean;
  readonly roundedToFinal: boolean;
  readonly orbit: OrbitPlan | null;
  readonly habit: SpeedHabit;
  /** Airspeed of short final, about, m/s. */
  readonly finalMps: number;
}

/** An orbit as flown. */
export interface OrbitTruth {
  readonly leg: LegName;
  readonly side: 'left' | 'right';
  readonly startTimeS: number;
  readonly endTimeS: number;
}

const QUARTER = Math.PI / 2;

/** Flies from a leg on until the turn to final has begun. Returns the orbits. */
export function flyShapedCircuit(
  flight: Flight,
  runway: Runway,
  shape: CircuitShape,
  from: LegName,
): OrbitTruth[] {
  flight.groundMslM = runway.groundMslM(0);
  const orbits: OrbitTruth[] = [];
  const order: LegName[] = ['climb-out', 'crosswind', 'downwind', 'base'];
  for (const leg of order.slice(order.indexOf(from))) {
    // The middle of one long turn has begun downwind already.
    const begun = leg === 'downwind' && shape.roundedToDownwind && from === 'climb-out';
    if (!begun) beginLeg(flight, runway, shape.side, leg);
    if (leg === 'crosswind' && shape.roundedToDownwind) {
      turnInOneGo(flight, runway, shape, 'downwind');
      continue;
    }
    if (leg === 'base' && shape.roundedToFinal) {
      turnInOneGo(flight, runway, shape, 'final');
      return orbits;
    }
    let line = lineOf(flight, runway, shape, leg);
    let toOrbit = shape.orbit?.leg === leg;
    while (!isOver(flight, runway, shape, leg)) {
      if (toOrbit && isMiddle(flight, runway, shape, leg)) {
        toOrbit = false;
        orbits.push(flyOrbit(flight, runway, shape, leg));
        // The wind has carried it away meanwhile: the leg goes on from here.
        line = { ...line, eastM: flight.eastM, northM: flight.northM };
      }
      step(
        flight,
        runway,
        shape,
        leg,
        bankForLine(flight, line, leg === 'climb-out' ? 0.2 : shape.bankRad),
      );
    }
  }
  beginLeg(flight, runway, shape.side, 'final');
  return orbits;
}

/** Comes from afar, joins as asked and flies on to the turn to final. */
export function joinShapedCircuit(
  flight: Flight,
  runway: Runway,
  shape: CircuitShape,
  kind: JoinKind,
  way: readonly FlyOver[],
): OrbitTruth[] {
  flyOver(flight, runway, way, shape.bankRad);
  const { truth } = flight;
  truth.joins.push({
    strip: runway.stripId,
    direction: runway.designator,
    kind,
    timeS: flight.timeS,
  });
  if (kind === 'straight-in') {
    beginLeg(flight, runway, shape.side, 'final');
    return [];
  }
  return flyShapedCircuit(flight, runway, shape, kind === 'base' ? 'base' : 'downwind');
}

function step(
  flight: Flight,
  runway: Runway,
  shape: CircuitShape,
  leg: LegName,
  bankRad: number,
): void {
  stepTowards(flight, {
    bankRad,
    heightMslM: heightOn(flight, runway, shape, leg),
    ...speedsOn(flight, runway, shape, leg),
    mostSinkMps: 4,
  });
}

/** One turn on to downwind or final, of whatever bank meets its line at its end. */
function turnInOneGo(
  flight: Flight,
  runway: Runway,
  shape: CircuitShape,
  to: 'downwind' | 'final',
): void {
  const target = to === 'final' ? axisOf(runway) : lineOf(flight, runway, shape, 'downwind');
  const leg = to === 'final' ? 'base' : 'crosswind';
  let named = false;
  for (;;) {
    const track = Math.atan2(flight.eastMps, flight.northMps);
    let left = shape.side * wrapRad(target.bearingRad - track);
    if (left < -QUARTER) left += 2 * Math.PI;
    if (!named && left <= QUARTER) {
      named = true;
      beginLeg(flight, runway, shape.side, to);
    }
    if (left < 0.45) break;
    const offM = Math.max(20, shape.side * offLine(flight, target).rightM);
    const radiusM = offM / (1 - Math.cos(left));
    const bank = Math.atan(groundSpeedMps(flight) ** 2 / (GRAVITY_MPS2 * radiusM));
    step(flight, runway, shape, leg, shape.side * clamp(bank, 0.02, MOST_BANK_RAD));
  }
}

const MOST_BANK_RAD = 0.6;

/** A full turn, back on to the track it began on. */
function flyOrbit(flight: Flight, runway: Runway, shape: CircuitShape, leg: LegName): OrbitTruth {
  const turn = shape.orbit?.turn ?? 1;
  const startTimeS = flight.timeS;
  const heightMslM = flight.wheelMslM;
  // Round the orbit the speed is held that it began with.
  const speeds = speedsOn(flight, runway, shape, leg);
  let turned = 0;
  let last = Math.atan2(flight.eastMps, flight.northMps);
  while (turn * turned < 2 * Math.PI - 0.25) {
    stepTowards(flight, {
      bankRad: turn * shape.bankRad,
      heightMslM,
      ...speeds,
      mostSinkMps: 4,
    });
    const now = Math.atan2(flight.eastMps, flight.northMps);
    turned += wrapRad(now - last);
    last = now;
  }
  return { leg, side: turn === 1 ? 'right' : 'left', startTimeS, endTimeS: flight.timeS };
}

function isMiddle(flight: Flight, runway: Runway, shape: CircuitShape, leg: LegName): boolean {
  const { alongM, crossM } = toAlongCross(runway, flight.eastM, flight.northM);
  if (leg === 'downwind') return alongM < runway.farEndAlongM / 2;
  return crossM * shape.side < 0.6 * shape.spacingM;
}

function lineOf(flight: Flight, runway: Runway, shape: CircuitShape, leg: LegName): GuideLine {
  const { side } = shape;
  if (leg === 'crosswind') {
    // Rolled out on its line, not past it.
    const leadM = turnLeadM(flight, shape.crosswindTurnRad, shape.bankRad);
    const here = {
      eastM: flight.eastM + leadM * runway.unitEast,
      northM: flight.northM + leadM * runway.unitNorth,
    };
    return { ...here, bearingRad: runway.bearingRad + side * shape.crosswindTurnRad };
  }
  const downwindRad = runway.bearingRad + Math.PI + side * shape.downwindSkewRad;
  if (leg === 'downwind') {
    return { ...toEastNorth(runway, 0, side * shape.spacingM), bearingRad: downwindRad };
  }
  if (leg === 'base') {
    const point = toEastNorth(runway, shape.baseAlongM, 0);
    return { ...point, bearingRad: downwindRad + side * shape.baseTurnRad };
  }
  return axisOf(runway);
}

function isOver(flight: Flight, runway: Runway, shape: CircuitShape, leg: LegName): boolean {
  const place = toAlongCross(runway, flight.eastM, flight.northM);
  if (leg === 'climb-out') {
    return place.alongM > runway.farEndAlongM && aboveM(flight, runway) > shape.crosswindAtM;
  }
  const next: LegName = leg === 'crosswind' ? 'downwind' : leg === 'downwind' ? 'base' : 'final';
  if (leg === 'downwind' && shape.roundedToFinal) return place.alongM <= shape.baseAlongM;
  const line = lineOf(flight, runway, shape, next);
  const own = lineOf(flight, runway, shape, leg);
  const turn = Math.max(0.5, wrapRad(line.bearingRad - own.bearingRad) * shape.side);
  const outsideM = shape.side * offLine(flight, line).rightM;
  return outsideM / Math.sin(turn) <= turnLeadM(flight, turn, shape.bankRad);
}

/** Circuit height until the path from here round to the aiming point is lower. */
function heightOn(flight: Flight, runway: Runway, shape: CircuitShape, leg: LegName): number {
  const circuitMslM = runway.groundMslM(0) + shape.heightM;
  if (leg === 'climb-out' || leg === 'crosswind') return circuitMslM;
  const pathM = toGoOn(flight, runway, shape, leg) * Math.tan((shape.pathDeg * Math.PI) / 180);
  return Math.min(circuitMslM, runway.groundMslM(shape.aimAlongM) + pathM);
}

/** Metres to go round the circuit to the aiming point. */
function toGoOn(flight: Flight, runway: Runway, shape: CircuitShape, leg: LegName): number {
  const { alongM, crossM } = toAlongCross(runway, flight.eastM, flight.northM);
  const outM = Math.max(0, crossM * shape.side);
  const finalM = shape.aimAlongM - Math.min(shape.baseAlongM, alongM);
  return leg === 'downwind'
    ? Math.max(0, alongM - shape.baseAlongM) + outM + finalM
    : outM + finalM;
}

/** Between which places and speeds a circuit is flown down. */
export function descentOf(flight: Flight, shape: CircuitShape): Descent {
  const turnM = turnLeadM(flight, Math.PI / 2, shape.bankRad);
  const finalM = shape.aimAlongM - shape.baseAlongM;
  return {
    abeamToGoM: finalM + shape.spacingM + finalM,
    baseTurnToGoM: turnM + shape.spacingM + finalM,
    finalTurnToGoM: turnM + finalM,
    downwindMps: shape.downwindMps,
    finalMps: shape.finalMps,
  };
}

function speedsOn(
  flight: Flight,
  runway: Runway,
  shape: CircuitShape,
  leg: LegName,
): { speedMps: number; climbSpeedMps: number } {
  const { habit } = shape;
  const bankShare = Math.abs(flight.bankRad) / shape.bankRad;
  const flown = (wishedMps: number): number =>
    flownSpeedMps(habit, wishedMps, flight.timeS - flight.startTimeS, bankShare);
  const early = aboveM(flight, runway) < shape.crosswindAtM + habit.fasterFromM;
  const { climbMps } = flight.aeroplane;
  const fasterMps = fasterClimbMps(habit, flight.aeroplane);
  const climbSpeedMps = flown(leg === 'climb-out' && early ? climbMps : fasterMps);
  if (leg === 'climb-out') return { speedMps: climbSpeedMps, climbSpeedMps };
  if (leg === 'crosswind') return { speedMps: flown(shape.downwindMps), climbSpeedMps };
  const { alongM } = toAlongCross(runway, flight.eastM, flight.northM);
  if (leg === 'base' || alongM < 0) flight.flapWish = 0.5;
  const toGoM = toGoOn(flight, runway, shape, leg);
  return { speedMps: flown(speedToGo(habit, descentOf(flight, shape), toGoM)), climbSpeedMps };
}
