/** Heights beyond the end of a take-off, by similar triangles. */
import { expect, test } from 'vitest';
import { heightGainedM, heightsAtObstacle } from '../../src/performance/obstacle-ahead.ts';
import { undetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { metres, oneRow, reasonOf, takeOff } from './invented-aeroplane.ts';

test('[OBS1] carries the line from lift-off to 50 ft straight on; before lift-off there is no height', () => {
  expectNear(metres(heightGainedM(300, 500, 15.24, 500)), 15.24, 1e-9);
  expectNear(metres(heightGainedM(300, 500, 15.24, 400)), 7.62, 1e-9);
  expectNear(metres(heightGainedM(300, 500, 15.24, 600)), 22.86, 1e-9);
  expect(metres(heightGainedM(300, 500, 15.24, 250))).toBe(0);
});

test('[OBS2] planned climbs at the same angle as expected and begins later by the whole margin', () => {
  const found = takeOff();
  // 300 m run and 200 m air on dry grass at 1.2: 600 m, of which 400 m run; planned 798 and 598 m.
  const obstacle = { awayM: 700, topAboveStartM: 6, surfaceRiseM: () => 0 };
  const { expected, planned } = heightsAtObstacle(found, obstacle);
  expectNear(metres(expected.gainedM), (300 / 200) * 15.24, 1e-9);
  expectNear(metres(planned.gainedM), (102 / 200) * 15.24, 1e-9);
  expectNear(metres(planned.overTopM), (102 / 200) * 15.24 - 6, 1e-9);
});

test('[OBS3] a table over 15 m reaches 15 m there', () => {
  const tables = [
    oneRow('take-off-to-screen', 500, { screenHeightM: 15 }),
    oneRow('take-off-roll', 300),
  ];
  const obstacle = { awayM: 600, topAboveStartM: 0, surfaceRiseM: () => 0 };
  const found = heightsAtObstacle(takeOff({ aeroplane: { tables } }), obstacle);
  expectNear(metres(found.expected.gainedM), 15, 1e-9);
});

test('[OBS4] no roll, no climb or no known top: the reason, not a height', () => {
  const obstacle = { awayM: 600, topAboveStartM: NaN, surfaceRiseM: () => 0 };
  expect(reasonOf(heightsAtObstacle(takeOff(), obstacle).planned.overTopM)).toContain('not known');
  expect(reasonOf(heightGainedM(undetermined('no roll'), 500, 15.24, 600))).toBe('no roll');
  expect(reasonOf(heightGainedM(500, 500, 15.24, 600))).toContain('no shorter');
});
