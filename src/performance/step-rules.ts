/**
 * Which steps apply to this landing or take-off, and by how much?
 *
 * Inputs: the handbook figure, the day, the set. Output: an ordered list of effects, or the reason
 * why one of them cannot be had. Expected takes the full wind and slope both ways; planned takes
 * half the headwind where the handbook has a rate for it, one and a half times the tailwind, and no
 * credit that no source grants.
 * Sources: the factor sets; what is ours is marked so in `source`.
 */

import { isUndetermined, undetermined, type Undetermined } from '../result.ts';
import type { HandbookCorrection } from './aeroplane.ts';
import { factorFor, sourceOf, type SteppedFactor } from './factor-sets/factor-set.ts';
import type { PredictionNote } from './prediction.ts';
import {
  correctionFor,
  creditNotTaken,
  factorsFor,
  HANDBOOK_SOURCE,
  OURS_REVERSED,
  type Effect,
  type StepInputs,
  type StepList,
} from './step.ts';
import { surfaceEffects } from './surface-rule.ts';

type Ruling = Effect | null | Undetermined;

/** Beyond this share of the reference speed no correction for headwind is believed (ours). */
const STRONGEST_WIND_SHARE = 0.5;

/** Works out all steps but the safety factor, in order: mass, altitude, temperature, wind, slope, surface. */
export function listSteps(inputs: StepInputs): StepList {
  const notes: PredictionNote[] = [];
  const rulings: (Ruling | readonly Effect[])[] = [
    massRuling(inputs, notes),
    altitudeRuling(inputs, notes),
    temperatureRuling(inputs, notes),
    windRuling(inputs, notes),
    slopeRuling(inputs, notes),
    surfaceEffects(inputs, notes),
  ];
  const refusal = rulings.find(isUndetermined);
  if (refusal !== undefined) return { effects: refusal, notes };
  const effects = rulings.flat().filter((ruling) => ruling !== null && !isUndetermined(ruling));
  return { effects: effects as Effect[], notes };
}

function massRuling(inputs: StepInputs, notes: PredictionNote[]): Ruling {
  const base = inputs.figure.holdsAt.massKg;
  if (inputs.figure.tabulated.mass) return null;
  const share = (inputs.day.massKg - base) / base;
  const what = `${fixed(inputs.day.massKg, 0)} kg instead of ${fixed(base, 0)} kg`;
  return stepped(
    inputs,
    notes,
    'mass',
    what,
    share,
    factorsFor(inputs.set, inputs.phase).massShare,
  );
}

function altitudeRuling(inputs: StepInputs, notes: PredictionNote[]): Ruling {
  const base = inputs.figure.holdsAt.pressureAltitudeFt;
  if (inputs.figure.tabulated.pressureAltitude) return null;
  const excessFt = inputs.day.pressureAltitudeFt - base;
  const what = `pressure altitude ${fixed(inputs.day.pressureAltitudeFt, 0)} ft instead of ${fixed(base, 0)} ft`;
  const factors = factorsFor(inputs.set, inputs.phase);
  return stepped(inputs, notes, 'altitude', what, excessFt, factors.altitudeFt);
}

function temperatureRuling(inputs: StepInputs, notes: PredictionNote[]): Ruling {
  const base = inputs.figure.holdsAt.tempC;
  if (inputs.figure.tabulated.temp) return null;
  const excessC = inputs.day.tempC - base;
  const what = `${fixed(inputs.day.tempC, 1)} instead of ${fixed(base, 1)} degrees Celsius`;
  const own = correctionFor(inputs, 'temperature-above-standard');
  if (own !== undefined && excessC > 0) return handbookEffect('temperature', own, excessC, what);
  const factors = factorsFor(inputs.set, inputs.phase);
  return stepped(inputs, notes, 'temperature', what, excessC, factors.tempC);
}

function windRuling(inputs: StepInputs, notes: PredictionNote[]): Ruling {
  const { headwindKt, purpose, phase } = inputs;
  const isHeadwind = headwindKt > 0;
  const plannedShare = isHeadwind ? 0.5 : 1.5;
  const usedKt = Math.abs(headwindKt) * (purpose === 'planned' ? plannedShare : 1);
  if (usedKt < 0.05) return null;
  const name = isHeadwind ? 'headwind' : 'tailwind';
  const taken = isHeadwind ? 'half of the' : 'one and a half times the';
  const rule = purpose === 'planned' ? `, ${taken} ${fixed(Math.abs(headwindKt), 1)} kt` : '';
  const what = `${fixed(usedKt, 1)} kt ${name}${rule}`;
  const speedShare = usedKt / inputs.referenceSpeedKt;
  if (speedShare > STRONGEST_WIND_SHARE) {
    return undetermined(
      `${what} is more than half the ${phase} speed, beyond what any correction was made for`,
    );
  }
  const own = correctionFor(inputs, name);
  if (own !== undefined) return handbookEffect(name, own, usedKt, what);
  const published = factorsFor(inputs.set, phase).tailwindShare;
  const ofSpeed = `${what}, ${shareOfSpeed(inputs, speedShare)}`;
  if (!isHeadwind) return stepped(inputs, notes, name, ofSpeed, speedShare, published);
  if (published === null || purpose === 'planned') {
    const kt = `${fixed(headwindKt, 1)} kt: neither handbook nor set has a rate for it`;
    return creditNotTaken(inputs, notes, name, kt);
  }
  return headwindByReversal(inputs, ofSpeed, speedShare, published);
}

/** `12.5 % of the landing speed`, with the mass where it is not that of the day. */
function shareOfSpeed({ phase, day, referenceMassKg }: StepInputs, speedShare: number): string {
  const isOfDay = Math.abs(referenceMassKg - day.massKg) < 0.5;
  const at = isOfDay ? '' : ` at ${fixed(referenceMassKg, 0)} kg`;
  return `${fixed(speedShare * 100, 1)} % of the ${phase} speed${at}`;
}

/**
 * The published tailwind penalty reversed, for the whole distance: a rate of ours, which only
 * `expected` takes. The time in the air does not change,
 * so the air part shrinks with the ground speed and the roll with its square: of what the whole has
 * left, the roll takes a share smaller by the ground speed once more. 1 - r x is what the whole would
 * be of an air part that does not shrink, r the roll's share and x the wind over the speed. So divided,
 * both parts are as far from what physics gives as the whole is, 3 % (ours, by calculation).
 */
function headwindByReversal(
  inputs: StepInputs,
  what: string,
  speedShare: number,
  published: SteppedFactor,
): Effect {
  const { rollShare } = inputs;
  const factor = 1 / factorFor(published, speedShare);
  const divided =
    rollShare === null
      ? ''
      : ` The roll, ${fixed(rollShare * 100, 1)} % of the whole, shrinks with the ground speed once more than the air part, which takes ${fixed(factor, 4)} ÷ (1 - ${fixed(rollShare, 3)} x ${fixed(speedShare, 3)}).`;
  return {
    name: 'headwind',
    factor,
    of: 'whole distance',
    airFactor: factor / (1 - (rollShare ?? 0) * speedShare),
    isPublished: true,
    source: `${sourceOf(published)}: ${OURS_REVERSED}`,
    why: `${what}. ${published.why} Reversed for a headwind.${divided}`,
  };
}

function slopeRuling(inputs: StepInputs, notes: PredictionNote[]): Ruling {
  const { slopeRatio, phase } = inputs;
  if (Math.abs(slopeRatio) < 0.0005) return null;
  const uphill = slopeRatio > 0;
  const isPenalty = uphill === (phase === 'take-off');
  const what = `${fixed(Math.abs(slopeRatio) * 100, 1)} % ${uphill ? 'uphill' : 'downhill'}`;
  const own = inputs.set.prefersHandbook
    ? correctionFor(inputs, uphill ? 'upslope' : 'downslope')
    : undefined;
  if (own !== undefined) {
    if (!isPenalty && inputs.purpose === 'planned')
      return creditNotTaken(inputs, notes, 'slope', what);
    return handbookEffect('slope', own, Math.abs(slopeRatio) * 100, what);
  }
  const { slopeRatio: published, slopeCredit } = factorsFor(inputs.set, phase);
  if (!isPenalty && slopeCredit) return grantedCredit(slopeCredit, what, Math.abs(slopeRatio));
  const penalty = isPenalty ? Math.abs(slopeRatio) : -Math.abs(slopeRatio);
  return stepped(inputs, notes, 'slope', what, penalty, published);
}

/** A credit that the source itself grants: expected and planned take it. */
function grantedCredit(granted: SteppedFactor, what: string, amount: number): Ruling {
  const factor = factorFor(granted, amount);
  if (!(factor > 0)) return undetermined(`${what} lies beyond what the set's credit can mean`);
  return {
    name: 'slope',
    factor,
    of: 'whole distance',
    airFactor: 1,
    isPublished: true,
    source: sourceOf(granted),
    why: `${what}. ${granted.why}`,
  };
}

/** A published factor for so many steps; a negative amount is a credit, which only `expected` takes. */
function stepped(
  inputs: StepInputs,
  notes: PredictionNote[],
  name: string,
  what: string,
  amount: number,
  published: SteppedFactor | null,
): Ruling {
  if (Math.abs(amount) < 1e-9) return null;
  const isCredit = amount < 0;
  if (published === null) {
    if (isCredit) return creditNotTaken(inputs, notes, name, what);
    return undetermined(
      `${what}: neither the handbook nor the set "${inputs.set.name}" gives a factor for it`,
    );
  }
  if (isCredit && inputs.purpose === 'planned') return creditNotTaken(inputs, notes, name, what);
  const penalty = factorFor(published, Math.abs(amount));
  const factor = isCredit ? 1 / penalty : penalty;
  return {
    name,
    factor,
    of: 'whole distance',
    airFactor: name === 'slope' ? 1 : factor,
    isPublished: true,
    source: isCredit ? `${sourceOf(published)}: ${OURS_REVERSED}` : sourceOf(published),
    why: `${what}. ${published.why}${isCredit ? ' Reversed.' : ''}`,
  };
}

/** A correction of the handbook for so many knots, per cent of slope or degrees. */
function handbookEffect(
  name: string,
  own: HandbookCorrection,
  amount: number,
  what: string,
): Effect | Undetermined {
  const isCredit = own.percent < 0;
  const limit = own.upTo ?? Infinity;
  if (amount > limit && !isCredit) {
    return undetermined(`${what} lies beyond the handbook's correction, which ends at ${limit}`);
  }
  const factor = 1 + ((own.percent / 100) * Math.min(amount, limit)) / (own.per ?? 1);
  if (factor <= 0) {
    return undetermined(`${what} lies beyond what the handbook's correction can mean`);
  }
  const ofRoll = own.of === 'ground-roll';
  return {
    name,
    factor,
    of: ofRoll ? 'ground roll' : 'whole distance',
    airFactor: ofRoll || name === 'slope' ? 1 : factor,
    isPublished: false,
    source: HANDBOOK_SOURCE,
    why: `${what}. ${own.text}`,
  };
}

function fixed(value: number, decimals: number): string {
  return value.toFixed(decimals);
}
