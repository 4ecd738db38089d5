/** The signs of a contact, worked by hand; rules TP1 and TP2 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { contactProbability, groundLogRatio, speedSign } from '../../src/events/contact-signs.ts';
import { offsetOf } from '../../src/events/ground-tie.ts';
import type { StripView } from '../../src/events/strip-view.ts';
import { CONTACT } from '../../src/events/tuning.ts';
import { normalCdf } from '../../src/numeric/distributions.ts';
import type { Motion } from '../../src/track/motion.ts';
import { expectNear } from '../expect-near.ts';

const logistic = (logOdds: number): number => 1 / (1 + Math.exp(-logOdds));

describe('[TP1] the probability of a contact', () => {
  test('[TP1] without any sign of a roll is that of a skim, by the height alone', () => {
    const signs = { rollInSpeed: -1, lowTimeS: 2, groundLogRatio: 1.5 };
    const { even, ground } = CONTACT.withHeight.skim;
    expectNear(contactProbability(signs), logistic(even + 1.5 * ground), 1e-4);
    const blind = { ...signs, lowTimeS: NaN };
    expectNear(contactProbability(blind), logistic(CONTACT.withoutHeight.skim.even), 1e-4);
  });

  test('[TP1] is that of a roll, or of a skim where there was none', () => {
    const { roll, skim } = CONTACT.withHeight;
    const rolled = logistic(roll.even + 0.4 * roll.inSpeed + 3 * roll.lowTime);
    const either = 1 - (1 - rolled) * (1 - logistic(skim.even));
    const signs = { rollInSpeed: 0.4, lowTimeS: 3, groundLogRatio: 0 };
    expectNear(contactProbability(signs), either, 1e-9);
  });

  test('[TP1] grows with the seconds low, and after eight no more', () => {
    const [two, eight, sixty] = [2, 8, 60].map((lowTimeS) =>
      contactProbability({ rollInSpeed: 0.4, lowTimeS, groundLogRatio: 0 }),
    );
    expect(eight).toBeGreaterThan(two + 0.05);
    expect(sixty).toBe(eight);
  });
});

describe('[TP1] what the lowest height says', () => {
  /** Recorded at so many metres, its offset known to so many. */
  const ratio = (heightM: number, sdM: number, tied: boolean, stripId: string | null = 'known') => {
    const motion = { hasHeight: true, noise: { verticalSdM: 0 } } as Motion;
    const strip = { elevationM: [0, 0] };
    const view = { smoothAboveM: Float64Array.of(heightM), stripId, strip } as unknown as StripView;
    const offset = {
      weight: Float64Array.of(1),
      mean: Float64Array.of(0),
      sd: Float64Array.of(sdM),
    };
    return groundLogRatio(motion, view, 0, offsetOf(offset, tied));
  };
  const density = (z: number, sdM: number): number =>
    Math.exp((-z * z) / 2) / (sdM * Math.sqrt(2 * Math.PI));
  /** Mean density in the 25 m above the ground. */
  const inAir = (heightM: number, sdM: number): number =>
    (normalCdf((25 - heightM) / sdM) - normalCdf(-heightM / sdM)) / 25;

  test('[TP1] is how much likelier it is on the ground than anywhere in the 25 m above', () => {
    expectNear(ratio(0, 3, false), Math.log(density(0, 3) / inAir(0, 3)), 1e-5);
    expectNear(ratio(4, 3, false), Math.log(density(4 / 3, 3) / inAir(4, 3)), 1e-5);
  });

  test('[TP1] of a tie counts the receivers that stray by 25 m, three in twenty', () => {
    const ground = 0.85 * density(10 / 3, 3) + 0.15 * density(10 / 25, 25);
    const air = 0.85 * inAir(10, 3) + 0.15 * inAir(10, 25);
    expectNear(ratio(10, 3, true), Math.log(ground / air), 1e-5);
  });

  test('[TP1] is never more than six either way, and nothing where no level is known', () => {
    expect(ratio(24, 1, false)).toBe(-6);
    expect(ratio(0, 0.01, false)).toBe(6);
    expect(ratio(0, 3, false, null)).toBe(0);
    expect(ratio(0, 3, true, null)).not.toBe(0);
  });
});

describe('[TP2] what the speed says', () => {
  /** 30 m/s, slowed from 40 s on at one rate for some seconds, and gathered again at another. */
  function sign(slowMps2: number, forS: number, gatherMps2: number, medianIntervalS = 1): number {
    const timeS = Float64Array.from({ length: 90 }, (_, i) => i);
    const least = 30 - slowMps2 * forS;
    const slowest = 40 + forS;
    const forwardMps = timeS.map((t) =>
      t <= slowest ? 30 - slowMps2 * Math.max(0, t - 40) : least + gatherMps2 * (t - slowest),
    );
    const motion = { timeS, hasHeight: true, medianIntervalS } as Motion;
    const view = { forwardMps, smoothAboveM: timeS.map(() => 0) } as unknown as StripView;
    const pass = { kind: 'arrival' as const, from: 0, to: 90, begunLate: false, referenceMps: 30 };
    return speedSign(motion, view, pass, { anchor: 40, slowest }, () => true);
  }

  // A roll loses 14 % (three and a half wanders of 4 %) and slows by 0.7 m/s2; power counts half.
  test.each([
    ['its slowing', 0.35, 10, 1, 0.35 / 0.7],
    ['half its power', 0.35, 10, 0.4, 0.2 / 0.7],
    ['its loss of speed', 2, 2, 4, 4 / 30 / 0.14],
  ])('[TP2] is the least of a roll in it: %s', (_, slowMps2, forS, gatherMps2, expected) => {
    expectNear(sign(slowMps2, forS, gatherMps2), expected, 0.01);
  });

  test('[TP2] of a slow log is flatter: a tenth more for each second beyond the first, up to four', () => {
    const plain = sign(0.35, 10, 1);
    expectNear(sign(0.35, 10, 1, 3), 1.2 * plain, 1e-9);
    expectNear(sign(0.35, 10, 1, 9), 1.4 * plain, 1e-9);
  });
});
