/** Pilots whose touchdown and roll are known: landings meant to be short, as pilots make them. */
import { PLACE_PRIOR, type LandingPair } from '../../src/calibration/landing-pair.ts';
import { WEAK_PRIOR } from '../../src/calibration/predictive.ts';
import { normalCdf } from '../../src/numeric/distributions.ts';
import type { Random } from '../../src/numeric/random.ts';

/** Truth: places in metres, rolls as logarithms of ratios. */
export interface PairPilot {
  readonly meanM: number;
  readonly spreadM: number;
  readonly meanLog: number;
  readonly spreadLog: number;
  readonly correlation: number;
  readonly dayShare: number;
}

/** A pilot of the stated prior. */
export function drawPairPilot(random: Random): PairPilot {
  const { meanM, meanSdM, spreadMedianM, spreadLogSd } = PLACE_PRIOR;
  return {
    meanM: meanM + meanSdM * random.normal(),
    spreadM: spreadMedianM * Math.exp(spreadLogSd * random.normal()),
    meanLog: WEAK_PRIOR.meanLog + WEAK_PRIOR.meanLogSd * random.normal(),
    spreadLog: WEAK_PRIOR.spreadMedian * Math.exp(WEAK_PRIOR.spreadLogSd * random.normal()),
    correlation: 2 * random.uniform() - 1,
    dayShare: Math.sin((Math.PI / 2) * random.uniform()) ** 2,
  };
}

const MOST_LANDINGS_A_DAY = 5;
const FEWEST_DAYS = 3;
/** The roll expected where these landings were made, metres: only their measuring errors hang on it. */
const ROLL_M = 150;

/**
 * Flies `n` landings on three days or more, one to five a day. The touchdown is misplaced by 7 to 12 % of
 * a roll of 150 m and the roll is wrong by as much the other way; the place has 5 m of its own beside.
 * Half of either (of the variance) is the same error at every landing.
 */
export function flyPairs(pilot: PairPilot, n: number, random: Random): LandingPair[] {
  for (;;) {
    const landings: LandingPair[] = [];
    const days = new Set<string>();
    const habit = random.normal();
    const offPlace = random.normal();
    const halfCommon = (common: number): number => Math.SQRT1_2 * (common + random.normal());
    while (landings.length < n) {
      const dayKey = `day ${days.size}`;
      days.add(dayKey);
      const day = scatter(pilot, Math.sqrt(pilot.dayShare), random);
      const today = random.integer(1, MOST_LANDINGS_A_DAY + 1);
      for (let k = 0; k < today && landings.length < n; k++) {
        const own = scatter(pilot, Math.sqrt(1 - pilot.dayShare), random);
        const sd = 0.07 + 0.05 * random.uniform();
        const misplaced = sd * halfCommon(habit);
        const offM = PLACE_SD_M * halfCommon(offPlace);
        landings.push({
          dayKey,
          alongM: pilot.meanM + day.m + own.m + ROLL_M * misplaced + offM,
          rollLog: pilot.meanLog + day.log + own.log - misplaced,
          alongVariance: (ROLL_M * sd) ** 2 + PLACE_SD_M ** 2,
          covariance: -ROLL_M * sd ** 2,
          rollVariance: sd ** 2,
        });
      }
    }
    if (days.size >= FEWEST_DAYS) return landings;
  }
}

const PLACE_SD_M = 5;

function scatter(
  { spreadM, spreadLog, correlation }: PairPilot,
  share: number,
  random: Random,
): { readonly m: number; readonly log: number } {
  const z = random.normal();
  const other = random.normal();
  const log = spreadLog * (correlation * z + Math.sqrt(1 - correlation ** 2) * other);
  return { m: share * spreadM * z, log: share * log };
}

/** The exact chance that the pilot's next landing on a new day stays within `lengthM`, 0 to 1. */
export function chanceWithin(pilot: PairPilot, lengthM: number, expectedRollM: number): number {
  const { meanM, spreadM, meanLog, spreadLog, correlation } = pilot;
  const sd = spreadM * Math.sqrt(1 - correlation ** 2);
  let chance = 0;
  let weights = 0;
  for (let z = -6; z <= 6; z += 0.1) {
    const weight = Math.exp(-0.5 * z * z);
    const rollM = expectedRollM * Math.exp(meanLog + spreadLog * z);
    chance += weight * normalCdf((lengthM - rollM - meanM - correlation * spreadM * z) / sd);
    weights += weight;
  }
  return chance / weights;
}
