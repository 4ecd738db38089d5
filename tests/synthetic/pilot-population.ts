/**
 * Pilots with habits: landings of one pilot in one aeroplane are more alike than those of the population.
 *
 * In: a seed. Out: a pilot, and the plans of that pilot's landings. Over many pilots every plan is
 * drawn evenly from the ranges of the population (population.ts); within one pilot each figure lies
 * near the pilot's own. Source: that pilots have habits, common practice, no source; how strong they
 * are, ours.
 */
import type { Random } from '../../src/numeric/random.ts';
import type { AeroplaneModel } from './aeroplane-model.ts';
import type { ApproachPlan } from './approach-model.ts';
import { between, drawAeroplane, drawApproach, drawRoll } from './population.ts';
import type { RollPlan } from './roll-model.ts';

/** A pilot: an aeroplane, and where in each range of the population the own figures lie, 0 to 1. */
export interface Pilot {
  readonly aeroplane: AeroplaneModel;
  readonly approach: Habits;
  readonly roll: Habits;
}

/** The middle of each figure in the order in which it is drawn, and how far from it single landings lie (one sd, share of the range). */
export interface Habits {
  readonly middles: readonly number[];
  readonly spread: number;
}

/** More figures than any plan draws. */
const FIGURES = 24;

/** A pilot, more or less consistent. */
export function drawPilot(random: Random): Pilot {
  return { aeroplane: drawAeroplane(random), ...drawManner(random) };
}

/** How a pilot lands: another manner for the same aeroplane. */
export function drawManner(random: Random): Pick<Pilot, 'approach' | 'roll'> {
  const spread = between(random, 0.08, 0.3);
  const habits = (): Habits => ({
    middles: Array.from({ length: FIGURES }, () => random.uniform()),
    spread,
  });
  return { approach: habits(), roll: habits() };
}

/** The plan of one landing. */
export function drawPilotLanding(
  { aeroplane, approach, roll }: Pilot,
  random: Random,
): { readonly approach: ApproachPlan; readonly roll: RollPlan } {
  return {
    approach: drawApproach(habitual(random, approach), aeroplane),
    roll: drawRoll(habitual(random, roll)),
  };
}

/** Draws that lie near the pilot's middles, one after the other, folded back at the ends of the range. */
function habitual(random: Random, { middles, spread }: Habits): Random {
  let next = 0;
  return {
    ...random,
    uniform: () => folded(middles[next++] + spread * random.normal()),
  };
}

/** Reflected at 0 and 1 as often as it takes: an even draw of middles gives even draws. */
function folded(x: number): number {
  const inTwo = x - 2 * Math.floor(x / 2);
  return Math.min(inTwo <= 1 ? inTwo : 2 - inTwo, 1 - 1e-12);
}
