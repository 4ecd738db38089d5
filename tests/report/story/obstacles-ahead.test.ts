/** What stands beyond the end of a take-off. */
import { expect, test } from 'vitest';
import type { TakeOffPrediction } from '../../../src/performance/prediction.ts';
import { USUAL_UNITS } from '../../../src/report/figure-text.ts';
import type { StripGround } from '../../../src/report/pictures/strip-ground.ts';
import { aheadLines, obstaclesAhead } from '../../../src/report/story/obstacles-ahead.ts';
import { undetermined } from '../../../src/result.ts';
import { ENDS_GUESSED } from '../../../src/strips/strip.ts';
import { visitOf } from '../../drawings/demo-pictures.ts';
import { expectNear } from '../../expect-near.ts';

const { ground } = visitOf({ stripId: 'ternholm', landing: '25', takeOff: '25' }).takeOff;
const at = (label: string, ...alongM: number[]) => ({
  ...ground.obstacles[0],
  label,
  alongM: Float64Array.from(alongM),
});
// Ternholm 25: the run begins 60 m before the threshold, the strip ends 500 m past it.
const GROUND = {
  ...ground,
  obstacles: [at('far oak', 640), at('hedge', 520, 530), at('beside', 300), at('behind', -90)],
};

/** 400 m of run and 600 m to 50 ft expected; planned 100 m more of both. */
const TAKE_OFF: TakeOffPrediction = {
  expectedRollM: 400,
  plannedRollM: 500,
  expectedTo50FtM: 600,
  plannedTo50FtM: 700,
  marginM: 0,
  chain: { expected: [], planned: [] },
};
const said = (takeOff: TakeOffPrediction, ground: StripGround = GROUND): string[] =>
  aheadLines(obstaclesAhead(ground, -60, takeOff), takeOff.plannedTo50FtM, USUAL_UNITS).map(
    (line) => line.replaceAll('\u00a0', ' '),
  );

test('[VI14] says where the planned 50 ft lie against each obstacle ahead, the nearest first', () => {
  const lines = said({ ...TAKE_OFF, plannedTo50FtM: 600, plannedRollM: undetermined('none') });
  expect(lines.map((line) => line.split('.')[0])).toEqual([
    'hedge, 580 m from brakes off: 50 ft are planned 20 m behind it',
    'far oak, 700 m from brakes off: 50 ft are planned 100 m before it',
  ]);
});

test('[VI14] says nothing where nothing was planned', () => {
  expect(said({ ...TAKE_OFF, plannedTo50FtM: undetermined('no table') })).toEqual([]);
});

test('[VI15] gives the heights over each top by the mean climb to 50 ft, with and without margin', () => {
  const level = { ...GROUND, surface: null };
  const [hedge, oak] = obstaclesAhead(level, -60, TAKE_OFF);
  // 50 ft in 200 m: 180 m past lift-off is 13.716 m, 80 m past the planned one 6.096 m.
  const { topM } = ground.obstacles[0];
  expectNear(hedge.expectedOverTopM as number, 13.716 - topM, 1e-9);
  expectNear(hedge.plannedOverTopM as number, 6.096 - topM, 1e-9);
  expectNear(oak.expectedOverTopM as number, 22.86 - topM, 1e-9);
  expectNear(oak.plannedOverTopM as number, 15.24 - topM, 1e-9);
});

test('[VI15] counts from the surface where the wheels leave it, up or down the slope', () => {
  // Falls by 4 m evenly from the start of the run to the end of the strip 560 m on.
  const surface = { alongM: Float64Array.of(-60, 500), riseM: Float64Array.of(0, -4) };
  const [hedge] = obstaclesAhead({ ...GROUND, surface }, -60, TAKE_OFF);
  const { topM } = ground.obstacles[0];
  expectNear(hedge.expectedOverTopM as number, 13.716 - topM - (4 * 400) / 560, 1e-9);
});

test('[VI15] says no height where the handbook gives no roll or the top is not known', () => {
  const noRoll = {
    ...TAKE_OFF,
    expectedRollM: undetermined('no roll'),
    plannedRollM: undetermined('no roll'),
  };
  expect(said(noRoll).join()).not.toContain('Over its top');
  const noTop = { ...GROUND, obstacles: [{ ...GROUND.obstacles[0], topM: NaN }] };
  expect(said(TAKE_OFF, noTop).join()).not.toContain('Over its top');
  expect(said(TAKE_OFF)[0]).toMatch(
    /Over its top: expected \u2212?\d+ ft, planned \u2212?\d+ ft\.$/,
  );
});

test('[VI34] where the ends are a guess nothing is counted from where the run begins', () => {
  const ahead = obstaclesAhead({ ...GROUND, endsGuessed: true }, -60, TAKE_OFF);
  const none = undetermined(ENDS_GUESSED);
  expect(ahead).toMatchObject([
    { label: 'hedge', awayM: none, expectedOverTopM: none, plannedOverTopM: none },
    { label: 'far oak', awayM: none, expectedOverTopM: none, plannedOverTopM: none },
  ]);
  expect(said(TAKE_OFF, { ...GROUND, endsGuessed: true })).toEqual(
    ['hedge', 'far oak'].map(
      (label) => `${label} stands ahead; how far from brakes off nobody knows: ${ENDS_GUESSED}.`,
    ),
  );
});
