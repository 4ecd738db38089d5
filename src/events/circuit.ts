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
import { isUndetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import { describeCircuit, meanCross, type Circuit } from './circuit-figures.ts';
import { LEG } from './circuit-tuning.ts';
import type { Approach, TakeOff } from './flight-event.ts';
import { joinOf, type Join } from './join.ts';
import { stretchesOf, type NamedLeg, type Stretch } from './leg-track.ts';
import { findOrbits, turnRates, type OrbitSpan } from './orbit.ts';
import { trackDeg, type StripView } from './strip-view.ts';
import { PASS } from './tuning.ts';
import type { TiedHeights } from './tied-heights.ts';

/** What happened at the strips, as far as circuits begin and end with it. */
export interface FlownEvents {
  readonly approaches: readonly Approach[];
  readonly takeOffs: readonly TakeOff[];
  readonly views: readonly StripView[];
}

/** Circuits and joins of one flight, in order of time. */
export interface Circuits {
  readonly circuits: readonly Circuit[];
  readonly joins: readonly Join[];
}

/** Finds them. `heightsOf` gives the tied heights as one direction of a strip sees them. */
export function findCircuits(
  motion: Motion,
  { approaches, takeOffs, views }: FlownEvents,
  heightsOf: (view: StripView) => TiedHeights,
): Circuits {
  const rates = turnRates(motion);
  const circuits: Circuit[] = [];
  const joins: Join[] = [];
  for (const approach of approaches) {
    const view = viewOf(views, approach);
    if (!view || approach.outcome === 'overflight') continue;
    const end = endOf(view, approach);
    const start = startOf(motion, view, end, approaches, takeOffs, approach);
    const span = { from: start.index, to: end + 1 };
    const orbits = findOrbits(motion, view, rates, span);
    const stretches = stretchesOf(motion, view, rates, { ...span, orbits });
    const flown = legsOf(motion, view, stretches, start.outside);
    if (flown === null) continue;
    const legs = start.outside ? fromJoining(motion, view, flown, orbits) : flown;
    if (start.outside) {
      const join = joinOf(motion, view, legs.named, legs.side, start.index);
      if (join) joins.push(join);
    }
    if (legs.named.some(({ leg }) => leg === 'downwind')) {
      circuits.push(describeCircuit(motion, view, heightsOf(view), { ...legs, orbits, end }));
    }
  }
  return { circuits, joins };
}

/** Of places nobody has kept the one whose line the approach followed most closely. */
function viewOf(views: readonly StripView[], approach: Approach): StripView | undefined {
  const last = approach.to - 1;
  return views
    .filter(
      (view) =>
        view.stripId === approach.strip &&
        (approach.direction === null || view.direction.designator === approach.direction) &&
        approach.from < view.alongM.length &&
        view.forwardMps[approach.from] > 0,
    )
    .toSorted((a, b) => Math.abs(a.smoothCrossM[last]) - Math.abs(b.smoothCrossM[last]))
    .at(0);
}

/** The fix at which the circuit ends: threshold, touchdown, or lowest point of a go-around before it. */
function endOf(view: StripView, approach: Approach): number {
  for (let i = approach.from; i < approach.to; i++) if (view.smoothAlongM[i] >= 0) return i;
  return approach.to - 1;
}

/**
 * Where the circuit began: the last lift-off or go-around here, or coming within reach; where the last
 * lift-off was elsewhere, not before it: what was there before was flown, or rolled, at another strip.
 */
function startOf(
  motion: Motion,
  view: StripView,
  end: number,
  approaches: readonly Approach[],
  takeOffs: readonly TakeOff[],
  approach: Approach,
): { index: number; outside: boolean } {
  // Places that nobody has kept all go without a name: there the line tells which it was.
  const isHere = (i: number): boolean => approach.strip !== null || isInLine(motion, view, i);
  let here = 0;
  let anywhere = 0;
  for (const other of takeOffs) {
    if (other.from >= approach.from || isUndetermined(other.liftOff)) continue;
    const { timeS } = other.liftOff;
    if (isUndetermined(timeS)) continue;
    const index = firstAtOrAfter(motion.timeS, timeS.value);
    anywhere = Math.max(anywhere, index);
    if (other.strip === approach.strip && isHere(index)) here = Math.max(here, index);
  }
  for (const other of approaches) {
    if (other === approach || other.to > approach.from || other.strip !== approach.strip) continue;
    const lowest = lowestOf(view, other);
    if (isHere(lowest)) here = Math.max(here, lowest);
  }
  const earliest = Math.max(here, anywhere);
  for (let i = end; i > earliest; i--) {
    const outside = Math.hypot(view.smoothAlongM[i], view.smoothCrossM[i]) > LEG.reachM;
    if (outside || motion.timeS[end] - motion.timeS[i] > LEG.longestS) {
      return { index: i + 1, outside: true };
    }
  }
  return { index: earliest, outside: here === 0 || anywhere > here };
}

/** True where the aircraft moved along the line of a strip, either way. */
function isInLine(motion: Motion, view: StripView, i: number): boolean {
  const cosLimit = Math.cos((PASS.alignedDeg * Math.PI) / 180);
  const inLine = Math.abs(view.forwardMps[i]) > cosLimit * motion.speedMps[i];
  return inLine && Math.abs(view.smoothCrossM[i]) < PASS.corridorM;
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
  motion: Motion,
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
  if (k >= 0 && stretches[k].heading === 'against' && isDownwind(motion, view, stretches[k])) {
    side ??= meanCross(motion, view, stretches[k]) < 0 ? 'left' : 'right';
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
  orbits: readonly OrbitSpan[],
): { named: NamedLeg[]; side: 'left' | 'right' } {
  const downwind = flown.named.find(({ leg }) => leg === 'downwind');
  const spacing = downwind ? Math.abs(nearCross(view, downwind.stretch)) : 0;
  const final = flown.named[flown.named.length - 1].stretch;
  const finalM = Math.hypot(view.smoothAlongM[final.from], view.smoothCrossM[final.from]);
  const byFinal = finalM <= LEG.longestFinalM ? LEG.reachPerFinal * finalM : 0;
  const bySpacing = Math.min(LEG.mostReachM, LEG.reachPerSpacing * spacing);
  const reach = Math.max(LEG.leastReachM, bySpacing, byFinal);
  const named = [...flown.named];
  const inReach = (i: number): boolean =>
    Math.hypot(view.smoothAlongM[i], view.smoothCrossM[i]) <= reach;
  // Further legs may lead out again: an extended downwind leg does.
  while (named.length > 1) {
    const [{ leg, stretch }] = named;
    let from = stretch.settled;
    while (from < stretch.to && !inReach(from)) from++;
    if (from < stretch.to && motion.timeS[stretch.to - 1] - motion.timeS[from] >= LEG.leastS) {
      const turned = lastTurn(view, from, stretch.to, orbits);
      const settled = Math.max(from, turned);
      const [fromS, settledS] = [motion.timeS[turned], motion.timeS[settled]];
      named[0] = { leg, stretch: { ...stretch, from: turned, settled, fromS, settledS } };
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

/** Going back from the end of a leg: the last fix whose track was still another, orbits left out. */
function lastTurn(view: StripView, from: number, to: number, orbits: readonly OrbitSpan[]): number {
  const near = Math.floor((from + 2 * to) / 3);
  const orbit = orbits.find((each) => near >= each.from && near < each.to);
  const start = orbit ? orbit.from : near;
  const steady = trackDeg(view, start);
  for (let i = start; i > from; i--) {
    if (orbits.some((each) => i >= each.from && i < each.to)) continue;
    const off = ((((trackDeg(view, i) - steady) % 360) + 540) % 360) - 180;
    if (Math.abs(off) > LEG.turnBeganDeg) return i;
  }
  return from;
}

function isDownwind(motion: Motion, view: StripView, stretch: Stretch): boolean {
  return Math.abs(meanCross(motion, view, stretch)) > LEG.leastSpacingM;
}
