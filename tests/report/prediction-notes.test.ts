/** What the predictor remarks, said of the use it is about. */
import { describe, expect, test } from 'vitest';
import { notesOf, predictionNoteLines } from '../../src/report/prediction-notes.ts';
import { predicted } from '../performance/invented-aeroplane.ts';

const DOWNHILL = predicted({ direction: { slopeRatio: -0.01 } });

describe('[PRE29] a note of a credit that is not taken', () => {
  test('[PRE29] names its use: downhill it is the take-off that gains, and the landing is told nothing', () => {
    expect(predictionNoteLines(notesOf(DOWNHILL, 'take-off'))).toContain(
      'the planned take-off takes no credit for slope (1.0 % downhill)',
    );
    const ofLanding = predictionNoteLines(notesOf(DOWNHILL, 'landing')).join();
    expect(ofLanding).not.toContain('slope');
  });

  test('[PRE29] says what holds for both uses once, and of neither', () => {
    const noQnh = predicted({ conditions: { qnhHpa: null } });
    const lines = predictionNoteLines([
      ...notesOf(noQnh, 'landing'),
      ...notesOf(noQnh, 'take-off'),
    ]);
    expect(lines.filter((line) => line.startsWith('no QNH was entered'))).toHaveLength(1);
    const said = { code: 'any', text: 'said of both' };
    expect(predictionNoteLines([said, said])).toEqual(['said of both']);
  });

  test('[PRE29] frozen before the use was named still reads', () => {
    const old = { code: 'credit-not-taken', text: 'slope: no credit is taken for 0.2 % downhill' };
    expect(notesOf({ ...DOWNHILL, notes: [old] }, 'landing')).toEqual([old]);
    expect(predictionNoteLines([old])).toEqual([
      'the planned figures take no credit for slope (0.2 % downhill)',
    ]);
  });
});
