/** The length needed in words: negative as plainly as positive, never a permission. */
import { describe, expect, test } from 'vitest';
import type { LengthNeeded } from '../../src/calibration/length-needed.ts';
import { lengthRestsOn, lengthSentence, lengthText } from '../../src/report/factor-length.ts';
import { USUAL_UNITS } from '../../src/report/figure-text.ts';
import { undetermined } from '../../src/result.ts';
import { plainSpaces } from '../../src/report/wrap-text.ts';

function needed(lengthM: number, changes: Partial<LengthNeeded> = {}): LengthNeeded {
  const band = { value: lengthM, low: lengthM - 40, high: lengthM + 50 };
  return {
    kind: 'length-needed',
    ...{ landings: 12, days: 7, lengthM: band, middleM: 280, correlation: -0.4 },
    leftM: { value: 355 - lengthM, low: 305 - lengthM, high: 395 - lengthM },
    touchdownM: { value: 50, low: 40, high: 60 },
    rollM: { value: 230, low: 215, high: 246 },
    today: { ldaM: 355, expectedRollM: 190, forecastLogSd: 0 },
    ...changes,
  };
}

describe('the length needed in words', () => {
  test('[LW67] says what 95 of 100 need, that 1 in 20 needs more, and how much the LDA lacks', () => {
    expect(plainSpaces(lengthSentence(needed(396), USUAL_UNITS))).toBe(
      '95 of 100 such landings would need up to 396 m from the threshold, 41 m more than the LDA of 355 m. 1 in 20 would need more.',
    );
    expect(plainSpaces(lengthSentence(needed(300), USUAL_UNITS))).toBe(
      '95 of 100 such landings would need up to 300 m from the threshold, the LDA is 355 m. 1 in 20 would need more.',
    );
    const inFeet = { ...USUAL_UNITS, length: 'ft' } as const;
    expect(plainSpaces(lengthSentence(needed(300), inFeet))).toContain('984 ft');
  });

  test('[LW68] says what it rests on, and of the forecast only before the flight', () => {
    expect(lengthRestsOn(needed(300))).toBe(
      'It rests on 12 landings meant to be short on 7 days; late touchdowns went with shorter rolls.',
    );
    const before = needed(300, {
      correlation: 0.1,
      today: { ldaM: 355, expectedRollM: 190, forecastLogSd: 0.2 },
    });
    expect(lengthRestsOn(before)).toMatch(
      /said little about the roll; how far the wind may be off/,
    );
  });

  test('[LW69] carries its band and its caution on the command line, or why there is none', () => {
    const text = lengthText(needed(396)).join(' ').replace(/\s+/g, ' ');
    expect(text).toContain('Its band is 356 m to 446 m, which leaves −1 m to −91 m of the LDA.');
    expect(text).toContain('no permission to plan shorter');
    expect(lengthText(undetermined('no wind')).join(' ')).toContain('no length needed: no wind');
    const few = { kind: 'too-few', landings: 2, days: 2, reason: 'found 2' } as const;
    expect(lengthText(few).join(' ')).toContain('too few landings meant to be short');
  });
});
