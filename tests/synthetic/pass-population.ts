/**
 * Approaches that did not end in a stop, drawn by seed: did the wheels touch?
 *
 * In: a seed. Out: a flight with one such approach, alone in its log or within a flight whose
 * take-off and landing tie the heights. Touch-and-goes with a roll of 2.5 to 7 s and shorter ones,
 * go-arounds begun 5 cm to 10 m up (low ones touch for a moment: skims) and higher, low passes 0.5
 * to 5 m up (some brush the ground) and higher: mostly the band in which a touch and a pass are hard
 * to tell apart. The shares are chosen so that about half touch, no source.
 */
import { createRandom, type Random } from '../../src/numeric/random.ts';
import { flyApproach, type ApproachPlan } from './approach-model.ts';
import { flyCircuit, type CircuitPlan } from './circuit-plan.ts';
import { beginFlight, finishFlight, type Flight } from './flight.ts';
import {
  between,
  drawAeroplane,
  drawApproach,
  drawRoll,
  drawStrip,
  drawWind,
} from './population.ts';
import { standStill } from './roll-model.ts';
import { createMap, createRunway, type Runway } from './runway.ts';
import {
  afterTouchdown,
  climbAway,
  flyDrawnApproach,
  SCENARIO_START_S,
  type Scenario,
} from './scenarios.ts';
import { plainTakeOff, standAt, takeOff } from './take-off-model.ts';
import type { ApproachTruth, Outcome } from './truth.ts';

/** A flight with one drawn pass, and the truth of it. */
export interface DrawnPass extends Scenario {
  readonly pass: ApproachTruth;
  /** When it was lowest, UTC seconds; of a pass that did not touch. */
  readonly lowestTimeS: number;
}

/** One drawn pass. */
export function flyDrawnPass(seed: number, alone: boolean): DrawnPass {
  const random = createRandom(seed + 3_000_000_000);
  const plan = drawPlan(random);
  const scenario = alone
    ? flyDrawnApproach(seed, plan.meant, {
        approach: { ending: plan.ending },
        roll: { powerAfterS: plan.powerAfterS },
      })
    : flyInCircuits(seed, plan);
  const pass = scenario.flown.truth.approaches[0];
  const lowestTimeS = pass.goAround?.lowestTimeS ?? pass.threshold?.timeS ?? NaN;
  return { ...scenario, pass, lowestTimeS };
}

interface PassPlan {
  readonly meant: Outcome;
  readonly ending: ApproachPlan['ending'];
  readonly powerAfterS: number;
}

function drawPlan(random: Random): PassPlan {
  const luck = random.uniform();
  const share = random.uniform();
  const land = { meant: 'touch-and-go', ending: { kind: 'land' } } as const;
  const goAround = (atAboveM: number) =>
    ({ meant: 'go-around', ending: { kind: 'go-around', atAboveM }, powerAfterS: 0 }) as const;
  if (luck < 0.3) return { ...land, powerAfterS: 2.5 + 4.5 * share };
  if (luck < 0.36) return { ...land, powerAfterS: 2.5 * share };
  if (luck < 0.5) return goAround(0.05 * 16 ** share);
  if (luck < 0.7) return goAround(0.8 * 12.5 ** share);
  if (luck < 0.76) return goAround(10 * 6 ** share);
  const aboveM = luck < 0.82 ? 5 * 6 ** share : 0.5 * 10 ** share;
  const ending = { kind: 'low-pass', aboveM } as const;
  return { meant: 'low-pass', ending, powerAfterS: 0 };
}

/** Take-off, circuit, the pass, circuit, full stop. */
function flyInCircuits(seed: number, plan: PassPlan): Scenario {
  const random = createRandom(seed);
  const map = createMap();
  const aeroplane = drawAeroplane(random);
  const strip = drawStrip(map, random, aeroplane.stallMps);
  const designator = strip.directions[random.integer(0, 2)].designator;
  const runway = createRunway(strip, designator, map);
  const wind = drawWind(random, (runway.bearingRad * 180) / Math.PI);
  const startTimeS = SCENARIO_START_S + random.uniform();
  const flight = beginFlight({ aeroplane, wind, seed: random.integer(0, 2 ** 31), startTimeS });
  standAt(flight, runway, runway.nearEndAlongM + between(random, 2, 20), between(random, -2, 2));
  standStill(flight, runway, between(random, 10, 25));
  takeOff(flight, runway, plainTakeOff(flight));
  flyCircuit(flight, runway, drawCircuit(flight, runway, random));
  arrive(flight, runway, random, plan);
  climbAway(flight, runway, 10);
  flyCircuit(flight, runway, drawCircuit(flight, runway, random));
  const land = { meant: 'full-stop', ending: { kind: 'land' }, powerAfterS: 0 } as const;
  arrive(flight, runway, random, land);
  return { strip, designator, flown: finishFlight(flight) };
}

function arrive(
  flight: Flight,
  runway: Runway,
  random: Random,
  { meant, ending, powerAfterS }: PassPlan,
): void {
  const plan = { ...drawApproach(random, flight.aeroplane), ending };
  const truth = flyApproach(flight, runway, plan);
  if (!truth.touchdown || truth.rollEnd !== null) return;
  const end = meant === 'touch-and-go' ? 'power' : 'stopped';
  afterTouchdown(flight, runway, meant, { ...drawRoll(random), end, powerAfterS });
}

function drawCircuit(flight: Flight, runway: Runway, random: Random): CircuitPlan {
  const stall = flight.aeroplane.stallMps;
  return {
    side: runway.circuitSide,
    heightM: between(random, 150, 280),
    spacingM: 45 * stall * between(random, 0.9, 1.1),
    baseAlongM: -42 * stall * between(random, 0.9, 1.15),
    crosswindAtM: between(random, 90, 125),
    bankRad: between(random, 0.36, 0.46),
    downwindMps: 1.75 * stall,
    baseMps: 1.45 * stall,
    pathDeg: between(random, 4, 6),
    aimAlongM: 0,
  };
}
