/**
 * How exact are the measurements, and how near is that to what the data allow? `npm run accuracy`
 * writes docs/accuracy.md and the pictures in docs/accuracy.
 *
 *   npm run accuracy [-- --landings 200] [--learn 1500] [--truth DIR] [--threads 2] [--minutes M]
 *
 * Flights are drawn by seed from the simulator's own population (tests/synthetic), recorded by
 * receivers whose every error is drawn too, and measured like any log. `--landings`: judged landings
 * for every log, with a fifth as many flights of every other kind. `--learn`: landings of other
 * seeds from which the bound is learned (bound.ts); 0 leaves the bound out. `--truth`: a further
 * folder of flights flown elsewhere, as tests/truth. `--minutes`: judging stops after so long, and
 * the report says how many landings it came to. A judged landing costs about a seventh of a second of one
 * processor for all logs together (three times that on a busy machine), one that is learned from a
 * twentieth of a second.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { boundOf, cellsByClass, cellsByLog, type Cell } from './accuracy-cells.ts';
import { independentCells, readFolder, RECEIVERS } from './accuracy-independent.ts';
import { judgePasses, reliabilityTable } from './accuracy-contact.ts';
import { heldOffTable, judgeHeldOff } from './accuracy-held-off.ts';
import { LOGS, USUAL_LOG } from './accuracy-logs.ts';
import {
  drawCoverage,
  drawErrors,
  drawShares,
  type CoverageRow,
  type ErrorRow,
} from './accuracy-plots.ts';
import { isThread, runTrials, serveTrials } from './accuracy-pool.ts';
import {
  accuracyText,
  independentTable,
  independentWrongs,
  type ApartTables,
  type RunFigures,
} from './accuracy-report.ts';
import type { Trial, TrialResult } from './accuracy-trials.ts';
import { learnBound, type LearnedBound } from './bound.ts';
import type { BoundSample } from './bound-features.ts';
import { writeMarkdown } from './write-markdown.ts';
import type { TruthFlight } from '../truth/read-truth.ts';

/** First seeds of the judged flights of each kind; none is used for anything else. */
const JUDGED = 100_000;
const OTHER_FLIGHTS = {
  'go-around': 200_000,
  'take-off': 300_000,
  'touch-and-go': 400_000,
  'stop-and-go': 450_000,
  'low-pass': 500_000,
} as const;
/** Of these every log is judged, of the others the usual one. */
const EVERY_LOG: readonly string[] = ['go-around', 'take-off', 'touch-and-go'];
/** First seeds of the passes whose contact probability is judged: alone in their log, and in a whole flight. */
const PASSES_ALONE = 600_000;
const PASSES_TIED = 700_000;
/** First seed of the landings held off long. */
const HELD_OFF = 800_000;
/** A flight of each other kind for every so many landings. */
const OTHERS_EVERY = 5;
/** Seeds of the landings that the bound learns from. */
const LEARNED_FROM = 1_000_000;
/** Logs of each landing that the bound learns from: the population is wide, its receivers are too. */
const LOGS_EACH = 3;
const FOLDER = 'docs/accuracy';

if (isThread()) serveTrials();
else await main();

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      landings: { type: 'string', default: '200' },
      learn: { type: 'string', default: '1500' },
      truth: { type: 'string' },
      threads: { type: 'string', default: '2' },
      minutes: { type: 'string', default: '600' },
    },
  });
  const landings = wholeNumber('landings', values.landings);
  const learn = wholeNumber('learn', values.learn);
  const threads = wholeNumber('threads', values.threads);
  const further = values.truth ? resolve(process.env['INIT_CWD'] ?? '.', values.truth) : null;
  const folders = [{ name: '`tests/truth`', flights: readFolder('tests/truth') }];
  if (further) folders.push({ name: `\`${values.truth}\``, flights: readFolder(further) });
  const startedMs = Date.now();
  const untilMs = startedMs + 60_000 * wholeNumber('minutes', values.minutes);
  const run = (what: string, trials: readonly Trial[], endMs: number): Promise<TrialResult[]> =>
    runTrials(import.meta.url, trials, threads, endMs, (done, of) => {
      if (done % Math.ceil(of / 10) === 0) {
        const minutes = (Date.now() - startedMs) / 60_000;
        console.log(`${what}: ${Math.round((100 * done) / of)} % (${minutes.toFixed(1)} min)`);
      }
    });

  const bound =
    learn > 0
      ? await learnFrom(await run('learning flights', learningTrials(learn), Infinity))
      : null;
  const judged = await run('judged flights', judgedTrials(landings), untilMs);
  const tables = {
    contact: contactText(Math.ceil(landings / OTHERS_EVERY)),
    heldOff: heldOffText(Math.ceil(landings / OTHERS_EVERY)),
  };
  const independent = folders.map(({ name, flights }) => independentText(name, flights));
  const minutes = ((Date.now() - startedMs) / 60_000).toFixed(0);
  const came = new Set(
    judged.filter(({ seed }) => seed < JUDGED + landings).map(({ seed }) => seed),
  );
  await writeReport(judged, bound, tables, independent, {
    ...{ landings: came.size, learn, minutes, threads },
    ...{ logsEach: LOGS_EACH, others: Math.ceil(came.size / OTHERS_EVERY) },
  });
}

function learningTrials(count: number): Trial[] {
  return Array.from({ length: count }, (_, k) => ({
    seed: LEARNED_FROM + k,
    flies: 'full-stop' as const,
    // In turn, so that every log is learned from equally often and with every other.
    logs: Array.from(
      { length: LOGS_EACH },
      (__, j) => (k + j * (1 + (k % 4))) % LOGS.length,
    ).filter((log, j, all) => all.indexOf(log) === j),
    forBound: true,
  }));
}

async function learnFrom(results: readonly TrialResult[]): Promise<LearnedBound> {
  const samples = results
    .map(({ sample }) => sample)
    .filter((each): each is BoundSample => each !== null);
  console.log(`learning the bound from ${samples.length} logs`);
  return Promise.resolve(learnBound(samples, (line) => console.log(line)));
}

/** In such an order that a first part of the list has all kinds in the same shares. */
function judgedTrials(count: number): Trial[] {
  const all = LOGS.map((_, k) => k);
  const others = Object.entries(OTHER_FLIGHTS) as [keyof typeof OTHER_FLIGHTS, number][];
  return Array.from({ length: count }, (_, k) => k).flatMap((k) => {
    const landing: Trial = { seed: JUDGED + k, flies: 'full-stop', logs: all, forBound: true };
    if (k % OTHERS_EVERY !== 0) return [landing];
    const other = others.map(([flies, first]): Trial => {
      const everyLog = EVERY_LOG.includes(flies);
      const seed = first + k / OTHERS_EVERY;
      return { seed, flies, logs: everyLog ? all : [USUAL_LOG], forBound: false };
    });
    return [landing, ...other];
  });
}

function independentText(name: string, flights: readonly TruthFlight[]): string {
  const quiet = LOGS.findIndex((log) => log.quiet);
  const igc = LOGS.findIndex(({ format, intervalS }) => format === 'igc' && intervalS === 1);
  const cells = independentCells(flights, [USUAL_LOG, igc, quiet]);
  return `The ${flights.length} flights of ${name}, ${RECEIVERS} drawn receivers each.

${independentTable(cells)}

${independentWrongs(cells)}`;
}

async function writeReport(
  judged: readonly TrialResult[],
  bound: LearnedBound | null,
  tables: ApartTables,
  independent: readonly string[],
  figures: RunFigures,
): Promise<void> {
  const byLog = cellsByLog(judged, bound);
  const classes = cellsByClass(judged, USUAL_LOG, bound);
  const groups = [
    { heading: 'braking', cells: classes.brakes },
    { heading: 'size', cells: classes.size },
    { heading: 'arrival', cells: classes.arrival },
  ];
  mkdirSync(FOLDER, { recursive: true });
  const draw = (name: string, svg: string): void => writeFileSync(`${FOLDER}/${name}.svg`, svg);
  draw(
    'by-log',
    drawErrors('Touchdown: how far off, by log', [{ heading: '', rows: byLog.map(errorRow) }]),
  );
  draw(
    'by-class',
    drawErrors(
      `Touchdown: how far off, by landing (${LOGS[USUAL_LOG].label})`,
      groups.map(({ heading, cells }) => ({ heading, rows: filled(cells).map(errorRow) })),
    ),
  );
  draw(
    'coverage',
    drawCoverage('Touchdown: how often the 90 % band holds the truth', [
      { heading: 'log', rows: filled(byLog).map(coverageRow) },
      ...groups.map(({ heading, cells }) => ({ heading, rows: filled(cells).map(coverageRow) })),
    ]),
  );
  draw(
    'shares',
    drawShares('Touchdown: share of landings found at least so near', 100, curves(byLog)),
  );
  await writeMarkdown(
    'docs/accuracy.md',
    accuracyText(byLog, groups, judged, tables, independent, figures),
  );
}

/** Tables of stated contact probabilities against what happened, twice as many passes alone as in whole flights. */
function contactText(count: number): string {
  const slow = LOGS.findIndex(({ format, intervalS }) => format === 'gpx' && intervalS === 4);
  const cells = [
    { name: 'alone in its log', seed: PASSES_ALONE, alone: true, log: USUAL_LOG, count: 2 * count },
    { name: 'alone in its log', seed: PASSES_ALONE, alone: true, log: slow, count: 2 * count },
    { name: 'in a whole flight', seed: PASSES_TIED, alone: false, log: USUAL_LOG, count },
  ];
  return cells
    .map(({ name, seed, alone, log, count: passes }) =>
      reliabilityTable(`${name}, ${LOGS[log].name}`, judgePasses(seed, passes, alone, log)),
    )
    .join('\n\n');
}

function heldOffText(count: number): string {
  const igc = LOGS.findIndex(({ format, intervalS }) => format === 'igc' && intervalS === 1);
  const logs = [USUAL_LOG, igc, LOGS.findIndex((log) => log.quiet)];
  return heldOffTable(judgeHeldOff(HELD_OFF, count, logs), logs);
}

function filled(cells: readonly Cell[]): Cell[] {
  return cells.filter(({ tallies }) => tallies.touchdown.count > 0);
}

function errorRow(cell: Cell): ErrorRow {
  const { touchdown } = cell.tallies;
  return {
    name: shortName(cell.name),
    medianM: touchdown.error(0.5).value,
    p90M: touchdown.error(0.9).value,
    boundM: boundOf(cell)?.median.value ?? null,
  };
}

function coverageRow(cell: Cell): CoverageRow {
  const { value, doubt } = cell.tallies.touchdown.coverage();
  return { name: shortName(cell.name), share: value, doubt };
}

function shortName(name: string): string {
  return LOGS.find((log) => log.name === name)?.label ?? name;
}

function curves(byLog: readonly Cell[]): { name: string; values: number[]; bound: boolean }[] {
  const wanted = LOGS.map((log, k) => ({ log, k })).filter(({ log }) => log.intervalS === 1);
  return wanted.flatMap(({ log, k }) => {
    const { pairs } = byLog[k];
    const ours = { name: log.label, values: pairs.map(([found]) => found), bound: false };
    const best = { name: 'bound', values: pairs.map(([, learned]) => learned), bound: true };
    return pairs.length === 0
      ? []
      : k === USUAL_LOG
        ? [ours, { ...best, name: `bound, ${log.label}` }]
        : [ours];
  });
}

function wholeNumber(name: string, text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 0) {
    throw new Error(`--${name} is a whole number, not "${text}"`);
  }
  return value;
}
