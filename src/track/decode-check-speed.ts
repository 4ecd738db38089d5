/**
 * Are the recorded speeds in the unit that was assumed?
 *
 * No field states its unit, and a speed three times too high would spoil every roll. The positions
 * of the same fixes tell: over many moving steps the median of recorded by travelled speed is near
 * 1, or near the ratio of two units. Inputs: the track. Output: what to multiply the recorded
 * speeds by, and a problem where that is not 1.
 */

import type { Problem } from '../result.ts';
import { problem } from '../result.ts';
import { MPS_PER_KMH, MPS_PER_KNOT, MPS_PER_MPH } from '../units/convert.ts';
import type { Track } from './track.ts';

const METRES_PER_DEGREE = 111_195;
const RADIANS_PER_DEGREE = Math.PI / 180;
/** Below 8 m/s the scatter of positions makes the travelled speed too high. */
const MOVING_MPS = 8;
/** Steps longer than this cut corners of turns. */
const LONGEST_STEP_S = 10;
const SHORTEST_STEP_S = 0.5;
const ENOUGH_STEPS = 20;
const MOST_STEPS = 20_000;
/** Median ratio within which the unit is as assumed. */
const AGREES = 1.25;
/** Median ratio within which another unit explains it. */
const NEAR = 1.08;

/** The units that loggers write instead, as a multiple of the assumed one, with the words for it. */
export interface OtherUnit {
  readonly perAssumed: number;
  readonly words: string;
}

/** Where metres a second are assumed (GPX). */
export const INSTEAD_OF_MPS: readonly OtherUnit[] = [
  { perAssumed: 1 / MPS_PER_KMH, words: 'km/h, not m/s' },
  { perAssumed: 1 / MPS_PER_KNOT, words: 'knots, not m/s' },
  { perAssumed: 1 / MPS_PER_MPH, words: 'mph, not m/s' },
];

/** Where kilometres an hour with three digits before the point are assumed (IGC GSP). */
export const INSTEAD_OF_KMH: readonly OtherUnit[] = [
  { perAssumed: 10, words: 'tenths of km/h' },
  { perAssumed: 100, words: 'hundredths of km/h' },
  { perAssumed: 0.1, words: 'km/h with a digit more before the point' },
  { perAssumed: MPS_PER_KMH, words: 'm/s, not km/h' },
  { perAssumed: MPS_PER_KMH / MPS_PER_KNOT, words: 'knots, not km/h' },
];

/**
 * Compares recorded with travelled speed.
 *
 * Shape: `factor` multiplies every recorded speed; NaN means that they fit no unit and must not be
 * used. Fails: never; too few moving steps give factor 1 and no problem.
 */
export function checkSpeedUnit(
  track: Track,
  units: readonly OtherUnit[],
): { factor: number; problems: Problem[] } {
  const ratio = medianRatio(track);
  if (Number.isNaN(ratio) || within(ratio, AGREES)) return { factor: 1, problems: [] };
  const unit = units.find((u) => within(ratio / u.perAssumed, NEAR));
  const found = `The recorded speeds are ${ratio.toFixed(2)} times the speeds that the positions give`;
  if (unit !== undefined) {
    const message = `${found}: they were read as ${unit.words}.`;
    return {
      factor: 1 / unit.perAssumed,
      problems: [problem('speed-unit', 'warning', 'file', message)],
    };
  }
  const message = `${found}, which no unit explains; they were not used.`;
  return { factor: NaN, problems: [problem('speed-disagrees', 'warning', 'file', message)] };
}

function within(ratio: number, factor: number): boolean {
  return ratio < factor && ratio > 1 / factor;
}

function medianRatio(track: Track): number {
  const ratios: number[] = [];
  const { timeS, latDeg, lonDeg, groundSpeedMps } = track;
  for (let i = 1; i < track.length && ratios.length < MOST_STEPS; i++) {
    const recorded = (groundSpeedMps[i - 1] + groundSpeedMps[i]) / 2;
    const stepS = timeS[i] - timeS[i - 1];
    if (Number.isNaN(recorded) || !(stepS >= SHORTEST_STEP_S && stepS <= LONGEST_STEP_S)) continue;
    const north = (latDeg[i] - latDeg[i - 1]) * METRES_PER_DEGREE;
    const shrink = Math.cos(latDeg[i] * RADIANS_PER_DEGREE);
    const east = (lonDeg[i] - lonDeg[i - 1]) * METRES_PER_DEGREE * shrink;
    const travelled = Math.hypot(north, east) / stepS;
    if (travelled > MOVING_MPS) ratios.push(recorded / travelled);
  }
  if (ratios.length < ENOUGH_STEPS) return NaN;
  ratios.sort((a, b) => a - b);
  return ratios[ratios.length >> 1];
}
