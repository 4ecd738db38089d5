/**
 * How exact are the measurements, and how near is that to what the data allow? `npm run accuracy`
 * writes docs/accuracy.md and the pictures in docs/accuracy.
 *
 *   npm run accuracy [-- --landings 200] [--learn 1500] [--truth DIR] [--threads 2]
 *
 * Flights are drawn by seed from the simulator's own population (tests/synthetic), recorded by
 * receivers whose every error is drawn too, and measured like any log. `--landings`: judged flights
 * of each kind for every log. `--learn`: landings of other seeds from which the bound is learned
 * (bound.ts); 0 leaves the bound out. `--truth`: a further folder of flights flown elsewhere, as
 * tests/truth. 2,500 judged and 8,000 learned from take some three quarters of an hour on two
 * processors.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { cellsByClass, cellsByLog, confusionOf, boundOf, type Cell } from './accuracy-cells.ts';
import { independentCells, readFolder, RECEIVERS } from './accuracy-independent.ts';
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
  confusionTable,
  independentTable,
  independentWrongs,
  quantityTables,
  touchdownTable,
} from './accuracy-report.ts';
import type { Trial, TrialResult } from './accuracy-trials.ts';
import { learnBound, type LearnedBound } from './bound.ts';
import type { BoundSample } from './bound-features.ts';

/** Seeds of the judged flights of each kind; none is used for anything else. */
const JUDGED = { 'full-stop': 100_000, 'go-around': 200_000, 'take-off': 300_000 } as const;
const OTHER_OUTCOMES = {
  'touch-and-go': 400_000,
  'stop-and-go': 450_000,
  'low-pass': 500_000,
} as const;
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
    },
  });
  const landings = wholeNumber('landings', values.landings);
  const learn = wholeNumber('learn', values.learn);
  const threads = wholeNumber('threads', values.threads);
  const further = values.truth ? resolve(process.env['INIT_CWD'] ?? '.', values.truth) : null;
  const startedMs = Date.now();
  const run = (what: string, trials: readonly Trial[]): Promise<TrialResult[]> =>
    runTrials(import.meta.url, trials, threads, (done, of) => {
      if (done % Math.ceil(of / 10) === 0) {
        const minutes = (Date.now() - startedMs) / 60_000;
        console.log(`${what}: ${Math.round((100 * done) / of)} % (${minutes.toFixed(1)} min)`);
      }
    });

  const bound =
    learn > 0 ? await learnFrom(await run('learning flights', learningTrials(learn))) : null;
  const judged = await run('judged flights', judgedTrials(landings));
  const folders = [{ name: '`tests/truth`', folder: 'tests/truth' }];
  if (further) folders.push({ name: `\`${values.truth}\``, folder: further });
  const independent = folders.map(({ name, folder }) => independentText(name, folder));
  const minutes = ((Date.now() - startedMs) / 60_000).toFixed(0);
  writeReport(judged, bound, independent, { landings, learn, minutes, threads });
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

function judgedTrials(count: number): Trial[] {
  const all = LOGS.map((_, k) => k);
  const kinds = Object.entries(JUDGED) as [keyof typeof JUDGED, number][];
  const others = Object.entries(OTHER_OUTCOMES) as [keyof typeof OTHER_OUTCOMES, number][];
  const seeds = Array.from({ length: count }, (_, k) => k);
  return [
    ...kinds.flatMap(([flies, first]) =>
      seeds.map((k) => ({ seed: first + k, flies, logs: all, forBound: flies === 'full-stop' })),
    ),
    ...others.flatMap(([flies, first]) =>
      seeds.map((k) => ({ seed: first + k, flies, logs: [USUAL_LOG], forBound: false })),
    ),
  ];
}

function independentText(name: string, folder: string): string {
  const flights = readFolder(folder);
  const quiet = LOGS.findIndex((log) => log.quiet);
  const igc = LOGS.findIndex(({ format, intervalS }) => format === 'igc' && intervalS === 1);
  const cells = independentCells(flights, [USUAL_LOG, igc, quiet]);
  return `The ${flights.length} flights of ${name}, ${RECEIVERS} drawn receivers each.

${independentTable(cells)}

${independentWrongs(cells)}`;
}

interface RunFigures {
  readonly landings: number;
  readonly learn: number;
  readonly minutes: string;
  readonly threads: number;
}

function writeReport(
  judged: readonly TrialResult[],
  bound: LearnedBound | null,
  independent: readonly string[],
  figures: RunFigures,
): void {
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
  writeFileSync('docs/accuracy.md', report(byLog, groups, judged, independent, figures));
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

function report(
  byLog: readonly Cell[],
  groups: readonly { readonly heading: string; readonly cells: readonly Cell[] }[],
  judged: readonly TrialResult[],
  independent: readonly string[],
  { landings, learn, minutes, threads }: RunFigures,
): string {
  const full = judged.filter(({ truth }) => truth === 'full-stop');
  const lost = full.filter(({ found }) => found !== 'full-stop').length;
  return `# How exact the measurements are

Made by \`npm run accuracy -- --landings ${landings} --learn ${learn}\` in ${minutes} minutes on ${threads} threads. Errors are median / 90th percentile with their standard errors, in metres; "holds" is how often the 90 % band holds the truth; the penalty is the mean of the band's width plus 20 m for every metre by which the truth lies outside (lower is better); "und." counts what was left undetermined.

All flights here are invented: drawn by seed from the project's own simulator (\`tests/synthetic\`), with touchdown speeds of 10 to 34 m/s, firm, flown-on, held-off and floated arrivals, no braking to hard braking, slopes, gusts, and receivers with a wandering bias, white noise, smoothing and rounding. The same ${landings} flights stand behind every row; no choice in the program was made by looking at them. These are figures of a simulator. They say how well the measuring works where flights are like that, not how long anybody's landing is.

## Touchdown

![How far off the touchdown is, by log: dots are medians, ticks 90th percentiles, orange the bound](accuracy/by-log.svg)

${touchdownTable('log', byLog)}

Full stops not found, found twice or misnamed: ${lost} of ${full.length}.

**The bound** is the median error of an estimator that was shown landings of this very population (${learn} others, none of them judged here, in ${LOGS_EACH} logs each) and is given the log and our own posterior. Every receiver, aeroplane, hand and braking was drawn anew each time, so it has to live with the same ignorance. A still better one may exist, so the true bound is at most this. Nobody can have it for real flights, whose population nobody knows. A ratio of 1 would mean that nothing is left to gain here; below 1 there is chance in it.

![Share of landings whose touchdown is found at least so near](accuracy/shares.svg)

## By kind of landing

The landings logged as ${LOGS[USUAL_LOG].name}: by the mean deceleration from the brakes to 10 kt (drag and friction in it), by true airspeed at touchdown, and by how long the wheels were below 0.7 m before they touched. The bound does not know the class; it is the same estimator, judged on the landings of the class.

![How far off the touchdown is, by kind of landing](accuracy/by-class.svg)

${groups.map(({ heading, cells }) => touchdownTable(heading, filled(cells))).join('\n\n')}

![How often the 90 % band of the touchdown holds the truth, by log and by kind of landing](accuracy/coverage.svg)

Bands of a class can hold more or less often than nine times in ten although they hold on the whole: no band can know the class. Where they hold less, read them as that much weaker.

## The other quantities

The roll of full stops that ended in a standstill, the place where it ended, lift-off from a standing start, and the lowest height of a go-around (flown in one approach with nothing else that ties the heights: harder than in a whole flight).

${quantityTables(byLog, ['roll', 'stop', 'lift-off', 'lowest'])}

## Outcomes

${landings} drawn flights for each wish, as ${LOGS[USUAL_LOG].name}, one approach each with nothing else that ties the heights. Go-arounds begin 0.8 to 60 m up, low passes are 3 to 30 m high; a go-around begun too low to stay off the ground counts as the touch-and-go that it was, and a touch-and-go braked to a standstill is rightly found as a stop-and-go.

${confusionTable(confusionOf(judged, USUAL_LOG))}

## Independent flights

Flown in an independent flight-dynamics model (one type of aeroplane), not by our own simulator. Several receivers of one flight are no several landings: the standard errors are too small.

${independent.join('\n\n')}
`;
}

function wholeNumber(name: string, text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 0) {
    throw new Error(`--${name} is a whole number, not "${text}"`);
  }
  return value;
}
