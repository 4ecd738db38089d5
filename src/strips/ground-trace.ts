/**
 * What the wheels drew on a strip: one roll, run or backtrack, and its reduction to blocks.
 *
 * In: fixes on the ground. Out: means over blocks of strip, with the error that averaging leaves:
 * a handful of numbers for each roll, so that dozens of visits can be weighed together.
 */
import type { StripFrame } from './strip-frame.ts';

/** Fixes of one movement along a strip with the wheels surely down. Columns of equal length. */
export interface GroundTrace {
  /** Fixes of one visit share the receiver's bias. */
  readonly visit: string;
  readonly kind: 'landing' | 'take-off' | 'backtrack';
  readonly timeS: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  /** Height of the ground above mean sea level as far as the log's datum tells, NaN where it has none. */
  readonly groundMslM: Float64Array;
  /** How far off all heights of the visit may be together, one standard deviation. */
  readonly levelSdM: number;
  /** White noise of one fix, one standard deviation. */
  readonly horizontalSdM: number;
  readonly verticalSdM: number;
}

/** Mean over some metres of one trace. */
export interface TraceBlock {
  readonly visit: string;
  /** Number of the trace. */
  readonly trace: number;
  readonly timeS: number;
  readonly alongM: number;
  readonly crossM: number;
  readonly groundMslM: number;
  readonly crossVar: number;
  readonly heightVar: number;
  readonly levelSdM: number;
}

/** Reduces traces to blocks of about `stepM` of strip, in the order of the fixes. */
export function blocksOf(
  traces: readonly GroundTrace[],
  frame: StripFrame,
  stepM: number,
): TraceBlock[] {
  return traces.flatMap((trace, number) => {
    const { alongM, crossM } = frame.toAlongCross(trace.latDeg, trace.lonDeg);
    const blocks: TraceBlock[] = [];
    let from = 0;
    for (let i = 1; i <= alongM.length; i++) {
      const full = i === alongM.length || Math.abs(alongM[i] - alongM[from]) >= stepM;
      if (!full) continue;
      blocks.push(blockOf(trace, number, alongM, crossM, from, i));
      from = i;
    }
    return blocks;
  });
}

function blockOf(
  trace: GroundTrace,
  number: number,
  alongM: Float64Array,
  crossM: Float64Array,
  from: number,
  to: number,
): TraceBlock {
  const mean = (column: Float64Array): number => {
    let sum = 0;
    for (let i = from; i < to; i++) sum += column[i];
    return sum / (to - from);
  };
  return {
    visit: trace.visit,
    trace: number,
    timeS: mean(trace.timeS),
    alongM: mean(alongM),
    crossM: mean(crossM),
    groundMslM: mean(trace.groundMslM),
    crossVar: trace.horizontalSdM ** 2 / (to - from) + ROUNDING_VAR,
    heightVar: trace.verticalSdM ** 2 / (to - from) + ROUNDING_VAR,
    levelSdM: trace.levelSdM,
  };
}

/** What rounding of recorded positions and heights leaves after averaging, m2. */
const ROUNDING_VAR = 0.01;
