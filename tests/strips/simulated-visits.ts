/**
 * Visits to one invented strip, logged and looked at as if the strip had been drawn a little wrong.
 *
 * In: a seed and how many visits. Out: the strip as drawn, its traces, and what is true about both.
 */
import { detectEvents } from '../../src/events/detect-events.ts';
import { groundTraces } from '../../src/events/learn-traces.ts';
import { createRandom } from '../../src/numeric/random.ts';
import type { GroundTrace } from '../../src/strips/ground-trace.ts';
import { LEARN } from '../../src/strips/learn-tuning.ts';
import { createStripFrame } from '../../src/strips/strip-frame.ts';
import { EMPTY_STRIP_BOOK, type Strip, type StripBook } from '../../src/strips/strip.ts';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { computeMotion, type Motion } from '../../src/track/motion.ts';
import type { Track } from '../../src/track/track.ts';
import type { FlownFlight } from '../synthetic/flight.ts';
import { logAsGpx, logAsIgc, toTrack } from '../synthetic/logged-track.ts';
import { between, drawAeroplane, drawReceiver, drawStrip } from '../synthetic/population.ts';
import { receive } from '../synthetic/receiver-model.ts';
import { createMap } from '../synthetic/runway.ts';
import { flyDrawnApproach, flyDrawnTakeOff } from '../synthetic/scenarios.ts';

/** Visits with their truth. Right and along as in `LearnedStrip`, on the strip as drawn. */
export interface Visits {
  readonly drawn: Strip;
  readonly traces: readonly GroundTrace[];
  /** How far right of the line drawn the true one lies at a distance from A, metres. */
  readonly trueRightM: (alongM: number) => number;
  readonly trueTurnedDeg: number;
  /** True elevation at a distance from A along the line drawn. */
  readonly trueElevationM: (alongM: number) => number;
  /** Least and greatest place that landing rolls and take-off runs truly reached; that all traces did where there are none. */
  readonly trueUsedM: readonly [number, number];
}

/** Draws a strip, draws it a little wrong, and visits it; every third visit is a take-off. */
export function visitStrip(seed: number, visits: number, format: 'gpx' | 'igc' = 'igc'): Visits {
  const random = createRandom(seed);
  const map = createMap();
  const aeroplane = drawAeroplane(random);
  const strip = drawStrip(map, random, aeroplane.stallMps);
  const drawn = drawnWrong(strip, between(random, -9, 9), between(random, -1.5, 1.5));
  const frame = frameFromA(drawn);
  const book = { ...EMPTY_STRIP_BOOK, strips: [drawn] };
  const traces: GroundTrace[] = [];
  const reachedM: { kind: GroundTrace['kind']; placesM: [number, number] }[] = [];
  for (let k = 0; k < visits; k++) {
    const own = seed * 100 + k;
    // As far beside the middle from roll to roll as the model allows, but evenly spread.
    const roll = { crossM: between(random, -3.5, 3.5) };
    const { flown } =
      k % 3 === 2
        ? flyDrawnTakeOff(own, { aeroplane, strip })
        : flyDrawnApproach(own, 'full-stop', { aeroplane, strip, roll });
    const fixes = receive(flown, drawReceiver(random, 1), random);
    const track = toTrack(format === 'igc' ? logAsIgc(fixes) : logAsGpx(fixes));
    for (const trace of tracesOf(track, book, `${own}`)) {
      traces.push(trace);
      const along = trueAlong(flown, drawn, trace);
      const placesM: [number, number] = [Math.min(...along), Math.max(...along)];
      if (placesM[1] - placesM[0] >= LEARN.leastTraceM)
        reachedM.push({ kind: trace.kind, placesM });
    }
  }
  const right = rightOf(drawn, strip);
  const trueFrame = frameFromA(strip);
  const rolls = reachedM.filter(({ kind }) => kind !== 'backtrack');
  const used = (rolls.length > 0 ? rolls : reachedM).flatMap(({ placesM }) => placesM);
  return {
    drawn,
    traces,
    trueRightM: (alongM) => right[0] + (alongM / frame.lengthM) * (right[1] - right[0]),
    trueTurnedDeg: (Math.atan2(right[1] - right[0], frame.lengthM) * 180) / Math.PI,
    trueElevationM: (alongM) => trueFrame.elevationMslM(alongM),
    trueUsedM: [Math.min(...used), Math.max(...used)],
  };
}

/** The traces of one log at a book's strips. */
export function tracesOf(track: Track, book: StripBook, visit: string): GroundTrace[] {
  const cleaned = applyCleaning(track, cleanTrack(track));
  const motion: Motion = computeMotion(cleaned);
  const events = detectEvents(motion, book);
  return groundTraces(motion, events, visit).map(({ trace }) => trace);
}

/** The line from A without displacement. */
export function frameFromA(strip: Strip) {
  return createStripFrame(strip, { ...strip.directions[0], from: 'A', displacedM: 0 });
}

/** The strip moved right by metres and turned about A's side by degrees, as a pilot might have drawn it. */
function drawnWrong(strip: Strip, rightM: number, turnedDeg: number): Strip {
  const frame = frameFromA(strip);
  const a = frame.pointAt(0, rightM);
  const b = frame.pointAt(
    frame.lengthM,
    rightM + frame.lengthM * Math.tan((turnedDeg * Math.PI) / 180),
  );
  return { ...strip, latDeg: [a.latDeg, b.latDeg], lonDeg: [a.lonDeg, b.lonDeg] };
}

/** How far right of the line drawn the true line lies where the drawn one has its ends. */
function rightOf(drawn: Strip, strip: Strip): [number, number] {
  const frame = frameFromA(drawn);
  const { alongM, crossM } = frame.toAlongCross(
    Float64Array.from(strip.latDeg),
    Float64Array.from(strip.lonDeg),
  );
  const slope = (crossM[1] - crossM[0]) / (alongM[1] - alongM[0]);
  return [crossM[0] - slope * alongM[0], crossM[1] + slope * (frame.lengthM - alongM[1])];
}

/** Where the aircraft truly was on the line drawn at the first and last fix of a trace, and between. */
function trueAlong(flown: FlownFlight, drawn: Strip, trace: GroundTrace): Float64Array {
  const from = flown.timeS.findIndex((t) => t >= trace.timeS[0]);
  const last = trace.timeS[trace.timeS.length - 1];
  const to = flown.timeS.findIndex((t) => t >= last);
  const lat: number[] = [];
  const lon: number[] = [];
  for (let i = from; i <= (to < 0 ? flown.length - 1 : to); i++) {
    const { latDeg, lonDeg } = flown.map.toLatLon(flown.eastM[i], flown.northM[i]);
    lat.push(latDeg);
    lon.push(lonDeg);
  }
  return frameFromA(drawn).toAlongCross(Float64Array.from(lat), Float64Array.from(lon)).alongM;
}
