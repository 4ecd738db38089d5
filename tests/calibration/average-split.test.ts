/** Many rolls split in the middle. */
import { expect, test } from 'vitest';
import { averageSplit, splitRoll, type RollSplit } from '../../src/calibration/roll-split.ts';
import { expectNear } from '../expect-near.ts';

function split(measured: number, speed: number): RollSplit {
  const exactly = (value: number) => ({ value, low: value, high: value });
  const found = splitRoll({
    measuredM: exactly(measured),
    expectedM: 200,
    touchdownMps: exactly(speed),
    referenceMps: 20,
  });
  if (!found) throw new Error('no split');
  return found;
}

test('[RS8] the shares of many rolls multiply to their middle ratio, and undo each other', () => {
  // 242 m at 22 m/s is all speed (1.21); 400 m at 20 m/s is all braking (2): geometric means by hand.
  const average = averageSplit([split(242, 22), split(400, 20)]);
  expectNear(average?.touchdownSpeed ?? NaN, Math.sqrt(1.21), 1e-12, 'speed');
  expectNear(average?.braking ?? NaN, Math.sqrt(2), 1e-12, 'braking');
  expectNear(average?.ratio ?? NaN, Math.sqrt(1.21 * 2), 1e-12, 'ratio');
  expect(average?.landings).toBe(2);
  const undone = averageSplit([split(400, 20), split(100, 20)]);
  expectNear(undone?.ratio ?? NaN, 1, 1e-12, 'twice and half');
  expect(averageSplit([])).toBeNull();
});
