/** Shares of a whole as they are shown. */
import { describe, expect, test } from 'vitest';
import { wholeShares } from '../../src/report/rounding.ts';

describe('[ADD1] whole shares', () => {
  test('[ADD1] are the nearest where these add up', () => {
    expect(wholeShares([12.2, 30.9, -3.1], 40)).toEqual([12, 31, -3]);
  });

  test('[ADD1] else give or take where the rounding went furthest the other way', () => {
    expect(wholeShares([47.6, -0.4], 48)).toEqual([48, 0]);
    expect(wholeShares([47.4, 0.3], 48)).toEqual([48, 0]);
    expect(wholeShares([-10.5, -10.4], -22)).toEqual([-11, -11]);
    expect(wholeShares([1.5, 1.5, 1.5], 4)).toEqual([1, 1, 2]);
  });

  test('[ADD1] lie within one of each share and add up, whatever the shares', () => {
    for (let k = 0; k < 500; k++) {
      const shares = [Math.sin(k) * 80, Math.cos(3 * k) * 80, Math.sin(7 * k) * 9];
      const exact = shares.reduce((all, share) => all + share, 0);
      const total = Math.round(exact);
      const whole = wholeShares(shares, total);
      expect(whole.reduce((all, share) => all + share, 0)).toBe(total + 0);
      whole.forEach((share, i) => expect(Math.abs(share - shares[i])).toBeLessThan(1.5));
    }
  });
});
