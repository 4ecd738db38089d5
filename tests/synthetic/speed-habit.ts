/**
 * At what speed does a simulated pilot fly each part of a circuit?
 *
 * Pilots do not hold one speed. They climb faster once the flaps are up, often while turning on to
 * crosswind; they slow down from downwind to short final by a fifth to two fifths in a fast type, bit
 * by bit, or in steps that fall into the turns, with flap. Speed goes off in a turn and comes back.
 * In: a generator of its own, so that nothing else of a drawn flight changes. Out: wished airspeeds.
 * Source: common practice, no source.
 */
import type { Random } from '../../src/numeric/random.ts';
import { dragMps2, fullThrustMps2, type AeroplaneModel } from './aeroplane-model.ts';
import { between } from './population.ts';

/** One pilot's habit on one day. */
export interface SpeedHabit {
  /** Downwind and coming in from afar as shares of the plain downwind speed. */
  readonly downwindShare: number;
  readonly comingInShare: number;
  /** Climb speed later on as a share of the first, and how far over the height of the crosswind turn it is taken up, metres. */
  readonly climbShare: number;
  readonly fasterFromM: number;
  /** Where the pilot slows down. */
  readonly slows: 'abeam' | 'in-turns' | 'bit-by-bit' | 'late';
  /** How much of what is to be lost is lost before final. */
  readonly lostBeforeFinal: number;
  /** Distance over which a step is let go, metres; and from the threshold, where slowing is over. */
  readonly stepM: number;
  readonly doneAtM: number;
  /** How far beyond abeam the threshold slowing begins, metres; negative is before. */
  readonly beyondAbeamM: number;
  /** Share of the speed that goes off in a turn of full bank. */
  readonly lostInTurn: number;
  /** Slow wandering of the hand: share of the speed, period in seconds, phase. */
  readonly wanderShare: number;
  readonly wanderS: number;
  readonly wanderRad: number;
}

/** Draws a habit. */
export function drawSpeedHabit(random: Random): SpeedHabit {
  const kind = random.uniform();
  return {
    downwindShare: random.uniform() < 0.5 ? 1 : between(random, 1, 1.2),
    comingInShare: random.uniform() < 0.4 ? 1 : between(random, 1, 1.15),
    climbShare: random.uniform() < 0.35 ? 1 : between(random, 1.05, 1.3),
    fasterFromM: between(random, -60, 40),
    slows: kind < 0.25 ? 'abeam' : kind < 0.5 ? 'in-turns' : kind < 0.85 ? 'bit-by-bit' : 'late',
    lostBeforeFinal: between(random, 0.35, 0.8),
    stepM: between(random, 30, 300),
    doneAtM: between(random, 120, 600),
    beyondAbeamM: between(random, -300, 300),
    lostInTurn: random.uniform() < 0.4 ? 0 : between(random, 0, 0.06),
    wanderShare: between(random, 0, 0.025),
    wanderS: between(random, 20, 60),
    wanderRad: between(random, 0, 2 * Math.PI),
  };
}

/** The same pilot in one of several circuits: no two are flown quite alike. */
export function anotherCircuit(random: Random, pilot: SpeedHabit): SpeedHabit {
  return {
    ...pilot,
    downwindShare: Math.max(1, pilot.downwindShare + between(random, -0.03, 0.03)),
    fasterFromM: pilot.fasterFromM + between(random, -20, 20),
    lostBeforeFinal: pilot.lostBeforeFinal + between(random, -0.1, 0.1),
    stepM: pilot.stepM * between(random, 0.7, 1.4),
    beyondAbeamM: pilot.beyondAbeamM + between(random, -80, 80),
    wanderRad: between(random, 0, 2 * Math.PI),
  };
}

/** What the speeds of one descent lie between: metres to go round the circuit to the threshold, and m/s. */
export interface Descent {
  readonly abeamToGoM: number;
  readonly baseTurnToGoM: number;
  readonly finalTurnToGoM: number;
  readonly downwindMps: number;
  readonly finalMps: number;
}

/** Wished airspeed with so far to go to the threshold, m/s. */
export function speedToGo(habit: SpeedHabit, descent: Descent, toGoM: number): number {
  const { abeamToGoM, baseTurnToGoM, finalTurnToGoM, downwindMps, finalMps } = descent;
  const { slows, stepM, lostBeforeFinal: first, doneAtM } = habit;
  const gone = (fromM: number, overM: number): number =>
    Math.min(1, Math.max(0, (fromM - toGoM) / overM));
  const beginM = abeamToGoM - habit.beyondAbeamM;
  let lost: number;
  if (slows === 'abeam') {
    lost = first * gone(beginM, stepM) + (1 - first) * gone(finalTurnToGoM, stepM);
  } else if (slows === 'in-turns') {
    lost = first * gone(baseTurnToGoM, stepM) + (1 - first) * gone(finalTurnToGoM, stepM);
  } else if (slows === 'bit-by-bit') {
    lost = gone(beginM, Math.max(300, beginM - doneAtM));
  } else {
    lost = gone(baseTurnToGoM - stepM, Math.max(300, baseTurnToGoM - stepM - doneAtM));
  }
  return downwindMps - (downwindMps - finalMps) * lost;
}

/** The later climb speed, m/s: no faster than leaves most of the climb that the first one gives. */
export function fasterClimbMps(habit: SpeedHabit, aeroplane: AeroplaneModel): number {
  const { climbMps } = aeroplane;
  const rate = (mps: number): number =>
    mps * (fullThrustMps2(aeroplane, mps) - dragMps2(aeroplane, mps, 1, 0));
  let mps = habit.climbShare * climbMps;
  while (mps > climbMps && rate(mps) < 0.7 * rate(climbMps)) mps -= 0.02 * climbMps;
  return Math.max(climbMps, mps);
}

/** What hand and turn make of a wished speed at a moment, m/s. */
export function flownSpeedMps(
  habit: SpeedHabit,
  wishedMps: number,
  timeS: number,
  bankShare: number,
): number {
  const wander =
    habit.wanderShare * Math.sin((2 * Math.PI * timeS) / habit.wanderS + habit.wanderRad);
  return wishedMps * (1 + wander - habit.lostInTurn * Math.min(1, bankShare));
}
