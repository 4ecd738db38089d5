/**
 * The only source of chance: a seeded generator, so that every simulated flight and every
 * simulated pilot can be made again from its seed.
 *
 * Inputs: a seed. Outputs: uniform, normal and whole-number deviates, the same on every machine
 * up to the last digits of Math.log and Math.sin.
 * Sources: the xoshiro128** generator (Blackman and Vigna, "Scrambled linear pseudorandom number
 * generators", 2018), the splitmix seeding step with the 32-bit finaliser of MurmurHash3, and the
 * Box-Muller transform, all from memory.
 */

/** A stream of deviates; each call takes the next one. */
export interface Random {
  /** Uniform in [0, 1), 53 random bits. */
  uniform(): number;
  /** Standard normal: mean 0, standard deviation 1. */
  normal(): number;
  /** Whole number, uniform from `lowInclusive` to `highExclusive` - 1. Throws on an empty range. */
  integer(lowInclusive: number, highExclusive: number): number;
}

/**
 * Makes a generator. Equal seeds give equal streams; neighbouring seeds give unrelated ones.
 *
 * @param seed a whole number; its lowest 53 bits count
 * Fails: throws on a seed that is not a whole number.
 * @example createRandom(7).uniform()
 */
export function createRandom(seed: number): Random {
  if (!Number.isSafeInteger(seed)) throw new Error(`a seed must be a whole number, not ${seed}`);
  const next = xoshiro128(seed);
  const uniform = (): number => ((next() >>> 5) * 2 ** 26 + (next() >>> 6)) / 2 ** 53;
  let spareNormal = Number.NaN;

  const normal = (): number => {
    if (!Number.isNaN(spareNormal)) {
      const spare = spareNormal;
      spareNormal = Number.NaN;
      return spare;
    }
    // 1 - uniform lies in (0, 1], so the logarithm is finite.
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spareNormal = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };

  const integer = (lowInclusive: number, highExclusive: number): number => {
    if (!(highExclusive > lowInclusive)) {
      throw new Error(`no whole number from ${lowInclusive} up to but not ${highExclusive}`);
    }
    return lowInclusive + Math.floor(uniform() * (highExclusive - lowInclusive));
  };

  return { uniform, normal, integer };
}

/** The generator itself: each call gives 32 random bits as an unsigned whole number. */
function xoshiro128(seed: number): () => number {
  const state = seedWords(seed);
  return () => {
    const result = Math.imul(rotateLeft(Math.imul(state[1], 5), 7), 9) >>> 0;
    const shifted = state[1] << 9;
    state[2] ^= state[0];
    state[3] ^= state[1];
    state[1] ^= state[2];
    state[0] ^= state[3];
    state[2] ^= shifted;
    state[3] = rotateLeft(state[3], 11);
    return result;
  };
}

/** Four well-mixed state words from one seed, so that small seeds do not start alike. */
function seedWords(seed: number): Uint32Array {
  const high = Math.floor(seed / 2 ** 32);
  let counter = (seed ^ Math.imul(high, 0x9e3779b1)) >>> 0;
  const words = new Uint32Array(4);
  for (let i = 0; i < words.length; i++) {
    counter = (counter + 0x9e3779b9) >>> 0;
    words[i] = mixBits(counter);
  }
  return words;
}

function mixBits(word: number): number {
  let mixed = Math.imul(word ^ (word >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return mixed ^ (mixed >>> 16);
}

function rotateLeft(word: number, bits: number): number {
  return (word << bits) | (word >>> (32 - bits));
}
