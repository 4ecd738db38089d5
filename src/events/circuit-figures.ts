/**
 * What was a circuit like: its legs, its size, its bank?
 *
 * In: motion, the view, the named legs of one circuit, the orbits in it, the tied heights. Out: the
 * circuit with its figures, each with a band.
 *
 * Source: bank from tan(bank) = speed x rate of turn / g, the coordinated turn (any flight mechanics
 * text); definitions in docs/spec/measuring.md.
 */
import { crossingAt, type Reading } from '../numeric/crossing.ts';
import {
  cutBelow,
  isUndetermined,
  normalEstimate,
  undetermined,
  Z90,
  type Estimate,
  type Measured,
} from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Motion } from '../track/motion.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import { meanBetween, stepAt, valueAt } from './arrival-data.ts';
import { BANK, LEG, TURN } from './circuit-tuning.ts';
import type { LegName, NamedLeg, Stretch } from './leg-track.ts';
import type { OrbitSpan } from './orbit.ts';
import { endsUnknown, trackDeg, type StripView } from './strip-view.ts';
import type { TiedHeights } from './tied-heights.ts';
import { ALONG } from './tuning.ts';

/** One leg, from the start of the turn on to it. */
export interface CircuitLeg {
  readonly leg: LegName;
  readonly startTimeS: number;
  readonly endTimeS: number;
  /** Mean over its straight part. */
  readonly groundSpeedMps: Measured;
  /** Height of the wheels over the strip at both ends. */
  readonly startAboveM: Measured;
  readonly endAboveM: Measured;
}

/** A full turn flown within the circuit. */
export interface Orbit {
  readonly leg: LegName;
  readonly side: 'left' | 'right';
  readonly startTimeS: number;
  readonly endTimeS: number;
}

/** One circuit. */
export interface Circuit {
  readonly strip: string | null;
  readonly direction: string | null;
  readonly side: 'left' | 'right';
  readonly startTimeS: number;
  readonly endTimeS: number;
  readonly legs: readonly CircuitLeg[];
  readonly orbits: readonly Orbit[];
  /** Distance of the downwind leg from the centreline. */
  readonly downwindSpacingM: Measured;
  /** How far before the threshold, abeam it, the base turn began; negative: before passing abeam. */
  readonly baseTurnPastThresholdM: Measured;
  /** From where the aircraft was lined up on final to the threshold. */
  readonly finalLengthM: Measured;
  /** Steepest bank from base to final, degrees, from turn rate and speed. */
  readonly steepestBankDeg: Measured;
}

/** What a circuit is described from. `end`: the fix at which it ends. */
export interface FlownCircuit {
  readonly named: readonly NamedLeg[];
  readonly side: 'left' | 'right';
  readonly orbits: readonly OrbitSpan[];
  readonly end: number;
}

/** Describes one circuit. Never fails; what cannot be had carries its reason. */
export function describeCircuit(
  motion: Motion,
  view: StripView,
  heights: TiedHeights,
  { named, side, orbits, end }: FlownCircuit,
): Circuit {
  const placeSd = Math.hypot(ALONG.driftSdM, placeSdM(view.strip));
  const find = (leg: LegName): Stretch | undefined =>
    named.find((each) => each.leg === leg)?.stretch;
  const downwind = find('downwind');
  const base = find('base');
  const final = find('final');
  const known = view.stripId !== null;
  const noThreshold = endsUnknown(view);
  const before = (atS: number | undefined, moment: Moment, why: string): Measured =>
    noThreshold ??
    (atS === undefined ? undetermined(why) : beforeThreshold(motion, view, atS, moment, placeSd));
  const linedUpAt = (limitDeg: number): Measured =>
    before(
      final ? linedUpS(motion, view, final, end, limitDeg) : undefined,
      TURN.linedUp,
      'no final was flown',
    );
  const finalLengthM = holdingGrazes(linedUpAt, final ? offDeg(motion, final) : 0);
  return {
    strip: view.stripId,
    direction: known ? view.direction.designator : null,
    side,
    startTimeS: named[0].stretch.fromS,
    endTimeS: motion.timeS[end],
    legs: named.map(({ leg, stretch }, k) => {
      const startTimeS = stretch.fromS;
      const endTimeS = k + 1 < named.length ? named[k + 1].stretch.fromS : motion.timeS[end];
      return {
        leg,
        startTimeS,
        endTimeS,
        groundSpeedMps: legSpeed(motion, stretch),
        startAboveM: heights.aboveAt(startTimeS),
        endAboveM: heights.aboveAt(endTimeS),
      };
    }),
    orbits: orbits.flatMap((orbit) => orbitOf(motion, named, orbit)),
    downwindSpacingM: downwind
      ? spacing(motion, view, downwind, placeSd)
      : undetermined('no downwind leg was flown'),
    baseTurnPastThresholdM: before(
      base && downwind ? base.fromS : undefined,
      TURN.began,
      'no turn from downwind to base was flown',
    ),
    finalLengthM: isUndetermined(finalLengthM) ? finalLengthM : cutBelow(finalLengthM, 0),
    steepestBankDeg: steepestBank(motion, base, final, end),
  };
}

/** Mean distance from the centreline over the straight part of a stretch, positive to the right. */
export function meanCross(motion: Motion, view: StripView, stretch: Stretch): number {
  return meanBetween(motion.timeS, view.smoothCrossM, stretch.settledS, stretch.toS);
}

function spacing(motion: Motion, view: StripView, downwind: Stretch, placeSdM: number): Measured {
  const mean = meanCross(motion, view, downwind);
  const ends = endsSd(motion, view.smoothCrossM, downwind, mean);
  return normalEstimate(Math.abs(mean), Math.hypot(placeSdM, ends));
}

function orbitOf(
  motion: Motion,
  named: readonly NamedLeg[],
  { from, to, side }: OrbitSpan,
): Orbit[] {
  const leg = named.findLast(({ stretch }) => stretch.from <= from);
  if (!leg) return [];
  const last = Math.min(to, motion.length) - 1;
  return [{ leg: leg.leg, side, startTimeS: motion.timeS[from], endTimeS: motion.timeS[last] }];
}

/** How much later than found a moment of a turn was, and the sd of that: fixed, seconds, and for each second between the fixes there. */
interface Moment {
  readonly lateS: number;
  readonly latePerStep: number;
  readonly sdS: number;
  readonly sdPerStep: number;
}

/** Beside a hole of the log longer than this nobody knows when a turn began, seconds. */
const HOLE_S = 10;

/** How far before the threshold the aircraft was at a moment; the moment is known as the fixes around it tell. */
function beforeThreshold(
  motion: Motion,
  view: StripView,
  foundS: number,
  { lateS, latePerStep, sdS, sdPerStep }: Moment,
  placeSdM: number,
): Measured {
  const stepS = stepAt(motion.timeS, foundS);
  if (stepS > HOLE_S) {
    return undetermined(`the log has a hole of ${stepS.toFixed(0)} s there`);
  }
  const atS = foundS + lateS + latePerStep * stepS;
  const alongM = valueAt(motion.timeS, view.smoothAlongM, atS);
  const speedMps = valueAt(motion.timeS, view.forwardMps, atS);
  const momentM = speedMps * Math.hypot(sdS, sdPerStep * stepS);
  return normalEstimate(-alongM, Math.hypot(placeSdM, momentM));
}

/**
 * Where the track only grazes the limit, on a final flown askew, its own error decides whether it was
 * lined up before or after: the band holds both. Where it turns through the limit, nothing is added.
 */
function holdingGrazes(linedUpAt: (limitDeg: number) => Measured, offDeg: number): Measured {
  const all = [0, -offDeg, offDeg].map((byDeg) => linedUpAt(LEG.linedUpDeg + byDeg));
  const found = all.filter((each): each is Estimate => !isUndetermined(each));
  if (isUndetermined(all[0]) || found.length < all.length) return all[0];
  const lengthsM = found.map(({ value }) => value);
  return {
    value: all[0].value,
    low: Math.min(all[0].low, ...lengthsM),
    high: Math.max(all[0].high, ...lengthsM),
  };
}

/** What the direction of the smoothed track is off by on a final, nine times in ten no more, degrees. */
function offDeg({ speedMps, speedSdMps }: Motion, { settled }: Stretch): number {
  return (Z90 * speedSdMps[settled] * 180) / (Math.PI * Math.max(speedMps[settled], 1));
}

/** When the track came within a limit of the landing direction for good, between the fixes. */
function linedUpS(
  motion: Motion,
  view: StripView,
  final: Stretch,
  end: number,
  limitDeg: number,
): number {
  const trackOffDeg = (i: number): number => Math.abs(trackDeg(view, i));
  let from = end;
  while (from > final.from && trackOffDeg(from - 1) < limitDeg) from--;
  const reading = (i: number): Reading => [motion.timeS[i], trackOffDeg(i)];
  const after = reading(from);
  if (from === 0 || after[1] >= limitDeg) return motion.timeS[from];
  return crossingAt(limitDeg, reading(from - 1), after) ?? motion.timeS[from];
}

/** Mean ground speed over the straight part; where one turn runs into the next, the speed between them. */
function legSpeed(motion: Motion, stretch: Stretch): Measured {
  const mean = meanBetween(motion.timeS, motion.speedMps, stretch.settledS, stretch.toS);
  const ends = endsSd(motion, motion.speedMps, stretch, mean);
  const step = LEG.speedSdPerStep * stepAt(motion.timeS, stretch.settledS);
  return normalEstimate(mean, Math.hypot(LEG.speedSdMps, step, ends));
}

/** What a mean over the straight part of a stretch is off by where its ends are not sure, one sd in the column's unit. */
function endsSd(
  motion: Motion,
  column: Float64Array,
  { settledS, toS }: Stretch,
  mean: number,
): number {
  const longS = Math.max(toS - settledS, 1);
  const { sdS, sdPerStep } = TURN.began;
  const shares = [settledS, toS].map((atS) => {
    const momentS = Math.hypot(sdS, sdPerStep * stepAt(motion.timeS, atS));
    return ((valueAt(motion.timeS, column, atS) - mean) * momentS) / longS;
  });
  return Math.hypot(...shares);
}

/** Steepest bank from the base leg on: atan(speed x rate of turn / g), over the ground. */
function steepestBank(
  motion: Motion,
  base: Stretch | undefined,
  final: Stretch | undefined,
  end: number,
): Measured {
  if (!base || !final) return undetermined('no base leg was flown');
  const bankDeg = (i: number): number => {
    const cross =
      motion.velocityEastMps[i] * motion.accelerationNorthMps2[i] -
      motion.velocityNorthMps[i] * motion.accelerationEastMps2[i];
    const sideways = Math.abs(cross) / Math.max(motion.speedMps[i], 1);
    return Math.atan(sideways / GRAVITY_MPS2) * (180 / Math.PI);
  };
  let steepest = base.settled;
  for (let i = base.settled; i < end; i++) if (bankDeg(i) > bankDeg(steepest)) steepest = i;
  // The fixes of the same turn: the steepest moment may lie in any step between them.
  let intervalS = 0;
  for (const way of [-1, 1]) {
    for (let i = steepest; i > 0 && i < end; i += way) {
      intervalS = Math.max(intervalS, Math.abs(motion.timeS[i + way] - motion.timeS[i]));
      if (bankDeg(i + way) < BANK.turningShare * bankDeg(steepest)) break;
    }
  }
  return steepestOf(bankDeg(steepest), intervalS, stepAt(motion.timeS, motion.timeS[steepest]));
}

/** `longestS`: the longest step of the turn; `nearestS`: that beside the steepest fix, where less may be rounded off. */
function steepestOf(seenDeg: number, longestS: number, nearestS: number): Measured {
  const value = seenDeg + Math.max(0, BANK.roundedOffPerS * longestS - BANK.seenDeg);
  const perhapsLess = (BANK.roundedOffPerS * Math.max(0, longestS - nearestS)) / 2;
  return {
    value,
    low: Math.max(0, value - BANK.belowDeg - BANK.belowPerS * longestS - perhapsLess),
    high: value + BANK.aboveDeg + BANK.abovePerS * longestS,
  };
}
