/** The counted cells as the words and tables of docs/accuracy.md. */
import { boundOf, type Cell } from './accuracy-cells.ts';
import type { IndependentCell } from './accuracy-independent.ts';
import { tableHead, tableRow, type Tally, type WithDoubt } from './accuracy-tally.ts';
import { QUANTITIES, type QuantityName } from './accuracy-trials.ts';

const OUTCOMES = [
  'full-stop',
  'touch-and-go',
  'stop-and-go',
  'go-around',
  'low-pass',
  'overflight',
  'undetermined',
];

/** Touchdown, cell by cell: error, bound, coverage, width, penalty. */
export function touchdownTable(what: string, cells: readonly Cell[]): string {
  const heads = ['landings', 'error', 'bound', 'ours / bound', 'holds', 'width', 'penalty', 'und.'];
  const lines = cells.map((cell) => {
    const tally = cell.tallies.touchdown;
    const bound = boundOf(cell);
    return tableRow([
      cell.name,
      String(tally.count),
      errorText(tally),
      bound ? `${bound.median.value.toFixed(1)} ± ${bound.median.doubt.toFixed(1)} m` : '-',
      bound ? `${bound.ratio.value.toFixed(2)} ± ${bound.ratio.doubt.toFixed(2)}` : '-',
      coverageText(tally),
      tally.count ? `${tally.width().toFixed(0)} m` : '-',
      tally.count ? tally.penalty().toFixed(0) : '-',
      String(tally.undetermined),
    ]);
  });
  return [tableHead([what, ...heads]), ...lines].join('\n');
}

const NAMES: Readonly<Record<QuantityName, string>> = {
  touchdown: 'touchdown',
  roll: 'ground roll',
  stop: 'stop',
  'lift-off': 'lift-off',
  lowest: 'lowest height of a go-around',
};

/** The other quantities, one table for each: error, coverage, width, penalty. */
export function quantityTables(cells: readonly Cell[], names: readonly QuantityName[]): string {
  return names
    .map((name) => {
      const lines = cells.map(({ name: log, tallies }) =>
        tableRow([log, ...quantityCells(tallies[name])]),
      );
      const heads = [NAMES[name], 'measured', 'error', 'holds', 'width', 'penalty', 'und.'];
      return [tableHead(heads), ...lines].join('\n');
    })
    .join('\n\n');
}

/** All quantities of independent flights, one line for each log and quantity. */
export function independentTable(cells: readonly IndependentCell[]): string {
  const heads = ['log', 'quantity', 'measured', 'error', 'holds', 'width', 'penalty', 'und.'];
  const lines = cells.flatMap((cell) =>
    QUANTITIES.filter((name) => cell.tallies[name].count > 0).map((name) =>
      tableRow([cell.name, NAMES[name], ...quantityCells(cell.tallies[name])]),
    ),
  );
  return [tableHead(heads), ...lines].join('\n');
}

/** What went wrong with independent flights, in one sentence a log. */
export function independentWrongs(cells: readonly IndependentCell[]): string {
  return cells
    .map(({ name, events, wrong }) => {
      const list = wrong.length > 0 ? ` (${[...new Set(wrong)].join('; ')})` : '';
      return `${name}: ${wrong.length} of ${events} events missed, misnamed or invented${list}.`;
    })
    .join(' ');
}

/** How each true outcome was named. */
export function confusionTable(counts: ReadonlyMap<string, ReadonlyMap<string, number>>): string {
  const truths = OUTCOMES.filter((truth) => counts.has(truth));
  const lines = truths.map((truth) => {
    const row = counts.get(truth) ?? new Map<string, number>();
    const named = OUTCOMES.map((name) => row.get(name) ?? 0);
    const all = [...row.values()].reduce((sum, each) => sum + each, 0);
    const rest = all - named.reduce((sum, each) => sum + each, 0);
    const share = (named[OUTCOMES.indexOf(truth)] / all) * 100;
    return tableRow([truth, ...named.map(String), String(rest), `${share.toFixed(1)} %`]);
  });
  return [tableHead(['truth, found as', ...OUTCOMES, 'none or two', 'right']), ...lines].join('\n');
}

function quantityCells(tally: Tally): string[] {
  const { count } = tally;
  return [
    String(count),
    errorText(tally),
    coverageText(tally),
    count ? `${digits(tally.width())} m` : '-',
    count ? digits(tally.penalty()) : '-',
    String(tally.undetermined),
  ];
}

function errorText(tally: Tally): string {
  if (tally.count === 0) return '-';
  return `${doubtful(tally.error(0.5))} / ${doubtful(tally.error(0.9))} m`;
}

function doubtful({ value, doubt }: WithDoubt): string {
  return `${value.toFixed(1)} ± ${doubt.toFixed(1)}`;
}

function coverageText(tally: Tally): string {
  if (tally.count === 0) return '-';
  const { value, doubt } = tally.coverage();
  return `${(100 * value).toFixed(1)} % ± ${(100 * doubt).toFixed(1)}`;
}

function digits(value: number): string {
  return value.toFixed(value < 20 ? 1 : 0);
}
