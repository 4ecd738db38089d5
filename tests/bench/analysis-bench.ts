/**
 * How long does the debrief of one flying hour take, from the file's bytes on, in one thread?
 *
 *   npm run bench-analysis [-- --runs 15]
 *
 * Two invented hours at known strips, a fix a second, each as GPX and as IGC: a usual one with eight
 * events, and one of nothing but circuits. The first run is cold; the middle and the best of the
 * others are warm. Times are of the processor, all threads together, so that a busy machine does not
 * count; collecting garbage beside the one thread does.
 */
import { parseArgs } from 'node:util';
import { debriefFile, type DebriefContext } from '../../src/debrief/debrief.ts';
import { createRandom, type Random } from '../../src/numeric/random.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import { boardAeroplane, type DemoPilot } from '../synthetic/demo/demo-pilot.ts';
import { demoStrips } from '../synthetic/demo/doggerland-strips.ts';
import type { FlownFlight } from '../synthetic/flight.ts';
import { logAsGpx, logAsIgc } from '../synthetic/logged-track.ts';
import { drawReceiver, withPressure } from '../synthetic/population.ts';
import { receive, type Fixes } from '../synthetic/receiver-model.ts';
import { createMap } from '../synthetic/runway.ts';
import { SCENARIO_START_S } from '../synthetic/scenarios.ts';
import { writeGpx } from '../synthetic/write-gpx.ts';
import { writeIgc } from '../synthetic/write-igc.ts';

const HOUR_S = 3600;
const SEED = 4;

/** Two touch-and-goes, a go-around and a full stop, off again to another strip and back: eight events. */
function usualHour(pilot: DemoPilot): void {
  pilot.takeOff();
  pilot.circuit();
  pilot.touchAndGo();
  pilot.circuit();
  pilot.touchAndGo();
  pilot.circuit();
  pilot.goAround(6);
  pilot.circuit();
  pilot.land();
  pilot.backtrack(20);
  pilot.takeOff();
  pilot.goTo('sedge', '20', 'overhead');
  pilot.land();
}

function circuitsOnly(pilot: DemoPilot): void {
  pilot.takeOff();
  for (let k = 0; k < 12; k++) {
    pilot.circuit();
    pilot.touchAndGo();
  }
  pilot.circuit();
  pilot.land();
}

function fly(story: (pilot: DemoPilot) => void): FlownFlight {
  const pilot = boardAeroplane({
    startTimeS: SCENARIO_START_S,
    aeroplane: 'marram-160',
    massKg: 1000,
    windFromDeg: 240,
    windKt: 8,
    gusty: false,
    wet: false,
    effort: 'normal',
    seed: SEED,
  });
  pilot.lineUp('ternholm', '25');
  story(pilot);
  return pilot.finish();
}

/** The first hour of a flight as a file; after a shorter one the aeroplane stands until the hour is over. */
function fileOf(flown: FlownFlight, format: 'gpx' | 'igc'): Uint8Array<ArrayBuffer> {
  const random = createRandom(SEED);
  const receiver = withPressure(drawReceiver(random, 1), random);
  const fixes = hourOf(receive(flown, receiver, random), random);
  const text =
    format === 'igc'
      ? writeIgc(logAsIgc(fixes), { aeroplane: 'Marram 160' })
      : writeGpx(logAsGpx(fixes), { name: 'an invented hour' });
  return new TextEncoder().encode(text);
}

function hourOf(fixes: Fixes, random: Random): Fixes {
  const last = fixes.length - 1;
  const column = (values: Float64Array, noise = 0): Float64Array =>
    Float64Array.from({ length: HOUR_S }, (_, i) =>
      i <= last ? values[i] : values[last] + noise * random.normal(),
    );
  const startS = fixes.timeS[0];
  return {
    ...fixes,
    length: HOUR_S,
    timeS: Float64Array.from({ length: HOUR_S }, (_, i) => startS + i),
    latDeg: column(fixes.latDeg, 4e-6),
    lonDeg: column(fixes.lonDeg, 6e-6),
    heightM: column(fixes.heightM, 0.6),
    pressureHeightM: column(fixes.pressureHeightM, 0.4),
    groundSpeedMps: column(fixes.groundSpeedMps),
    courseDeg: column(fixes.courseDeg),
    accuracyM: column(fixes.accuracyM),
  };
}

const { values } = parseArgs({ options: { runs: { type: 'string', default: '15' } } });
const context: DebriefContext = {
  strips: { ...EMPTY_STRIP_BOOK, strips: Object.values(demoStrips(createMap())) },
  aeroplanes: [],
  conditions: null,
};
console.log(
  `Node ${process.versions.node}, ${values.runs} runs each, ${HOUR_S} fixes; milliseconds`,
);
console.log('hour                  events    cold  middle    best');
for (const [name, story] of [
  ['usual', usualHour],
  ['circuits only', circuitsOnly],
] as const) {
  const flown = fly(story);
  for (const format of ['gpx', 'igc'] as const) {
    const bytes = fileOf(flown, format);
    const times: number[] = [];
    let events = 0;
    for (let run = 0; run < Number(values.runs); run++) {
      const began = process.cpuUsage();
      const debrief = await debriefFile(bytes, `hour.${format}`, context);
      const { user, system } = process.cpuUsage(began);
      times.push((user + system) / 1000);
      if (!debrief.ok) throw new Error(debrief.problems[0].message);
      const [flight] = debrief.value.flights;
      events = flight.events.approaches.length + flight.events.takeOffs.length;
    }
    const [cold, ...warm] = times;
    warm.sort((a, b) => a - b);
    const figures = [cold, warm[warm.length >> 1], warm[0]].map((ms) => ms.toFixed(0).padStart(8));
    console.log(
      `${`${name}, ${format}`.padEnd(22)}${String(events).padStart(6)}${figures.join('')}`,
    );
  }
}
