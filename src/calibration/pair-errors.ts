/**
 * What of the measuring errors of touchdown place and roll has a landing alone, and what have all in common?
 *
 * In: variances and covariance of each landing's errors. Out: the same of either part. The shares are
 * those of touchdowns along the strip: the roll's error is the touchdown's, the other way round.
 */
import { commonVariance, COMMON_SHARES, ownVariance } from './repeated-error.ts';

/** Variances and covariance of the measuring errors of place and logarithm of the roll: m2, m, 1. */
export interface PairErrors {
  readonly alongVariance: number;
  readonly covariance: number;
  readonly rollVariance: number;
}

const COMMON_SHARE = COMMON_SHARES.along;

/** What scatters from landing to landing. */
export function ownErrors({ alongVariance, covariance, rollVariance }: PairErrors): PairErrors {
  return {
    alongVariance: ownVariance(alongVariance, COMMON_SHARE),
    covariance: ownVariance(covariance, COMMON_SHARE),
    rollVariance: ownVariance(rollVariance, COMMON_SHARE),
  };
}

/** What stays in both means, however many landings there are; nothing without any. */
export function commonErrors(landings: readonly PairErrors[]): PairErrors {
  const common = (of: (landing: PairErrors) => number): number =>
    commonVariance(landings.map((each) => ({ variance: of(each), commonShare: COMMON_SHARE })));
  return {
    alongVariance: common(({ alongVariance }) => alongVariance),
    covariance: common(({ covariance }) => covariance),
    rollVariance: common(({ rollVariance }) => rollVariance),
  };
}
