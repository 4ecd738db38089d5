import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  conditionsFromFields,
  fieldsFromConditions,
  type ConditionsBefore,
  type ConditionsFields,
} from '../../../src/app/entry/conditions-fields.ts';
import { summaryOf } from '../../../src/app/entry/field-messages.ts';
import { surfaceChoices } from '../../../src/app/entry/surface-choices.ts';
import type { ShownUnits } from '../../../src/logbook/entry.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import {
  NO_CONDITIONS,
  type Conditions,
  type EnteredWind,
} from '../../../src/weather/conditions.ts';

const UNITS = makeSettings(0).units;
const IMPERIAL: ShownUnits = {
  ...UNITS,
  speed: 'mph',
  temperature: 'F',
  pressure: 'inHg',
  mass: 'lb',
};
const FRESH: ConditionsBefore = { conditions: null, aeroplaneId: null };
const EMPTY = fieldsFromConditions(FRESH, UNITS);

/** What the form makes of the given fields, all others empty. */
const entered = (
  change: Partial<ConditionsFields>,
  units: ShownUnits = UNITS,
  before: ConditionsBefore = FRESH,
) => conditionsFromFields({ ...fieldsFromConditions(before, units), ...change }, units, before);

const conditionsOf = (change: Partial<ConditionsFields>, units?: ShownUnits) => {
  const read = entered(change, units);
  if (!read.ok) throw new Error(JSON.stringify(read.messages));
  return read.conditions;
};
const messagesOf = (change: Partial<ConditionsFields>, units?: ShownUnits) => {
  const read = entered(change, units);
  return read.ok ? {} : read.messages;
};

describe('an untouched form', () => {
  test('[CF1] with nothing entered says nothing: no zero, no calm, no dry', () => {
    expect(conditionsFromFields(EMPTY, UNITS, FRESH)).toEqual({
      ok: true,
      conditions: NO_CONDITIONS,
      aeroplaneId: null,
    });
    expect(EMPTY).toMatchObject({ isCalm: false, windSpeed: '', reference: '', surface: '' });
  });

  const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const orNull = <T>(arb: fc.Arbitrary<T>) => fc.option(arb, { nil: null });
  const wind: fc.Arbitrary<EnteredWind> = fc
    .record({
      fromDeg: orNull(within(0, 360)),
      reference: fc.constantFrom('true' as const, 'magnetic' as const),
      speedKt: fc.oneof(fc.constant(0), within(0, 100)),
      overKt: orNull(within(0, 30)),
    })
    .map(({ overKt, ...rest }) => ({
      ...rest,
      gustKt: overKt === null ? null : rest.speedKt + overKt,
    }));
  const conditions: fc.Arbitrary<Conditions> = fc.record({
    wind: orNull(wind),
    tempC: orNull(within(-50, 60)),
    qnhHpa: orNull(within(850, 1100)),
    massKg: orNull(within(50, 10_000)),
    takeOffMassKg: orNull(within(50, 10_000)),
    surface: orNull(fc.constantFrom(...surfaceChoices(null).map(({ value }) => value))),
    flap: orNull(fc.constantFrom('full', '10', 'take-off')),
    aeroplane: orNull(fc.constantFrom('marram-160', 'eelgrass-450')),
    factorSet: orNull(fc.constantFrom('uk-leaflet', 'class-b')),
    effort: orNull(fc.constantFrom('full' as const, 'normal' as const, 'coasted' as const)),
  });
  // Minus zero is the one number that JSON, and so the logbook, does not keep.
  const keepable = conditions.map((each) => JSON.parse(JSON.stringify(each)) as Conditions);

  test('[CF2] gives back exactly what it was filled with, in every unit', () => {
    fc.assert(
      fc.property(
        keepable,
        orNull(fc.constantFrom('marram-160', 'other')),
        fc.constantFrom(UNITS, IMPERIAL, { ...UNITS, speed: 'km/h' as const }),
        (kept, aeroplaneId, units) => {
          const before = { conditions: kept, aeroplaneId };
          const read = conditionsFromFields(fieldsFromConditions(before, units), units, before);
          expect(read).toEqual({ ok: true, conditions: kept, aeroplaneId });
        },
      ),
      { seed: 2, numRuns: 500 },
    );
  });

  test('[CF20] limits of a final that nobody touched are kept', () => {
    const none = { groundSpeedKt: null, descentRateFpm: null, pathDeg: null, crossM: null };
    const gateLimits = { fromFt: 300, airspeedKt: [50, 62], ...none } as const;
    const conditions = { ...conditionsOf({ temperature: '15' }), gateLimits };
    const before = { conditions, aeroplaneId: null };
    const read = conditionsFromFields(fieldsFromConditions(before, UNITS), UNITS, before);
    expect(read).toEqual({ ok: true, ...before });
  });

  test('[CF3] what was entered is shown again as it was typed', () => {
    const typed = {
      windFrom: '240',
      reference: 'magnetic' as const,
      windSpeed: '9.5',
      gust: '15',
      temperature: '66',
      qnh: '29.92',
      landingMass: '2160',
      takeOffMass: '2200.5',
      surface: 'grass-wet' as const,
      effort: 'normal' as const,
    };
    const kept = conditionsOf(typed, IMPERIAL);
    const shown = fieldsFromConditions({ conditions: kept, aeroplaneId: null }, IMPERIAL);
    expect(shown).toMatchObject(typed);
  });
});

describe('wind', () => {
  test('[CF4] calm is what the button says, and nothing else is', () => {
    const calm = { fromDeg: null, reference: 'true', speedKt: 0, gustKt: null };
    expect(conditionsOf({ isCalm: true }).wind).toEqual(calm);
    // Texts typed before do not count while calm is pressed.
    expect(conditionsOf({ isCalm: true, windFrom: '400', windSpeed: 'x' }).wind).toEqual(calm);
    expect(conditionsOf({ temperature: '15' }).wind).toBeNull();
    // No speed stands in the field that nobody typed, once calm is taken back.
    const kept = { conditions: conditionsOf({ isCalm: true }), aeroplaneId: null };
    expect(fieldsFromConditions(kept, UNITS)).toMatchObject({ isCalm: true, windSpeed: '' });
    expect(entered({ isCalm: false }, UNITS, kept)).toMatchObject({ conditions: { wind: null } });
  });

  test('[CF5] a direction asks whether it is true or magnetic', () => {
    const wind = { windFrom: '240', windSpeed: '8' };
    expect(messagesOf(wind)).toEqual({ reference: 'found neither, expected true or magnetic' });
    expect(conditionsOf({ ...wind, reference: 'magnetic' }).wind).toEqual({
      fromDeg: 240,
      reference: 'magnetic',
      speedKt: 8,
      gustKt: null,
    });
  });

  test('[CF6] a speed asks for its direction, unless it is variable', () => {
    expect(messagesOf({ windSpeed: '8' })).toEqual({
      windFrom: 'found nothing, expected where it blows from, or "variable"',
    });
    expect(conditionsOf({ windSpeed: '8', isVariable: true }).wind).toMatchObject({
      fromDeg: null,
      speedKt: 8,
    });
  });

  test('[CF7] a direction, a gust or "variable" asks for the speed: it is never taken for zero', () => {
    const message = 'found nothing, expected the speed; calm has its own button';
    for (const change of [
      { windFrom: '240', reference: 'true' as const },
      { gust: '20' },
      { isVariable: true },
    ]) {
      expect(messagesOf(change).windSpeed).toBe(message);
    }
  });

  test('[CF8] a gust below the wind is told beside the gust', () => {
    const wind = { windFrom: '240', reference: 'true' as const, windSpeed: '12', gust: '9' };
    expect(messagesOf(wind)).toEqual({
      gust: 'the gust is below the wind speed, expected a gust at or above it',
    });
  });

  test('[CF9] a direction given after calm or variable asks for its reference again', () => {
    const before: ConditionsBefore = {
      conditions: {
        ...NO_CONDITIONS,
        wind: { fromDeg: null, reference: 'magnetic', speedKt: 5, gustKt: null },
      },
      aeroplaneId: null,
    };
    const read = entered({ isVariable: false, windFrom: '100' }, UNITS, before);
    expect(read.ok ? {} : read.messages).toHaveProperty('reference');
  });
});

describe('a wrong field', () => {
  test('[CF10] each has its own message with what was found and what was expected', () => {
    const messages = messagesOf({
      windFrom: '400',
      reference: 'true',
      windSpeed: '8',
      temperature: '99',
      qnh: 'high',
      landingMass: '1,100',
      takeOffMass: '20',
    });
    expect(messages).toEqual({
      windFrom: 'found 400, expected a number from 0 to 360 degrees',
      temperature: 'found 99, expected a number from -50 to 60 degrees Celsius',
      qnh: 'found "high", expected a number of hPa',
      landingMass: 'found "1,100", expected no mark for thousands: 1100, or a decimal point',
      takeOffMass: 'found 20, expected a number from 50 to 10000 kg',
    });
  });

  test("[CF11] is told in the pilot's unit beside the one it is kept in", () => {
    expect(messagesOf({ qnh: '30.9 inHg', temperature: '200' }, IMPERIAL)).toEqual({
      temperature: 'found 200 °F (93.3 °C), expected a number from -50 to 60 degrees Celsius',
    });
    expect(messagesOf({ qnh: '40' }, IMPERIAL).qnh).toBe(
      'found 40 inHg (1354.6 hPa), expected a number from 850 to 1100 hPa',
    );
  });

  test('[CF12] any text in any field gives conditions or messages, never a crash', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.constantFrom('-1', '1e9', '9'.repeat(400), '0', '\u22125'),
    );
    const fields = fc.record({
      windFrom: text,
      windSpeed: text,
      gust: text,
      temperature: text,
      qnh: text,
      landingMass: text,
      flap: text,
      aeroplane: text,
    });
    fc.assert(
      fc.property(fields, (change) => {
        const read = entered({ ...change, reference: 'true' });
        // What is taken is what the logbook will give back: no infinity, no NaN.
        if (read.ok) expect(JSON.parse(JSON.stringify(read.conditions))).toEqual(read.conditions);
        else expect(Object.values(read.messages).length).toBeGreaterThan(0);
      }),
      { seed: 12 },
    );
  });

  test('[CF13] the fields that need another look are named in one line', () => {
    expect(summaryOf(['Gusting to', 'QNH'])).toBe(
      '2 fields need another look: Gusting to, QNH. Nothing is lost.',
    );
    expect(summaryOf(['QNH'])).toBe('One field needs another look: QNH. Nothing is lost.');
    expect(summaryOf([])).toBe('');
  });
});

describe('aeroplane and set', () => {
  test('[CF14] a newly chosen aeroplane is told beside the conditions and replaces the one in them', () => {
    const before = { conditions: { ...NO_CONDITIONS, aeroplane: 'old' }, aeroplaneId: null };
    expect(entered({ aeroplane: 'new' }, UNITS, before)).toMatchObject({
      conditions: { aeroplane: null },
      aeroplaneId: 'new',
    });
    expect(entered({ aeroplane: '' }, UNITS, before)).toMatchObject({
      conditions: { aeroplane: null },
      aeroplaneId: null,
    });
  });

  test('[CF15] surfaces without a published factor say so, by set', () => {
    const caution = (set: string | null, state: string) =>
      surfaceChoices(set).find(({ value }) => value === state)?.caution;
    for (const state of ['grass-long', 'standing-water', 'snow']) {
      for (const set of [null, 'class-b', 'handbook-only']) {
        expect(caution(set, state)).toBe('no published factor, so no prediction');
      }
    }
    expect(caution(null, 'soft')).toBe('');
    expect(caution('class-b', 'soft')).toBe('no published factor, so no prediction');
    expect(caution('handbook-only', 'grass-wet')).toBe('only by a correction of the handbook');
    expect(caution(null, 'grass-dry')).toBe('');
    expect(surfaceChoices(null)).toHaveLength(9);
  });
});
