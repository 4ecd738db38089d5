/** A tree stands before one threshold and has one height, whichever way one flies; OC1 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { stripPlaceOf } from '../../src/debrief/strip-place.ts';
import { surroundingsOf } from '../../src/debrief/surroundings.ts';
import { detectEvents } from '../../src/events/detect-events.ts';
import { isUndetermined } from '../../src/result.ts';
import type { PilotUnits } from '../../src/report/figure-text.ts';
import { stripGround } from '../../src/report/pictures/strip-ground.ts';
import { EMPTY_STRIP_BOOK, type Obstacle, type StripBook } from '../../src/strips/strip.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { record } from '../events/simulated.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { createMap } from '../synthetic/runway.ts';
import { flyDrawnTakeOff } from '../synthetic/scenarios.ts';

const UNITS: PilotUnits = { length: 'm', height: 'm', speed: 'km/h' };

/** 600 m that rise from 100 to 112 m; the threshold at the high end is displaced by 50 m, to 111 m. */
const strip = inventStrip(createMap(), {
  ...{ id: 'slope', bearingDeg: 0, lengthM: 600, elevationM: [100, 112] },
  fromB: { displacedM: 50 },
});

/** A tree 100 m beyond either end, with its height in one of two ways. */
function book(beyond: 'A' | 'B', height: Partial<Obstacle>): StripBook {
  const place = stripPlaceOf(strip, '36');
  if (!place) throw new Error('the strip lost its direction');
  const { latDeg, lonDeg } = place.frame.pointAt(beyond === 'A' ? -100 : 700, 5);
  const tree: Obstacle = {
    strip: 'slope',
    name: 'Tree',
    ...{ latDeg: [latDeg], lonDeg: [lonDeg] },
    ...{ topMslM: null, topAboveThresholdM: null, heightM: null },
    properties: {},
    ...height,
  };
  return { ...EMPTY_STRIP_BOOK, strips: [strip], obstacles: [tree] };
}

describe('[OC1] a top above the threshold', () => {
  const cases = [
    ['A', 100],
    ['B', 111],
  ] as const;

  test.each(cases)(
    '[OC1] beyond end %s is drawn where the same top above the sea is',
    (end, mslM) => {
      for (const designator of ['36', '18']) {
        const place = stripPlaceOf(strip, designator);
        if (!place) throw new Error(`no ${designator}`);
        const [above, msl] = [{ topAboveThresholdM: 12 }, { topMslM: mslM + 12 }].map((height) => {
          const { obstacles } = stripGround(place, book(end, height), UNITS);
          expect(obstacles).toHaveLength(1);
          return obstacles[0];
        });
        expect(above.topM, designator).toBeCloseTo(msl.topM, 3);
        expect(above.heightM, designator).toBeCloseTo(msl.heightM, 3);
      }
    },
  );

  test.each(cases)(
    '[OC1] beyond end %s is cleared by as much as the same top above the sea',
    (end, mslM) => {
      let compared = 0;
      for (let seed = 20; seed < 24; seed++) {
        const scenario = flyDrawnTakeOff(seed, { strip });
        const motion = computeMotion(record(scenario, { seed }));
        const [above, msl] = [{ topAboveThresholdM: 12 }, { topMslM: mslM + 12 }].map((height) => {
          const strips = book(end, height);
          return surroundingsOf(motion, detectEvents(motion, strips), strips).takeOffs[0];
        });
        expect(above.length).toBe(msl.length);
        for (const [k, { verticalM }] of above.entries()) {
          const other = msl[k].verticalM;
          if (isUndetermined(verticalM) || isUndetermined(other)) throw new Error('undetermined');
          expect(verticalM.value).toBeCloseTo(other.value, 3);
          compared++;
        }
      }
      expect(compared).toBeGreaterThan(0);
    },
  );
});
