/**
 * What do known touchdowns teach? Simulated pilots with habits, some of whose touchdowns are marked.
 *
 * In: a pilot's seed, how many of the first landings are marked, whether the habits change half-way
 * through the others. Out: those others as measured by what the marks taught, beside their truth. No
 * landing that is judged has taught anything.
 */
import type { Approach } from '../../src/events/flight-event.ts';
import { lessonOf, learnManner, type Lesson, type Manner } from '../../src/events/manner.ts';
import { MANNER } from '../../src/events/manner-tuning.ts';
import { createRandom, type Random } from '../../src/numeric/random.ts';
import { isUndetermined, type Estimate } from '../../src/result.ts';
import { placeSdM } from '../../src/strips/place-error.ts';
import {
  drawManner,
  drawPilot,
  drawPilotLanding,
  type Pilot,
} from '../synthetic/pilot-population.ts';
import { flyDrawnApproach, type Scenario } from '../synthetic/scenarios.ts';
import type { TrueLanding } from './accuracy-pilot-bands.ts';
import { logScenario, type Log } from './accuracy-logs.ts';

/** Landings of each pilot before the judged ones, of which the first so many are marked. */
export const MARKABLE = 8;

/** One judged landing: measured and true, metres. */
export interface Judged {
  readonly touchdown: Estimate;
  readonly truthM: number;
  /** Null where one of the two is not known. */
  readonly roll: { readonly found: Estimate; readonly truthM: number } | null;
}

/** What a pilot flew. */
interface Flown {
  readonly scenario: Scenario;
  readonly seed: number;
}

/** The landings of one pilot: those that may be marked, then those to be judged in two seasons. */
export interface PilotBook {
  readonly markable: readonly Flown[];
  readonly seasons: readonly (readonly Flown[])[];
  /** Many more that nobody logs, where habits stay. */
  readonly later: readonly TrueLanding[];
}

/** So many landings say what a pilot's own middle is. */
const LATER = 100;

/** Lets a pilot fly `MARKABLE` landings and then two seasons; the second one by other habits if wished. */
export function flyPilot(seed: number, eachSeason: number, changes: boolean): PilotBook {
  const random = createRandom(seed);
  const pilot = drawPilot(random);
  const later = changes ? { ...pilot, ...drawManner(random) } : pilot;
  let landing = 0;
  const fly = (who: Pilot, count: number): Flown[] =>
    Array.from({ length: count }, () => flyLanding(who, random, seed * 1000 + landing++)).filter(
      (each) => each !== null,
    );
  return {
    markable: fly(pilot, MARKABLE),
    seasons: [fly(pilot, eachSeason), fly(later, eachSeason)],
    later: changes ? [] : fly(later, LATER).flatMap(({ scenario }) => trueLanding(scenario)),
  };
}

function flyLanding(pilot: Pilot, random: Random, seed: number): Flown | null {
  const plan = drawPilotLanding(pilot, random);
  const scenario = flyDrawnApproach(seed, 'full-stop', { aeroplane: pilot.aeroplane, ...plan });
  return scenario.flown.truth.approaches[0].outcome === 'full-stop' ? { scenario, seed } : null;
}

function trueLanding({ flown }: Scenario): TrueLanding[] {
  const [{ touchdown, groundRollM }] = flown.truth.approaches;
  return touchdown ? [{ alongM: touchdown.alongM, rollM: groundRollM }] : [];
}

/** Both seasons measured by what the first `marked` landings taught; landings not found are left out. */
export function judgeTaught(
  { markable, seasons }: PilotBook,
  marked: number,
  log: Log,
): readonly (readonly Judged[])[] {
  const lessons = markable.slice(0, marked).flatMap((flown) => lessonIn(flown, log) ?? []);
  const manner = learnManner(lessons, null);
  return seasons.map((season) => season.flatMap((flown) => judge(flown, log, manner)));
}

function judge({ scenario, seed }: Flown, log: Log, manner: Manner): Judged[] {
  const [truth] = scenario.flown.truth.approaches;
  const found = onlyLanding(logScenario(scenario, seed, log, manner).events.approaches);
  if (!found || !truth.touchdown || isUndetermined(found.touchdown)) return [];
  const { alongM } = found.touchdown;
  if (isUndetermined(alongM)) return [];
  const roll =
    isUndetermined(found.fullStopRollM) || truth.groundRollM === null
      ? null
      : { found: found.fullStopRollM, truthM: truth.groundRollM };
  return [{ touchdown: alongM, truthM: truth.touchdown.alongM, roll }];
}

/** What a mark teaches that was paced from the threshold, with the error that such marks have; no effort is entered. */
function lessonIn({ scenario, seed }: Flown, log: Log): Lesson | null {
  const { approaches } = logScenario(scenario, seed, log).events;
  const truth = scenario.flown.truth.approaches[0].touchdown;
  const posterior = onlyLanding(approaches)?.posterior;
  if (!posterior || !truth) return null;
  const paced = truth.alongM + MANNER.markSdM * createRandom(seed + 3_000_000_000).normal();
  const explained = lessonOf(posterior, paced, placeSdM(scenario.strip));
  return explained && { ...explained, timeS: truth.timeS, effort: null };
}

function onlyLanding(approaches: readonly Approach[]): Approach | null {
  const [found] = approaches;
  return approaches.length === 1 && found.outcome === 'full-stop' ? found : null;
}
