/**
 * Pilots whose truth is known: landings as pilots make them, for proofs of the own factor.
 *
 * Landings per day 1 to 5; the measuring error of a ratio has a standard deviation of 7 to 12 %,
 * known to the model; some landings are left out for reasons that do not look at the ratio (plenty
 * of strip left), some are coasted: longer than the pilot's full effort, so upper bounds of it.
 */
import type { LogRatio } from '../../src/calibration/log-ratio.ts';
import type { Random } from '../../src/numeric/random.ts';

/** Truth on the log scale. */
export interface Pilot {
  readonly mean: number;
  readonly spread: number;
  readonly dayShare: number;
}

const MOST_LANDINGS_A_DAY = 5;
const LEFT_OUT_SHARE = 0.1;
const COASTED_SHARE = 0.1;
/** Days on which anything counts, fewest that a factor is given for. */
const FEWEST_DAYS = 3;

/**
 * Flies until `n` landings count. Days of fewer than three are flown again, as no factor is given then.
 * `measuringSd` draws the error's standard deviation; coasted and left-out landings come on top of n.
 * `commonShare` of the error's variance is the same error at every landing, and the model knows it.
 */
export function flyLandings(
  { mean, spread, dayShare }: Pilot,
  n: number,
  random: Random,
  measuringSd: (random: Random) => number = (r) => 0.07 + 0.05 * r.uniform(),
  commonShare = 0,
): LogRatio[] {
  for (;;) {
    const landings: LogRatio[] = [];
    const habit = commonShare > 0 ? Math.sqrt(commonShare) * random.normal() : 0;
    let counted = 0;
    const days = new Set<string>();
    for (let day = 0; counted < n; day++) {
      const dayMean = mean + spread * Math.sqrt(dayShare) * random.normal();
      const dayKey = `day ${day}`;
      const today = random.integer(1, MOST_LANDINGS_A_DAY + 1);
      for (let k = 0; k < today && counted < n; k++) {
        const truth = dayMean + spread * Math.sqrt(1 - dayShare) * random.normal();
        const sd = measuringSd(random);
        const error = sd * (habit + Math.sqrt(1 - commonShare) * random.normal());
        const known = { sd, commonShare, dayKey };
        const fate = random.uniform();
        if (fate < LEFT_OUT_SHARE) continue;
        if (fate < LEFT_OUT_SHARE + COASTED_SHARE) {
          const longer = 0.05 + 0.4 * random.uniform();
          landings.push({ logRatio: truth + longer + error, ...known, kind: 'upper-bound' });
          continue;
        }
        landings.push({ logRatio: truth + error, ...known, kind: 'value' });
        counted++;
        days.add(dayKey);
      }
    }
    if (days.size >= FEWEST_DAYS) return landings;
  }
}
