/** Evidence of positions and heights put together; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { HEIGHT_SHAPES } from '../../src/events/height-shapes.ts';
import { COMMON_MANNER } from '../../src/events/manner.ts';
import type { StripView } from '../../src/events/strip-view.ts';
import { weighAlong } from '../../src/events/touchdown-along.ts';
import { combineEvidence, placeLogPrior } from '../../src/events/touchdown-posterior.ts';
import { expectNear } from '../expect-near.ts';

describe('[TD7] a log without heights', () => {
  test('[TD7] is weighed as one whose heights fit every round-out equally well', () => {
    const timeS = Float64Array.from({ length: 24 }, (_, i) => i);
    const alongM = timeS.map((t) => (t < 11 ? 24 * t : 264 + 24 * (t - 11) - 0.6 * (t - 11) ** 2));
    const candidateS = Float64Array.of(8, 9.5, 11, 12.5);
    const along = weighAlong(timeS, alongM, new Float64Array(24).fill(0.5), candidateS);
    if (!along) throw new Error('the positions have evidence');
    // At a place nobody knows, so that nothing is said of where on a strip.
    const view = { stripId: null } as StripView;
    const shapeCount = HEIGHT_SHAPES.length;
    const even = { shapeCount, logEvidence: new Float64Array(candidateS.length * shapeCount) };
    const without = combineEvidence(candidateS, along, null, view, COMMON_MANNER);
    const within = combineEvidence(candidateS, along, even, view, COMMON_MANNER);
    candidateS.forEach((_, c) => {
      expectNear(without.weight[c], within.weight[c], 1e-12);
      expectNear(without.alongM[c], within.alongM[c], 1e-9);
    });
    expect(Math.max(...without.weight)).toBeLessThan(0.95);
    expect(without.arrival?.shapes).toBeNull();
  });
});

describe('[TD10] evidence in the weight of a touchdown', () => {
  test('[TD10] counts to the power of 1.08, and where on the strip once', () => {
    const timeS = Float64Array.from({ length: 24 }, (_, i) => i);
    const alongM = timeS.map((t) => (t < 11 ? 24 * t : 264 + 24 * (t - 11) - 0.6 * (t - 11) ** 2));
    const candidateS = Float64Array.of(9.5, 11);
    const along = weighAlong(timeS, alongM, new Float64Array(24).fill(0.5), candidateS);
    if (!along) throw new Error('the positions have evidence');
    const shapeCount = HEIGHT_SHAPES.length;
    const heights = (more: number) => ({
      shapeCount,
      logEvidence: Float64Array.from({ length: 2 * shapeCount }, (_, k) =>
        k < shapeCount ? 0 : more,
      ),
    });
    const oddsWith = (more: number, view: StripView): number => {
      const { weight } = combineEvidence(candidateS, along, heights(more), view, COMMON_MANNER);
      return weight[1] / weight[0];
    };
    const nowhere = { stripId: null } as StripView;
    const ratio = oddsWith(1, nowhere) / oddsWith(0, nowhere);
    expectNear(Math.log(ratio), 1.08, 1e-9, 'a unit of log evidence for the second candidate');
    // The first candidate lies 36 m before the near end, the second on it: the odds of that, as they are.
    const frame = { nearEndAlongM: 264, farEndAlongM: 700 } as StripView['frame'];
    const strip = { endsGuessed: false } as StripView['strip'];
    const somewhere = { stripId: 'a', strip, frame } as StripView;
    const prior =
      placeLogPrior(along.positionM[along.positionM.length - 1], frame) -
      placeLogPrior(along.positionM[0], frame);
    const odds = Math.log(oddsWith(0, somewhere) / oddsWith(0, nowhere));
    expectNear(odds, prior, 0.05, 'places of one candidate differ little between floats');
  });
});
