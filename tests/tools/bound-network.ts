/**
 * A small network that learns a distribution over bins: two hidden layers, trained by gradient
 * descent.
 *
 * In: rows of features, a starting guess of the distribution for each, and where the truth lay.
 * Out: a better distribution. The network adds to the logarithm of the guess, so an untrained one
 * gives the guess back, and what it gains is information that the guess left out.
 *
 * Source: back-propagation, cross entropy and the step rule with running first and second moments
 * (Kingma and Ba, "Adam", 2015), from memory.
 */
import type { Random } from '../../src/numeric/random.ts';

/** Rows to learn from. `features` rows x `width`; `guess` and `target` rows x `bins`, each row adding up to 1. */
export interface Lessons {
  readonly rows: number;
  readonly width: number;
  readonly bins: number;
  readonly features: Float32Array;
  readonly guess: Float32Array;
  readonly target: Float32Array;
}

const BATCH = 64;
const RATE = 1e-3;
const DECAY = 1e-4;
/** What is added to a guess before its logarithm is taken. */
const LEAST_GUESS = 1e-3;

/** One layer: weights out x in, then the biases, and their running moments. */
interface Layer {
  readonly inputs: number;
  readonly outputs: number;
  readonly weight: Float32Array;
  readonly gradient: Float32Array;
  readonly first: Float32Array;
  readonly second: Float32Array;
}

/** The network; create it, teach it, ask it. */
export class BoundNetwork {
  readonly #layers: readonly Layer[];
  readonly #mean: Float32Array;
  readonly #scale: Float32Array;
  readonly #values: readonly Float32Array[];
  readonly #slopes: readonly Float32Array[];
  readonly #width: number;
  readonly #bins: number;
  #steps = 0;

  /** Features are scaled by what `lessons` show; the first weights are drawn. */
  constructor(lessons: Lessons, hidden: readonly number[], random: Random) {
    this.#width = lessons.width;
    this.#bins = lessons.bins;
    const sizes = [lessons.width, ...hidden, lessons.bins];
    this.#layers = sizes
      .slice(1)
      .map((outputs, k) => createLayer(sizes[k], outputs, k === hidden.length ? 0 : 1, random));
    this.#values = sizes.map((size) => new Float32Array(size));
    this.#slopes = sizes.map((size) => new Float32Array(size));
    [this.#mean, this.#scale] = scaling(lessons);
  }

  /** Goes through all lessons once, in an order drawn anew; `share` of the full step. Returns the mean cross entropy. */
  learn(lessons: Lessons, random: Random, share: number): number {
    const order = Int32Array.from({ length: lessons.rows }, (_, i) => i);
    for (let i = order.length - 1; i > 0; i--) {
      const j = random.integer(0, i + 1);
      [order[i], order[j]] = [order[j], order[i]];
    }
    let sum = 0;
    for (let from = 0; from < order.length; from += BATCH) {
      const batch = order.subarray(from, Math.min(order.length, from + BATCH));
      for (const layer of this.#layers) layer.gradient.fill(0);
      for (const row of batch) sum += this.#teach(lessons, row);
      this.#step(batch.length, share);
    }
    return sum / lessons.rows;
  }

  /** Mean cross entropy of lessons not learned from. */
  judge(lessons: Lessons): number {
    let sum = 0;
    for (let row = 0; row < lessons.rows; row++)
      sum += crossEntropy(this.ask(lessons, row), lessons, row);
    return sum / lessons.rows;
  }

  /** The distribution for one row; the array is used again by the next call. */
  ask(lessons: Lessons, row: number): Float32Array {
    const input = this.#values[0];
    for (let i = 0; i < this.#width; i++) {
      const scaled = (lessons.features[row * this.#width + i] - this.#mean[i]) * this.#scale[i];
      input[i] = Math.max(-MOST_SDS, Math.min(MOST_SDS, scaled));
    }
    this.#layers.forEach((layer, k) => {
      forward(layer, this.#values[k], this.#values[k + 1], k < this.#layers.length - 1);
    });
    const out = this.#values[this.#layers.length];
    let largest = -Infinity;
    for (let b = 0; b < this.#bins; b++) {
      out[b] += Math.log(lessons.guess[row * this.#bins + b] + LEAST_GUESS);
      largest = Math.max(largest, out[b]);
    }
    let sum = 0;
    for (let b = 0; b < this.#bins; b++) sum += out[b] = Math.exp(out[b] - largest);
    for (let b = 0; b < this.#bins; b++) out[b] /= sum;
    return out;
  }

  #teach(lessons: Lessons, row: number): number {
    const out = this.ask(lessons, row);
    const loss = crossEntropy(out, lessons, row);
    const last = this.#layers.length;
    for (let b = 0; b < this.#bins; b++) {
      this.#slopes[last][b] = out[b] - lessons.target[row * this.#bins + b];
    }
    for (let k = last - 1; k >= 0; k--) {
      backward(this.#layers[k], this.#values[k], this.#slopes[k + 1], this.#slopes[k], k > 0);
    }
    return loss;
  }

  #step(rows: number, share: number): void {
    this.#steps++;
    const rate =
      (RATE * share * Math.sqrt(1 - KEEP_SECOND ** this.#steps)) / (1 - KEEP_FIRST ** this.#steps);
    for (const { weight, gradient, first, second } of this.#layers) {
      for (let i = 0; i < weight.length; i++) {
        const slope = gradient[i] / rows;
        first[i] = KEEP_FIRST * first[i] + (1 - KEEP_FIRST) * slope;
        second[i] = KEEP_SECOND * second[i] + (1 - KEEP_SECOND) * slope * slope;
        weight[i] -=
          (rate * first[i]) / (Math.sqrt(second[i]) + 1e-8) + RATE * share * DECAY * weight[i];
      }
    }
  }
}

const KEEP_FIRST = 0.9;
const KEEP_SECOND = 0.999;
/** Features further off their mean count as this far, standard deviations. */
const MOST_SDS = 5;

function createLayer(inputs: number, outputs: number, spread: number, random: Random): Layer {
  const size = outputs * (inputs + 1);
  const weight = new Float32Array(size);
  const sd = spread * Math.sqrt(2 / inputs);
  for (let i = 0; i < outputs * inputs; i++) weight[i] = sd * random.normal();
  const empty = (): Float32Array => new Float32Array(size);
  return { inputs, outputs, weight, gradient: empty(), first: empty(), second: empty() };
}

function forward(layer: Layer, input: Float32Array, output: Float32Array, bent: boolean): void {
  const { inputs, outputs, weight } = layer;
  for (let o = 0; o < outputs; o++) {
    const from = o * inputs;
    let sum = weight[outputs * inputs + o];
    for (let i = 0; i < inputs; i++) sum += weight[from + i] * input[i];
    output[o] = bent && sum < 0 ? 0 : sum;
  }
}

function backward(
  layer: Layer,
  input: Float32Array,
  above: Float32Array,
  below: Float32Array,
  goesOn: boolean,
): void {
  const { inputs, outputs, weight, gradient } = layer;
  below.fill(0);
  for (let o = 0; o < outputs; o++) {
    const slope = above[o];
    if (slope === 0) continue;
    const from = o * inputs;
    gradient[outputs * inputs + o] += slope;
    for (let i = 0; i < inputs; i++) gradient[from + i] += slope * input[i];
    if (goesOn) for (let i = 0; i < inputs; i++) below[i] += slope * weight[from + i];
  }
  // A unit that gave nothing passes nothing back.
  if (goesOn) for (let i = 0; i < inputs; i++) if (input[i] === 0) below[i] = 0;
}

function crossEntropy(out: Float32Array, { target, bins }: Lessons, row: number): number {
  let sum = 0;
  for (let b = 0; b < bins; b++) sum -= target[row * bins + b] * Math.log(out[b] + 1e-12);
  return sum;
}

function scaling({ rows, width, features }: Lessons): [Float32Array, Float32Array] {
  const mean = new Float32Array(width);
  const scale = new Float32Array(width);
  for (let i = 0; i < width; i++) {
    let sum = 0;
    let squares = 0;
    for (let row = 0; row < rows; row++) sum += features[row * width + i];
    for (let row = 0; row < rows; row++) squares += (features[row * width + i] - sum / rows) ** 2;
    mean[i] = sum / rows;
    scale[i] = squares > 0 ? 1 / Math.sqrt(squares / rows) : 0;
  }
  return [mean, scale];
}
