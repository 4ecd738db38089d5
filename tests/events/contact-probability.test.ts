/** How far a stated contact probability can be trusted; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { USUAL_LOG } from '../tools/accuracy-logs.ts';
import { judgePasses, reliabilityOf, type JudgedPass } from '../tools/accuracy-contact.ts';

/** Wide bins: so few passes say little of narrow ones. */
const EDGES = [0, 0.1, 0.3, 0.7, 0.95, 1];

function expectReliable(passes: readonly JudgedPass[]): void {
  for (const { from, to, stated, touched, doubt } of reliabilityOf(passes, EDGES)) {
    // Three standard errors, and what the fit may be off by on other seeds (docs/accuracy.md).
    expect(
      Math.abs(touched - stated),
      `${from} to ${to}: ${stated} stated, ${touched}`,
    ).toBeLessThan(3 * doubt + 0.06);
  }
}

const alone = judgePasses(9_000_000, 400, true, USUAL_LOG);

describe('[TP1] the contact probability of passes drawn from the population', () => {
  test('[TP1] alone in their logs: of those given a share, about that share touched', () => {
    expect(alone.length).toBeGreaterThan(380);
    const bins = reliabilityOf(alone, EDGES);
    expect(bins.length, 'all bins are filled').toBe(EDGES.length - 1);
    expectReliable(alone);
    // Saying the mean of everything is reliable too: clear answers must be common.
    const clear = bins.filter(({ from, to }) => from >= 0.95 || to <= 0.1);
    expect(clear.reduce((sum, { count }) => sum + count, 0)).toBeGreaterThan(alone.length / 3);
  });

  test('[TP1] in a flight whose take-off and landing tie the heights', () => {
    const passes = judgePasses(9_100_000, 120, false, USUAL_LOG);
    expect(passes.length).toBeGreaterThan(110);
    expectReliable(passes);
  });

  test('[TP2] the check fails where everything is said to be certain', () => {
    const certain = alone.map(({ stated, touched }) => ({
      stated: stated < 0.5 ? 0.001 : 0.999,
      touched,
    }));
    expect(() => {
      expectReliable(certain);
    }).toThrow('stated');
  });
});
