/** What is compared with what, and what is left over, on the demo's flights. */
import { beforeAll, describe, expect, test } from 'vitest';
import { compareEvents } from '../../src/debrief/compare-events.ts';
import type { Flight } from '../../src/debrief/debrief.ts';
import { debriefDocument } from '../../src/report/debrief-json.ts';
import { isUndetermined, undetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { debriefDemo, demoContext } from './demo-flights.ts';

const CIRCUITS = '2024-04-20-first-circuits-ternholm.gpx';
const MICROLIGHT = '2024-07-28-microlight-wet-mereling.gpx';

interface Compared {
  readonly outcome?: string;
  readonly ratio: object;
  readonly ratioOf: string;
  readonly wholeDistanceRatio: object;
}

const flights = new Map<string, Flight>();
const documents = new Map<string, readonly Compared[]>();

beforeAll(async () => {
  const context = demoContext();
  for (const file of [CIRCUITS, MICROLIGHT]) {
    const debrief = await debriefDemo(file, context);
    flights.set(file, debrief.flights[0]);
    const document = debriefDocument([{ debrief, problems: [] }], [], []) as {
      readonly flights: readonly { readonly approaches: readonly Compared[] }[];
    };
    documents.set(file, document.flights[0].approaches);
  }
});

describe('[CMP1] comparisons', () => {
  test('[CMP1] only landings to a stop are compared; a touch-and-go has no ratio', () => {
    const approaches = documents.get(CIRCUITS) ?? [];
    expect(approaches.map(({ outcome }) => outcome)).toEqual([
      'touch-and-go',
      'touch-and-go',
      'full-stop',
    ]);
    expect(approaches.map(({ ratio }) => 'value' in ratio)).toEqual([false, false, true]);
  });

  test('[CMP2] the ratio is of ground rolls, and the measured over the expected one', () => {
    const approach = (documents.get(CIRCUITS) ?? [])[2];
    expect(approach.ratioOf).toBe('ground-roll');
    expect(approach.ratio).not.toEqual(approach.wholeDistanceRatio);
    const flight = flights.get(CIRCUITS);
    const measured = flight?.events.approaches[2].groundRollM;
    const prediction = flight?.compared.approaches[2].prediction;
    if (!measured || !prediction || isUndetermined(measured) || isUndetermined(prediction)) {
      throw new Error('not compared');
    }
    if (isUndetermined(prediction.landing)) throw new Error('no landing prediction');
    const { expectedRollM } = prediction.landing;
    if (typeof expectedRollM !== 'number') throw new Error('no expected roll');
    const { value } = approach.ratio as { value: number };
    expectNear(value, measured.value / expectedRollM, 1e-9);
  });

  test('[CMP3] where the handbook gives no roll, whole distances are compared and said to be', () => {
    const approaches = documents.get(MICROLIGHT) ?? [];
    expect(approaches.length).toBe(2);
    for (const approach of approaches) {
      expect(approach.ratioOf).toBe('whole-distance');
      expect(approach.ratio).toEqual(approach.wholeDistanceRatio);
      expect('value' in approach.ratio).toBe(true);
    }
  });
});

describe('[TO3] strip left at lift-off', () => {
  test('[TO3] is TORA less the displacement less the place of lift-off', () => {
    // Ternholm 25: 560 m long, displaced by 60 m or so; the numbers come from the strip itself.
    const flight = flights.get(CIRCUITS);
    const takeOff = flight?.events.takeOffs[0];
    const view = flight?.events.views.find(({ direction }) => direction.designator === '25');
    if (!takeOff || !view || isUndetermined(takeOff.liftOff)) throw new Error('no take-off');
    const { alongM } = takeOff.liftOff;
    if (isUndetermined(alongM) || isUndetermined(takeOff.stripLeftM)) throw new Error('no place');
    const { toraM, displacedM } = view.direction;
    expect(displacedM).toBeGreaterThan(20);
    expectNear(takeOff.stripLeftM.value, toraM - displacedM - alongM.value, 1e-9);
    expectNear(takeOff.stripLeftM.low, toraM - displacedM - alongM.high, 1e-9);
  });
});

describe('[CMP20] the day that landings share', () => {
  test('[CMP20] is the local one of the strip, also where UTC has another date', () => {
    const flight = flights.get(CIRCUITS);
    if (!flight) throw new Error('no flight');
    const dayAt = (lonDeg: number): string => {
      const views = flight.events.views.map((view) => ({
        ...view,
        strip: { ...view.strip, lonDeg: view.strip.lonDeg.map(() => lonDeg) },
      }));
      const none = undetermined('for the test');
      const context = {
        ...{ aeroplane: none, conditions: none, factorSet: none },
        timeS: flight.track.timeS[0],
      };
      const { approaches, takeOffs } = compareEvents({ ...flight.events, views }, context);
      const days = [...approaches, ...takeOffs].flatMap(({ roll, whole }) => [
        roll.dayKey,
        whole.dayKey,
      ]);
      expect(new Set(days).size).toBe(1);
      return days[0];
    };
    // Circuits of a morning by UTC: 170 degrees west it is still the evening before.
    expect(dayAt(2.3)).toBe('2024-04-20');
    expect(dayAt(170)).toBe('2024-04-20');
    expect(dayAt(-170)).toBe('2024-04-19');
  });
});
