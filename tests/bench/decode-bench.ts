/**
 * How fast are the track readers, and how much memory do they need, beside independent ones? And how
 * long does an own factor take?
 *
 * Writes one invented flight of 200,000 fixes as IGC and as GPX and reads each with our reader and
 * with a library, every reader in a process of its own, so that peaks of memory do not mix. The
 * tree-building GPX pair takes a minute and some gigabytes; `-- --quick` leaves it out, and
 * `-- --fixes N` takes another size. Prints a table.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { gpx } from '@tmcw/togeojson';
import { DOMParser } from '@xmldom/xmldom';
import IGCParser from 'igc-parser';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import type { Comparison } from '../../src/calibration/comparison.ts';
import { groupFactors, type GroupedComparison } from '../../src/calibration/group-factors.ts';
import type { LogRatio } from '../../src/calibration/log-ratio.ts';
import { predictNextRatio } from '../../src/calibration/predictive.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { flyLandings } from '../calibration/simulated-pilot.ts';
import { decodeUnpacked } from '../../src/track/decode-track.ts';
import type { Track } from '../../src/track/track.ts';
import { inventFixes, writeInventedGpx, writeInventedIgc } from '../track/invented-log.ts';

const SEED = 17;
const START_S = Date.UTC(2026, 5, 7, 6) / 1000;
/** Runs in one process: the first is what a user waits for, the best is what the code can do. */
const RUNS = 3;

type Format = 'igc' | 'gpx';

interface Contender {
  readonly name: string;
  readonly format: Format;
  /** Reads the bytes and says how many fixes came out. */
  readonly read: (bytes: Uint8Array) => number;
  readonly runs: number;
}

const CONTENDERS: readonly Contender[] = [
  { name: 'ours', format: 'igc', read: (bytes) => decoded(bytes).length, runs: RUNS },
  { name: 'ours, cleaned', format: 'igc', read: (bytes) => cleaned(decoded(bytes)), runs: RUNS },
  { name: 'igc-parser', format: 'igc', read: readByIgcParser, runs: RUNS },
  { name: 'ours', format: 'gpx', read: (bytes) => decoded(bytes).length, runs: RUNS },
  { name: 'ours, cleaned', format: 'gpx', read: (bytes) => cleaned(decoded(bytes)), runs: RUNS },
  { name: 'xmldom + togeojson', format: 'gpx', read: readByTree, runs: 1 },
];

function decoded(bytes: Uint8Array): Track {
  const result = decodeUnpacked(bytes, 'bench');
  if (!result.ok) throw new Error(result.problems[0].message);
  return result.value.track;
}

function cleaned(track: Track): number {
  return applyCleaning(track, cleanTrack(track)).length;
}

function readByIgcParser(bytes: Uint8Array): number {
  return IGCParser.parse(new TextDecoder('latin1').decode(bytes)).fixes.length;
}

function readByTree(bytes: Uint8Array): number {
  const document = new DOMParser().parseFromString(new TextDecoder().decode(bytes), 'text/xml');
  const geometry = gpx(document).features[0].geometry;
  return geometry.type === 'LineString' ? geometry.coordinates.length : 0;
}

interface Measured {
  readonly fixes: number;
  readonly firstMs: number;
  readonly bestMs: number;
  readonly peakMb: number;
}

/** Runs one contender in this process and prints what was measured as JSON. */
function runChild(index: number, file: string): void {
  const contender = CONTENDERS[index];
  const bytes = new Uint8Array(readFileSync(file));
  const times: number[] = [];
  let fixes = 0;
  let peakMb = 0;
  for (let run = 0; run < contender.runs; run++) {
    const began = performance.now();
    fixes = contender.read(bytes);
    times.push(performance.now() - began);
    // Later runs would add garbage of the earlier ones. maxRSS counts kilobytes.
    if (run === 0) peakMb = process.resourceUsage().maxRSS / 1024;
  }
  const measured: Measured = {
    fixes,
    firstMs: times[0],
    bestMs: Math.min(...times),
    peakMb,
  };
  process.stdout.write(JSON.stringify(measured));
}

function runParent(fixCount: number, quick: boolean): void {
  const folder = mkdtempSync(join(tmpdir(), 'decode-bench-'));
  const files: Record<Format, string> = {
    igc: join(folder, 'flight.igc'),
    gpx: join(folder, 'flight.gpx'),
  };
  try {
    const fixes = inventFixes(fixCount, SEED, START_S);
    writeFileSync(files.igc, writeInventedIgc(fixes));
    writeFileSync(files.gpx, writeInventedGpx(fixes));
    console.log(`${fixCount} invented fixes, seed ${SEED}; Node ${process.versions.node}`);
    console.log(row(['format', 'reader', 'first ms', 'best ms', 'kfix/s', 'MB/s', 'peak MB', 'x']));
    for (const format of ['igc', 'gpx'] as const) {
      let oursMs = NaN;
      CONTENDERS.forEach((contender, index) => {
        if (contender.format !== format || (quick && contender.read === readByTree)) return;
        const measured = measureInChild(index, files[format]);
        if (measured.fixes !== fixCount) {
          throw new Error(`${contender.name} read ${measured.fixes} of ${fixCount} fixes`);
        }
        if (Number.isNaN(oursMs)) oursMs = measured.firstMs;
        const megabytes = statSync(files[format]).size / 1e6;
        console.log(tableRow(contender, measured, megabytes, oursMs));
      });
    }
    console.log(factorRows().join('\n'));
    console.log('kfix/s, MB/s and x (time over ours) are of the first run, as a user meets it.');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A bound from 50 landings, and the factors of six groups with 200, each the first time and the best of ten. */
function factorRows(): string[] {
  const pilot = { mean: 0.05, spread: 0.18, dayShare: 0.3 };
  const landings = flyLandings(pilot, 50, createRandom(SEED));
  const grouped = Array.from({ length: 6 }, (_, g): GroupedComparison[] =>
    flyLandings(pilot, 33, createRandom(SEED + g)).map((landing) => ({
      comparison: comparisonOf(landing),
      aeroplane: `aeroplane ${g >> 1}`,
      surface: g % 2 === 0 ? 'dry' : 'wet',
    })),
  ).flat();
  return [
    timesRow('of 50 landings', () => predictNextRatio(landings).quantile(0.95)),
    timesRow('of six groups', () => groupFactors('landing-roll', grouped)),
  ];
}

function comparisonOf({ logRatio, sd, dayKey, kind }: LogRatio): Comparison {
  const value = Math.exp(logRatio);
  return {
    ...{ quantity: 'landing-roll', dayKey, why: 'simulated', factorSet: null },
    ratio: { value, low: value * Math.exp(-1.645 * sd), high: value * Math.exp(1.645 * sd) },
    log: { value: logRatio, sd },
    role: kind === 'value' ? 'counts' : 'upper-bound',
  };
}

function timesRow(what: string, run: () => unknown): string {
  const times = Array.from({ length: 10 }, () => {
    const startMs = performance.now();
    run();
    return performance.now() - startMs;
  });
  return row(['factor', what, times[0].toFixed(0), Math.min(...times).toFixed(0)]);
}

function measureInChild(index: number, file: string): Measured {
  const child = spawnSync(
    process.execPath,
    ['--max-old-space-size=6000', process.argv[1], '--child', String(index), '--file', file],
    { encoding: 'utf8', maxBuffer: 1 << 20 },
  );
  if (child.status !== 0) throw new Error(`reader ${index} failed: ${child.stderr}`);
  return JSON.parse(child.stdout) as Measured;
}

function tableRow(
  contender: Contender,
  measured: Measured,
  megabytes: number,
  oursMs: number,
): string {
  const seconds = measured.firstMs / 1000;
  return row([
    contender.format,
    contender.name,
    measured.firstMs.toFixed(0),
    measured.bestMs.toFixed(0),
    (measured.fixes / 1000 / seconds).toFixed(0),
    (megabytes / seconds).toFixed(1),
    measured.peakMb.toFixed(0),
    (measured.firstMs / oursMs).toFixed(1),
  ]);
}

function row(cells: readonly string[]): string {
  const [format, name, ...numbers] = cells;
  return `${format.padEnd(8)}${name.padEnd(20)}${numbers.map((cell) => cell.padStart(10)).join('')}`;
}

const { values } = parseArgs({
  options: {
    child: { type: 'string' },
    file: { type: 'string' },
    fixes: { type: 'string', default: '200000' },
    quick: { type: 'boolean', default: false },
  },
});
if (values.child !== undefined && values.file !== undefined) {
  runChild(Number(values.child), values.file);
} else {
  runParent(Number(values.fixes), values.quick);
}
