/** Errors, coverage and widths of a measured quantity against its truth, counted up for one row of a table. */
import { isUndetermined, type Measured } from '../../src/result.ts';

/** Metres a metre outside the band costs in the penalty. */
const OUTSIDE_COSTS = 20;

/** A figure with its standard error. */
export interface WithDoubt {
  readonly value: number;
  readonly doubt: number;
}

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

  /** How many were measured. */
  get count(): number {
    return this.#errors.length;
  }

  /** Median and 90th percentile of the error's size, with standard errors. */
  error(share: 0.5 | 0.9): WithDoubt {
    return quantileWithDoubt(this.#errors, share);
  }

  /**
   * Share of the bands that hold the truth, 0 to 1. The standard error counts two more that hold and
   * two more that do not, so that few bands that all hold are not taken for a proof (Agresti and
   * Coull, 1998, from memory).
   */
  coverage(): WithDoubt {
    const drawn = (this.#held + 2) / (this.count + 4);
    return {
      value: this.#held / this.count,
      doubt: Math.sqrt((drawn * (1 - drawn)) / (this.count + 4)),
    };
  }

  /** Median width of the bands. */
  width(): number {
    return quantileWithDoubt(this.#widths, 0.5).value;
  }

  /** Mean of the band's width plus `OUTSIDE_COSTS` for every metre by which the truth lies outside. */
  penalty(): number {
    return this.#penalty / this.count;
  }
}

/**
 * A quantile and its standard error: half the distance of the quantiles one standard error of the
 * rank below and above (the usual large-sample argument of order statistics). NaN for an empty list.
 */
export function quantileWithDoubt(values: readonly number[], share: number): WithDoubt {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (p: number): number => {
    const rank = Math.min(1, Math.max(0, p)) * (sorted.length - 1);
    const below = Math.floor(rank);
    const above = Math.min(sorted.length - 1, below + 1);
    return sorted[below] + (rank - below) * (sorted[above] - sorted[below]);
  };
  if (sorted.length === 0) return { value: NaN, doubt: NaN };
  const step = Math.sqrt((share * (1 - share)) / sorted.length);
  return { value: at(share), doubt: (at(share + step) - at(share - step)) / 2 };
}

/** One line of a Markdown table. */
export function tableRow(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}

/** Head of a Markdown table. */
export function tableHead(names: readonly string[]): string {
  return `${tableRow(names)}\n${tableRow(names.map(() => '---'))}`;
}
