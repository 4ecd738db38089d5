/**
 * One flight recorded by several receivers, and flights of several aircraft close together.
 *
 * In: a flown flight. Out: logs of it as files, as a tablet and a recorder in one cockpit write them; the
 * flight of another aircraft beside, behind or after it.
 */
import { createRandom } from '../../src/numeric/random.ts';
import { flownPath, type FlownPath } from '../../src/track/flown-path.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { demoEntries } from './demo/demo-files.ts';
import { dayOf } from './demo/demo-flights.ts';
import { boardAeroplane, type DemoDay, type DemoPilot } from './demo/demo-pilot.ts';
import type { FlownFlight } from './flight.ts';
import { logAsGpx, logAsIgc, toTrack, type LoggedTrack } from './logged-track.ts';
import { drawReceiver, withPressure } from './population.ts';
import { receive, type Receiver } from './receiver-model.ts';
import { writeGpx } from './write-gpx.ts';
import { writeIgc } from './write-igc.ts';

/** How a log is made. */
export interface Recorder {
  readonly format: 'gpx' | 'igc';
  readonly seed: number;
  readonly intervalS?: number;
  /** Its own fixes fall so long after whole multiples of the interval, and are written down as such: seconds. */
  readonly lateS?: number;
  /** Switched on and off so long after the start, seconds. */
  readonly fromS?: number;
  readonly toS?: number;
  readonly receiver?: Partial<Receiver>;
}

/** Half past two, on a dry summer's day with some wind. */
const DAY: DemoDay = {
  startTimeS: Date.parse('2025-07-12T14:30:00Z') / 1000 + 0.37,
  aeroplane: 'marram-160',
  massKg: 940,
  windFromDeg: 230,
  windKt: 7,
  gusty: false,
  wet: false,
  effort: 'normal',
  seed: 11,
};

/** A flight of the demo's world. */
export function flyStory(fly: (pilot: DemoPilot) => void, day: Partial<DemoDay> = {}): FlownFlight {
  const pilot = boardAeroplane({ ...DAY, ...day });
  fly(pilot);
  return pilot.finish();
}

/** A flight of the demo, flown again: the same truth, for another receiver. */
export function flyDemoFile(file: string): FlownFlight {
  const entry = demoEntries().find(({ story }) => story.file === file);
  if (!entry) throw new Error(`no story ${file}`);
  const pilot = boardAeroplane(dayOf(entry.story, entry.aeroplane, entry.seed));
  entry.story.fly(pilot);
  return pilot.finish();
}

/** Two touch-and-goes and a full stop at home. */
export function threeCircuits(pilot: DemoPilot): void {
  pilot.lineUp('ternholm', '25');
  pilot.takeOff();
  pilot.circuit();
  pilot.touchAndGo();
  pilot.circuit();
  pilot.touchAndGo();
  pilot.circuit();
  pilot.land();
}

/** The log that a recorder makes of a flight. */
export function recordFlight(flown: FlownFlight, recorder: Recorder): LoggedTrack {
  const { format, seed, intervalS = 1, lateS = 0, fromS = 0, toS = Infinity } = recorder;
  const random = createRandom(seed);
  const drawn = drawReceiver(random, intervalS);
  const receiver = {
    ...(format === 'igc' ? withPressure(drawn, random) : drawn),
    ...recorder.receiver,
  };
  const startS = flown.timeS[0];
  const rows = [...flown.timeS.keys()].filter(
    (i) => flown.timeS[i] - startS >= fromS && flown.timeS[i] - startS <= toS,
  );
  const part = rowsOf(flown, rows, -lateS);
  const fixes = receive(part, receiver, random);
  return format === 'igc' ? logAsIgc(fixes) : logAsGpx(fixes);
}

/** A log as the text of its file. */
export function logText(logged: LoggedTrack): string {
  return logged.format === 'igc'
    ? writeIgc(logged, { aeroplane: 'Marram 160' })
    : writeGpx(logged, { name: 'invented flight' });
}

/** The path of a log. */
export function pathOf(logged: LoggedTrack): FlownPath {
  return flownPath(computeMotion(toTrack(logged)));
}

/** The same aircraft, or another that flies so far right of it and behind it, metres, or so much later, seconds. */
export function flownBeside(
  flown: FlownFlight,
  { rightM = 0, behindM = 0, laterS = 0 },
): FlownFlight {
  const shifted = { eastM: new Float64Array(flown.length), northM: new Float64Array(flown.length) };
  let [east, north] = [0, 1];
  // Standing at the beginning it looks the way it will roll.
  const moving = flown.eastMps.findIndex((v, i) => Math.hypot(v, flown.northMps[i]) > 2);
  for (let i = 0; i < flown.length; i++) {
    const at = Math.max(i, moving);
    const speed = Math.hypot(flown.eastMps[at], flown.northMps[at]);
    if (speed > 0.5) [east, north] = [flown.eastMps[at] / speed, flown.northMps[at] / speed];
    shifted.eastM[i] = flown.eastM[i] + rightM * north - behindM * east;
    shifted.northM[i] = flown.northM[i] - rightM * east - behindM * north;
  }
  return { ...flown, ...shifted, timeS: flown.timeS.map((timeS) => timeS + laterS) };
}

/** Some rows of a flight, their clock moved by `byS`. */
function rowsOf(flown: FlownFlight, rows: readonly number[], byS: number): FlownFlight {
  const pick = (column: Float64Array): Float64Array => Float64Array.from(rows, (i) => column[i]);
  return {
    ...flown,
    length: rows.length,
    timeS: pick(flown.timeS).map((timeS) => timeS + byS),
    eastM: pick(flown.eastM),
    northM: pick(flown.northM),
    antennaMslM: pick(flown.antennaMslM),
    wheelMslM: pick(flown.wheelMslM),
    eastMps: pick(flown.eastMps),
    northMps: pick(flown.northMps),
    antennaUpMps: pick(flown.antennaUpMps),
    airspeedMps: pick(flown.airspeedMps),
  };
}
