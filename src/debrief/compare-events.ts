/**
 * What was expected of each landing and take-off, and how does the measured distance compare?
 *
 * In: one flight's events, the aeroplane, the conditions of its file. Out: for every event at a known
 * strip a prediction recomputed for those conditions, and the comparisons it allows: of ground rolls,
 * and of whole distances.
 */

import {
  compare,
  type ComparedQuantity,
  type Comparison,
  type UsedFactorSet,
} from '../calibration/comparison.ts';
import type { LandingPair } from '../calibration/landing-pair.ts';
import { shortLanding } from '../calibration/short-landing.ts';
import type { FlightEvents } from '../events/detect-events.ts';
import type { Approach, TakeOff } from '../events/flight-event.ts';
import { endsUnknown, type StripView } from '../events/strip-view.ts';
import { solarDay } from '../geo/solar-day.ts';
import type { Aeroplane } from '../performance/aeroplane.ts';
import type { FactorSet } from '../performance/factor-sets/factor-set.ts';
import { PUBLISHED_SETS } from '../performance/factor-sets/published.ts';
import type { Figure, Prediction } from '../performance/prediction.ts';
import { isUndetermined, undetermined, type Measured, type Undetermined } from '../result.ts';
import type { Conditions } from '../weather/conditions.ts';
import { predictAtStrip } from './predict-at-strip.ts';

/** What the comparison needs besides the events. */
export interface ComparisonContext {
  readonly aeroplane: Aeroplane | Undetermined;
  readonly conditions: Conditions | Undetermined;
  readonly factorSet: FactorSet | Undetermined;
  /** UTC seconds at the start of the flight: for the magnetic variation. */
  readonly timeS: number;
  /** The pilot's mark of each approach, in order, where it goes before the flight's; absent: none. */
  readonly efforts?: readonly Conditions['effort'][];
}

/** One event's prediction and comparisons. */
export interface ComparedEvent {
  readonly prediction: Prediction | Undetermined;
  readonly roll: Comparison;
  readonly whole: Comparison;
}

/** An approach's, and the landing as one meant to be short, or why it was none. */
export interface ComparedApproach extends ComparedEvent {
  readonly short: LandingPair | Undetermined;
}

/** Comparisons in the order of the flight's approaches and take-offs. */
export interface ComparedEvents {
  readonly approaches: readonly ComparedApproach[];
  readonly takeOffs: readonly ComparedEvent[];
}

/** Compares all events of one flight. Never fails: what cannot be compared says why. */
export function compareEvents(events: FlightEvents, context: ComparisonContext): ComparedEvents {
  return {
    approaches: events.approaches.map((approach, k) =>
      compareApproach(approach, viewOf(events, approach), context, context.efforts?.[k] ?? null),
    ),
    takeOffs: events.takeOffs.map((takeOff) =>
      compareTakeOff(takeOff, viewOf(events, takeOff), context),
    ),
  };
}

function viewOf(
  events: FlightEvents,
  event: { readonly strip: string | null; readonly direction: string | null },
): StripView | null {
  if (event.strip === null) return null;
  return (
    events.views.find(
      (view) => view.stripId === event.strip && view.direction.designator === event.direction,
    ) ?? null
  );
}

function compareApproach(
  approach: Approach,
  view: StripView | null,
  context: ComparisonContext,
  marked: Conditions['effort'],
): ComparedApproach {
  const prediction = predictFor(view, context);
  const landing = isUndetermined(prediction) ? prediction : prediction.landing;
  type Expected = 'expectedRollM' | 'expectedFrom50FtM' | 'plannedFrom50FtM';
  const expected = (pick: Expected): Figure => (isUndetermined(landing) ? landing : landing[pick]);
  const { touchdown } = approach;
  const dayKey = dayOf(view, isUndetermined(touchdown) ? touchdown : touchdown.timeS, context);
  const comparison = comparer({ view, dayKey, context }, approach.stripLeftM, marked);
  const landed = approach.outcome === 'full-stop' || approach.outcome === 'stop-and-go';
  const rollM = landed ? approach.fullStopRollM : NOT_TO_A_STOP;
  const wholeM = landed ? approach.landingDistanceM : NOT_TO_A_STOP;
  const roll = comparison('landing-roll', rollM, expected('expectedRollM'));
  return {
    prediction,
    roll,
    whole: comparison('landing-from-50-ft', wholeM, expected('expectedFrom50FtM')),
    short:
      (view && endsUnknown(view)) ??
      shortLanding({
        dayKey,
        effort: effortOf(context, marked),
        ldaM: view?.direction.ldaM ?? null,
        plannedFrom50FtM: expected('plannedFrom50FtM'),
        slopeRatio: numberOrZero(view?.frame.slopeRatio),
        touchdownAlongM: isUndetermined(touchdown) ? touchdown : touchdown.alongM,
        rollM,
        roll,
      }),
  };
}

const NOT_TO_A_STOP = undetermined(
  'the aircraft did not roll to a stop, so there is nothing to compare',
);

function compareTakeOff(
  takeOff: TakeOff,
  view: StripView | null,
  context: ComparisonContext,
): ComparedEvent {
  const prediction = predictFor(view, context);
  const run = isUndetermined(prediction) ? prediction : prediction.takeOff;
  const expected = (pick: 'expectedRollM' | 'expectedTo50FtM'): Figure =>
    isUndetermined(run) ? run : run[pick];
  const { liftOff } = takeOff;
  const dayKey = dayOf(view, isUndetermined(liftOff) ? liftOff : liftOff.timeS, context);
  const comparison = comparer({ view, dayKey, context }, takeOff.stripLeftM);
  if (takeOff.launch !== null) {
    const none = undetermined(LAUNCHED[takeOff.launch]);
    return {
      prediction: none,
      roll: comparison('take-off-roll', none, none),
      whole: comparison('take-off-to-50-ft', none, none),
    };
  }
  const whole = isUndetermined(takeOff.screen) ? takeOff.screen : takeOff.screen.distanceM;
  return {
    prediction,
    roll: comparison('take-off-roll', takeOff.groundRollM, expected('expectedRollM')),
    whole: comparison('take-off-to-50-ft', whole, expected('expectedTo50FtM')),
  };
}

const LAUNCHED = {
  winch: 'launched by a winch: no handbook distance is meant for that',
  tow: 'towed, by the quiet engine noise of the recorder: no handbook distance is meant for that',
} as const;

/** The strip's own day of the moment, or of the flight's start where that is not known. */
function dayOf(view: StripView | null, momentS: Measured, { timeS }: ComparisonContext): string {
  const knownS = isUndetermined(momentS) ? timeS : momentS.value;
  return solarDay(knownS, view?.strip.lonDeg[0] ?? 0);
}

function comparer(
  {
    view,
    dayKey,
    context,
  }: {
    readonly view: StripView | null;
    readonly dayKey: string;
    readonly context: ComparisonContext;
  },
  stripLeftM: Measured,
  marked: Conditions['effort'] = null,
): (quantity: ComparedQuantity, measuredM: Measured, expectedM: Figure) => Comparison {
  const effort = effortOf(context, marked);
  return (quantity, measuredM, expectedM) =>
    compare({
      quantity,
      measuredM,
      expectedM,
      factorSet: usedSet(context, quantity),
      dayKey,
      effort,
      stripLeftM,
      ldaM: view?.direction.ldaM ?? null,
      slopeRatio: numberOrZero(view?.frame.slopeRatio),
    });
}

function usedSet(
  { factorSet }: ComparisonContext,
  quantity: ComparedQuantity,
): UsedFactorSet | null {
  if (isUndetermined(factorSet)) return null;
  const { id, name, landing, takeOff } = factorSet;
  const use = quantity.startsWith('take-off') ? takeOff : landing;
  const isOwn = PUBLISHED_SETS.every((set) => set.id !== id);
  return { id, name, isOwn, safetyFactor: use.safety.factor };
}

/** The mark of the landing goes before the one of the flight. */
function effortOf(
  { conditions }: ComparisonContext,
  marked: Conditions['effort'],
): Conditions['effort'] {
  return marked ?? (isUndetermined(conditions) ? null : conditions.effort);
}

function predictFor(view: StripView | null, context: ComparisonContext): Prediction | Undetermined {
  if (!view) return undetermined('no strip is known here');
  if (isUndetermined(context.aeroplane)) return context.aeroplane;
  if (isUndetermined(context.conditions)) return context.conditions;
  if (isUndetermined(context.factorSet)) return context.factorSet;
  const { aeroplane, conditions, factorSet, timeS } = context;
  // What was flown is compared, also in a direction that the strip does not list for it.
  return predictAtStrip(view, { aeroplane, conditions, factorSet, timeS }, 'both');
}

function numberOrZero(value: number | undefined): number {
  return value === undefined || Number.isNaN(value) ? 0 : value;
}
