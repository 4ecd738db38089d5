/**
 * What do known touchdowns teach, and do they bend what a season shows? `npm run accuracy-pilots` writes
 * docs/accuracy-pilots.md.
 *
 *   npm run accuracy-pilots [-- --pilots 40] [--truth DIR]
 *
 * A pilot costs some four seconds of one processor. `--truth`: a folder of independent flights in place of
 * tests/truth.
 */
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { MANNER } from '../../src/events/manner-tuning.ts';
import { COMMON_SHARES } from '../../src/calibration/repeated-error.ts';
import { touchdownDispersion } from '../../src/calibration/touchdown-dispersion.ts';
import { Z90 } from '../../src/result.ts';
import { readFolder } from './accuracy-independent.ts';
import { HALVINGS, teachIndependent } from './taught-independent.ts';
import { LOGS, type Log } from './accuracy-logs.ts';
import { PilotBands } from './accuracy-pilot-bands.ts';
import { quantileWithDoubt, tableHead, tableRow, Tally } from './accuracy-tally.ts';
import { flyPilot, judgeTaught, MARKABLE, type Judged } from './taught-pilots.ts';
import { writeMarkdown } from './write-markdown.ts';

const { values } = parseArgs({
  options: { pilots: { type: 'string', default: '40' }, truth: { type: 'string' } },
});
const PILOTS = Number(values.pilots);
/** Seeds of pilots; none is used for anything else. */
const FIRST_SEED = 120_000;
const EACH_SEASON = 12;
const MARKED = [0, 3, MARKABLE];
/** As many as half of the independent flights hold in any draw. */
const FEW = [0, 4];

/** What all pilots' landings give by one number of marks. */
class Row {
  readonly touchdown = new Tally();
  readonly roll = new Tally();
  readonly #held: number[] = [];
  readonly #penalties: number[] = [];
  readonly #meanErrors: number[] = [];
  readonly #driftErrors: number[] = [];
  readonly #spreads: number[] = [];
  #middlesHeld = 0;

  /** One pilot; only the second season counts, except in the drift. */
  add(before: readonly Judged[], season: readonly Judged[]): void {
    const own = new Tally();
    for (const { touchdown, truthM, roll } of season) {
      this.touchdown.add(touchdown, truthM);
      own.add(touchdown, truthM);
      if (roll) this.roll.add(roll.found, roll.truthM);
    }
    if (before.length < 5 || season.length < 5) return;
    this.#held.push(own.coverage().value);
    this.#penalties.push(own.penalty());
    const error = mean(season.map(errorOf));
    this.#meanErrors.push(error);
    this.#driftErrors.push(error - mean(before.map(errorOf)));
    if (isMiddleHeld(season)) this.#middlesHeld++;
    const found = spread(season.map(({ touchdown }) => touchdown.value));
    this.#spreads.push(found / spread(season.map(({ truthM }) => truthM)));
  }

  /** How much each pilot's penalty differs from that without marks, with its standard error. */
  againstNone(none: Row): string {
    const changes = this.#penalties.map((each, k) => each - none.#penalties[k]);
    return `${signed(mean(changes))} ± ${errorOfMean(changes).toFixed(1)}`;
  }

  cells(): string[] {
    return [
      String(this.touchdown.count),
      errorText(this.touchdown),
      `${(100 * mean(this.#held)).toFixed(1)} % ± ${(100 * errorOfMean(this.#held)).toFixed(1)}`,
      `${this.touchdown.width().toFixed(0)} m`,
      this.touchdown.penalty().toFixed(0),
      errorText(this.roll),
      `${rootMeanSquare(this.#meanErrors).toFixed(1)} m`,
      `${rootMeanSquare(this.#driftErrors).toFixed(1)} m`,
      `${((100 * this.#middlesHeld) / this.#spreads.length).toFixed(0)} %`,
      quantileWithDoubt(this.#spreads, 0.5).value.toFixed(2),
    ];
  }
}

function touchdownCells(tally: Tally): string[] {
  const { value, doubt } = tally.coverage();
  return [
    String(tally.count),
    errorText(tally),
    `${(100 * value).toFixed(1)} % ± ${(100 * doubt).toFixed(1)}`,
    `${tally.width().toFixed(0)} m`,
    tally.penalty().toFixed(0),
  ];
}

function errorText(tally: Tally): string {
  return `${tally.error(0.5).value.toFixed(1)} / ${tally.error(0.9).value.toFixed(1)} m`;
}

/** The table of what marks teach and, where habits stay, that of the bands of what both seasons say. */
function tablesOf(log: Log, changes: boolean): string {
  const rows = MARKED.map((marked) => ({ marked, row: new Row(), bands: new PilotBands() }));
  for (let k = 0; k < PILOTS; k++) {
    const book = flyPilot(FIRST_SEED + k, EACH_SEASON, changes);
    for (const { marked, row, bands } of rows) {
      const [before, season] = judgeTaught(book, marked, log);
      row.add(before, season);
      if (!changes) bands.add([...before, ...season], book.later);
    }
  }
  const [{ row: none }] = rows;
  return [
    tableHead([
      ...['marked', 'landings', 'touchdown', 'holds', 'width', 'penalty', 'roll'],
      ...[
        'mean error of a pilot',
        'error of the drift',
        'middle holds',
        'spread',
        'change of a pilot',
      ],
    ]),
    ...rows.map(({ marked, row }) =>
      tableRow([String(marked), ...row.cells(), row === none ? '' : row.againstNone(none)]),
    ),
    ...(changes
      ? []
      : [
          '',
          tableHead(['marked', ...PilotBands.heading]),
          ...rows.map(({ marked, bands }) => tableRow([String(marked), ...bands.cells()])),
        ]),
  ].join('\n');
}

function signed(value: number): string {
  return `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`;
}

/** Standard error of a mean over pilots: the landings of one are not independent. */
function errorOfMean(values: readonly number[]): number {
  return Math.sqrt(spread(values) ** 2 / (values.length - 1));
}

function errorOf({ touchdown, truthM }: Judged): number {
  return touchdown.value - truthM;
}

/** Whether the band of a season's middle holds it, by the measuring errors alone: the landings themselves are the same. */
function isMiddleHeld(season: readonly Judged[]): boolean {
  const places = season.map(({ touchdown }) => ({ alongM: touchdown, crossM: touchdown }));
  const along = touchdownDispersion(places)?.along;
  if (!along) return false;
  const common = COMMON_SHARES.along * along.measuringSd ** 2;
  const own = (along.measuringSd ** 2 - common) / season.length;
  return Math.abs(mean(season.map(errorOf))) <= Z90 * Math.sqrt(common + own);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, each) => sum + each, 0) / values.length;
}

function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(mean(values.map((each) => each ** 2)));
}

function spread(values: readonly number[]): number {
  const centre = mean(values);
  return rootMeanSquare(values.map((each) => each - centre));
}

const lines = [
  '# What known touchdowns teach',
  '',
  `Made by \`npm run accuracy-pilots -- --pilots ${PILOTS}\`. All pilots are simulated and invented: ${PILOTS} of them, by seed from ${FIRST_SEED} on, each with an aeroplane and habits of hand and foot that keep to a tenth to a third of the population's range. Each flies ${MARKABLE} landings, of which none, three or all are marked to ${MANNER.markSdM} m with no effort entered, then two seasons of ${EACH_SEASON} landings that teach nothing. The second season is judged. Strips, winds and receivers are drawn anew each time.`,
  '',
  "Touchdown and roll: error, median / 90th percentile. Holds: how often the 90 % band holds the truth, with its standard error over pilots. Penalty: mean width, and 20 for every metre outside. Mean error of a pilot, and error of the drift from the first season to the second: root mean square over pilots. Middle holds: how often the 90 % band of the middle of the season's touchdowns holds it by the measuring errors alone, half of whose variance is taken as common to all. Spread: standard deviation of the measured touchdowns over that of the true ones, median. Change of a pilot: of the penalty against no marks, mean over pilots with its standard error.",
  '',
  "Where habits stay, a second table asks what both seasons together say of the pilot, in a direction of no matter which strip, every landing on a day of its own and 150 m of roll expected of each: how often the 90 % bands hold the pilot's own figure, by 100 landings more that nobody logs, and their median width (middle touchdown of the dispersion; touchdown, roll and own 95 % length of the length needed; typical ratio of rolls). Then how many of those 100 stay within the length that 95 of 100 need and below the factor of rolls, and both figures over what the pilot truly needs, mean over pilots. Pilots with fewer than five measured rolls to a stop are left out.",
  '',
];
for (const log of LOGS.filter(({ intervalS, quiet }) => intervalS === 1 && !quiet)) {
  lines.push(
    `## ${log.name}`,
    '',
    '### Habits that stay',
    '',
    tablesOf(log, false),
    '',
    '### Other habits in the second season',
    '',
    tablesOf(log, true),
    '',
  );
}
const folder = values.truth ? resolve(process.env['INIT_CWD'] ?? '.', values.truth) : 'tests/truth';
const flights = readFolder(folder);
lines.push(
  '## Independent flights',
  '',
  `The ${flights.length} flights of ${values.truth ?? 'tests/truth'}, of several aeroplanes and hands taken as those of one pilot: half of them drawn to be marked, the others judged, ${HALVINGS} times over: the standard errors here take each as new, and are too small.`,
  '',
  tableHead(['log', 'marked', 'landings', 'touchdown', 'holds', 'width', 'penalty']),
  ...LOGS.flatMap((log, k) =>
    log.intervalS === 1
      ? teachIndependent(flights, k, FEW).map((tally, m) =>
          tableRow([log.name, String(FEW[m]), ...touchdownCells(tally)]),
        )
      : [],
  ),
  '',
  'Habits learned from the logs alone, and what marks may not teach: [decision 0062](decisions/0062-only-known-touchdowns-teach.md).',
);
await writeMarkdown('docs/accuracy-pilots.md', lines.join('\n'));
