/**
 * Which part of a measuring error do all landings of one pilot have in common?
 *
 * What a log gets wrong in the same way each time cannot be seen in the scatter and does not average
 * out. It belongs into every band of a pilot's middle; the rest alone is scatter from landing to landing.
 *
 * Source: docs/accuracy-pilots.md, simulated pilots.
 */
import type { ComparedQuantity } from './comparison.ts';

/**
 * Share of the measuring error's variance that all touchdowns have in common. Along it is half, because a
 * pilot's habits make the log err in the same way each time: how this pilot holds off. Across it is taken
 * as all: most of it is where the strip itself lies.
 */
export const COMMON_SHARES = { along: 0.5, cross: 1 } as const;

/**
 * The same for a compared distance: 0 to 1.
 *
 * A landing roll begins at the touchdown and has its error. From 50 ft to the stop that error cancels, and
 * how alike the errors of one pilot's lift-offs are is not known.
 */
export function commonShareOf(quantity: ComparedQuantity): number {
  return quantity === 'landing-roll' ? COMMON_SHARES.along : 0;
}

/** What of a measuring error's variance a landing has alone. */
export function ownVariance(variance: number, commonShare = 0): number {
  return (1 - commonShare) * variance;
}

/** Variance of the error that all landings have in common: the mean of the shares; 0 without any landing. */
export function commonVariance(
  errors: readonly { readonly variance: number; readonly commonShare?: number | undefined }[],
): number {
  if (errors.length === 0) return 0;
  const sum = errors.reduce(
    (total, { variance, commonShare = 0 }) => total + commonShare * variance,
    0,
  );
  return sum / errors.length;
}
