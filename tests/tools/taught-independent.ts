/**
 * Do known touchdowns help where another simulator flew? Rows for docs/accuracy-pilots.md.
 *
 * In: independent flights, a log. Out: the landings of half of the flights, measured by what marks in the
 * other half teach; drawn and halved several times. Nothing is chosen on them.
 */
import { COMMON_MANNER, learnManner, lessonOf } from '../../src/events/manner.ts';
import { MANNER } from '../../src/events/manner-tuning.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { placeSdM } from '../../src/strips/place-error.ts';
import { stripOf } from '../truth/events-in-truth.ts';
import type { TruthFlight } from '../truth/read-truth.ts';
import { landingsIn } from './accuracy-independent.ts';
import { Tally } from './accuracy-tally.ts';

/** How often the flights are drawn and halved. */
export const HALVINGS = 8;
const FIRST_SEED = 160_000;

/** Touchdowns of the judged halves, one tally for each number of marks. */
export function teachIndependent(
  flights: readonly TruthFlight[],
  log: number,
  marked: readonly number[],
): Tally[] {
  const tallies = marked.map(() => new Tally());
  for (let halving = 0; halving < HALVINGS; halving++) {
    const seed = FIRST_SEED + 1000 * halving;
    const random = createRandom(seed);
    const drawn = flights
      .map((flight) => ({ flight, at: random.uniform() }))
      .sort((a, b) => a.at - b.at)
      .map(({ flight }) => flight);
    const half = Math.floor(drawn.length / 2);
    const lessons = drawn.slice(0, half).flatMap((flight, k) =>
      landingsIn(flight, seed + k, log, COMMON_MANNER).flatMap(({ found, trueAlongM }) => {
        const paced = trueAlongM + MANNER.markSdM * random.normal();
        if (!found.posterior) return [];
        const explained = lessonOf(found.posterior, paced, placeSdM(stripOf(flight).strips[0]));
        return explained ? [{ ...explained, timeS: k, effort: null }] : [];
      }),
    );
    marked.forEach((count, m) => {
      const manner = learnManner(lessons.slice(0, count), null);
      drawn.slice(half).forEach((flight, k) => {
        for (const { found, trueAlongM } of landingsIn(flight, seed + half + k, log, manner)) {
          if (!isUndetermined(found.touchdown)) tallies[m].add(found.touchdown.alongM, trueAlongM);
        }
      });
    });
  }
  return tallies;
}
