/**
 * FRONT DOOR. How much of the strip will this aeroplane need today, in and out?
 *
 * Inputs: the aeroplane's handbook figures, one direction of a strip, the conditions as entered, a
 * factor set. Output: expected and planned distances with their whole working, or the reason why
 * there are none. Nothing that was not entered is assumed: calm and dry must be said.
 */

import {
  densityAltitudeM,
  densityRatio,
  pressureAltitudeAtM,
} from '../atmosphere/standard-atmosphere.ts';
import { windComponents } from '../atmosphere/wind.ts';
import type { EdgeRule } from '../numeric/interpolate.ts';
import { isUndetermined, undetermined, type Undetermined } from '../result.ts';
import { METRES_PER_FOOT, MPS_PER_KNOT, PA_PER_HPA } from '../units/convert.ts';
import { ENDS_GUESSED, type StripSurface } from '../strips/strip.ts';
import type { Conditions, EnteredWind } from '../weather/conditions.ts';
import type { Aeroplane } from './aeroplane.ts';
import type { FactorSet } from './factor-sets/factor-set.ts';
import { impossibleNumber } from './input-ranges.ts';
import {
  CONTACT_PER_STALL,
  predictPhase,
  type PhaseInputs,
  type PhaseOutcome,
  usableMass,
} from './predict-phase.ts';
import type {
  DayAtStrip,
  Figure,
  LandingPrediction,
  Prediction,
  PredictionNote,
  SpeedsForTheDay,
  TakeOffPrediction,
} from './prediction.ts';
import { surfaceMisfit } from './surface-rule.ts';

/** One way to use a strip, as far as the predictor needs it. Lengths in metres. */
export interface PredictedDirection {
  readonly use: 'both' | 'landing' | 'take-off';
  readonly trueBearingDeg: number;
  /** Elevation above mean sea level; null where not known. */
  readonly elevationMslM: number | null;
  /** Rise over run in the direction of movement, positive uphill; null where not known. */
  readonly slopeRatio: number | null;
  readonly surface: StripSurface;
  readonly ldaM: number;
  readonly toraM: number;
  readonly todaM: number;
  /** True where the ends of the strip are guessed, so that nothing can be held against its lengths. */
  readonly endsGuessed: boolean;
}

/** What the predictor is asked. */
export interface PredictInput {
  readonly aeroplane: Aeroplane;
  readonly direction: PredictedDirection;
  readonly conditions: Conditions;
  /** Magnetic variation at the strip, east positive; null where not known. Needed for magnetic winds. */
  readonly variationDeg: number | null;
  readonly factorSet: FactorSet;
  /** Outside the handbook's table: refuse (default), or read it at its nearest edge. */
  readonly edge?: EdgeRule;
}

/** Approach speed as a multiple of the stall speed (common practice; FAA-H-8083-3C, chapter 9). */
const APPROACH_PER_STALL = 1.3;

/**
 * Predicts landing and take-off in one direction.
 *
 * Units: SI, as the names say. Fails: undetermined as a whole where wind, surface, temperature,
 * elevation or slope is missing, a number is impossible, or the surface has no published factor; single figures are
 * undetermined where only they lack something.
 */
export function predict(input: PredictInput): Prediction | Undetermined {
  const { conditions, direction, aeroplane } = input;
  const notes: PredictionNote[] = [];
  const { wind, surface, tempC } = conditions;
  if (wind === null) return undetermined('no wind was entered; calm has to be said');
  if (surface === null) return undetermined('no surface state was entered; dry has to be said');
  if (tempC === null) return undetermined('no temperature was entered');
  if (direction.elevationMslM === null) return undetermined("the strip's elevation is not known");
  if (direction.slopeRatio === null) return undetermined("the strip's slope is not known");
  const impossible = impossibleNumber(input);
  if (impossible !== null) return impossible;
  const misfit = surfaceMisfit(direction.surface, surface);
  if (misfit !== null) return misfit;

  const day = dayAtStrip(direction, direction.elevationMslM, conditions, wind, tempC, input);
  if (isUndetermined(day)) return day;
  if (direction.endsGuessed)
    notes.push({
      code: 'ends-guessed',
      text: `${ENDS_GUESSED}: no distance can be held against its lengths`,
    });
  noteAssumptions(notes, conditions, direction.slopeRatio, aeroplane, day);

  const common = {
    aeroplane,
    set: input.factorSet,
    edge: input.edge ?? 'refuse',
    flap: conditions.flap,
    surface,
    onGrass: direction.surface === 'grass',
    slopeRatio: direction.slopeRatio,
    pressureAltitudeFt: day.pressureAltitudeM / METRES_PER_FOOT,
    tempC,
    headwindKt: isUndetermined(day.headwindMps) ? null : day.headwindMps / MPS_PER_KNOT,
    windKt: wind.speedKt,
  } satisfies Omit<PhaseInputs, 'phase' | 'massKg'>;
  return {
    factorSet: input.factorSet.id,
    day,
    speeds: speedsForTheDay(aeroplane, conditions.massKg, wind),
    landing: predictLanding(
      direction,
      { ...common, phase: 'landing', massKg: conditions.massKg },
      notes,
    ),
    takeOff: predictTakeOff(
      direction,
      { ...common, phase: 'take-off', massKg: conditions.takeOffMassKg ?? conditions.massKg },
      notes,
    ),
    notes: distinct(notes),
  };
}

function predictLanding(
  direction: PredictedDirection,
  inputs: PhaseInputs,
  notes: PredictionNote[],
): LandingPrediction | Undetermined {
  if (direction.use === 'take-off') return undetermined('this direction is for take-off only');
  const outcome = predictPhase(inputs);
  if (isUndetermined(outcome)) return outcome;
  notes.push(...outcome.notes);
  const { expected, planned } = outcome;
  return {
    expectedRollM: expected.rollM,
    plannedRollM: planned.rollM,
    expectedFrom50FtM: expected.wholeM,
    plannedFrom50FtM: planned.wholeM,
    expectedAirM: expected.airM,
    marginM: lessFrom(direction.ldaM, planned.wholeM, direction),
    latestTouchdownAlongM: lessFrom(direction.ldaM, planned.rollM, direction),
    chain: chainOf(outcome),
  };
}

function predictTakeOff(
  direction: PredictedDirection,
  inputs: PhaseInputs,
  notes: PredictionNote[],
): TakeOffPrediction | Undetermined {
  if (direction.use === 'landing') return undetermined('this direction is for landing only');
  const outcome = predictPhase(inputs);
  if (isUndetermined(outcome)) return outcome;
  notes.push(...outcome.notes);
  const { expected, planned, screenHeightM } = outcome;
  const heldAgainst = inputs.set.takeOff.heldAgainst ?? 'TODA';
  const heldM = heldAgainst === 'TORA' ? direction.toraM : direction.todaM;
  return {
    expectedRollM: expected.rollM,
    plannedRollM: planned.rollM,
    expectedTo50FtM: expected.wholeM,
    plannedTo50FtM: planned.wholeM,
    marginM: lessFrom(heldM, planned.wholeM, direction),
    heldAgainst,
    ...(screenHeightM === null ? {} : { screenHeightM }),
    chain: chainOf(outcome),
  };
}

function chainOf({ expected, planned }: PhaseOutcome): LandingPrediction['chain'] {
  return { expected: expected.steps, planned: planned.steps };
}

function lessFrom(lengthM: number, usedM: Figure, { endsGuessed }: PredictedDirection): Figure {
  if (isUndetermined(usedM)) return usedM;
  return endsGuessed ? undetermined(ENDS_GUESSED) : lengthM - usedM;
}

function dayAtStrip(
  direction: PredictedDirection,
  elevationMslM: number,
  conditions: Conditions,
  wind: EnteredWind,
  tempC: number,
  input: PredictInput,
): DayAtStrip | Undetermined {
  // Without a QNH the elevation stands in for the pressure altitude; a note says what that costs.
  const pressureAltitudeM =
    conditions.qnhHpa === null
      ? elevationMslM
      : pressureAltitudeAtM(elevationMslM, conditions.qnhHpa * PA_PER_HPA);
  const fromTrueDeg = trueWindFrom(wind, input.variationDeg);
  if (isUndetermined(fromTrueDeg) && wind.fromDeg !== null) return fromTrueDeg;
  const components = isUndetermined(fromTrueDeg)
    ? null
    : windComponents(fromTrueDeg, wind.speedKt * MPS_PER_KNOT, direction.trueBearingDeg);
  const variable = undetermined('the wind was entered without a direction');
  return {
    headwindMps: components?.headwindMps ?? variable,
    crosswindMps: components?.crosswindMps ?? variable,
    pressureAltitudeM,
    densityAltitudeM: densityAltitudeM(pressureAltitudeM, tempC),
    densityRatio: densityRatio(pressureAltitudeM, tempC),
  };
}

/** Where the wind blows from, degrees true; calm blows from anywhere. Fails: undetermined without a direction, or magnetic without a variation. */
export function trueWindFrom(wind: EnteredWind, variationDeg: number | null): Figure {
  if (wind.speedKt === 0) return 0;
  if (wind.fromDeg === null) return undetermined('the wind was entered without a direction');
  if (wind.reference === 'true') return wind.fromDeg;
  if (variationDeg === null) {
    return undetermined('the wind was entered as magnetic and the magnetic variation is not known');
  }
  return wind.fromDeg + variationDeg;
}

function speedsForTheDay(
  aeroplane: Aeroplane,
  massKg: number | null,
  wind: EnteredWind,
): SpeedsForTheDay | Undetermined {
  const usable = usableMass({ phase: 'landing', massKg, aeroplane });
  if (isUndetermined(usable)) return usable;
  // Lift balances weight, so the stall speed goes with the root of the mass.
  const massRoot = Math.sqrt(usable / aeroplane.speeds.atMassKg);
  const stallMps = aeroplane.speeds.stallLandingKt * massRoot * MPS_PER_KNOT;
  const { touchdownKt } = aeroplane.speeds;
  const touchdownMps =
    touchdownKt === null ? CONTACT_PER_STALL * stallMps : touchdownKt * massRoot * MPS_PER_KNOT;
  const gustOverMeanKt = wind.gustKt === null ? 0 : wind.gustKt - wind.speedKt;
  return {
    stallMps,
    approachMps: APPROACH_PER_STALL * stallMps,
    gustAdditionMps: (gustOverMeanKt / 2) * MPS_PER_KNOT,
    touchdownMps,
  };
}

function noteAssumptions(
  notes: PredictionNote[],
  conditions: Conditions,
  slopeRatio: number,
  aeroplane: Aeroplane,
  day: DayAtStrip,
): void {
  const add = (code: string, text: string): number => notes.push({ code, text });
  if (conditions.qnhHpa === null) {
    add(
      'qnh-not-entered',
      'no QNH was entered, so the elevation stands in for the pressure altitude; 30 hPa would change the distances by about 4 to 8 %',
    );
  }
  if (typeof conditions.windReportedAt === 'string') {
    add(
      'wind-reported-elsewhere',
      `the wind is that of ${conditions.windReportedAt}, which is not the strip's wind: see what five knots either way would change`,
    );
  }
  if (isUndetermined(day.headwindMps)) {
    add(
      'wind-variable',
      'the wind has no direction: expected takes none along the strip, planned takes all of it as tailwind',
    );
  }
  const slopePercent = Math.round(Math.abs(slopeRatio) * 1000) / 10;
  if (slopePercent > 2) {
    add('slope-beyond-source', `a slope of ${slopePercent} % is beyond the 2 % of the source`);
  }
  if (slopePercent > 5) {
    add('slope-not-calibrated', 'a slope beyond 5 % is not calibrated together with others');
  }
  if (!aeroplane.brakes) {
    add(
      'no-brakes',
      'without brakes the factors for grass may not hold: grass may even shorten the roll',
    );
  }
}

/** Each text once; what holds for landing and take-off alike is said of neither. */
function distinct(notes: readonly PredictionNote[]): readonly PredictionNote[] {
  return [...new Set(notes.map(({ text }) => text))].map((text) => {
    const alike = notes.filter((note) => note.text === text);
    const [{ code, phase }] = alike;
    const isOfOne = phase !== undefined && alike.every((note) => note.phase === phase);
    return { code, text, ...(isOfOne ? { phase } : {}) };
  });
}
