/**
 * What does the surface of the day do to the distance?
 *
 * Inputs: the state of the surface as entered, the surface the handbook's figures were flown on,
 * the set. Output: the steps, or why there is no published factor.
 * Published factors multiply the whole distance and leave the air part alone, so all they add is
 * roll; handbook terms are a share of the roll or act on both, as the handbook says.
 */

import { undetermined, type Undetermined } from '../result.ts';
import type { StripSurface } from '../strips/strip.ts';
import type { SurfaceState } from '../weather/conditions.ts';
import type { CorrectionCondition } from './aeroplane.ts';
import { sourceOf, type SurfaceFactor } from './factor-sets/factor-set.ts';
import type { PredictionNote } from './prediction.ts';
import {
  correctionFor,
  creditNotTaken,
  factorsFor,
  HANDBOOK_SOURCE,
  OURS_REVERSED,
  type Effect,
  type StepInputs,
} from './step.ts';

const STATE_WORDS: Readonly<Record<SurfaceState, string>> = {
  'hard-dry': 'a dry hard surface',
  'hard-wet': 'a wet hard surface',
  'grass-dry': 'short dry grass',
  'grass-wet': 'short wet grass',
  'grass-wet-very-short': 'very short wet grass',
  'grass-long': 'long grass',
  soft: 'soft ground',
  'standing-water': 'standing water',
  snow: 'snow',
};

/** The handbook's condition that answers to a state; states without one have no handbook term. */
const HANDBOOK_CONDITION: Partial<Readonly<Record<SurfaceState, CorrectionCondition>>> = {
  'hard-wet': 'hard-wet',
  'grass-dry': 'grass-dry',
  'grass-wet': 'grass-wet',
  'grass-wet-very-short': 'grass-wet',
  soft: 'soft',
};

/** Why a state cannot be that of this strip: it was entered for another one; null where it can. */
export function surfaceMisfit(strip: StripSurface, state: SurfaceState): Undetermined | null {
  if (state === 'standing-water' || state === 'snow') return null;
  if (strip === 'gravel' || strip === 'earth') {
    return undetermined(`there is no published factor for a strip of ${strip}`);
  }
  const isGrassState = state.startsWith('grass') || state === 'soft';
  if ((strip === 'grass') === isGrassState) return null;
  return undetermined(`the strip is ${strip} and the surface was entered as ${state}`);
}

/** The steps for the surface, in order; none where the figures were flown on this very surface. */
export function surfaceEffects(
  inputs: StepInputs,
  notes: PredictionNote[],
): readonly Effect[] | Undetermined {
  if (inputs.surface === inputs.tableSurface) return [];
  return inputs.set.prefersHandbook
    ? handbookSurface(inputs, notes)
    : publishedSurface(inputs, notes);
}

function publishedSurface(
  inputs: StepInputs,
  notes: PredictionNote[],
): readonly Effect[] | Undetermined {
  const { surface, tableSurface } = inputs;
  const published = factorsFor(inputs.set, inputs.phase).surface;
  const factor = published[surface];
  if (factor === undefined) {
    return undetermined(`there is no published factor for ${STATE_WORDS[surface]}`);
  }
  if (factor.caution !== null) notes.push({ code: `surface-${surface}`, text: factor.caution });
  const grass = published['grass-dry'];
  // Soft ground comes on top of the grass above it.
  if (surface === 'soft') {
    const grassSteps =
      inputs.onGrass && tableSurface === 'hard-dry' && grass !== undefined
        ? publishedStep(inputs, notes, 'grass-dry', grass, undefined)
        : [];
    return [...grassSteps, ...publishedStep(inputs, notes, surface, factor, undefined)];
  }
  const flownOn = tableSurface === 'grass-dry' ? grass : undefined;
  return publishedStep(inputs, notes, surface, factor, flownOn);
}

/** One published step; `flownOn` is the factor that the handbook's figures already contain. */
function publishedStep(
  inputs: StepInputs,
  notes: PredictionNote[],
  state: SurfaceState,
  published: SurfaceFactor,
  flownOn: SurfaceFactor | undefined,
): readonly Effect[] {
  const isPlan = inputs.purpose === 'planned';
  const full = isPlan ? (published.plannedFactor ?? published.factor) : published.factor;
  const factor = full / (flownOn?.factor ?? 1);
  if (factor === 1) return [];
  if (factor < 1 && isPlan) {
    creditNotTaken(inputs, notes, 'surface', STATE_WORDS[state]);
    return [];
  }
  const relative =
    flownOn === undefined
      ? ''
      : ` The handbook's figures were flown on short dry grass, so ${full} is divided by ${flownOn.factor}.`;
  return [
    {
      name: STATE_WORDS[state],
      factor,
      of: 'whole distance',
      airFactor: 1,
      isPublished: true,
      source:
        flownOn === undefined
          ? sourceOf(published)
          : `${sourceOf(published)}: ${factor < 1 ? OURS_REVERSED : 'the two factors divided; ours'}`,
      why: `${published.why}${relative}`,
    },
  ];
}

function handbookSurface(
  inputs: StepInputs,
  notes: PredictionNote[],
): readonly Effect[] | Undetermined {
  const { surface } = inputs;
  if (surface === 'hard-dry') {
    creditNotTaken(inputs, notes, 'surface', STATE_WORDS[surface]);
    return [];
  }
  const condition = HANDBOOK_CONDITION[surface];
  const own = condition === undefined ? undefined : correctionFor(inputs, condition);
  if (own === undefined) {
    return undetermined(
      `the handbook gives no ${inputs.phase} correction for ${STATE_WORDS[surface]}`,
    );
  }
  const factor = 1 + own.percent / 100;
  const ofRoll = own.of === 'ground-roll';
  return [
    {
      name: STATE_WORDS[surface],
      factor,
      of: ofRoll ? 'ground roll' : 'whole distance',
      airFactor: ofRoll ? 1 : factor,
      isPublished: false,
      source: HANDBOOK_SOURCE,
      why: own.text,
    },
  ];
}
