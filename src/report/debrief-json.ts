/**
 * The debrief as the JSON document of the command line.
 *
 * The names are fixed (docs/schema/debrief.schema.json); numbers are rounded to a tenth of a
 * millimetre, a tenth of a millisecond and the like, far below any error.
 */
import type { ComparedEvent } from '../debrief/compare-events.ts';
import type { Debrief, Flight } from '../debrief/debrief.ts';
import { pastLatestTouchdown } from '../debrief/latest-touchdown.ts';
import type { AeroplaneFactors } from '../debrief/own-factors.ts';
import type { Final } from '../debrief/finals.ts';
import type { ByHand } from '../debrief/hand-corrections.ts';
import type { Clearance } from '../events/clearance.ts';
import type { Approach, Backtrack, TakeOff } from '../events/flight-event.ts';
import type { ChainStep, FactorChain, Prediction } from '../performance/prediction.ts';
import { isUndetermined, type Measured, type Problem, type Undetermined } from '../result.ts';
import { CAUTION } from './caution.ts';
import { handNotes } from './hand-notes.ts';

/** A file that was read, with everything found on the way. */
export interface ReadFile {
  readonly debrief: Debrief;
  readonly problems: readonly Problem[];
  /** For each flight the keys of the events that count (`flight-summary.ts`); absent: all do. */
  readonly counting?: readonly ReadonlySet<string>[];
}

/** A file that could not be read, and why. */
export interface UnreadFile {
  readonly file: string;
  readonly problems: readonly Problem[];
}

/** The whole document; files in the order given. */
export function debriefDocument(
  read: readonly ReadFile[],
  unread: readonly UnreadFile[],
  factors: readonly AeroplaneFactors[],
): unknown {
  return {
    schema: 1,
    caution: CAUTION,
    flights: read.flatMap(({ debrief, problems, counting }) =>
      debrief.flights.map((flight, k) => flightJson(flight, problems, counting?.at(k) ?? null)),
    ),
    files: [
      ...read.map(({ debrief, problems }) => ({
        file: debrief.source.file,
        read: true,
        flights: debrief.flights.length,
        problems,
        leftOut: debrief.leftOut,
      })),
      ...unread.map(({ file, problems }) => ({
        file,
        read: false,
        flights: 0,
        problems,
        leftOut: [],
      })),
    ],
    ownFactors: factors,
  };
}

/** The document as text. */
export function debriefJsonText(document: unknown): string {
  return JSON.stringify(document, (_key, value: unknown) =>
    typeof value === 'number' ? Number(value.toFixed(4)) : value,
  );
}

function flightJson(
  flight: Flight,
  problems: readonly Problem[],
  counting: ReadonlySet<string> | null,
): unknown {
  const { events, compared, surroundings } = flight;
  const counts = (key: string): { counts: boolean } => ({ counts: counting?.has(key) ?? true });
  return {
    source: flight.source,
    problems,
    aeroplane: isUndetermined(flight.aeroplane) ? flight.aeroplane : flight.aeroplane.id,
    conditions: flight.conditions,
    takeOffs: events.takeOffs.map((takeOff, k) => ({
      ...takeOffJson(takeOff, compared.takeOffs[k], surroundings.takeOffs[k]),
      ...counts(`take-off-${k}`),
    })),
    approaches: events.approaches.map((approach, k) => ({
      ...approachJson(
        approach,
        compared.approaches[k],
        surroundings.approaches[k],
        flight.finals[k],
        flight.byHand[k],
      ),
      ...counts(`approach-${k}`),
    })),
    backtracks: events.backtracks.map(backtrackJson),
    circuits: flight.circuits.circuits,
    joins: flight.circuits.joins,
    windEstimate: flight.wind,
    areasFlownOver: surroundings.areas,
    unknownPlaces: events.places.map(({ latDeg, lonDeg }) => ({ latDeg, lonDeg })),
  };
}

function takeOffJson(
  takeOff: TakeOff,
  compared: ComparedEvent,
  clearances: readonly Clearance[],
): object {
  return {
    kind: takeOff.kind,
    launch: takeOff.launch,
    strip: takeOff.strip,
    direction: takeOff.direction,
    brakeRelease: takeOff.brakeRelease,
    liftOff: takeOff.liftOff,
    groundRollM: takeOff.groundRollM,
    screen: takeOff.screen,
    stripLeftM: takeOff.stripLeftM,
    halfway: takeOff.halfway,
    clearances,
    notes: takeOff.notes,
    prediction: takeOffPrediction(compared.prediction),
    ...ratios(compared),
  };
}

function approachJson(
  approach: Approach,
  compared: ComparedEvent,
  clearances: readonly Clearance[],
  final: Final,
  byHand: ByHand,
): object {
  return {
    strip: approach.strip,
    direction: approach.direction,
    outcome: approach.outcome,
    contactProbability: approach.contactProbability,
    thresholdCrossing: approach.thresholdCrossing,
    touchdown: approach.touchdown,
    rollEnd: approach.rollEnd,
    airDistanceM: approach.airDistanceM,
    landingDistanceM: approach.landingDistanceM,
    groundRollM: approach.groundRollM,
    fullStopRollM: approach.fullStopRollM,
    hardestBrakingRollM: approach.hardestBrakingRollM,
    stripLeftM: approach.stripLeftM,
    goAround: approach.goAround,
    gates: approach.gates.map((gate, k) => ({ ...gate, ...final.gates[k] })),
    airspeedWind: final.airspeedWind,
    preferredPath: final.preferredPath,
    float: final.float,
    commitPoint: final.commitPoint,
    clearances,
    notes: [...handNotes(byHand, approach), ...approach.notes],
    prediction: landingPrediction(compared.prediction),
    touchdownPastLatestM: pastLatestTouchdown(approach, compared),
    ...ratios(compared),
  };
}

function backtrackJson(backtrack: Backtrack): unknown {
  const { strip, direction, afterLanding, beforeTakeOff, startTimeS, endTimeS } = backtrack;
  const { fromAlongM, toAlongM, lengthM, fastestMps } = backtrack;
  return {
    strip,
    direction,
    afterLanding,
    beforeTakeOff,
    startTimeS,
    endTimeS,
    fromAlongM,
    toAlongM,
    lengthM,
    fastestMps,
  };
}

/** The ratio of ground rolls; of whole distances where the handbook gives no roll. */
function ratios({ roll, whole }: ComparedEvent): {
  ratio: Measured;
  ratioOf: 'ground-roll' | 'whole-distance';
  wholeDistanceRatio: Measured;
  calibration: { role: string; why: string };
} {
  const byRoll = !isUndetermined(roll.ratio) || isUndetermined(whole.ratio);
  const { role, why } = byRoll ? roll : whole;
  return {
    ratio: byRoll ? roll.ratio : whole.ratio,
    ratioOf: byRoll ? 'ground-roll' : 'whole-distance',
    wholeDistanceRatio: whole.ratio,
    calibration: { role, why },
  };
}

function landingPrediction(prediction: Prediction | Undetermined): unknown {
  if (isUndetermined(prediction)) return prediction;
  const { landing } = prediction;
  if (isUndetermined(landing)) return landing;
  const { chain, ...figures } = landing;
  return {
    factorSet: prediction.factorSet,
    ...figures,
    chain: chainJson(chain),
    day: prediction.day,
    speeds: prediction.speeds,
    notes: prediction.notes,
  };
}

function takeOffPrediction(prediction: Prediction | Undetermined): unknown {
  if (isUndetermined(prediction)) return prediction;
  const { takeOff } = prediction;
  if (isUndetermined(takeOff)) return takeOff;
  const { chain, ...figures } = takeOff;
  return {
    factorSet: prediction.factorSet,
    ...figures,
    chain: chainJson(chain),
    day: prediction.day,
    speeds: prediction.speeds,
    notes: prediction.notes,
  };
}

/** Both workings in one list, each step saying which it belongs to. */
function chainJson(chain: FactorChain): unknown[] {
  const of = (figure: string, steps: readonly ChainStep[]): unknown[] =>
    steps.map((step) => ({ of: figure, ...step }));
  return [...of('expected', chain.expected), ...of('planned', chain.planned)];
}
