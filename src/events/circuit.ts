/**
 * Which circuits were flown, and how was each joined?
 *
 * In: motion, the approaches and take-offs of one flight with their views. Out: circuits from
 * lift-off, go-around or joining to the next threshold, with legs and figures; joins of those that
 * came from outside.
 *
 * A left-hand circuit goes along the strip, to the left, against it, to the right, along it again.
 * Source: definitions in docs/spec/measuring.md.
 */
import { isUndetermined, normalEstimate, undetermined, type Measured } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import { LEG } from './circuit-tuning.ts';
import type { Approach, TakeOff } from './flight-event.ts';
import { joinOf, type Join } from './join.ts';
import { stretchesOf, trackDeg, type LegName, type NamedLeg, type Stretch } from './leg-track.ts';
import type { StripView } from './strip-view.ts';
import { ALONG } from './tuning.ts';

/** One leg, from the start of the turn on to it. */
export interface CircuitLeg {
  readonly leg: LegName;
  readonly startTimeS: number;
  readonly endTimeS: number;
  readonly groundSpeedMps: Measured;
}

/** One circuit. */
export interface Circuit {
  readonly strip: string | null;
  readonly direction: string | null;
  readonly side: 'left' | 'right';
  readonly startTimeS: number;
  readonly endTimeS: number;
  readonly legs: readonly CircuitLeg[];
  /** Distance of the downwind leg from the centreline. */
  readonly downwindSpacingM: Measured;
  /** How far before the threshold, abeam it, the base turn began; negative: before passing abeam. */
  readonly baseTurnPastThresholdM: Measured;
  readonly finalLengthM: Measured;
  /** Steepest bank from base to final, degrees, from turn rate and speed. */
  readonly steepestBankDeg: Measured;
}

/** Circuits and joins of one flight, in order of time. */
export interface Circuits {
  readonly circuits: readonly Circuit[];
  readonly joins: readonly Join[];
}

/** Finds them. */
export function findCircuits(
  motion: Motion,
  approaches: readonly Approach[],
  takeOffs: readonly TakeOff[],
  views: readonly StripView[],
): Circuits {
  const circuits: Circuit[] = [];
  const joins: Join[] = [];
  for (const approach of approaches) {
    const view = viewOf(views, approach);
    if (!view || approach.outcome === 'overflight') continue;
    const end = endOf(view, approach);
    const start = startOf(motion, view, end, approaches, takeOffs, approach);
    const stretches = stretchesOf(motion, view, start.index, end + 1);
    const flown = legsOf(view, stretches, start.outside);
    if (flown === null) continue;
    const legs = start.outside ? fromJoining(motion, view, flown) : flown;
    if (start.outside) {
      const join = joinOf(motion, view, legs.named, legs.side);
      if (join) joins.push(join);
    }
    if (legs.named.some(({ leg }) => leg === 'downwind')) {
      circuits.push(describe(motion, view, legs.named, legs.side, end));
    }
  }
  return { circuits, joins };
}

function viewOf(views: readonly StripView[], approach: Approach): StripView | undefined {
  return views.find(
    (view) =>
      view.stripId === approach.strip &&
      (approach.direction === null || view.direction.designator === approach.direction) &&
      approach.from < view.alongM.length &&
      view.forwardMps[approach.from] > 0,
  );
}

/** The fix at which the circuit ends: threshold, touchdown, or lowest point of a go-around before it. */
function endOf(view: StripView, approach: Approach): number {
  for (let i = approach.from; i < approach.to; i++) if (view.smoothAlongM[i] >= 0) return i;
  return approach.to - 1;
}

/** Where the circuit began: the last lift-off or go-around here, or coming within reach. */
function startOf(
  motion: Motion,
  view: StripView,
  end: number,
  approaches: readonly Approach[],
  takeOffs: readonly TakeOff[],
  approach: Approach,
): { index: number; outside: boolean } {
  let index = 0;
  for (const other of takeOffs) {
    if (other.from >= approach.from || isUndetermined(other.liftOff)) continue;
    const { timeS } = other.liftOff;
    if (isUndetermined(timeS) || other.strip !== approach.strip) continue;
    index = Math.max(index, firstAtOrAfter(motion.timeS, timeS.value));
  }
  for (const other of approaches) {
    if (other === approach || other.to > approach.from || other.strip !== approach.strip) continue;
    index = Math.max(index, lowestOf(view, other));
  }
  const here = index;
  for (let i = end; i > here; i--) {
    const outside = Math.hypot(view.smoothAlongM[i], view.smoothCrossM[i]) > LEG.reachM;
    if (outside || motion.timeS[end] - motion.timeS[i] > LEG.longestS) {
      return { index: i + 1, outside: true };
    }
  }
  return { index: here, outside: here === 0 };
}

/** Fix of the lowest height of another pass, after which the next circuit begins. */
function lowestOf(view: StripView, other: Approach): number {
  let best = other.from;
  for (let i = other.from; i < other.to; i++) {
    if (view.smoothAboveM[i] <= view.smoothAboveM[best]) best = i;
  }
  return best;
}

/** Names the stretches, going back from final; null where the last stretch is no final. */
function legsOf(
  view: StripView,
  stretches: readonly Stretch[],
  outside: boolean,
): { named: NamedLeg[]; side: 'left' | 'right' } | null {
  const last = stretches.length - 1;
  if (last < 0 || stretches[last].heading !== 'along') return null;
  const named: NamedLeg[] = [{ leg: 'final', stretch: stretches[last] }];
  let k = last - 1;
  let side: 'left' | 'right' | null = null;
  if (k >= 0 && (stretches[k].heading === 'left' || stretches[k].heading === 'right')) {
    // On base of a left-hand circuit the aircraft moves to the right of the landing direction.
    side = stretches[k].heading === 'right' ? 'left' : 'right';
    named.unshift({ leg: 'base', stretch: stretches[k] });
    k--;
  }
  if (k >= 0 && stretches[k].heading === 'against' && isDownwind(view, stretches[k])) {
    side ??= meanCross(view, stretches[k]) < 0 ? 'left' : 'right';
    named.unshift({ leg: 'downwind', stretch: stretches[k] });
    k--;
    const outward = side === 'left' ? 'left' : 'right';
    if (k >= 0 && stretches[k].heading === outward) {
      named.unshift({ leg: 'crosswind', stretch: stretches[k] });
      k--;
      if (k >= 0 && stretches[k].heading === 'along' && !outside) {
        named.unshift({ leg: 'climb-out', stretch: stretches[k] });
      }
    }
  }
  return { named, side: side ?? view.direction.circuit ?? 'left' };
}

/**
 * The legs from joining on: what lies outside the circuit's own surroundings was the way there. Of
 * the first leg only what follows the last turn on to its track belongs to it.
 */
function fromJoining(
  motion: Motion,
  view: StripView,
  flown: { named: NamedLeg[]; side: 'left' | 'right' },
): { named: NamedLeg[]; side: 'left' | 'right' } {
  const downwind = flown.named.find(({ leg }) => leg === 'downwind');
  const spacing = downwind ? Math.abs(nearCross(view, downwind.stretch)) : 0;
  const reach = Math.max(LEG.leastReachM, LEG.reachPerSpacing * spacing);
  const named = [...flown.named];
  while (named.length > 1) {
    const [{ leg, stretch }] = named;
    let from = stretch.settled;
    for (let i = stretch.to - 1; i >= stretch.settled; i--) {
      if (Math.hypot(view.smoothAlongM[i], view.smoothCrossM[i]) > reach) {
        from = i + 1;
        break;
      }
    }
    if (from < stretch.to && motion.timeS[stretch.to - 1] - motion.timeS[from] >= LEG.leastS) {
      const turned = lastTurn(view, from, stretch.to);
      named[0] = { leg, stretch: { ...stretch, from: turned, settled: Math.max(from, turned) } };
      break;
    }
    named.shift();
  }
  return { named, side: flown.side };
}

/** Distance from the centreline at the end of a downwind leg. */
function nearCross(view: StripView, stretch: Stretch): number {
  return view.smoothCrossM[Math.max(stretch.settled, stretch.to - 1)];
}

/** Going back from the end of a leg: the last fix whose track was still another. */
function lastTurn(view: StripView, from: number, to: number): number {
  const steady = trackDeg(view, Math.floor((from + 2 * to) / 3));
  for (let i = Math.floor((from + 2 * to) / 3); i > from; i--) {
    const off = ((((trackDeg(view, i) - steady) % 360) + 540) % 360) - 180;
    if (Math.abs(off) > LEG.turnBeganDeg) return i;
  }
  return from;
}

function isDownwind(view: StripView, stretch: Stretch): boolean {
  return Math.abs(meanCross(view, stretch)) > LEG.leastSpacingM;
}

function meanCross(view: StripView, stretch: Stretch): number {
  let sum = 0;
  for (let i = stretch.settled; i < stretch.to; i++) sum += view.smoothCrossM[i];
  return sum / (stretch.to - stretch.settled);
}

function describe(
  motion: Motion,
  view: StripView,
  named: readonly NamedLeg[],
  side: 'left' | 'right',
  end: number,
): Circuit {
  const placeSd = Math.hypot(ALONG.driftSdM, view.strip.positionErrorM);
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
    legs: named.map(({ leg, stretch }, k) => ({
      leg,
      startTimeS: motion.timeS[stretch.from],
      endTimeS: motion.timeS[k + 1 < named.length ? named[k + 1].stretch.from : end],
      groundSpeedMps: legSpeed(motion, stretch),
    })),
    downwindSpacingM: downwind
      ? normalEstimate(Math.abs(meanCross(view, downwind)), placeSd)
      : undetermined('no downwind leg was flown'),
    baseTurnPastThresholdM: place(
      base && downwind ? -view.smoothAlongM[base.from] : undefined,
      'no turn from downwind to base was flown',
    ),
    finalLengthM: place(
      final ? Math.max(0, -view.smoothAlongM[final.settled]) : undefined,
      'no final was flown',
    ),
    steepestBankDeg: steepestBank(motion, base, end),
  };
}

function legSpeed(motion: Motion, stretch: Stretch): Measured {
  let sum = 0;
  const count = stretch.to - stretch.settled;
  for (let i = stretch.settled; i < stretch.to; i++) sum += motion.speedMps[i];
  return count > 0 ? normalEstimate(sum / count, 0.5) : undetermined('the leg was too short');
}

/** Steepest bank from the base leg on: atan(speed x rate of turn / g), over the ground. */
function steepestBank(motion: Motion, base: Stretch | undefined, end: number): Measured {
  if (!base) return undetermined('no base leg was flown');
  let steepest = 0;
  for (let i = base.settled; i < end; i++) {
    const cross =
      motion.velocityEastMps[i] * motion.accelerationNorthMps2[i] -
      motion.velocityNorthMps[i] * motion.accelerationEastMps2[i];
    const sideways = Math.abs(cross) / Math.max(motion.speedMps[i], 1);
    steepest = Math.max(steepest, Math.atan(sideways / GRAVITY_MPS2) * (180 / Math.PI));
  }
  return normalEstimate(steepest, BANK_SD_DEG);
}

/** Smoothing rounds off a short steep moment, and the wind is in the ground's rate of turn. */
const BANK_SD_DEG = 4;
