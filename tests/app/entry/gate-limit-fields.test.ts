import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  conditionsFromFields,
  fieldsFromConditions,
  type ConditionsFields,
} from '../../../src/app/entry/conditions-fields.ts';
import { earlierLimits } from '../../../src/app/entry/earlier-limits.ts';
import {
  fieldsFromLimits,
  limitLabel,
  limitsFromFields,
  limitsLine,
  LIMIT_FIELDS,
} from '../../../src/app/entry/gate-limit-fields.ts';
import { entryId, type ShownUnits, type VisitRecord } from '../../../src/logbook/entry.ts';
import { makeSettings, makeVisit } from '../../../src/logbook/make-entry.ts';
import { NO_CONDITIONS } from '../../../src/weather/conditions.ts';
import type { GateLimits, Limits } from '../../../src/weather/gate-limits.ts';

const UNITS = makeSettings(0).units;
const OTHER: ShownUnits = { ...UNITS, speed: 'km/h', verticalSpeed: 'm/s', length: 'ft' };
const FRESH = { conditions: null, aeroplaneId: null };

const entered = (change: Partial<ConditionsFields>, units: ShownUnits = UNITS) =>
  conditionsFromFields({ ...fieldsFromConditions(FRESH, units), ...change }, units, FRESH);
const limitsOf = (change: Partial<ConditionsFields>, units?: ShownUnits) => {
  const read = entered(change, units);
  if (!read.ok) throw new Error(JSON.stringify(read.messages));
  return read.conditions.gateLimits;
};
const messagesOf = (change: Partial<ConditionsFields>, units?: ShownUnits) => {
  const read = entered(change, units);
  return read.ok ? {} : read.messages;
};

describe('limits of a final in the form', () => {
  test('[LF1] none entered are none kept, and an empty figure is not limited', () => {
    expect(limitsOf({ temperature: '15' })).toBeUndefined();
    expect(limitsOf({ limitsFrom: '300' })).toBeUndefined();
    expect(limitsOf({ airspeedLeast: '50', airspeedMost: '62', limitsFrom: '300' })).toEqual({
      fromFt: 300,
      airspeedKt: [50, 62],
      groundSpeedKt: null,
      descentRateFpm: null,
      pathDeg: null,
      crossM: null,
    });
  });

  test('[LF2] beside the centreline both ends are typed as distances', () => {
    expect(limitsOf({ centrelineLeast: '15', centrelineMost: '10' })?.crossM).toEqual([-15, 10]);
    // On the line itself: no minus zero, which would be another figure after JSON.
    expect(limitsOf({ centrelineLeast: '0', centrelineMost: '10' })?.crossM).toEqual([0, 10]);
  });

  test("[LF3] in the pilot's units, kept in knots, feet a minute and metres", () => {
    const kept = limitsOf(
      {
        ...{ airspeedLeast: '92.6', airspeedMost: '111.12' },
        ...{ descentLeast: '1.27', descentMost: '2.54' },
        ...{ centrelineLeast: '100', centrelineMost: '100' },
      },
      OTHER,
    );
    // 1 kt is 1.852 km/h, 1 ft is 0.3048 m exactly: 1.27 m/s are 250 ft/min.
    expect(kept?.airspeedKt).toEqual([50, 60]);
    expect(kept?.descentRateFpm?.[0]).toBeCloseTo(250, 9);
    expect(kept?.descentRateFpm?.[1]).toBeCloseTo(500, 9);
    expect(kept?.crossM).toEqual([-30.48, 30.48]);
  });

  test('[LF4] each wrong field says what was found and what was expected', () => {
    expect(messagesOf({ airspeedLeast: '50' })).toEqual({
      airspeedMost: 'found nothing, expected both ends of the limit, or neither',
    });
    expect(messagesOf({ pathLeast: 'steep', pathMost: '5' })).toEqual({
      pathLeast: 'found "steep", expected a number of °',
    });
    expect(messagesOf({ airspeedLeast: '62', airspeedMost: '50' })).toEqual({
      airspeedLeast: 'the least is above the most, expected the least first',
    });
    expect(messagesOf({ airspeedLeast: '50', airspeedMost: '300' })).toEqual({
      airspeedMost: 'found 300, expected a number from 10 to 200 kt',
    });
    expect(messagesOf({ airspeedLeast: '90', airspeedMost: '555.6' }, OTHER)).toEqual({
      airspeedMost: 'found 555.6 km/h (300 kt), expected a number from 10 to 200 kt',
    });
    expect(messagesOf({ centrelineLeast: '2500', centrelineMost: '20' })).toEqual({
      centrelineLeast: 'found 2500, expected a number from -2000 to 2000 m',
    });
    expect(messagesOf({ centrelineLeast: '-30', centrelineMost: '20' })).toEqual({
      centrelineLeast:
        'the left limit lies right of the right one, expected the left one on the left',
    });
  });

  const pair = (low: number, high: number): fc.Arbitrary<Limits | null> =>
    fc.option(
      fc
        .tuple(
          fc.double({ min: low, max: high, noNaN: true }),
          fc.double({ min: low, max: high, noNaN: true }),
        )
        .map(([a, b]): Limits => [Math.min(a, b) + 0, Math.max(a, b) + 0]),
      { nil: null },
    );
  const limits: fc.Arbitrary<GateLimits> = fc.record({
    fromFt: fc.constantFrom(500 as const, 300 as const, 200 as const, 100 as const, 50 as const),
    airspeedKt: pair(10, 200),
    groundSpeedKt: pair(0, 200),
    descentRateFpm: pair(-1000, 3000),
    pathDeg: pair(-10, 45),
    crossM: pair(-2000, 2000),
  });

  test('[LF5] a form that nobody touched gives back exactly what it was filled with', () => {
    fc.assert(
      fc.property(limits, fc.constantFrom(UNITS, OTHER), (kept, units) => {
        const isAny = Object.values(kept).some((each) => Array.isArray(each));
        const messages = {};
        const read = limitsFromFields(fieldsFromLimits(kept, units), units, kept, messages);
        expect(messages).toEqual({});
        expect(read).toEqual(isAny ? kept : null);
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  test('[LF6] any text in any field gives limits or messages, never a crash', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 8 }),
      fc.constantFrom('', '-1', '5', '1e9', '9'.repeat(400), '\u22125'),
    );
    const fields = fc.record(Object.fromEntries(LIMIT_FIELDS.map((name) => [name, text])));
    fc.assert(
      fc.property(fields, (change) => {
        const read = entered(change);
        if (read.ok) expect(JSON.parse(JSON.stringify(read.conditions))).toEqual(read.conditions);
        else expect(Object.values(read.messages).length).toBeGreaterThan(0);
      }),
      { seed: 6, numRuns: 25 },
    );
  });

  test('[LF7] the closed fold says what is limited, in one line', () => {
    const said = (change: Partial<ConditionsFields>) =>
      limitsLine({ ...fieldsFromLimits(null, UNITS), ...change }, UNITS);
    expect(said({})).toBe('');
    expect(
      said({
        ...{ limitsFrom: '300', airspeedLeast: '50', airspeedMost: '62' },
        ...{ centrelineLeast: '15', centrelineMost: '10' },
      }),
    ).toBe(
      'from 300\u00a0ft down: airspeed 50 to 62\u00a0kt, 15 left to 10\u00a0m right of the centreline',
    );
    expect(limitLabel('groundSpeedMost')).toBe('Ground speed, most');
  });
});

describe('limits entered before', () => {
  const visitWith = (
    id: string,
    change: { aeroplane: string; changedS: number; from: GateLimits['fromFt'] | null },
  ): VisitRecord => ({
    ...makeVisit(entryId('visit', id), null, { nowS: change.changedS, demo: false }),
    aeroplaneId: entryId('aeroplane', change.aeroplane),
    conditions: {
      ...NO_CONDITIONS,
      gateLimits:
        change.from === null
          ? null
          : {
              ...{ fromFt: change.from, airspeedKt: [50, 60], groundSpeedKt: null },
              ...{ descentRateFpm: null, pathDeg: null, crossM: null },
            },
    },
  });
  const visits = [
    visitWith('a', { aeroplane: 'marram-160', changedS: 100, from: 300 }),
    visitWith('b', { aeroplane: 'marram-160', changedS: 200, from: 200 }),
    visitWith('c', { aeroplane: 'eelgrass-450', changedS: 300, from: 100 }),
    visitWith('d', { aeroplane: 'marram-160', changedS: 400, from: null }),
  ];

  test('[LF8] the last ones for the same aeroplane are offered, never those of another', () => {
    expect(earlierLimits(visits, 'marram-160', null)?.fromFt).toBe(200);
    expect(earlierLimits(visits, 'marram-160', 'b')?.fromFt).toBe(300);
    expect(earlierLimits(visits, 'eelgrass-450', 'c')).toBeNull();
    expect(earlierLimits(visits, '', null)).toBeNull();
  });
});
