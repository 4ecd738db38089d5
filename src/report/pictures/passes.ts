/**
 * A roll as ten mown passes: each stands for a tenth of the chance.
 *
 * In: where the roll began and ended, as distributions. Out: ten starts and ten ends; pass i runs
 * from the 5, 15 ... 95 % point of the start to the same point of the end.
 */
import { mixtureQuantile, type Mixture } from '../../numeric/posterior.ts';
import { normalQuantile } from '../../numeric/distributions.ts';
import { Z90, type Estimate } from '../../result.ts';

/** The ten points of a distribution that the passes stand for. */
export const PASS_SHARES: readonly number[] = Array.from({ length: 10 }, (_, i) => 0.05 + i / 10);

/** Ten passes, alongM. `extrapolatedToM` goes on from `toM` where the roll was not seen to its end. */
export interface Passes {
  readonly fromM: readonly number[];
  readonly toM: readonly number[];
  readonly extrapolatedToM: readonly number[] | null;
}

/** The middle of ten points: between the two middle passes. */
export function middlePass(points: readonly number[]): number {
  return (points[4] + points[5]) / 2;
}

/** The ten points of a mixture, in its unit, rising. */
export function tenPointsOfMixture(mixture: Mixture): number[] {
  return PASS_SHARES.map((p) => mixtureQuantile(mixture, p));
}

/**
 * The ten points of a band, in its unit, rising: half a normal below the value and half above it,
 * each as wide as its side of the band.
 */
export function tenPointsOfBand({ value, low, high }: Estimate): number[] {
  return PASS_SHARES.map((p) => {
    const sd = (p < 0.5 ? value - low : high - value) / Z90;
    return value + sd * normalQuantile(p);
  });
}
