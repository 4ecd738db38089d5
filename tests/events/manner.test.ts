/** What known touchdowns teach; rules KT1 to KT5 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { TouchdownPosterior } from '../../src/events/flight-event.ts';
import { HEIGHT_SHAPES } from '../../src/events/height-shapes.ts';
import {
  COMMON_MANNER,
  learnManner,
  lessonOf,
  lessonsThatCount,
  type Explained,
  type Lesson,
} from '../../src/events/manner.ts';
import { MANNER } from '../../src/events/manner-tuning.ts';
import { ALONG } from '../../src/events/tuning.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { PERFECT_RECEIVER } from '../synthetic/receiver-model.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { LOGS, logScenario, USUAL_LOG } from '../tools/accuracy-logs.ts';
import { eventsOf, onlyOne, valueOf } from './simulated.ts';

const DELAYS = ALONG.brakeDelaysS;
const SHAPES = HEIGHT_SHAPES.length;

function sum(values: readonly number[]): number {
  return values.reduce((total, each) => total + each, 0);
}

/** A lesson that only this delay can explain; of the heights it says nothing. */
function onlyDelay(delayS: (typeof DELAYS)[number]): Lesson {
  return entered({ brakes: DELAYS.map((each) => (each === delayS ? 1 : 0)), shapes: null });
}

/** A lesson of a landing for which normal braking was entered. */
function entered(explained: Explained): Lesson {
  return { ...explained, timeS: 0, effort: 'normal' };
}

/** Lessons as doubtful as real ones: every part explains the landing more or less. */
function drawLessons(count: number, seed: number): Lesson[] {
  const random = createRandom(seed);
  const row = (length: number): number[] => {
    const drawn = Array.from({ length }, () => random.uniform() ** 4);
    const best = Math.max(...drawn);
    return drawn.map((each) => each / best);
  };
  return Array.from({ length: count }, () =>
    entered({ brakes: row(DELAYS.length), shapes: row(SHAPES) }),
  );
}

describe('the manner learned from lessons', () => {
  test('[KT4] without lessons is the common one itself', () => {
    expect(learnManner([], 'normal')).toEqual(COMMON_MANNER);
    expectNear(sum(COMMON_MANNER.brakes), 1, 1e-12);
    expectNear(sum(COMMON_MANNER.shapes), 1, 1e-12);
  });

  test('[KT4] from lessons that every manner explains alike is the common one', () => {
    const even = entered({ brakes: DELAYS.map(() => 1), shapes: HEIGHT_SHAPES.map(() => 1) });
    const { brakes, shapes } = learnManner(
      Array.from({ length: 20 }, () => even),
      'normal',
    );
    brakes.forEach((share, k) => expectNear(share, COMMON_MANNER.brakes[k], 1e-12));
    shapes.forEach((share, k) => expectNear(share, COMMON_MANNER.shapes[k], 1e-12));
  });

  test.each([1, 3, 30])('[KT5] from %d lessons has shares above zero that add up to 1', (count) => {
    const { brakes, shapes } = learnManner(drawLessons(count, 20260413 + count), 'normal');
    expect(brakes).toHaveLength(DELAYS.length);
    expect(shapes).toHaveLength(SHAPES);
    for (const shares of [brakes, shapes]) {
      expectNear(sum(shares), 1, 1e-12);
      expect(Math.min(...shares)).toBeGreaterThan(0);
    }
    expect(brakes).not.toEqual(COMMON_MANNER.brakes);
    expect(shapes).not.toEqual(COMMON_MANNER.shapes);
  });

  test.each([1, 10, 200])(
    '[KT5] %d equal lessons for one delay count beside ten landings of pilots at large',
    (count) => {
      const { brakes, shapes } = learnManner(
        Array.from({ length: count }, () => onlyDelay(3.8)),
        'normal',
      );
      const prior = MANNER.priorLandings;
      expect(prior).toBe(10);
      brakes.forEach((share, k) => {
        const landings = prior * COMMON_MANNER.brakes[k] + (DELAYS[k] === 3.8 ? count : 0);
        expectNear(share, landings / (prior + count), 1e-12);
        expect(share).toBeGreaterThan(0);
      });
      // Of the round-outs nothing was said.
      shapes.forEach((share, k) => expectNear(share, COMMON_MANNER.shapes[k], 1e-12));
    },
  );

  test('[KT5] explains the lessons better than any manner beside it, the common one counted in', () => {
    const lessons = drawLessons(6, 20260414);
    const explained = (brakes: readonly number[]): number =>
      sum(
        lessons.map((lesson) => Math.log(sum(lesson.brakes.map((each, k) => each * brakes[k])))),
      ) +
      sum(
        brakes.map((share, k) => MANNER.priorLandings * COMMON_MANNER.brakes[k] * Math.log(share)),
      );
    const { brakes } = learnManner(lessons, 'normal');
    const best = explained(brakes);
    expect(best).toBeGreaterThan(explained(COMMON_MANNER.brakes) + 0.01);
    for (let from = 0; from < DELAYS.length; from++) {
      for (let to = 0; to < DELAYS.length; to++) {
        if (from === to) continue;
        const moved = [...brakes];
        // The rounds end short of the very best: by far less than a fiftieth of a share is worth.
        moved[to] += brakes[from] / 50;
        moved[from] -= brakes[from] / 50;
        expect(explained(moved), `${from} to ${to}`).toBeLessThan(best);
      }
    }
  });
});

describe('how hard a landing was braked', () => {
  const lessons = drawLessons(3, 20260415);

  test.each(['full', 'coasted', null] as const)(
    '[KT7] brakes of a landing entered as normal say nothing of one entered as %s; its round-out does',
    (effort) => {
      const { brakes, shapes } = learnManner(lessons, effort);
      expect(brakes).toEqual(COMMON_MANNER.brakes);
      expect(shapes).toEqual(learnManner(lessons, 'normal').shapes);
    },
  );

  test('[KT7] nor do two of which nobody entered it', () => {
    const unknown = lessons.map((lesson) => ({ ...lesson, effort: null }));
    expect(learnManner(unknown, null).brakes).toEqual(COMMON_MANNER.brakes);
  });

  test('[KT7] without heights only a landing braked alike counts at all', () => {
    const noHeights = [onlyDelay(2.2)];
    expect(lessonsThatCount(noHeights, 'normal')).toEqual(noHeights);
    expect(lessonsThatCount(noHeights, 'full')).toEqual([]);
    expect(lessonsThatCount(noHeights, null)).toEqual([]);
    expect(lessonsThatCount(lessons, null)).toEqual(lessons);
  });
});

describe('the round-outs of a manner', () => {
  test('[KT1] move a measured touchdown: who holds off for long touches later', () => {
    const scenario = flyDrawnApproach(20260416, 'full-stop');
    const touchM = (isLong: boolean): number => {
      const shapes = HEIGHT_SHAPES.map(({ holdOffS }) => (holdOffS > 3 === isLong ? 1 : 1e-3));
      const manner = { ...COMMON_MANNER, shapes: shapes.map((each) => each / sum(shapes)) };
      const { approaches } = logScenario(scenario, 1, LOGS[USUAL_LOG], manner).events;
      const { touchdown } = onlyOne(approaches);
      return isUndetermined(touchdown) ? NaN : valueOf(touchdown.alongM);
    };
    expect(touchM(true)).toBeGreaterThan(touchM(false) + 5);
  });
});

/** Candidates 100 m apart, each of which goes with one brake delay most. */
function threeCandidates(): TouchdownPosterior {
  const alongM = Float64Array.of(0, 100, 200);
  const favoured = [0.4, 2.2, 5];
  const brakes = Float64Array.from(
    favoured.flatMap((delayS) => DELAYS.map((each) => (each === delayS ? 0.6 : 0.05) / 3)),
  );
  const none = new Float64Array(3);
  return {
    timeS: Float64Array.of(1, 5, 9),
    weight: new Float64Array(3).fill(1 / 3),
    alongM,
    alongSdM: new Float64Array(3).fill(4),
    speedMps: none,
    speedSdMps: none,
    arrival: { brakes, shapes: null },
  };
}

function lessonAt(alongM: number, posterior = threeCandidates(), placeSdM = 0): Explained {
  const lesson = lessonOf(posterior, alongM, placeSdM);
  if (!lesson) throw new Error(`nothing is taught at ${alongM} m`);
  return lesson;
}

describe('what one known touchdown teaches', () => {
  test.each([
    [3, 0.4],
    [97, 2.2],
    [201, 5],
  ] as const)('[KT1] wheels at %d m: how well each delay explains it', (alongM, delayS) => {
    const { brakes, shapes } = lessonAt(alongM);
    // By hand: the candidate's weight for each delay over the delay's common share, the best of them 1.
    const ratios = DELAYS.map(
      (each, k) =>
        (each === delayS ? 0.6 : 0.05) / (ALONG.brakeWeights[k] / sum(ALONG.brakeWeights)),
    );
    brakes.forEach((each, k) => expectNear(each, ratios[k] / Math.max(...ratios), 5e-4));
    expect(brakes[DELAYS.indexOf(delayS)]).toBe(1);
    expect(shapes).toBeNull();
  });

  test('[KT3] far outside either end of what the log leaves open teaches nothing', () => {
    const posterior = threeCandidates();
    // A candidate's place and the mark are good to 5 m together: 20 m are four standard deviations.
    expect(lessonOf(posterior, -20, 0)).toBeNull();
    expect(lessonOf(posterior, 220, 0)).toBeNull();
    expect(lessonOf(posterior, -5, 0)).not.toBeNull();
    expect(lessonOf(posterior, 205, 0)).not.toBeNull();
    // By three and a half, three candidates being as likely: one in two thousand and one in a hundred.
    expect(lessonOf(posterior, -17.5, 0)).toBeNull();
    expect(lessonOf(posterior, -12.5, 0)).not.toBeNull();
    // A strip that may lie 30 m off rules out neither.
    expect(lessonOf(posterior, -20, 30)).not.toBeNull();
    expect(lessonOf(posterior, 220, 30)).not.toBeNull();
  });

  test('[KT3] between two touchdowns that may both be, and near neither, teaches nothing', () => {
    const alongM = Float64Array.of(0, 400, 800);
    expect(lessonOf({ ...threeCandidates(), alongM }, 590, 0)).toBeNull();
    expect(lessonOf({ ...threeCandidates(), alongM }, 410, 0)).not.toBeNull();
  });

  test('[KT1] counts a candidate whose place is known well for more than one that may lie anywhere', () => {
    // Both lie there; with marks good to 3 m their errors are 5 m and 40 m: eight to one.
    const posterior = {
      ...threeCandidates(),
      alongM: Float64Array.of(100, 100, 900),
      alongSdM: Float64Array.of(4, Math.sqrt(40 ** 2 - 9), 4),
    };
    const { brakes } = lessonAt(100, posterior);
    const [sure, vague] = [0.4, 2.2].map((delayS) => brakes[DELAYS.indexOf(delayS as 0.4)]);
    const common = (delayS: 0.4 | 2.2) => ALONG.brakeWeights[DELAYS.indexOf(delayS)];
    const expected = (8 * 0.6 + 0.05) / (8 * 0.05 + 0.6);
    expectNear((sure * common(0.4)) / (vague * common(2.2)), expected, 0.02);
  });

  test('[KT1] a touchdown that was put there already teaches nothing once more', () => {
    expect(lessonOf({ ...threeCandidates(), arrival: null }, 100, 0)).toBeNull();
  });

  test.each([1, 2.2, 3.8, 5, 7] as const)(
    '[KT1] of a landing braked %d s after it, the right delay first',
    (brakeDelayS) => {
      for (const seed of [5, 8, 11, 14]) {
        const roll = { brakeDelayS, brakes: { mps2: 2.2 }, end: 'stopped' } as const;
        const scenario = flyDrawnApproach(seed, 'full-stop', { roll });
        const truth = onlyOne(scenario.flown.truth.approaches).touchdown;
        const { posterior } = onlyOne(
          eventsOf(scenario, { receiver: PERFECT_RECEIVER }).approaches,
        );
        if (!posterior || !truth) throw new Error(`seed ${seed} has no touchdown`);
        const { brakes, shapes } = lessonAt(truth.alongM, posterior);
        expect(DELAYS[brakes.indexOf(Math.max(...brakes))], `seed ${seed}`).toBe(brakeDelayS);
        expect(shapes).toHaveLength(SHAPES);
        expect(Math.max(...(shapes ?? []))).toBe(1);
      }
    },
  );
});
