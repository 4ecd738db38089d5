/**
 * Flown circuits and joins against their truth.
 *
 * Sources: the legs' directions follow from the words (downwind is flown opposite to the landing
 * direction, and so on); bank from rate of turn and speed by tan(bank) = v * rate / g.
 */
import { describe, expect, test } from 'vitest';
import { GRAVITY_MPS2 } from '../../src/units/convert.ts';
import { expectNear } from '../expect-near.ts';
import { MICROLIGHT } from './aeroplane-model.ts';
import { wrapRad } from './air-guidance.ts';
import { flyApproach } from './approach-model.ts';
import { flyCircuit, joinCircuit, type CircuitPlan } from './circuit-plan.ts';
import { beginFlight, finishFlight, type FlownFlight } from './flight.ts';
import { inventStrip } from './invent-strip.ts';
import { PLAIN_ROLL } from './roll-model.ts';
import { createMap, createRunway, toAlongCross, type Runway } from './runway.ts';
import { afterTouchdown, climbAway } from './scenarios.ts';
import { plainTakeOff, standAt, takeOff } from './take-off-model.ts';
import type { CircuitTruth, JoinKind, LegName } from './truth.ts';
import { windOf } from './wind-model.ts';

const LEGS: LegName[] = ['climb-out', 'crosswind', 'downwind', 'base', 'final'];
/** Bearing of each leg against the landing direction, for a right-hand circuit, degrees. */
const LEG_TURN_DEG = { 'climb-out': 0, crosswind: 90, downwind: 180, base: 270, final: 360 };

describe('a circuit', () => {
  for (const circuit of ['left', 'right'] as const) {
    test(`[SIM30] to the ${circuit} flies its five legs in order, each in its direction`, () => {
      const { flown, runway } = flyOneCircuit(circuit, null);
      const [truth] = flown.truth.circuits;
      expect(truth.side).toBe(circuit);
      expect(truth.legs.map(({ leg }) => leg)).toEqual(LEGS);
      const sign = circuit === 'right' ? 1 : -1;
      for (const { leg, startTimeS, endTimeS } of truth.legs) {
        expect(endTimeS).toBeGreaterThan(startTimeS);
        // At the end of a leg the turn on to it is over, or all but: a crosswind leg can be short.
        const wanted = runway.bearingRad + (sign * LEG_TURN_DEG[leg] * Math.PI) / 180;
        const off = wrapRad(trackRadAt(flown, endTimeS - 0.5) - wanted);
        expectNear((off * 180) / Math.PI, 0, 25, `${leg} track`);
      }
    });

    test(`[SIM31] to the ${circuit} keeps downwind at its spacing on its side`, () => {
      const { flown, runway } = flyOneCircuit(circuit, null);
      const legs = flown.truth.circuits[0].legs;
      const { endTimeS } = legs[2];
      const row = rowAt(flown, endTimeS);
      const { crossM } = toAlongCross(runway, flown.eastM[row], flown.northM[row]);
      expectNear(crossM * (circuit === 'right' ? 1 : -1), 600, 40, 'spacing');
    });
  }

  test('[SIM32] banks no more than asked, whatever the wind', () => {
    const { flown } = flyOneCircuit('left', null);
    let steepest = 0;
    for (let i = 1; i < flown.length; i++) {
      const speed = Math.hypot(flown.eastMps[i], flown.northMps[i]);
      if (speed < 15) continue;
      const rate = wrapRad(trackRad(flown, i) - trackRad(flown, i - 1)) / 0.1;
      steepest = Math.max(steepest, Math.abs(Math.atan((speed * rate) / GRAVITY_MPS2)));
    }
    // Rate of turn over the ground differs from that through the air by the wind's share of the speed.
    expect(steepest).toBeLessThan(0.42 * 1.4);
    expect(steepest).toBeGreaterThan(0.3);
  });

  for (const kind of ['overhead', 'crosswind', 'downwind', 'base', 'straight-in'] as JoinKind[]) {
    test(`[SIM33] joined by ${kind} ends on the strip`, () => {
      const { flown } = flyOneCircuit('left', kind);
      const [join] = flown.truth.joins;
      expect(join.kind).toBe(kind);
      const circuit = flown.truth.circuits.at(-1) as CircuitTruth;
      expect(circuit.legs[0].startTimeS).toBeGreaterThanOrEqual(join.timeS);
      const approach = flown.truth.approaches.at(-1);
      expectNear(approach?.touchdown?.alongM ?? NaN, 60, 70, 'touchdown');
      expectNear(approach?.touchdown?.crossM ?? NaN, 0, 3, 'touchdown across');
    });
  }

  test('[SIM34] an overhead join passes over the strip high and lets down on the dead side', () => {
    const { flown, runway } = flyOneCircuit('left', 'overhead');
    const [join] = flown.truth.joins;
    const places = Array.from(flown.timeS.keys())
      .filter((i) => flown.timeS[i] < join.timeS && flown.wheelMslM[i] > 100)
      .map((i) => ({
        ...toAlongCross(runway, flown.eastM[i], flown.northM[i]),
        aboveM: flown.wheelMslM[i] - 10,
      }));
    const overhead = places.filter(({ alongM, crossM }) => Math.hypot(alongM, crossM) < 200);
    expect(Math.min(...overhead.map(({ aboveM }) => aboveM))).toBeGreaterThan(300);
    // Left-hand circuit: the dead side lies right of the strip.
    const deadSide = places.filter(({ crossM }) => crossM > 600);
    expect(deadSide.length).toBeGreaterThan(100);
    expect(deadSide[0].aboveM - (deadSide.at(-1)?.aboveM ?? NaN)).toBeGreaterThan(60);
  });
});

function flyOneCircuit(
  circuit: 'left' | 'right',
  join: JoinKind | null,
): { flown: FlownFlight; runway: Runway } {
  const map = createMap();
  const wish = { id: 'home', bearingDeg: 250, lengthM: 500, fromA: { circuit } };
  const runway = createRunway(inventStrip(map, wish), '25', map);
  const wind = windOf(220, 5);
  const flight = beginFlight({ aeroplane: MICROLIGHT, wind, seed: 11, startTimeS: 1_749_892_350 });
  const stall = MICROLIGHT.stallMps;
  const plan: CircuitPlan = {
    side: runway.circuitSide,
    heightM: 155,
    spacingM: 600,
    baseAlongM: -600,
    crosswindAtM: 100,
    bankRad: 0.42,
    downwindMps: 1.75 * stall,
    baseMps: 1.45 * stall,
    pathDeg: 4.6,
    aimAlongM: 0,
  };
  standAt(flight, runway, 10, 0);
  takeOff(flight, runway, plainTakeOff(flight));
  if (join === null) flyCircuit(flight, runway, plan);
  else {
    climbAway(flight, runway, 60);
    joinCircuit(flight, runway, plan, join);
  }
  flyApproach(flight, runway, {
    speedMps: 1.3 * stall,
    pathDeg: 4.6,
    aimAlongM: 0,
    flareHeightM: 3.5,
    holdHeightM: 0.3,
    holdSinkMps: 0.1,
    contactSinkMps: 0.6,
    touchdownMps: 1.12 * stall,
    throttleCutS: 1.5,
    pathWanderDeg: 0.3,
    speedWanderMps: 0.4,
    bouncesMps: [],
    ending: { kind: 'land' },
  });
  afterTouchdown(flight, runway, 'full-stop', PLAIN_ROLL);
  return { flown: finishFlight(flight), runway };
}

function rowAt(flown: FlownFlight, timeS: number): number {
  return Math.round((timeS - flown.timeS[0]) / 0.1);
}

function trackRad(flown: FlownFlight, i: number): number {
  return Math.atan2(flown.eastMps[i], flown.northMps[i]);
}

function trackRadAt(flown: FlownFlight, timeS: number): number {
  return trackRad(flown, rowAt(flown, timeS));
}
