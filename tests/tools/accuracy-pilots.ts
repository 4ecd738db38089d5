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
import { COMMON_SHARE, touchdownDispersion } from '../../src/calibration/touchdown-dispersion.ts';
import { Z90 } from '../../src/result.ts';
import { readFolder } from './accuracy-independent.ts';
import { teachIndependent } from './taught-independent.ts';
import { LOGS, type Log } from './accuracy-logs.ts';
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

/** Figures of all pilots measured by the same number of marks. */
class Row {
  readonly touchdown = new Tally();
  readonly roll = new Tally();
  readonly #meanErrors: number[] = [];
  readonly #driftErrors: number[] = [];
  readonly #spreads: number[] = [];
  #middlesHeld = 0;

  add(seasons: readonly (readonly Judged[])[]): void {
    for (const { touchdown, truthM, roll } of seasons.flat()) {
      this.touchdown.add(touchdown, truthM);
      if (roll) this.roll.add(roll.found, roll.truthM);
    }
    if (seasons.some((season) => season.length < 5)) return;
    const [before, after] = seasons.map((season) => mean(season.map(errorOf)));
    this.#meanErrors.push((before + after) / 2);
    this.#driftErrors.push(after - before);
    for (const season of seasons) {
      if (isMiddleHeld(season)) this.#middlesHeld++;
      const found = spread(season.map(({ touchdown }) => touchdown.value));
      this.#spreads.push(found / spread(season.map(({ truthM }) => truthM)));
    }
  }

  cells(): string[] {
    return [
      ...touchdownCells(this.touchdown),
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

function tableOf(log: Log, changes: boolean): string {
  const rows = MARKED.map((marked) => ({ marked, row: new Row() }));
  for (let k = 0; k < PILOTS; k++) {
    const book = flyPilot(FIRST_SEED + k, EACH_SEASON, changes);
    for (const { marked, row } of rows) row.add(judgeTaught(book, marked, log));
  }
  return [
    tableHead([
      ...['marked', 'landings', 'touchdown', 'holds', 'width', 'penalty', 'roll'],
      ...['mean error of a pilot', 'error of the drift', 'middle holds', 'spread'],
    ]),
    ...rows.map(({ marked, row }) => tableRow([String(marked), ...row.cells()])),
  ].join('\n');
}

function errorOf({ touchdown, truthM }: Judged): number {
  return touchdown.value - truthM;
}

/** Whether the band of a season's middle holds it, by the measuring errors alone: the landings themselves are the same. */
function isMiddleHeld(season: readonly Judged[]): boolean {
  const places = season.map(({ touchdown }) => ({ alongM: touchdown, crossM: touchdown }));
  const along = touchdownDispersion(places)?.along;
  if (!along) return false;
  const independent = ((1 - COMMON_SHARE) * along.measuringSd ** 2) / season.length;
  const sd = Math.sqrt(COMMON_SHARE * along.measuringSd ** 2 + independent);
  return Math.abs(mean(season.map(errorOf))) <= Z90 * sd;
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
  `Made by \`npm run accuracy-pilots -- --pilots ${PILOTS}\`. All pilots are simulated and invented: ${PILOTS} of them, by seed from ${FIRST_SEED} on, each with an aeroplane and habits of hand and foot that keep to a tenth to a third of the population's range. Each flies ${MARKABLE} landings, of which none, three or all are marked to ${MANNER.markSdM} m, and then two seasons of ${EACH_SEASON} landings that are judged and teach nothing. Strips, winds and receivers are drawn anew each time.`,
  '',
  "Touchdown and roll: error, median / 90th percentile. Holds: how often the 90 % band holds the truth, with its standard error. Penalty: mean width, and 20 for every metre outside. Mean error of a pilot, and error of the drift from the first season to the second: root mean square over pilots. Middle holds: how often the 90 % band of the middle of a season's touchdowns holds it, with half of the measuring error's variance taken as common to all of them. Spread: standard deviation of the measured touchdowns of a season over that of the true ones, median.",
  '',
];
for (const log of LOGS.filter(({ intervalS, quiet }) => intervalS === 1 && !quiet)) {
  lines.push(
    `## ${log.name}`,
    '',
    '### Habits that stay',
    '',
    tableOf(log, false),
    '',
    '### Other habits in the second season',
    '',
    tableOf(log, true),
    '',
  );
}
const folder = values.truth ? resolve(process.env['INIT_CWD'] ?? '.', values.truth) : 'tests/truth';
const flights = readFolder(folder);
lines.push(
  '## Independent flights',
  '',
  `The ${flights.length} flights of ${values.truth ?? 'tests/truth'}, of several aeroplanes and hands taken as those of one pilot: half of them drawn to be marked, the others judged, again and again.`,
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
  'Marks of the old habits do not bend the second season: its figures stay as good as without any, and so does the drift. How this compares with habits learned from the logs alone: [decision 0062](decisions/0062-only-known-touchdowns-teach.md).',
);
await writeMarkdown('docs/accuracy-pilots.md', lines.join('\n'));
