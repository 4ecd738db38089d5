import { describe, expect, test } from 'vitest';
import {
  equalLength,
  hasValues,
  missingColumn,
  sliceColumns,
  spreadOf,
} from '../../src/numeric/columns.ts';

describe('columns', () => {
  test('[COL1] one length for all, or the two that differ are named', () => {
    expect(equalLength({ timeS: new Float64Array(3), line: new Int32Array(3) })).toBe(3);
    expect(() => equalLength({ timeS: new Float64Array(3), heightM: [1, 2] })).toThrow(
      'timeS has 3 slots but heightM has 2',
    );
    expect(() => equalLength({})).toThrow('no columns');
  });

  test('[COL2] a missing column has no values, and zero is a value', () => {
    const column = missingColumn(2);
    expect([...column]).toEqual([NaN, NaN]);
    expect(hasValues(column)).toBe(false);
    expect(hasValues(Float64Array.of(NaN, 0))).toBe(true);
    expect(hasValues(new Float64Array(0))).toBe(false);
  });

  test('[COL3] a slice is a copy of the half-open range of every column', () => {
    const timeS = Float64Array.of(1, 2, 3, 4);
    const cut = sliceColumns({ timeS, heightM: Float64Array.of(5, NaN, 7, 8) }, 1, 3);
    expect([...cut.timeS]).toEqual([2, 3]);
    expect([...cut.heightM]).toEqual([NaN, 7]);
    cut.timeS[0] = 99;
    expect(timeS[1]).toBe(2);
    expect([...sliceColumns({ timeS }, 4, 4).timeS]).toEqual([]);
  });

  test('[COL4] a range outside the columns is a mistake of the program', () => {
    const timeS = new Float64Array(4);
    expect(() => sliceColumns({ timeS }, -1, 2)).toThrow('-1 to 2');
    expect(() => sliceColumns({ timeS }, 3, 2)).toThrow('3 to 2');
    expect(() => sliceColumns({ timeS }, 0, 5)).toThrow('0 to 5 does not lie within 0 to 4');
    expect(() => sliceColumns({ timeS }, NaN, 2)).toThrow('NaN');
  });

  test('[COL5] mean and spread leave missing values out', () => {
    const spread = spreadOf([NaN, 2, 4, NaN]);
    // (2 + 4) / 2 and sqrt((1 + 1) / 1).
    expect(spread).toEqual({ count: 2, mean: 3, sd: Math.SQRT2 });
    expect(spreadOf([7])).toEqual({ count: 1, mean: 7, sd: NaN });
    expect(spreadOf([NaN])).toEqual({ count: 0, mean: NaN, sd: NaN });
  });
});
