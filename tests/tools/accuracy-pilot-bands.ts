/**
 * Do the bands of what a logbook says of its pilot hold? Simulated pilots with habits that stay.
 *
 * In: a pilot's measured landings, and many more landings of the same pilot of which only the truth is
 * taken. Out: the cells of a row: how often the bands hold the pilot's own figure, how wide they are, and
 * how many of the later landings stay within the figures that decide.
 */
import { FACTOR_PROBABILITY } from '../../src/calibration/calibrate.ts';
import { compare, type Comparison } from '../../src/calibration/comparison.ts';
import { calibrate } from '../../src/calibration/calibrate.ts';
import { landingPair } from '../../src/calibration/landing-pair.ts';
import { lengthNeeded } from '../../src/calibration/length-needed.ts';
import { touchdownDispersion } from '../../src/calibration/touchdown-dispersion.ts';
import { isUndetermined } from '../../src/result.ts';
import type { Judged } from './taught-pilots.ts';
import { Tally } from './accuracy-tally.ts';

/** Expected of every landing: about the middle roll of all pilots, metres. */
const EXPECTED_ROLL_M = 150;

/** One true landing, metres. */
export interface TrueLanding {
  readonly alongM: number;
  /** Null where the aeroplane did not roll to its stop on the strip. */
  readonly rollM: number | null;
}

/** What the bands of all pilots' figures are worth. */
export class PilotBands {
  readonly #middle = new Tally();
  readonly #touchdown = new Tally();
  readonly #roll = new Tally();
  readonly #ratio = new Tally();
  readonly #length = new Tally();
  readonly #withinLength: number[] = [];
  readonly #belowFactor: number[] = [];
  readonly #lengths: number[] = [];
  readonly #factors: number[] = [];

  /** One pilot. Left out where the logs give too few landings that rolled to a stop. */
  add(measured: readonly Judged[], later: readonly TrueLanding[]): void {
    const rolled = measured.flatMap(({ touchdown, roll }, k) => {
      if (!roll) return [];
      const comparison = compared(roll.found, `day ${k}`);
      return isUndetermined(comparison.log)
        ? []
        : [{ touchdown, roll, comparison, log: comparison.log }];
    });
    const own = calibrate(
      'landing-roll',
      rolled.map(({ comparison }) => comparison),
    );
    const needed = lengthNeeded(
      rolled.map(({ touchdown, roll, comparison, log }) =>
        landingPair(comparison.dayKey, touchdown, roll.found.value, log),
      ),
      { ldaM: 400, expectedRollM: EXPECTED_ROLL_M, forecastLogSd: 0 },
    );
    const middle = touchdownDispersion(
      measured.map(({ touchdown }) => ({ alongM: touchdown, crossM: touchdown })),
    )?.along.middle;
    if (!middle || own.kind === 'too-few' || needed.kind === 'too-few') return;
    const stops = later.flatMap(({ alongM, rollM }) => (rollM === null ? [] : [{ alongM, rollM }]));
    const rolls = stops.map(({ rollM }) => rollM);
    const lengths = stops.map(({ alongM, rollM }) => alongM + rollM);
    const middleRollM = Math.exp(mean(rolls.map(Math.log)));
    this.#middle.add(middle, mean(later.map(({ alongM }) => alongM)));
    this.#touchdown.add(needed.touchdownM, mean(stops.map(({ alongM }) => alongM)));
    this.#roll.add(needed.rollM, middleRollM);
    this.#ratio.add(own.typicalRatio, middleRollM / EXPECTED_ROLL_M);
    const lengthM = needed.lengthM.value;
    this.#length.add(needed.lengthM, quantile(lengths, FACTOR_PROBABILITY));
    this.#withinLength.push(share(lengths, lengthM));
    this.#belowFactor.push(share(rolls, own.factor * EXPECTED_ROLL_M));
    this.#lengths.push(lengthM / quantile(lengths, FACTOR_PROBABILITY));
    this.#factors.push((own.factor * EXPECTED_ROLL_M) / quantile(rolls, FACTOR_PROBABILITY));
  }

  static readonly heading = [
    ...[
      'pilots',
      'middle touchdown',
      'touchdown of the length',
      'roll of the length',
      'ratio of rolls',
    ],
    ...[
      'length of 95 in 100',
      'next within the length',
      'its length',
      'next below the factor',
      'its factor',
    ],
  ];

  cells(): string[] {
    const metres = (tally: Tally): string => `${held(tally)}, ${tally.width().toFixed(0)} m`;
    return [
      String(this.#middle.count),
      metres(this.#middle),
      metres(this.#touchdown),
      metres(this.#roll),
      `${held(this.#ratio)}, ${this.#ratio.width().toFixed(2)}`,
      metres(this.#length),
      percent(this.#withinLength),
      mean(this.#lengths).toFixed(3),
      percent(this.#belowFactor),
      mean(this.#factors).toFixed(3),
    ];
  }
}

function compared(measuredM: Judged['touchdown'], dayKey: string): Comparison {
  return compare({
    ...{ quantity: 'landing-roll', measuredM, dayKey, expectedM: EXPECTED_ROLL_M },
    ...{
      factorSet: null,
      effort: 'full',
      stripLeftM: { undetermined: '' },
      ldaM: null,
      slopeRatio: 0,
    },
  });
}

function held(tally: Tally): string {
  const { value, doubt } = tally.coverage();
  return `${(100 * value).toFixed(0)} % ± ${(100 * doubt).toFixed(0)}`;
}

function percent(shares: readonly number[]): string {
  const centre = mean(shares);
  const variance = mean(shares.map((each) => (each - centre) ** 2));
  const doubt = Math.sqrt(variance / (shares.length - 1));
  return `${(100 * centre).toFixed(1)} % ± ${(100 * doubt).toFixed(1)}`;
}

function share(values: readonly number[], bound: number): number {
  return values.filter((each) => each <= bound).length / values.length;
}

function quantile(values: readonly number[], probability: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor(probability * sorted.length)];
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, each) => sum + each, 0) / values.length;
}
