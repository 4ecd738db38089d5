/**
 * One drawn flight, logged in several ways, measured and set beside its truth.
 *
 * In: a seed, what is flown and which logs. Out: plain numbers that a worker can send. A quantity
 * is four numbers: measured value, low and high of its band, truth; the first three NaN where it
 * was undetermined. Gates give several of a kind.
 */
import type { Approach, TakeOff } from '../../src/events/flight-event.ts';
import {
  isUndetermined,
  undetermined,
  type Measured,
  type Undetermined,
} from '../../src/result.ts';
import { alongOfRows } from '../synthetic/flown-along.ts';
import { gateTruths } from '../synthetic/gate-truth.ts';
import { flyDrawnApproach, flyDrawnTakeOff, type Scenario } from '../synthetic/scenarios.ts';
import type { ApproachTruth, Outcome, TakeOffTruth } from '../synthetic/truth.ts';
import { logScenario, LOGS } from './accuracy-logs.ts';
import { boundSample, type BoundSample } from './bound-features.ts';

/** What to fly, and in which of LOGS to log it. */
export interface Trial {
  readonly seed: number;
  readonly flies: Outcome | 'take-off';
  readonly logs: readonly number[];
  /** True where what the bound learns from is wanted too. */
  readonly forBound: boolean;
}

/** Value, low, high, truth. */
export type Quantity = readonly [number, number, number, number];

/** What one log of a trial gave. */
export interface TrialResult {
  readonly seed: number;
  readonly log: number;
  /** As the truth says: a go-around begun too low touches after all. */
  readonly truth: Outcome | 'take-off';
  /** As found; several are joined by "and". */
  readonly found: string;
  readonly quantities: Quantities;
  /** Classes of a landing: where it stands in BRAKES, SIZES and ARRIVALS. */
  readonly classes: { readonly brakes: number; readonly size: number; readonly arrival: number };
  readonly sample: BoundSample | null;
}

export const QUANTITIES = [
  ...(['touchdown', 'speed', 'roll', 'stop', 'rolled out', 'touch', 'power'] as const),
  ...(['lift-off', 'lift-off again', 'lowest'] as const),
  ...(['threshold height', 'threshold speed', 'gate speed', 'gate descent', 'gate place'] as const),
  ...(['landing distance', 'release', '50 ft'] as const),
] as const;
export type QuantityName = (typeof QUANTITIES)[number];
export type Quantities = Readonly<Partial<Record<QuantityName, readonly Quantity[]>>>;

/** The braking by the mean deceleration from the brakes to 10 kt, drag and friction in it. */
export const BRAKES = ['not braked', 'up to 1.5 m/s²', '1.5 to 2.5 m/s²', 'above 2.5 m/s²'];
/** The aeroplane's size by its true airspeed at touchdown. */
export const SIZES = ['slow, up to 16 m/s', '16 to 22 m/s', 'fast, above 22 m/s'];
/** The arrival by how long the wheels were below 0.7 m before they touched. */
export const ARRIVALS = ['let down, under 2 s', 'held off 2 to 5 s', 'held off over 5 s'];
const LOW_M = 0.7;

/** Flies, logs and measures. */
export function runTrial({ seed, flies, logs, forBound }: Trial): TrialResult[] {
  if (flies === 'take-off') {
    const takeOff = flyDrawnTakeOff(seed);
    return logs.map((log) => takeOffIn(takeOff, seed, log));
  }
  const scenario = flyDrawnApproach(seed, flies);
  const [truth] = scenario.flown.truth.approaches;
  const classes = classesOf(scenario, truth);
  const gateAt = truth.touchdown ? gateTruths(scenario, truth.touchdown.timeS) : () => null;
  return logs.map((log) => approachIn(scenario, seed, log, classes, gateAt, forBound));
}

function approachIn(
  scenario: Scenario,
  seed: number,
  log: number,
  classes: TrialResult['classes'],
  gateAt: GateAt,
  forBound: boolean,
): TrialResult {
  const logged = logScenario(scenario, seed, LOGS[log]);
  const { approaches, takeOffs } = logged.events;
  const [truth] = scenario.flown.truth.approaches;
  const found = approaches.map(({ outcome }) =>
    isUndetermined(outcome) ? 'undetermined' : outcome,
  );
  const right = found.length === 1 && found[0] === truth.outcome;
  return {
    seed,
    log,
    truth: truth.outcome,
    found: found.length === 0 ? 'none' : found.join(' and '),
    quantities: right
      ? {
          ...approachQuantities(approaches[0], truth, gateAt),
          ...liftOffAgain(takeOffs, scenario.flown.truth.takeOffs),
        }
      : {},
    classes,
    sample:
      right && forBound && truth.touchdown
        ? boundSample(logged, scenario, approaches[0], truth.touchdown)
        : null,
  };
}

function takeOffIn(scenario: Scenario, seed: number, log: number): TrialResult {
  const { takeOffs } = logScenario(scenario, seed, LOGS[log]).events;
  const [truth] = scenario.flown.truth.takeOffs;
  const right = takeOffs.length === 1 && takeOffs[0].kind === 'take-off';
  return {
    seed,
    log,
    truth: 'take-off',
    found: takeOffs.length === 0 ? 'none' : takeOffs.map(({ kind }) => kind).join(' and '),
    quantities: right ? takeOffQuantities(takeOffs[0], truth) : {},
    classes: { brakes: -1, size: -1, arrival: -1 },
    sample: null,
  };
}

/** The lift-off of a touch-and-go, against its truth. */
function liftOffAgain(takeOffs: readonly TakeOff[], truths: readonly TakeOffTruth[]): Quantities {
  const truth = truths.at(0);
  if (!truth?.power || !truth.liftOff) return {};
  const measured =
    takeOffs.length === 1
      ? partOf(takeOffs[0].liftOff, 'alongM', truth.liftOff.alongM)
      : quantityOf(undetermined('no take-off, or two'), truth.liftOff.alongM);
  return { 'lift-off again': [measured] };
}

type GateAt = ReturnType<typeof gateTruths>;

/** What was measured of a take-off, against its truth. */
function takeOffQuantities(
  { liftOff, brakeRelease, screen }: TakeOff,
  truth: TakeOffTruth,
): Quantities {
  const out: Partial<Record<QuantityName, readonly Quantity[]>> = {};
  if (truth.liftOff) out['lift-off'] = [partOf(liftOff, 'alongM', truth.liftOff.alongM)];
  if (truth.brakeRelease) {
    out.release = [partOf(brakeRelease, 'alongM', truth.brakeRelease.alongM)];
  }
  if (truth.screen) out['50 ft'] = [partOf(screen, 'distanceM', truth.screen.distanceM)];
  return out;
}

/** What was measured of an approach that was rightly named, against its truth. */
function approachQuantities(found: Approach, truth: ApproachTruth, gateAt: GateAt): Quantities {
  const { goAround } = found;
  return {
    ...(truth.outcome === 'full-stop' ? landingQuantities(found, truth, gateAt) : {}),
    ...(truth.outcome === 'touch-and-go' ? touchQuantities(found, truth) : {}),
    ...(truth.goAround && goAround
      ? { lowest: [quantityOf(goAround.lowestAboveM, truth.goAround.lowestAboveM)] }
      : {}),
  };
}

/** Of a touch-and-go: where the wheels touched, and where power was opened. */
function touchQuantities({ touchdown, rollEnd }: Approach, truth: ApproachTruth): Quantities {
  const out: Partial<Record<QuantityName, readonly Quantity[]>> = {};
  if (truth.touchdown) out.touch = [partOf(touchdown, 'alongM', truth.touchdown.alongM)];
  if (truth.rollEnd?.kind === 'power') {
    out.power = [partOf(rollEnd, 'alongM', truth.rollEnd.alongM)];
  }
  return out;
}

function landingQuantities(
  { touchdown, rollEnd, fullStopRollM, landingDistanceM, thresholdCrossing, gates }: Approach,
  truth: ApproachTruth,
  gateAt: GateAt,
): Quantities {
  const out: Partial<Record<QuantityName, readonly Quantity[]>> = {};
  const { threshold, fiftyFeet } = truth;
  if (!truth.touchdown) return out;
  out.touchdown = [partOf(touchdown, 'alongM', truth.touchdown.alongM)];
  out.speed = [partOf(touchdown, 'groundSpeedMps', truth.touchdown.groundSpeedMps)];
  if (truth.groundRollM !== null) out.roll = [quantityOf(fullStopRollM, truth.groundRollM)];
  if (truth.rollEnd?.kind === 'stopped') {
    out.stop = [partOf(rollEnd, 'alongM', truth.rollEnd.alongM)];
    if (fiftyFeet) {
      const wholeM = truth.rollEnd.alongM - Math.max(0, fiftyFeet.alongM);
      out['landing distance'] = [quantityOf(landingDistanceM, wholeM)];
    }
  }
  if (truth.rollEnd?.kind === 'vacated' || truth.rollEnd?.kind === 'taxi') {
    out['rolled out'] = [partOf(rollEnd, 'alongM', truth.rollEnd.alongM)];
  }
  if (threshold) {
    out['threshold height'] = [partOf(thresholdCrossing, 'aboveM', threshold.aboveM)];
    out['threshold speed'] = [
      partOf(thresholdCrossing, 'groundSpeedMps', threshold.groundSpeedMps),
    ];
  }
  const passed = gates.flatMap((gate) => {
    const at = gateAt(gate.heightFt);
    return at ? [{ gate, at }] : [];
  });
  out['gate speed'] = passed.map(({ gate, at }) =>
    quantityOf(gate.groundSpeedMps, at.groundSpeedMps),
  );
  out['gate descent'] = passed.map(({ gate, at }) =>
    quantityOf(gate.descentRateMps, at.descentRateMps),
  );
  out['gate place'] = passed.map(({ gate, at }) => quantityOf(gate.alongM, at.alongM));
  return out;
}

/** One quantity of a part that may be undetermined as a whole. */
function partOf<K extends string>(
  part: Readonly<Record<K, Measured>> | Undetermined,
  name: K,
  truth: number,
): Quantity {
  return quantityOf(isUndetermined(part) ? part : part[name], truth);
}

function quantityOf(measured: Measured, truth: number): Quantity {
  if (isUndetermined(measured)) return [NaN, NaN, NaN, truth];
  return [measured.value, measured.low, measured.high, truth];
}

function classesOf(scenario: Scenario, truth: ApproachTruth): TrialResult['classes'] {
  return { brakes: brakesOf(truth), size: sizeOf(truth), arrival: arrivalOf(scenario, truth) };
}

function sizeOf({ touchdown }: ApproachTruth): number {
  if (!touchdown) return -1;
  return touchdown.airspeedMps <= 16 ? 0 : touchdown.airspeedMps <= 22 ? 1 : 2;
}

function brakesOf({ touchdown, brakesOn, tenKnots }: ApproachTruth): number {
  if (!touchdown) return -1;
  if (!brakesOn) return 0;
  if (!tenKnots || tenKnots.timeS <= brakesOn.timeS) return 1;
  const lost = brakesOn.groundSpeedMps - tenKnots.groundSpeedMps;
  const mps2 = lost / (tenKnots.timeS - brakesOn.timeS);
  return mps2 <= 1.5 ? 1 : mps2 <= 2.5 ? 2 : 3;
}

function arrivalOf(scenario: Scenario, { touchdown }: ApproachTruth): number {
  if (!touchdown) return -1;
  const lowS = heldOffS(scenario, touchdown.timeS);
  return lowS < 2 ? 0 : lowS < 5 ? 1 : 2;
}

/** How long the wheels were below 0.7 m before they touched, seconds. */
export function heldOffS(scenario: Scenario, touchdownS: number): number {
  const { timeS } = scenario.flown;
  const { aboveM } = alongOfRows(scenario);
  let row = timeS.findIndex((t) => t >= touchdownS) - 1;
  while (row > 0 && aboveM[row] < LOW_M) row--;
  return touchdownS - timeS[row];
}
