/**
 * From what was chosen and entered for a visit to its prediction, its story, and the record to keep.
 *
 * In: the state with its draft. Out: what is missing, or the story; the frozen predictions. Predicting takes a millisecond, so it happens where it is shown.
 */
import { ALGORITHM_VERSION } from '../../debrief/algorithm-version.ts';
import { predictAtStrip } from '../../debrief/predict-at-strip.ts';
import { stripPlaceOf, type StripPlace } from '../../debrief/strip-place.ts';
import { entryId, type FrozenPrediction } from '../../logbook/entry.ts';
import { freeze, type FrozenDocument } from '../../logbook/frozen-prediction.ts';
import { plannedMomentS } from '../../logbook/planned-visit.ts';
import type { Aeroplane } from '../../performance/aeroplane.ts';
import { decodeAeroplane } from '../../performance/decode-aeroplane.ts';
import { findFactorSet, PUBLISHED_SETS } from '../../performance/factor-sets/published.ts';
import type { Prediction } from '../../performance/prediction.ts';
import type { BothPredictions } from '../../performance/sensitivity.ts';
import { ownFactorsOf } from '../../report/logged-factors.ts';
import { ownForVisit } from '../../report/own-for-visit.ts';
import type { OwnForVisit } from '../../report/pictures/visit-pictures.ts';
import { missingForVisit } from '../../report/story/visit-missing.ts';
import { visitSensitivity, type SensitivityRow } from '../../report/story/visit-sensitivity.ts';
import { visitStory, type VisitStory, type VisitUse } from '../../report/story/visit-story.ts';
import { isUndetermined, undetermined, type Undetermined } from '../../result.ts';
import type { Strip } from '../../strips/strip.ts';
import type { Conditions } from '../../weather/conditions.ts';
import type { AppState, VisitDraft } from '../app-state.ts';
import { loggedFlights, pilotUnits } from '../logged-flights.ts';
import { bookOf } from './kept-visit.ts';
import { readFactorSets } from './own-factor-sets.ts';
import { visitLength, type VisitLength } from './visit-length.ts';

/** A draft worked out as far as it goes. */
export interface VisitPlan {
  /** What must still be entered; empty where a prediction was tried. */
  readonly missing: readonly string[];
  readonly story: VisitStory | null;
  readonly strip: Strip | null;
  /** Predictions ready to be kept; empty where there is none. */
  readonly frozen: readonly Omit<FrozenPrediction, 'savedS'>[];
  readonly sensitivity: readonly SensitivityRow[];
  /** What 95 of 100 of the pilot's short landings would need; null: no landing is predicted. */
  readonly length: VisitLength | null;
}

/** Works out the draft. */
export function planFromDraft(state: AppState, draft: VisitDraft): VisitPlan {
  const timeS = plannedMomentS(draft.day);
  const book = bookOf(state, timeS);
  const strip = book.strips.find(({ id }) => id === draft.stripId) ?? null;
  const missing = missingForVisit(draft);
  if (!Number.isFinite(timeS)) missing.unshift('the day');
  const aeroplane = aeroplaneOf(state, draft.aeroplaneId);
  const nothing = { story: null, strip, frozen: [], sensitivity: [], length: null };
  if (missing.length > 0 || !strip || !draft.conditions) return { missing, ...nothing };
  const conditions: Conditions = {
    ...draft.conditions,
    aeroplane: draft.aeroplaneId,
    factorSet: draft.factorSet ?? state.settings.factorSet,
  };
  const places = {
    landing: draft.landing === null ? null : stripPlaceOf(strip, draft.landing),
    takeOff: draft.takeOff === null ? null : stripPlaceOf(strip, draft.takeOff),
  };
  const predictFor = (into: Conditions, out: Conditions): BothPredictions => ({
    landing: places.landing && predictionAt(state, places.landing, aeroplane, into, timeS),
    takeOff: places.takeOff && predictionAt(state, places.takeOff, aeroplane, out, timeS),
  });
  const made = predictFor(conditions, conditions);
  const landing = useOf(places.landing, made.landing);
  const takeOff = useOf(places.takeOff, made.takeOff);
  const { own, missing: missingOwn } = ownFor(state, conditions);
  const units = pilotUnits(state);
  const story = visitStory({ landing, takeOff, own, missingOwn, book, conditions, units });
  const bearings = {
    landing: places.landing?.frame.trueBearingDeg ?? null,
    takeOff: places.takeOff?.frame.trueBearingDeg ?? null,
  };
  const sensitivity = visitSensitivity(conditions, bearings, predictFor, units);
  const frozen = frozenOf({ landing, takeOff }, own, conditions);
  const length = lengthOf(state, places.landing, made.landing, { aeroplane, conditions, timeS });
  return { missing, story, strip, frozen, sensitivity, length };
}

/** Nothing where the landing itself has no prediction: its reason is said there. */
function lengthOf(
  state: AppState,
  place: StripPlace | null,
  prediction: Prediction | Undetermined | null,
  {
    aeroplane,
    conditions,
    timeS,
  }: {
    readonly aeroplane: Aeroplane | Undetermined;
    readonly conditions: Conditions;
    readonly timeS: number;
  },
): VisitLength | null {
  const factorSet = findFactorSet(conditions.factorSet, readFactorSets(state.factorSets));
  if (!place || !prediction || isUndetermined(prediction)) return null;
  if (isUndetermined(aeroplane) || isUndetermined(factorSet)) return null;
  if (isUndetermined(prediction.landing)) return null;
  return visitLength(state, place, { aeroplane, conditions, factorSet, timeS });
}

function useOf(
  place: StripPlace | null,
  prediction: Prediction | Undetermined | null,
): VisitUse | null {
  return place && prediction && { place, prediction };
}

/** Own factors of the aeroplane on this ground, with the set of the visit. */
function ownFor(
  state: AppState,
  { aeroplane, surface, factorSet }: Conditions,
): ReturnType<typeof ownForVisit> {
  const own = ownFactorsOf(loggedFlights(state)).find((each) => each.aeroplane === aeroplane);
  return ownForVisit(own ?? null, surface, factorSet ?? PUBLISHED_SETS[0].id);
}

function aeroplaneOf({ aeroplanes }: AppState, id: string | null): Aeroplane | Undetermined {
  const record = aeroplanes.find((each) => each.id === id);
  if (!record) return undetermined('this aeroplane is not in the logbook any more');
  const decoded = decodeAeroplane(JSON.stringify(record.document));
  if (decoded.ok) return decoded.value;
  return undetermined(decoded.problems[0].message);
}

function predictionAt(
  { factorSets }: AppState,
  place: StripPlace,
  aeroplane: Aeroplane | Undetermined,
  conditions: Conditions,
  timeS: number,
): Prediction | Undetermined {
  const factorSet = findFactorSet(conditions.factorSet, readFactorSets(factorSets));
  if (isUndetermined(aeroplane)) return aeroplane;
  if (isUndetermined(factorSet)) return factorSet;
  return predictAtStrip(place, { aeroplane, conditions, factorSet, timeS });
}

/** One frozen prediction for each direction used. */
function frozenOf(
  { landing, takeOff }: { readonly landing: VisitUse | null; readonly takeOff: VisitUse | null },
  own: OwnForVisit,
  conditions: Conditions,
): VisitPlan['frozen'] {
  const uses = [
    ...(landing && hasPart(landing, 'landing') ? [{ use: 'landing' as const, ...landing }] : []),
    ...(takeOff && hasPart(takeOff, 'takeOff') ? [{ use: 'take-off' as const, ...takeOff }] : []),
  ];
  const designators = new Set(uses.map(({ place }) => place.direction.designator));
  return [...designators].flatMap((designator) => {
    const same = uses.filter(({ place }) => place.direction.designator === designator);
    const { prediction, place } = same[0];
    if (isUndetermined(prediction)) return [];
    const document: FrozenDocument = {
      schema: 1,
      uses: same.map(({ use }) => use),
      own,
      prediction,
    };
    return [
      {
        stripId: entryId('strip', place.strip.id),
        designator,
        aeroplaneId: entryId('aeroplane', conditions.aeroplane ?? ''),
        conditions,
        algorithmVersion: ALGORITHM_VERSION,
        prediction: freeze(document),
      },
    ];
  });
}

/** False where the use has no prediction of its own: there is nothing to freeze. */
function hasPart({ prediction }: VisitUse, part: 'landing' | 'takeOff'): boolean {
  return !isUndetermined(prediction) && !isUndetermined(prediction[part]);
}
