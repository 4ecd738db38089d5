/**
 * From the handbook's figures to the distances of the day: the working, line by line.
 *
 * Inputs: the handbook's whole distance and ground roll, the effects of the day, the safety
 * factor. Outputs: expected and planned whole distance and roll, with every line of the working.
 * The roll is always the whole less the air part; published factors leave the air part alone, so
 * that 200 m of roll and 250 m of air on wet grass at 1.35 become 607.5 m, of which 357.5 m is roll.
 */

import { isUndetermined, undetermined, type Undetermined } from '../result.ts';
import { sourceOf, type PublishedFactor } from './factor-sets/factor-set.ts';
import type { ChainStep, Figure } from './prediction.ts';
import type { Effect } from './step.ts';

/** What the handbook gives for this use of the strip, metres; undetermined where a table is missing. */
export interface HandbookStart {
  readonly wholeM: Figure;
  readonly rollM: Figure;
  readonly wholeName: string;
  readonly source: string;
  readonly why: string;
}

/** The outcome of one chain. */
export interface ChainOutcome {
  readonly wholeM: Figure;
  readonly airM: Figure;
  readonly rollM: Figure;
  readonly steps: readonly ChainStep[];
}

/**
 * Works out the expected figures.
 *
 * Units: metres. Fails: a figure is undetermined where the handbook lacks what it needs.
 */
export function expectedChain(
  start: HandbookStart,
  effects: readonly Effect[] | Undetermined,
): ChainOutcome {
  if (isUndetermined(effects)) return nothing(effects);
  const rollOnly = isUndetermined(start.wholeM);
  const needsWhole = effects.find((effect) => effect.isPublished);
  if (rollOnly && needsWhole !== undefined) return nothing(start.wholeM);
  const applied = apply(start, effects);
  if (isUndetermined(applied)) return nothing(applied);
  if (rollOnly) {
    // Without a whole distance the running figure is the roll itself.
    return {
      wholeM: start.wholeM,
      airM: start.wholeM,
      rollM: applied.wholeM,
      steps: applied.steps,
    };
  }
  const roll = rollLine(applied.wholeM, applied.airM, 'expected ground roll');
  return {
    wholeM: applied.wholeM,
    airM: applied.airM,
    rollM: roll.rollM,
    steps: [...applied.steps, ...applied.airSteps, ...roll.steps],
  };
}

/**
 * Works out the planned figures: the cautious effects and the safety factor on the whole distance,
 * then the whole less the *expected* air part.
 */
export function plannedChain(
  start: HandbookStart,
  effects: readonly Effect[] | Undetermined,
  safety: PublishedFactor,
  expectedAirM: Figure,
): ChainOutcome {
  if (isUndetermined(effects)) return nothing(effects);
  if (isUndetermined(start.wholeM)) return nothing(start.wholeM);
  const safetyEffect: Effect = {
    name: 'safety factor',
    factor: safety.factor,
    of: 'whole distance',
    airFactor: 1,
    isPublished: true,
    source: sourceOf(safety),
    why: safety.why,
  };
  const applied = apply(start, [...effects, safetyEffect]);
  if (isUndetermined(applied)) return nothing(applied);
  const roll = rollLine(applied.wholeM, expectedAirM, 'planned ground roll');
  return {
    wholeM: applied.wholeM,
    airM: expectedAirM,
    rollM: roll.rollM,
    steps: [...applied.steps, ...roll.steps],
  };
}

interface Applied {
  readonly wholeM: number;
  readonly airM: Figure;
  readonly steps: readonly ChainStep[];
  readonly airSteps: readonly ChainStep[];
}

function apply(start: HandbookStart, effects: readonly Effect[]): Applied | Undetermined {
  const rollOnly = isUndetermined(start.wholeM);
  const first = rollOnly ? start.rollM : start.wholeM;
  if (isUndetermined(first)) return first;
  let wholeM = first;
  let airM = rollOnly ? 0 : airPart(start);
  const startName = rollOnly ? 'handbook ground roll' : start.wholeName;
  const actsOn = rollOnly ? 'ground roll' : 'whole distance';
  const steps: ChainStep[] = [startLine(startName, wholeM, actsOn, start)];
  const airSteps: ChainStep[] = isUndetermined(airM)
    ? []
    : [startLine('handbook air part', airM, 'air part', start)];
  for (const effect of effects) {
    if (effect.of === 'ground roll') {
      if (isUndetermined(airM)) return airM;
      const addM = (wholeM - airM) * (effect.factor - 1);
      wholeM += addM;
      steps.push(line(effect, effect.factor, addM, 'ground roll', wholeM));
      continue;
    }
    wholeM *= effect.factor;
    steps.push(line(effect, effect.factor, null, actsOn, wholeM));
    if (isUndetermined(airM) || effect.airFactor === 1) continue;
    airM *= effect.airFactor;
    airSteps.push(line(effect, effect.airFactor, null, 'air part', airM));
  }
  return { wholeM, airM, steps, airSteps };
}

function airPart(start: HandbookStart): Figure {
  if (isUndetermined(start.wholeM)) return start.wholeM;
  if (isUndetermined(start.rollM)) return start.rollM;
  const airM = start.wholeM - start.rollM;
  return airM > 0
    ? airM
    : undetermined('the handbook gives a ground roll that is no shorter than its whole distance');
}

function rollLine(
  wholeM: number,
  airM: Figure,
  name: string,
): { readonly rollM: Figure; readonly steps: readonly ChainStep[] } {
  if (isUndetermined(airM)) return { rollM: airM, steps: [] };
  const rollM = wholeM - airM;
  if (rollM <= 0) {
    const reason = 'the corrected whole distance is no longer than its air part';
    return { rollM: undetermined(reason), steps: [] };
  }
  const step: ChainStep = {
    name,
    factor: null,
    addM: -airM,
    actsOn: 'ground roll',
    source: 'definition',
    why: 'The ground roll is the whole distance less the expected air part.',
    runningM: rollM,
  };
  return { rollM, steps: [step] };
}

function startLine(
  name: string,
  runningM: number,
  actsOn: ChainStep['actsOn'],
  start: HandbookStart,
): ChainStep {
  return { name, factor: 1, addM: null, actsOn, source: start.source, why: start.why, runningM };
}

function line(
  effect: Effect,
  factor: number,
  addM: number | null,
  actsOn: ChainStep['actsOn'],
  runningM: number,
): ChainStep {
  const { name, source, why } = effect;
  return { name, factor, addM, actsOn, source, why, runningM };
}

function nothing(reason: Undetermined): ChainOutcome {
  return { wholeM: reason, airM: reason, rollM: reason, steps: [] };
}
