/** The working as it would stand written with a pencil; figures worked by hand. */
import { describe, expect, test } from 'vitest';
import type { ChainStep } from '../../../src/performance/prediction.ts';
import { USUAL_UNITS } from '../../../src/report/figure-text.ts';
import { workingLines } from '../../../src/report/story/visit-working.ts';

const step = (change: Partial<ChainStep>): ChainStep => ({
  ...{ name: 'wet grass', factor: null, addM: null, actsOn: 'whole distance' },
  ...{ source: 'a handbook', why: '', runningM: 500 },
  ...change,
});

describe('[DN2] the working', () => {
  test('[DN2] has factors of two decimals where they are the factor, else of four', () => {
    const by = (factor: number): string =>
      workingLines([step({ factor })], 500, USUAL_UNITS)[0].by.replace('\u00a0', ' ');
    expect([1.43, 1.2, 0.9, 1.35004].map(by)).toEqual(['× 1.43', '× 1.20', '× 0.90', '× 1.35']);
    expect([1.3512, 0.98765, 1.0049].map(by)).toEqual(['× 1.3512', '× 0.9877', '× 1.0049']);
    expect(by(1)).toBe('');
  });

  test('[DN2] with the factors as written a pencil comes to the same metre', () => {
    // 512 m, by 0.98765 is 505.68 and by 1.0333 of that 522.52; with two decimals it would be 522.10.
    const [first, second] = [512 * 0.98765, 512 * 0.98765 * 1.0333];
    const lines = workingLines(
      [
        step({ runningM: 512 }),
        step({ factor: 0.98765, runningM: first }),
        step({ factor: 1.0333, runningM: second }),
      ],
      second,
      USUAL_UNITS,
    );
    let byPencil = 512;
    for (const { by } of lines.slice(1)) byPencil *= Number(by.slice(1));
    expect(Math.round(byPencil)).toBe(523);
    expect(lines.map(({ running }) => parseFloat(running))).toEqual([512, 506, 523]);
  });

  test('[DN2] [ADD1] what is added is what lies between the two lengths as they are shown', () => {
    // 211.4 and 258.6 m read as 211 and 259: 48 m by pencil, though 47.2 m were added.
    const lines = workingLines(
      [step({ runningM: 211.4 }), step({ addM: 47.2, runningM: 258.6 })],
      258.6,
      USUAL_UNITS,
    );
    expect(lines[1].by).toBe('+48\u00a0m');
  });

  test('[DN2] is in the pilot\u2019s units, what is added as what comes out', () => {
    const feet = { ...USUAL_UNITS, length: 'ft' } as const;
    const lines = workingLines([step({ addM: -30.48 }), step({ addM: 30.48 })], 500, feet);
    expect(lines.map(({ by }) => by)).toEqual(['\u2212100\u00a0ft', '+100\u00a0ft']);
    expect(lines[0].running).toBe('1640\u00a0ft');
  });
});
