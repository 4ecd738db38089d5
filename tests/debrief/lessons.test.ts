/** Known touchdowns teach the other logs of the aeroplane; rules KT1 to KT4 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { debriefTrack, type Debrief, type Flight } from '../../src/debrief/debrief.ts';
import type { LandingMarks } from '../../src/debrief/hand-corrections.ts';
import { touchdownsPut } from '../../src/debrief/lessons.ts';
import { lessonsFor, lessonsOfLog } from '../../src/debrief/who-teaches.ts';
import type { Lesson } from '../../src/events/manner.ts';
import { undetermined } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import { NO_CONDITIONS, type Conditions } from '../../src/weather/conditions.ts';
import { bandOf, onlyOne, record } from '../events/simulated.ts';
import { PLAIN_AEROPLANE } from '../performance/invented-aeroplane.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';

/** A log of a landing braked hard, so many seconds after touchdown, and how it is measured. */
class SimulatedLog {
  readonly trueAlongM: number;
  readonly #trueTimeS: number;
  readonly #measure: (landings: readonly LandingMarks[], lessons?: readonly Lesson[]) => Debrief;

  constructor(seed: number, brakeDelayS: number, positionErrorM?: number) {
    const roll = { brakeDelayS, brakes: { mps2: 2 }, end: 'stopped' } as const;
    const scenario = flyDrawnApproach(seed, 'full-stop', { roll });
    const { touchdown } = onlyOne(scenario.flown.truth.approaches);
    if (!touchdown) throw new Error(`seed ${seed} does not touch`);
    this.trueAlongM = touchdown.alongM;
    this.#trueTimeS = touchdown.timeS;
    const headers = new Map<string, string>();
    const decoded = { track: record(scenario, { seed }), headers, leftOut: [], notes: [] };
    const strip = {
      ...scenario.strip,
      ...(positionErrorM === undefined ? {} : { positionErrorM }),
    };
    const strips = { ...EMPTY_STRIP_BOOK, strips: [strip] };
    // Brakes teach only where the same effort was entered.
    const all = { ...NO_CONDITIONS, effort: 'full' as const };
    const conditions = { all, byFile: new Map<string, Conditions>() };
    const context = { strips, aeroplanes: [PLAIN_AEROPLANE], conditions };
    this.#measure = (landings, lessons) =>
      debriefTrack(decoded, `${seed}.gpx`, String(seed), {
        ...{ ...context, landings },
        ...(lessons ? { lessons } : {}),
      });
  }

  /** As measured, by lessons where there are any. */
  measured(lessons?: readonly Lesson[]): Flight {
    return onlyOne(this.#measure([], lessons).flights);
  }

  /** With its touchdown put so far behind the true place. */
  marked(byM = 0, lessons?: readonly Lesson[], effort: LandingMarks['effort'] = null): Flight {
    const alongM = this.trueAlongM + byM;
    const touchdown = { alongM };
    const mark = { aroundS: this.#trueTimeS + 3, effort, touchdown, rollEnd: null };
    return onlyOne(this.#measure([mark], lessons).flights);
  }
}

function touchdownOf({ events }: Flight) {
  const { touchdown } = onlyOne(events.approaches);
  if ('undetermined' in touchdown) throw new Error(touchdown.undetermined);
  return bandOf(touchdown.alongM);
}

const LATE = [201, 203, 205, 206, 207, 209].map((seed) => new SimulatedLog(seed, 5));
const [log] = LATE;

describe('a log with a touchdown put by hand', () => {
  test('[KT1] teaches one lesson for each, and the place stands', () => {
    const flight = log.marked();
    expect(flight.lessons).toHaveLength(1);
    expect(touchdownsPut([flight])).toBe(1);
    const { value, low, high } = touchdownOf(flight);
    expect([value, low, high]).toEqual(Array(3).fill(log.trueAlongM));
    expect(lessonsOfLog('log', [flight])).toEqual([
      { logId: 'log', aeroplane: PLAIN_AEROPLANE.id, lesson: flight.lessons[0] },
    ]);
  });

  test('[KT1] as measured, a log teaches nothing', () => {
    expect(log.measured().lessons).toEqual([]);
    expect(touchdownsPut([log.measured()])).toBe(0);
  });

  test('[KT2] that was measured by lessons does not teach', () => {
    const lessons = LATE[1].marked().lessons;
    expect(log.marked(0, lessons).lessons).toEqual([]);
  });

  test('[KT3] teaches nothing by a place that the log all but rules out, which stands all the same', () => {
    const measured = touchdownOf(log.measured());
    // Far before all that the band holds: the aircraft passed it in the air.
    const farM = measured.low - 80 - log.trueAlongM;
    const flight = log.marked(farM);
    expect(flight.lessons).toEqual([]);
    expect(touchdownsPut([flight])).toBe(1);
    expect(touchdownOf(flight).value).toBe(log.trueAlongM + farM);
  });
});

describe('a lesson', () => {
  test('[KT7] has the effort entered for its landing, or else that of its flight', () => {
    expect(log.marked().lessons[0].effort).toBe('full');
    expect(log.marked(0, undefined, 'coasted').lessons[0].effort).toBe('coasted');
  });

  test('[KT3] counts with the error of the strip itself: where that is large, less is ruled out', () => {
    const farM = touchdownOf(log.measured()).low - 80 - log.trueAlongM;
    expect(log.marked(farM).lessons).toEqual([]);
    expect(new SimulatedLog(201, 5, 150).marked(farM).lessons).toHaveLength(1);
  });
});

describe('who teaches whom', () => {
  const flown = { id: 'reed' };
  const lesson = (brake: number, timeS = 1000 * brake): Lesson => ({
    ...{ brakes: [brake], shapes: null },
    ...{ timeS, effort: null },
  });
  const lessons = [
    { logId: 'a', aeroplane: 'reed', lesson: lesson(1) },
    { logId: 'b', aeroplane: 'reed', lesson: lesson(2) },
    { logId: 'b', aeroplane: 'sedge', lesson: lesson(3) },
    { logId: 'c', aeroplane: 'reed', lesson: lesson(4) },
  ];
  const brakesFor = (logId: string, teaches: boolean, aeroplane: object = flown) =>
    lessonsFor(lessons, { logId, teaches, aeroplane: aeroplane as typeof flown }).map(
      ({ brakes }) => brakes[0],
    );

  test('[KT2] the other logs of the aeroplane, all of them', () => {
    expect(brakesFor('d', false)).toEqual([1, 2, 4]);
    expect(brakesFor('d', false, { id: 'sedge' })).toEqual([3]);
    expect(brakesFor('d', false, { id: 'alder' })).toEqual([]);
  });

  test('[KT2] a landing that two recorders logged teaches once', () => {
    const twice = [...lessons, { logId: 'e', aeroplane: 'reed', lesson: lesson(5, 2012) }];
    const log = { logId: 'd', teaches: false, aeroplane: flown };
    expect(lessonsFor(twice, log).map(({ brakes }) => brakes[0])).toEqual([1, 2, 4]);
  });

  test('[KT2] never a log itself, nor one that teaches', () => {
    expect(brakesFor('b', false)).toEqual([1, 4]);
    expect(brakesFor('b', true)).toEqual([]);
    expect(brakesFor('d', true)).toEqual([]);
  });

  test('[KT2] nobody where the aeroplane is not known, and a flight in none teaches nobody', () => {
    expect(brakesFor('d', false, undetermined('not entered'))).toEqual([]);
    const flight = { ...log.marked(), aeroplane: undetermined('not entered') };
    expect(flight.lessons).toHaveLength(1);
    expect(lessonsOfLog('log', [flight])).toEqual([]);
  });
});

describe('a log that is taught', () => {
  test('[KT4] by nothing is measured as ever', () => {
    const [bare, taught] = [log.measured(), log.measured([])];
    expect(taught.events.approaches).toEqual(bare.events.approaches);
    expect(taught.compared).toEqual(bare.compared);
    expect(taught.finals).toEqual(bare.finals);
  });

  test('[KT2] says by how many landings', () => {
    const lessons = LATE.slice(1).flatMap((each) => each.marked().lessons);
    const note = (count: number) =>
      onlyOne(log.measured(lessons.slice(0, count)).events.approaches).notes.join('; ');
    expect(note(0)).not.toContain('by hand');
    expect(note(1)).toMatch(/^one touchdown put by hand in other logs/);
    expect(note(5)).toMatch(/^5 touchdowns put by hand in other logs/);
  });

  test('[KT1] by landings that were braked as late finds its touchdown better', () => {
    const missM = (flight: Flight, { trueAlongM }: SimulatedLog): number =>
      Math.abs(touchdownOf(flight).value - trueAlongM);
    const lessons = LATE.map((each) => each.marked().lessons);
    let alone = 0;
    let taught = 0;
    LATE.forEach((each, k) => {
      alone += missM(each.measured(), each);
      taught += missM(each.measured(lessons.filter((_, j) => j !== k).flat()), each);
    });
    expect(taught).toBeLessThan(0.8 * alone);
  });
});
