/**
 * Every file of the demo world, in memory: the same seed gives the same bytes.
 *
 * Out: file names under tracks-sample/ with their text. The tool make-demo writes them; a test
 * compares them with the committed ones.
 */
import { createRandom } from '../../../src/numeric/random.ts';
import type { FlownFlight } from '../flight.ts';
import { roundTo } from '../invent-strip.ts';
import { logAsGpx, logAsIgc, withDoubledFixes } from '../logged-track.ts';
import { PLAIN_RECEIVER, receive, type Receiver } from '../receiver-model.ts';
import { createMap } from '../runway.ts';
import { writeGpx } from '../write-gpx.ts';
import { writeIgc } from '../write-igc.ts';
import { dayOf, type DemoStory } from './demo-flights.ts';
import { boardAeroplane, type DemoDay } from './demo-pilot.ts';
import { demoReadme } from './demo-readme.ts';
import { demoStripsGeoJson } from './doggerland-strips.ts';
import { EELGRASS_STORIES } from './eelgrass-stories.ts';
import { MARRAM_STORIES_2025 } from './marram-stories-2025.ts';
import { MARRAM_STORIES } from './marram-stories.ts';
import { printJson } from './print-json.ts';
import { FIELDS_OF_TRUTH } from './truth-fields.ts';

/** A story with its aeroplane. */
export interface DemoEntry {
  readonly story: DemoStory;
  readonly aeroplane: DemoDay['aeroplane'];
  readonly seed: number;
}

/** All flights in order of date. The seed hangs on the file name, so a new flight changes no other. */
export function demoEntries(): DemoEntry[] {
  const marram = [...MARRAM_STORIES, ...MARRAM_STORIES_2025].map((story) => ({
    story,
    aeroplane: 'marram-160' as const,
    seed: seedOf(story.file),
  }));
  const eelgrass = EELGRASS_STORIES.map((story) => ({
    story,
    aeroplane: 'eelgrass-450' as const,
    seed: seedOf(story.file),
  }));
  return [...marram, ...eelgrass].sort((a, b) => (a.story.file < b.story.file ? -1 : 1));
}

/** Flies all of them. */
export function flyDemo(): FlownFlight[] {
  return demoEntries().map(flyDemoEntry);
}

function flyDemoEntry(entry: DemoEntry): FlownFlight {
  const pilot = boardAeroplane(dayOf(entry.story, entry.aeroplane, entry.seed));
  entry.story.fly(pilot);
  return pilot.finish();
}

/** Every file under tracks-sample/ that the demo is made of, by name; from the flights in order of date. */
export function makeDemoFiles(flights: readonly FlownFlight[]): Map<string, string> {
  const files = new Map<string, string>();
  const truth: Record<string, unknown> = {};
  const entries = demoEntries();
  for (const [i, entry] of entries.entries()) {
    const flown = flights[i];
    files.set(`flights/${entry.story.file}`, writeLog(entry, flown));
    truth[entry.story.file] = rounded({
      aeroplane: entry.aeroplane,
      about: entry.story.about,
      ...flown.truth,
    });
  }
  files.set('strips.geojson', printJson(demoStripsGeoJson(createMap())));
  files.set('conditions.json', printJson(demoConditions(entries)));
  files.set(
    'truth.json',
    printJson({
      schema: 1,
      kind: 'truth',
      invented: true,
      description: FIELDS_OF_TRUTH,
      flights: truth,
    }),
  );
  files.set('README.md', demoReadme(entries));
  return files;
}

function writeLog(entry: DemoEntry, flown: FlownFlight): string {
  const { story } = entry;
  const random = createRandom(entry.seed + 2);
  const fixes = receive(flown, receiverOf(story), random);
  if (story.file.endsWith('.igc')) {
    const aeroplane = entry.aeroplane === 'marram-160' ? 'Marram 160' : 'Eelgrass 450';
    return writeIgc(logAsIgc(fixes), { aeroplane });
  }
  const logged = logAsGpx(fixes);
  const doubled = story.doubled ? withDoubledFixes(logged, ...story.doubled) : logged;
  const about = 'Invented flight over Doggerland, made by a simulator.';
  return writeGpx(doubled, { name: story.file.replace('.gpx', ''), about });
}

function receiverOf(story: DemoStory): Receiver {
  const own = story.receiver ?? {};
  const pressure = own.pressure ? { ...own.pressure, qnhHpa: story.qnhHpa } : null;
  return { ...PLAIN_RECEIVER, ...own, pressure };
}

/** From this flight on the pilot briefs limits for the final, so that a visitor sees some held and some not. */
const LIMITS_FROM = '2025-08-17';
/** Invented like the aeroplanes: about their approach speeds, from 300 ft down. */
const GATE_LIMITS = {
  'marram-160': { fromFt: 300, airspeedKt: [52, 62], pathDeg: [3, 7], crossM: [-10, 10] },
  'eelgrass-450': { fromFt: 300, airspeedKt: [38, 48], pathDeg: [5, 10], crossM: [-10, 10] },
} as const;

/** The conditions file: what a careful pilot would have noted. */
function demoConditions(entries: readonly DemoEntry[]): unknown {
  const flights: Record<string, unknown> = {};
  for (const { story, aeroplane } of entries) {
    const [fromDeg, speedKt, gustKt] = story.wind;
    flights[story.file] = {
      wind: { fromDeg, reference: 'true', speedKt, ...(gustKt === null ? {} : { gustKt }) },
      tempC: story.tempC,
      qnhHpa: story.qnhHpa,
      massKg: story.massKg,
      takeOffMassKg: story.takeOffMassKg,
      surface: story.wet ? 'grass-wet' : 'grass-dry',
      aeroplane,
      effort: story.effort,
      ...(story.file >= LIMITS_FROM ? { gateLimits: GATE_LIMITS[aeroplane] } : {}),
    };
  }
  return {
    schema: 1,
    kind: 'conditions',
    all: { flap: 'full', factorSet: 'uk-leaflet' },
    flights,
  };
}

/** Numbers to a hundredth: truth is not finer than that. */
function rounded(value: unknown): unknown {
  if (typeof value === 'number') return roundTo(value, 2);
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, rounded(inner)]));
}

function seedOf(fileName: string): number {
  let seed = 7;
  for (const letter of fileName) seed = (seed * 31 + (letter.codePointAt(0) ?? 0)) % 1_000_003;
  return seed;
}
