/**
 * What the model of own factors takes in: a landing as a log ratio, and what is believed before any.
 */

/** One landing as the model sees it. */
export interface LogRatio {
  readonly logRatio: number;
  /** Standard deviation of the measuring error of `logRatio`, 0 or more. */
  readonly sd: number;
  /** Share of that error's variance that all landings have in common, 0 to 1; none where it is not given. */
  readonly commonShare?: number;
  /** Landings with equal keys share a day. */
  readonly dayKey: string;
  /** `upper-bound`: the full-effort ratio is at most this. */
  readonly kind: 'value' | 'upper-bound';
}

/** What is believed about a pilot before any landing. Weak on purpose. */
export interface Prior {
  /** Normal prior of the mean log ratio. */
  readonly meanLog: number;
  readonly meanLogSd: number;
  /** Log-normal prior of the spread: its median, and the standard deviation of its logarithm. */
  readonly spreadMedian: number;
  readonly spreadLogSd: number;
  /** Normal prior of how far groups lie apart: its standard deviation. */
  readonly groupMeanSd: number;
  /** Log-normal prior of how much more or less other groups scatter, median 1: the standard deviation of its logarithm. */
  readonly groupSpreadLogSd: number;
}
