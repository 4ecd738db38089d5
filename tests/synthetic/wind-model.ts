/**
 * How does the air move at a height and a moment?
 *
 * A mean wind with a power-law profile and gusts along, across and up, each a Gauss-Markov process
 * smoothed once more so that the air never jumps. In: the day's figures and a seeded generator.
 * Out: east, north and up wind, m/s.
 * Source: power law with exponent 0.14-0.2 over open grass, gust spread near a tenth to a fifth of
 * the mean, as wind engineering texts give them (from memory).
 */
import type { Random } from '../../src/numeric/random.ts';

/** The day's wind. */
export interface WindDay {
  /** Direction it blows from, degrees true, and speed 10 m over the ground, m/s. */
  readonly fromDeg: number;
  readonly speedMps: number;
  /** Exponent of the height profile. */
  readonly exponent: number;
  /** Standard deviation of gusts along and across, m/s, and their time scale, s. */
  readonly gustMps: number;
  readonly gustS: number;
  /** Standard deviation of up and down draughts away from the ground, m/s. */
  readonly updraughtMps: number;
}

/** Still air. */
export const CALM: WindDay = {
  fromDeg: 0,
  speedMps: 0,
  exponent: 0.16,
  gustMps: 0,
  gustS: 4,
  updraughtMps: 0,
};

/** A wind of a direction and a speed with gusts in the usual proportion. */
export function windOf(fromDeg: number, speedMps: number, gustShare = 0.12): WindDay {
  return {
    ...CALM,
    fromDeg,
    speedMps,
    gustMps: gustShare * speedMps,
    updraughtMps: 0.1 + 0.06 * speedMps,
  };
}

/** The air as it moves past: `advance` once a step, then read. */
export interface Air {
  readonly windEastMps: (heightM: number) => number;
  readonly windNorthMps: (heightM: number) => number;
  readonly updraughtMps: (heightM: number) => number;
  readonly advance: () => void;
}

/** Starts the air of one flight, stepped every `stepS` seconds. */
export function createAir(day: WindDay, random: Random, stepS: number): Air {
  const towardsRad = ((day.fromDeg + 180) * Math.PI) / 180;
  const alongEast = Math.sin(towardsRad);
  const alongNorth = Math.cos(towardsRad);
  const along = createGust(day.gustMps, day.gustS, random, stepS);
  const across = createGust(0.8 * day.gustMps, day.gustS, random, stepS);
  const up = createGust(day.updraughtMps, 2.5, random, stepS);
  return {
    windEastMps: (heightM) => {
      const share = profile(day.exponent, heightM);
      return (day.speedMps * share + along.value()) * alongEast + across.value() * alongNorth;
    },
    windNorthMps: (heightM) => {
      const share = profile(day.exponent, heightM);
      return (day.speedMps * share + along.value()) * alongNorth - across.value() * alongEast;
    },
    // Air cannot move through the ground.
    updraughtMps: (heightM) => up.value() * Math.min(1, Math.max(0, heightM / 25)),
    advance: () => {
      along.advance();
      across.advance();
      up.advance();
    },
  };
}

/** Wind at a height as a share of the wind at 10 m; the lowest two metres move as one. */
export function profile(exponent: number, heightM: number): number {
  return (Math.max(heightM, 2) / 10) ** exponent;
}

/** A Gauss-Markov process smoothed by a lag of a quarter of its time scale, scaled to keep its spread. */
function createGust(
  sdMps: number,
  scaleS: number,
  random: Random,
  stepS: number,
): { value: () => number; advance: () => void } {
  const keep = Math.exp(-stepS / scaleS);
  const fresh = Math.sqrt(1 - keep * keep);
  const smooth = 1 - Math.exp(-stepS / (SMOOTHING * scaleS));
  // A lag of c times the scale leaves 1 / (1 + c) of the variance.
  const scale = sdMps * Math.sqrt(1 + SMOOTHING);
  let rough = sdMps === 0 ? 0 : random.normal();
  let value = rough;
  return {
    value: () => scale * value,
    advance: () => {
      if (sdMps === 0) return;
      rough = keep * rough + fresh * random.normal();
      value += smooth * (rough - value);
    },
  };
}

const SMOOTHING = 0.25;
