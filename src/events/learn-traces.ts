/**
 * What did the wheels draw on each strip of a flight?
 *
 * In: motion and events of one flight. Out: ground traces of landing rolls, take-off runs and
 * backtracks with the strip they belong to: what a strip is learned from.
 */
import { geoidHeightM } from '../geo/geoid.ts';
import { isUndetermined } from '../result.ts';
import type { GroundTrace } from '../strips/ground-trace.ts';
import type { Strip } from '../strips/strip.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import { stretchesAlong } from './backtrack.ts';
import type { FlightEvents } from './detect-events.ts';
import type { Approach, TakeOff } from './flight-event.ts';
import type { StripView } from './strip-view.ts';
import { BACKTRACK } from './place-tuning.ts';
import { ROLL, TIE } from './tuning.ts';
import { UNTIED } from './untied-tuning.ts';

/** A trace and the strip or provisional place it was drawn on. */
export interface StripTrace {
  readonly strip: Strip;
  /** False for a place nobody has kept as a strip. */
  readonly known: boolean;
  readonly trace: GroundTrace;
}

/** Fixes `from` to just before `to`, in one view. */
interface OnGround {
  readonly view: StripView;
  readonly kind: GroundTrace['kind'];
  readonly from: number;
  readonly to: number;
}

/**
 * All traces of one flight, in order of time.
 *
 * @param visit names the flight; traces of one visit share the receiver's bias.
 */
export function groundTraces(motion: Motion, events: FlightEvents, visit: string): StripTrace[] {
  const rolls = [
    ...events.approaches.map((approach) => landingRoll(motion, events, approach)),
    ...events.takeOffs.map((takeOff) => takeOffRun(motion, events, takeOff)),
  ]
    .filter((roll) => roll !== null)
    .sort((a, b) => a.from - b.from);
  const all = rolls.flatMap((roll, k) => {
    if (roll.kind === 'landing') {
      const next = events.takeOffs.find(({ from }) => from >= roll.to - 1);
      return [roll, ...backtracks(motion, roll.view, roll.to, next?.from ?? motion.length)];
    }
    return k > 0 ? [roll] : [...backtracks(motion, roll.view, 0, roll.from), roll];
  });
  return all
    .filter(({ from, to }) => to - from >= LEAST_FIXES)
    .map((each) => ({
      strip: each.view.strip,
      known: each.view.stripId !== null,
      trace: traceOf(motion, each, visit),
    }));
}

const LEAST_FIXES = 3;

function landingRoll(motion: Motion, events: FlightEvents, approach: Approach): OnGround | null {
  const { touchdown, rollEnd } = approach;
  if (isUndetermined(touchdown) || isUndetermined(touchdown.timeS)) return null;
  if (isUndetermined(rollEnd) || isUndetermined(rollEnd.timeS)) return null;
  const turningS = rollEnd.kind === 'vacated' ? BACKTRACK.turningS : 0;
  const from = firstAtOrAfter(motion.timeS, touchdown.timeS.high + 1);
  const endedAt = firstAtOrAfter(motion.timeS, rollEnd.timeS.value - turningS);
  const to = steadyFrom(motion, from, endedAt);
  return onGround(events, approach, 'landing', from, to);
}

/**
 * The fix from which the aircraft, no faster than a taxi may be, no longer slowed down: the roll had
 * become a taxi, which may lead off the strip in line with it. `to` where there is none.
 */
function steadyFrom({ timeS, speedMps }: Motion, from: number, to: number): number {
  for (let i = from; i < to; i++) {
    if (speedMps[i] > BACKTRACK.fastestMps) continue;
    const later = firstAtOrAfter(timeS, timeS[i] + ROLL.taxiS);
    if (later >= to) return to;
    const slowedMps = speedMps[i] - speedMps[later];
    if (slowedMps < ROLL.taxiSlowingMps2 * (timeS[later] - timeS[i])) return i;
  }
  return to;
}

function takeOffRun(motion: Motion, events: FlightEvents, takeOff: TakeOff): OnGround | null {
  const { brakeRelease, liftOff } = takeOff;
  if (isUndetermined(brakeRelease) || isUndetermined(brakeRelease.timeS)) return null;
  if (isUndetermined(liftOff) || isUndetermined(liftOff.timeS)) return null;
  const from = firstAtOrAfter(motion.timeS, brakeRelease.timeS.value);
  const to = firstAtOrAfter(motion.timeS, liftOff.timeS.low - 1);
  return onGround(events, takeOff, 'take-off', from, to);
}

/** The range with the view of its strip; at unknown places the one whose line it followed most closely. */
function onGround(
  events: FlightEvents,
  { strip, direction }: Pick<Approach, 'strip' | 'direction'>,
  kind: OnGround['kind'],
  from: number,
  to: number,
): OnGround | null {
  if (to <= from) return null;
  let best: StripView | null = null;
  let leastM = Infinity;
  for (const view of events.views) {
    if (view.stripId !== strip) continue;
    if (strip !== null && view.direction.designator !== direction) continue;
    const missM = Math.abs(view.smoothCrossM[(from + to) >> 1]);
    if (view.forwardMps[from] < 0 || missM >= leastM) continue;
    best = view;
    leastM = missM;
  }
  return best && { view: best, kind, from, to };
}

function backtracks(motion: Motion, view: StripView, from: number, to: number): OnGround[] {
  const besideM = Math.max(BACKTRACK.besideM, view.strip.widthM / 2);
  return stretchesAlong(motion, view, { from, to }, besideM).map((run) => ({
    view,
    kind: 'backtrack',
    ...run,
  }));
}

function traceOf(motion: Motion, { view, kind, from, to }: OnGround, visit: string): GroundTrace {
  const geoidM = geoidHeightM(view.strip.latDeg[0], view.strip.lonDeg[0]);
  const datum = motion.heightDatum;
  const levelM = TIE.antennaM + (datum === 'ellipsoid' ? geoidM : 0);
  return {
    visit,
    kind,
    timeS: motion.timeS.slice(from, to),
    latDeg: motion.latDeg.slice(from, to),
    lonDeg: motion.lonDeg.slice(from, to),
    groundMslM: motion.sourceHeightM.slice(from, to).map((height) => height - levelM),
    levelSdM: LEVEL_SD_M[datum],
    horizontalSdM: motion.noise.horizontalSdM,
    verticalSdM: motion.noise.verticalSdM,
  };
}

/** How far off the level of a whole trace may be, by what its heights count from, metres. */
const LEVEL_SD_M = {
  geoid: UNTIED.seaLevelSdM,
  ellipsoid: UNTIED.seaLevelSdM,
  unstated: TIE.constantSdM,
  pressure: UNTIED.pressureSdM,
} as const;
