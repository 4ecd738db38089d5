/** What stands beyond the end of a take-off. */
import { expect, test } from 'vitest';
import { USUAL_UNITS } from '../../../src/report/figure-text.ts';
import { obstaclesAhead } from '../../../src/report/story/obstacles-ahead.ts';
import { undetermined } from '../../../src/result.ts';
import { visitOf } from '../../drawings/demo-pictures.ts';

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
const said = (planned: Parameters<typeof obstaclesAhead>[2]): string[] =>
  obstaclesAhead(GROUND, -60, planned, USUAL_UNITS).map((line) => line.replaceAll('\u00a0', ' '));

test('[VI14] says where the planned 50 ft lie against each obstacle ahead, the nearest first', () => {
  expect(said(600)).toEqual([
    'hedge, 580 m from brakes off: 50 ft are planned 20 m behind it.',
    'far oak, 700 m from brakes off: 50 ft are planned 100 m before it.',
  ]);
});

test('[VI14] says nothing where nothing was planned', () => {
  expect(said(undetermined('no table'))).toEqual([]);
});
