/**
 * A circuit, leg by leg, and how it is joined.
 *
 * In: where the legs lie about the strip, heights, speeds, banks. The pilot flies each leg as a line
 * over the ground, begins a turn early enough to roll out on the next line, and lets down from
 * abeam the threshold so as to meet the approach path. Writes the legs to the truth.
 * Source: the shape of a circuit at a small strip, common practice (no source).
 */
import {
  bankForLine,
  bankForTrack,
  bearingToRad,
  stepTowards,
  turnLeadM,
  wrapRad,
  type GuideLine,
} from './air-guidance.ts';
import { aboveM, type Flight } from './flight.ts';
import { beginLeg } from './leg-record.ts';
import { toAlongCross, toEastNorth, type Runway } from './runway.ts';
import { axisOf } from './take-off-model.ts';
import type { JoinKind, LegName } from './truth.ts';

/** The circuit's shape. Heights over the strip, metres. */
export interface CircuitPlan {
  readonly side: 1 | -1;
  readonly heightM: number;
  readonly spacingM: number;
  /** Along at which the base leg lies: negative. */
  readonly baseAlongM: number;
  /** Height at which the turn on to crosswind begins. */
  readonly crosswindAtM: number;
  readonly bankRad: number;
  readonly downwindMps: number;
  readonly baseMps: number;
  /** The path that will be met, degrees, and its aiming point. */
  readonly pathDeg: number;
  readonly aimAlongM: number;
}

/** Flies from a leg on until the turn to final has begun; the approach takes over there. */
export function flyCircuit(
  flight: Flight,
  runway: Runway,
  plan: CircuitPlan,
  from: LegName = 'climb-out',
): void {
  flight.groundMslM = runway.groundMslM(0);
  const order: LegName[] = ['climb-out', 'crosswind', 'downwind', 'base'];
  for (const leg of order.slice(order.indexOf(from))) {
    beginLeg(flight, runway, plan.side, leg);
    const line = lineOf(flight, runway, plan, leg);
    while (!legIsOver(flight, runway, plan, leg)) {
      stepTowards(flight, {
        bankRad: bankForLine(flight, line, leg === 'climb-out' ? 0.2 : plan.bankRad),
        heightMslM: heightOnLeg(flight, runway, plan, leg),
        speedMps: speedOnLeg(flight, runway, plan, leg),
        mostSinkMps: 4,
      });
    }
  }
  beginLeg(flight, runway, plan.side, 'final');
}

/** A place to fly over, relative to a strip. Height over the strip. */
export interface FlyOver {
  readonly alongM: number;
  readonly crossM: number;
  readonly aboveM: number;
  readonly speedMps: number;
}

/** Flies over places one after the other, cutting the corners as a turn needs. */
export function flyOver(
  flight: Flight,
  runway: Runway,
  places: readonly FlyOver[],
  bankRad: number,
): void {
  flight.groundMslM = runway.groundMslM(0);
  places.forEach((place, i) => {
    const at = toEastNorth(runway, place.alongM, place.crossM);
    const next = i + 1 < places.length ? places[i + 1] : null;
    const after = next === null ? null : toEastNorth(runway, next.alongM, next.crossM);
    for (;;) {
      const bearing = bearingToRad(flight, at.eastM, at.northM);
      const turn = after
        ? wrapRad(Math.atan2(after.eastM - at.eastM, after.northM - at.northM) - bearing)
        : 0;
      const leadM = after ? turnLeadM(flight, turn, bankRad) : 80;
      const awayM = Math.hypot(at.eastM - flight.eastM, at.northM - flight.northM);
      if (awayM <= leadM || isMissed(flight, bearing, awayM, bankRad)) break;
      stepTowards(flight, {
        bankRad: bankForTrack(flight, bearing, bankRad),
        heightMslM: runway.groundMslM(0) + place.aboveM,
        speedMps: place.speedMps,
        mostSinkMps: 4.5,
      });
    }
  });
}

/** Comes to the strip from afar, joins as asked and flies on to the turn to final. */
export function joinCircuit(
  flight: Flight,
  runway: Runway,
  plan: CircuitPlan,
  kind: JoinKind,
): void {
  flyOver(flight, runway, placesBefore(runway, plan, kind), plan.bankRad);
  flight.truth.joins.push({
    strip: runway.stripId,
    direction: runway.designator,
    kind,
    timeS: flight.timeS,
  });
  if (kind === 'straight-in') beginLeg(flight, runway, plan.side, 'final');
  else flyCircuit(flight, runway, plan, kind === 'base' ? 'base' : 'downwind');
}

/** Where each way of joining leads before the joined leg begins. */
function placesBefore(runway: Runway, plan: CircuitPlan, kind: JoinKind): FlyOver[] {
  const speedMps = plan.downwindMps;
  const at = (alongM: number, side: number, aboveM: number): FlyOver => {
    return { alongM, crossM: side * plan.side, aboveM, speedMps };
  };
  const endM = runway.farEndAlongM;
  const { heightM, spacingM, baseAlongM } = plan;
  if (kind === 'overhead') {
    return [
      at(-300, 1500, heightM + 200),
      at(0, 0, heightM + 200),
      at(-100, -1000, heightM + 140),
      at(endM + 500, -1000, heightM + 40),
      at(endM + 400, 0, heightM),
      at(endM + 300, spacingM, heightM),
    ];
  }
  if (kind === 'crosswind') {
    return [
      at(endM + 150, -1500, heightM),
      at(endM + 100, 0, heightM),
      at(endM, spacingM, heightM),
    ];
  }
  if (kind === 'downwind') {
    return [at(endM + 1500, spacingM + 900, heightM), at(endM / 2 + 250, spacingM, heightM)];
  }
  if (kind === 'base') {
    return [
      at(baseAlongM, spacingM + 1800, heightM),
      at(baseAlongM, spacingM, Math.min(heightM, 150)),
    ];
  }
  return [at(-3500, 0, heightM), at(-2000, 0, heightM)];
}

/** A place behind the wing and within the turning circle would be circled for ever. */
function isMissed(flight: Flight, bearingRad: number, awayM: number, bankRad: number): boolean {
  const offRad = wrapRad(bearingRad - Math.atan2(flight.eastMps, flight.northMps));
  return Math.abs(offRad) > Math.PI / 2 && awayM < 2.2 * turnLeadM(flight, Math.PI / 2, bankRad);
}

function lineOf(flight: Flight, runway: Runway, plan: CircuitPlan, leg: LegName): GuideLine {
  const here = { eastM: flight.eastM, northM: flight.northM };
  const quarter = (plan.side * Math.PI) / 2;
  if (leg === 'crosswind') return { ...here, bearingRad: runway.bearingRad + quarter };
  if (leg === 'downwind') {
    const point = toEastNorth(runway, 0, plan.side * plan.spacingM);
    return { ...point, bearingRad: runway.bearingRad + Math.PI };
  }
  if (leg === 'base') {
    const point = toEastNorth(runway, plan.baseAlongM, 0);
    return { ...point, bearingRad: runway.bearingRad - quarter };
  }
  return axisOf(runway);
}

function legIsOver(flight: Flight, runway: Runway, plan: CircuitPlan, leg: LegName): boolean {
  const place = toAlongCross(runway, flight.eastM, flight.northM);
  const leadM = turnLeadM(flight, Math.PI / 2, plan.bankRad);
  const outM = place.crossM * plan.side;
  if (leg === 'climb-out') {
    return place.alongM > runway.farEndAlongM && aboveM(flight, runway) > plan.crosswindAtM;
  }
  if (leg === 'crosswind') return outM >= plan.spacingM - leadM;
  if (leg === 'downwind') return place.alongM <= plan.baseAlongM + leadM;
  return outM <= leadM;
}

/** Circuit height until the path from here round to the aiming point is lower. */
function heightOnLeg(flight: Flight, runway: Runway, plan: CircuitPlan, leg: LegName): number {
  const place = toAlongCross(runway, flight.eastM, flight.northM);
  const circuitMslM = runway.groundMslM(0) + plan.heightM;
  if (leg === 'climb-out' || leg === 'crosswind') return circuitMslM;
  const finalM = plan.aimAlongM - plan.baseAlongM;
  const outM = place.crossM * plan.side;
  const toGoM =
    leg === 'base'
      ? outM + finalM
      : Math.max(0, place.alongM - plan.baseAlongM) + plan.spacingM + finalM;
  const pathM = toGoM * Math.tan((plan.pathDeg * Math.PI) / 180);
  return Math.min(circuitMslM, runway.groundMslM(plan.aimAlongM) + pathM);
}

function speedOnLeg(flight: Flight, runway: Runway, plan: CircuitPlan, leg: LegName): number {
  if (leg === 'climb-out') return flight.aeroplane.climbMps;
  if (leg === 'base') return plan.baseMps;
  const { alongM } = toAlongCross(runway, flight.eastM, flight.northM);
  // Slows down once abeam the threshold.
  if (leg === 'downwind' && alongM < 0) {
    flight.flapWish = 0.5;
    return plan.baseMps;
  }
  return plan.downwindMps;
}
