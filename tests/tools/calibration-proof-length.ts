/** Does the length needed hold as often as it says? Pilots of the prior, for docs/calibration.md. */
import { nextLengthM } from '../../src/calibration/length-needed.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { chanceWithin, drawPairPilot, flyPairs } from '../calibration/simulated-pairs.ts';
import type { Cell } from './calibration-proof-cells.ts';

const EXPECTED_ROLL_M = 150;

/**
 * Chance, per cent, that the next landing stays within the length: over pilots of the prior, with the
 * wind at the landing and with a forecast whose error is drawn beside it.
 */
export function lengthCoverage(
  n: number,
  pilots: number,
  seed: number,
  forecastLogSd: number,
): Cell[] {
  const random = createRandom(seed + n);
  return Array.from({ length: pilots }, () => {
    const pilot = drawPairPilot(random);
    const today = { ldaM: 400, expectedRollM: EXPECTED_ROLL_M, forecastLogSd };
    const lengthM = nextLengthM(flyPairs(pilot, n, random), today, 0.95);
    const spreadLog = Math.hypot(pilot.spreadLog, forecastLogSd);
    // The forecast's error lengthens rolls alone: it takes from the correlation what it adds to the spread.
    const correlation = (pilot.correlation * pilot.spreadLog) / spreadLog;
    return 100 * chanceWithin({ ...pilot, spreadLog, correlation }, lengthM, EXPECTED_ROLL_M);
  });
}
