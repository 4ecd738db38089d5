/**
 * What was a circuit like: its legs, its size, its bank?
 *
 * In: motion, the view, the named legs of one circuit, the orbits in it, the tied heights. Out: the
 * circuit with its figures, each with a band.
 *
 * Source: bank from tan(bank) = speed x rate of turn / g, the coordinated turn (any flight mechanics
 * text); definitions in docs/spec/measuring.md.
 */
import { normalEstimate, undetermined, type Measured } from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Motion } from '../track/motion.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import { BANK, LEG } from './circuit-tuning.ts';
import type { LegName, NamedLeg, Stretch } from './leg-track.ts';
import type { OrbitSpan } from './orbit.ts';
import { trackDeg, type StripView } from './strip-view.ts';
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
  const place = (value: number | undefined, why: string): Measured =>
    !known || value === undefined
      ? undetermined(known ? why : 'no strip is known here')
      : normalEstimate(value, placeSd);
  return {
    strip: view.stripId,
    direction: known ? view.direction.designator : null,
    side,
    startTimeS: motion.timeS[named[0].stretch.from],
    endTimeS: motion.timeS[end],
    legs: named.map(({ leg, stretch }, k) => {
      const startTimeS = motion.timeS[stretch.from];
      const endTimeS = motion.timeS[k + 1 < named.length ? named[k + 1].stretch.from : end];
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
      ? normalEstimate(Math.abs(meanCross(view, downwind)), placeSd)
      : undetermined('no downwind leg was flown'),
    baseTurnPastThresholdM: place(
      base && downwind ? -view.smoothAlongM[base.from] : undefined,
      'no turn from downwind to base was flown',
    ),
    finalLengthM: place(
      final ? Math.max(0, -view.smoothAlongM[linedUp(view, final, end)]) : undefined,
      'no final was flown',
    ),
    steepestBankDeg: steepestBank(motion, base, final, end),
  };
}

/** Mean distance from the centreline over the straight part of a stretch, positive to the right. */
export function meanCross(view: StripView, stretch: Stretch): number {
  let sum = 0;
  for (let i = stretch.settled; i < stretch.to; i++) sum += view.smoothCrossM[i];
  return sum / (stretch.to - stretch.settled);
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

/** The first fix from which on the track keeps near the landing direction. */
function linedUp(view: StripView, final: Stretch, end: number): number {
  let from = end;
  while (from > final.from && Math.abs(trackDeg(view, from - 1)) < LEG.linedUpDeg) from--;
  return from;
}

function legSpeed(motion: Motion, stretch: Stretch): Measured {
  let sum = 0;
  const count = stretch.to - stretch.settled;
  for (let i = stretch.settled; i < stretch.to; i++) sum += motion.speedMps[i];
  return count > 0 ? normalEstimate(sum / count, 0.5) : undetermined('the leg was too short');
}

/** Steepest bank from the base leg on: atan(speed x rate of turn / g), over the ground. */
function steepestBank(
  motion: Motion,
  base: Stretch | undefined,
  final: Stretch | undefined,
  end: number,
): Measured {
  if (!base || !final) return undetermined('no base leg was flown');
  let steepest = 0;
  for (let i = base.settled; i < end; i++) {
    const cross =
      motion.velocityEastMps[i] * motion.accelerationNorthMps2[i] -
      motion.velocityNorthMps[i] * motion.accelerationEastMps2[i];
    const sideways = Math.abs(cross) / Math.max(motion.speedMps[i], 1);
    steepest = Math.max(steepest, Math.atan(sideways / GRAVITY_MPS2) * (180 / Math.PI));
  }
  return steepestOf(steepest, motion.medianIntervalS);
}

function steepestOf(seenDeg: number, intervalS: number): Measured {
  const value = seenDeg + Math.max(0, BANK.roundedOffPerS * intervalS - BANK.seenDeg);
  return {
    value,
    low: Math.max(0, value - BANK.belowDeg - BANK.belowPerS * intervalS),
    high: value + BANK.aboveDeg + BANK.abovePerS * intervalS,
  };
}
