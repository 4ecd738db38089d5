/**
 * How near could anybody come? An upper estimate of the least median error that the data allow.
 *
 * In: landings of the simulator's own population to learn from, and others to be judged by. Out:
 * for each judged landing the place that a learned estimator would have named. It is given the log
 * and the touchdown estimator's own posterior, it has seen thousands of landings of exactly the
 * population that judges it, and everything unknown to the estimator (noise, drift, lag, aeroplane,
 * hand, braking) was drawn anew each time. No estimator for real flights can be given that much,
 * and a still better one may exist: so the bound is at most what is found here.
 */
import { createRandom } from '../../src/numeric/random.ts';
import { BINS, type BoundSample } from './bound-features.ts';
import { BoundNetwork, type Lessons } from './bound-network.ts';

/** Networks that are taught apart, each with its own chance, and averaged. */
const NETWORKS = 3;
const HIDDEN = [64, 48];
const ROUNDS = 10;

/** What was learned. */
export interface LearnedBound {
  /** Place named for a landing: median of the learned distribution, metres from the threshold. */
  readonly placeM: (sample: BoundSample) => number;
}

/**
 * Learns from landings. Fails: throws where there are fewer than 100.
 *
 * @param say told what each network came to; @param rounds how often each goes through the landings.
 */
export function learnBound(
  samples: readonly BoundSample[],
  say: (line: string) => void,
  rounds = ROUNDS,
): LearnedBound {
  if (samples.length < 100) throw new Error(`100 landings at least, not ${samples.length}`);
  const lessons = lessonsOf(samples);
  const networks = Array.from({ length: NETWORKS }, (_, k) => {
    const random = createRandom(4_000 + k);
    const network = new BoundNetwork(lessons, HIDDEN, random);
    let loss = NaN;
    for (let round = 0; round < rounds; round++) {
      loss = network.learn(lessons, random, 1 - round / rounds);
    }
    say(`network ${k + 1}: cross entropy ${loss.toFixed(3)}`);
    return network;
  });
  return {
    placeM: (sample) => {
      const one = lessonsOf([sample]);
      const mean = new Float64Array(BINS);
      for (const network of networks) {
        network.ask(one, 0).forEach((share, b) => {
          mean[b] += share / NETWORKS;
        });
      }
      return placeAt(sample, medianBin(mean));
    },
  };
}

/** Rows for the network: the truth is shared between the two nearest middles of bins. */
export function lessonsOf(samples: readonly BoundSample[]): Lessons {
  const rows = samples.length;
  const width = samples[0].features.length;
  const features = new Float32Array(rows * width);
  const guess = new Float32Array(rows * BINS);
  const target = new Float32Array(rows * BINS);
  samples.forEach((sample, row) => {
    features.set(sample.features, row * width);
    guess.set(sample.guess, row * BINS);
    const at = Math.min(BINS - 1, Math.max(0, sample.trueBin - 0.5));
    const below = Math.min(BINS - 2, Math.floor(at));
    target[row * BINS + below] = 1 - (at - below);
    target[row * BINS + below + 1] = at - below;
  });
  return { rows, width, bins: BINS, features, guess, target };
}

/** Median of shares over bins, in bins from the first edge, the shares even within a bin. */
export function medianBin(shares: ArrayLike<number>): number {
  let below = 0;
  for (let b = 0; b < shares.length; b++) {
    if (below + shares[b] >= 0.5) return b + (0.5 - below) / shares[b];
    below += shares[b];
  }
  return shares.length;
}

function placeAt({ edgePlaceM }: BoundSample, bin: number): number {
  const edge = Math.min(BINS - 1, Math.floor(bin));
  return edgePlaceM[edge] + (bin - edge) * (edgePlaceM[edge + 1] - edgePlaceM[edge]);
}
