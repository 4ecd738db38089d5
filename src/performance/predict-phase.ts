/**
 * How long is the landing, or the take-off, at this mass on this day?
 *
 * Inputs: the aeroplane, the set, and the day already worked out for the strip. Outputs: the
 * expected and the planned chain, or why there is none.
 */

import type { EdgeRule } from '../numeric/interpolate.ts';
import { isUndetermined, undetermined, type Undetermined } from '../result.ts';
import type { SurfaceState } from '../weather/conditions.ts';
import type { Aeroplane, HandbookQuantity, HandbookTable, Phase } from './aeroplane.ts';
import {
  expectedChain,
  plannedChain,
  type ChainOutcome,
  type HandbookStart,
} from './distance-chain.ts';
import type { FactorSet } from './factor-sets/factor-set.ts';
import {
  describeOutside,
  findTable,
  holdAlike,
  readTable,
  type HandbookDay,
  type HandbookFigure,
} from './handbook-table.ts';
import type { Figure, PredictionNote } from './prediction.ts';
import { factorsFor, type Purpose, type StepInputs } from './step.ts';
import { listSteps } from './step-rules.ts';

/** The question for one use of a strip. */
export interface PhaseInputs {
  readonly phase: Phase;
  readonly aeroplane: Aeroplane;
  readonly set: FactorSet;
  readonly edge: EdgeRule;
  readonly flap: string | null;
  readonly massKg: number | null;
  readonly surface: SurfaceState;
  readonly onGrass: boolean;
  readonly slopeRatio: number;
  readonly pressureAltitudeFt: number;
  readonly tempC: number;
  /** Knots along the strip, positive a headwind; null where the wind has no direction. */
  readonly headwindKt: number | null;
  /** Speed of the wind, knots. */
  readonly windKt: number;
}

/** Both chains and the remarks made on the way. */
export interface PhaseOutcome {
  readonly expected: ChainOutcome;
  readonly planned: ChainOutcome;
  /** Of the whole distance's table; null where only a roll is given. */
  readonly screenHeightM: number | null;
  readonly notes: readonly PredictionNote[];
}

/**
 * Touchdown and lift-off speed as a multiple of the stall speed, where the handbook gives none:
 * between the stall and the 1.3 of the approach (ours; it only scales the wind).
 */
export const CONTACT_PER_STALL = 1.15;

/**
 * Works out one use of a strip.
 *
 * Units: ft, kt, kg and degrees Celsius in, as handbooks have them; metres out.
 * Fails: undetermined where the mass is missing or outside the aeroplane's limits, or where the
 * handbook has no table that serves.
 */
export function predictPhase(inputs: PhaseInputs): PhaseOutcome | Undetermined {
  const massKg = usableMass(inputs);
  if (isUndetermined(massKg)) return massKg;
  const day: HandbookDay = {
    pressureAltitudeFt: inputs.pressureAltitudeFt,
    tempC: inputs.tempC,
    massKg,
  };
  const isLanding = inputs.phase === 'landing';
  const whole = lookUp(inputs, day, isLanding ? 'landing-from-screen' : 'take-off-to-screen');
  const roll = lookUp(inputs, day, isLanding ? 'landing-roll' : 'take-off-roll');
  const leading = isUndetermined(whole) ? roll : whole;
  if (isUndetermined(leading)) return isUndetermined(whole) ? whole : leading;

  const notes = [...edgeNotes(leading.figure), ...screenNotes(leading.table)];
  const start = handbookStart(inputs.phase, whole, roll, leading.figure);
  const stepInputs = (purpose: Purpose): StepInputs => {
    const referenceMassKg = massStoodFor(inputs, purpose, leading.figure, massKg);
    return {
      phase: inputs.phase,
      purpose,
      set: inputs.set,
      figure: leading.figure,
      tableSurface: leading.table.surface,
      corrections: inputs.aeroplane.corrections,
      day,
      headwindKt: inputs.headwindKt ?? (purpose === 'expected' ? 0 : -inputs.windKt),
      referenceSpeedKt: referenceSpeedKt(inputs, referenceMassKg),
      referenceMassKg,
      rollShare: rollShareOf(start),
      slopeRatio: inputs.slopeRatio,
      surface: inputs.surface,
      onGrass: inputs.onGrass,
    };
  };
  const forExpected = listSteps(stepInputs('expected'));
  const forPlanned = listSteps(stepInputs('planned'));
  const expected = expectedChain(start, forExpected.effects);
  const { safety } = factorsFor(inputs.set, inputs.phase);
  const planned = plannedChain(start, forPlanned.effects, safety, expected.airM);
  return {
    expected,
    planned,
    screenHeightM: leading.table.screenHeightM,
    notes: [...notes, ...forExpected.notes, ...forPlanned.notes].map((note) => ({
      ...note,
      phase: inputs.phase,
    })),
  };
}

interface FoundFigure {
  readonly table: HandbookTable;
  readonly figure: HandbookFigure;
}

function lookUp(
  inputs: PhaseInputs,
  day: HandbookDay,
  quantity: HandbookQuantity,
): FoundFigure | Undetermined {
  const table = findTable(inputs.aeroplane, quantity, inputs.flap);
  if (table === null) return undetermined(missingTable(quantity));
  if (isUndetermined(table)) return table;
  const figure = readTable(table, day, inputs.edge);
  return isUndetermined(figure) ? figure : { table, figure };
}

function missingTable(quantity: HandbookQuantity): string {
  return quantity.endsWith('roll')
    ? 'the handbook gives no ground roll, so only whole distances can be compared'
    : 'the handbook gives no whole distance over a screen, on which published factors act';
}

function handbookStart(
  phase: Phase,
  whole: FoundFigure | Undetermined,
  roll: FoundFigure | Undetermined,
  leading: HandbookFigure,
): HandbookStart {
  const { massKg, tempC, pressureAltitudeFt } = leading.holdsAt;
  return {
    wholeM: isUndetermined(whole) ? whole : whole.figure.distanceM,
    rollM: rollBeside(whole, roll),
    wholeName: phase === 'landing' ? 'handbook distance from 50 ft' : 'handbook distance to 50 ft',
    source: "the aeroplane's handbook, table",
    why: `At ${massKg.toFixed(0)} kg, ${pressureAltitudeFt.toFixed(0)} ft, ${tempC.toFixed(1)} degrees Celsius.`,
  };
}

function rollShareOf({ wholeM, rollM }: HandbookStart): number | null {
  if (isUndetermined(wholeM) || isUndetermined(rollM)) return null;
  return rollM < wholeM ? rollM / wholeM : null;
}

/** The roll can only be taken off the whole where both rest on the same state and surface. */
function rollBeside(whole: FoundFigure | Undetermined, roll: FoundFigure | Undetermined): Figure {
  if (isUndetermined(roll)) return roll;
  if (isUndetermined(whole)) return roll.figure.distanceM;
  const alike =
    holdAlike(whole.figure, roll.figure) &&
    whole.table.surface === roll.table.surface &&
    whole.table.flap === roll.table.flap;
  return alike
    ? roll.figure.distanceM
    : undetermined("the handbook's ground roll and whole distance rest on different conditions");
}

/** The mass, kg, where it was entered and the aeroplane may have it; else why not. */
export function usableMass({
  phase,
  massKg,
  aeroplane,
}: Pick<PhaseInputs, 'phase' | 'massKg' | 'aeroplane'>): Figure {
  if (massKg === null) return undetermined(`no ${phase} mass was entered`);
  const { min, maxTakeOff, maxLanding } = aeroplane.massKg;
  const max = phase === 'landing' ? maxLanding : maxTakeOff;
  if (massKg >= min && massKg <= max) return massKg;
  return undetermined(
    `the ${phase} mass ${massKg} kg lies outside the aeroplane's limits, ${min} to ${max} kg`,
  );
}

/**
 * The mass that the distance stands for, kg. Where no credit is taken for a lighter aeroplane the
 * distance stays that of the handbook's mass, and the wind is a share of the speed at that mass: with
 * the day's speed ten kilograms more made a plan shorter.
 */
function massStoodFor(
  { set, phase }: PhaseInputs,
  purpose: Purpose,
  { holdsAt, tabulated }: HandbookFigure,
  massKg: number,
): number {
  if (tabulated.mass) return holdsAt.massKg;
  const takesCredit = purpose === 'expected' && factorsFor(set, phase).massShare !== null;
  return takesCredit ? massKg : Math.max(massKg, holdsAt.massKg);
}

function referenceSpeedKt({ phase, aeroplane }: PhaseInputs, massKg: number): number {
  const { atMassKg, stallLandingKt, stallTakeOffKt, touchdownKt, liftOffKt } = aeroplane.speeds;
  const atReferenceMass =
    phase === 'landing'
      ? (touchdownKt ?? CONTACT_PER_STALL * stallLandingKt)
      : (liftOffKt ?? CONTACT_PER_STALL * stallTakeOffKt);
  return atReferenceMass * Math.sqrt(massKg / atMassKg);
}

function edgeNotes(figure: HandbookFigure): PredictionNote[] {
  return figure.atEdge.map((outside) => ({
    code: 'at-table-edge',
    text: `${describeOutside(outside)}; its nearest edge was used, as asked`,
  }));
}

function screenNotes(table: HandbookTable): PredictionNote[] {
  if (table.screenHeightM !== 15) return [];
  const text =
    'the handbook counts from a 15-metre screen, 0.24 m lower than 50 ft; nothing is added for that';
  return [{ code: 'screen-15-m', text }];
}
