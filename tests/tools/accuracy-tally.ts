/** Errors, coverage and widths of a measured quantity against its truth, counted up for one row of a table. */
import { isUndetermined, type Measured } from '../../src/result.ts';

/** Metres a metre outside the band costs in the penalty. */
const OUTSIDE_COSTS = 20;

/** One quantity of one row. */
export class Tally {
  readonly #errors: number[] = [];
  readonly #widths: number[] = [];
  #held = 0;
  #penalty = 0;
  /** How often the quantity was undetermined. */
  undetermined = 0;

  /** Counts one measurement; throws where the truth is no number. */
  add(measured: Measured, truth: number): void {
    if (!Number.isFinite(truth)) throw new Error(`the truth is a number, not ${truth}`);
    if (isUndetermined(measured)) {
      this.undetermined++;
      return;
    }
    const width = measured.high - measured.low;
    const outside = Math.max(0, measured.low - truth, truth - measured.high);
    this.#errors.push(Math.abs(measured.value - truth));
    this.#widths.push(width);
    this.#penalty += width + OUTSIDE_COSTS * outside;
    if (outside === 0) this.#held++;
  }

  /** Cells: count, median / 90th percentile of the error, coverage with its standard error, median width, penalty. */
  cells(): string[] {
    const n = this.#errors.length;
    if (n === 0) return ['0', '-', '-', '-', '-'];
    const share = this.#held / n;
    const doubt = Math.sqrt((share * (1 - share)) / n);
    return [
      String(n),
      `${quantile(this.#errors, 0.5)} / ${quantile(this.#errors, 0.9)} m`,
      `${(100 * share).toFixed(0)} % ± ${(100 * doubt).toFixed(0)}`,
      `${quantile(this.#widths, 0.5)} m`,
      (this.#penalty / n).toFixed(0),
    ];
  }
}

/** One line of a Markdown table. */
export function tableRow(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}

/** Head of a Markdown table. */
export function tableHead(names: readonly string[]): string {
  return `${tableRow(names)}\n${tableRow(names.map(() => '---'))}`;
}

function quantile(list: readonly number[], p: number): string {
  return list.toSorted((a, b) => a - b)[Math.floor(p * list.length)].toFixed(1);
}
