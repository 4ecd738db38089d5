/** What a strip's position error means, against counted draws. */
import { expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { placeSdM, positionErrorOfSdM } from '../../src/strips/place-error.ts';
import { expectNear } from '../expect-near.ts';

test('[PE2] 95 of 100 positions drawn with the standard deviation of both directions lie within the error', () => {
  const random = createRandom(5);
  const sdM = placeSdM({ positionErrorM: 5 });
  let within = 0;
  for (let k = 0; k < 20_000; k++) {
    if (Math.hypot(sdM * random.normal(), sdM * random.normal()) < 5) within++;
  }
  // Counting 20,000 draws has a standard error of 0.15 %.
  expectNear(within / 20_000, 0.95, 0.006);
  // FGDC-STD-007.3-1998: 95 % radius = 2.4477 times the error of one direction (from memory).
  expectNear(sdM, 5 / 2.4477, 1e-4);
  expect(positionErrorOfSdM(sdM)).toBeCloseTo(5, 12);
});
