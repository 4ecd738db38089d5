/** What was learned of strips, as text. */
import { expect, test } from 'vitest';
import { learnedLines } from '../../src/report/learned-tables.ts';
import type { LearnedPlace } from '../../src/debrief/learn-strips.ts';
import { demoContext } from '../debrief/demo-flights.ts';

test('[LTB1] a slope of nothing has no minus', () => {
  const [strip] = demoContext().strips.strips;
  const about = (value: number, half: number) => ({ value, low: value - half, high: value + half });
  const place: LearnedPlace = {
    ...{ known: true, notes: [], strip },
    learned: {
      ...{
        visits: 3,
        traces: 5,
        latDeg: [strip.latDeg[0], strip.latDeg[1]],
        lonDeg: [strip.lonDeg[0], strip.lonDeg[1]],
      },
      ...{
        bearingDeg: about(70, 0.2),
        turnedDeg: about(0, 0.2),
        rightM: about(0, 1),
        rightAtEndsM: [about(0, 1), about(0, 1)],
      },
      ...{ usedFromM: about(10, 5), usedToM: about(300, 5), usedLengthM: about(290, 7) },
      ...{ slopeRatio: about(-0.0003, 0.004), elevationM: about(12, 2), profile: [] },
    },
  };
  const text = learnedLines([place]).join('\n');
  expect(text).toContain('0.0 % −0.4 to 0.4');
  expect(text).not.toContain('−0.0');
});
