import { describe, expect, test } from 'vitest';
import {
  conditionsFromFields,
  fieldsFromConditions,
  type ConditionsFields,
} from '../../../src/app/entry/conditions-fields.ts';
import { afterChange, fieldsWithMetar } from '../../../src/app/entry/metar-fields.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';

const UNITS = makeSettings(0).units;
const FRESH = { conditions: null, aeroplaneId: null };
const EMPTY = fieldsFromConditions(FRESH, UNITS);
const METAR = 'METAR XXDL 101630Z AUTO 32007G18KT 280V340 CAVOK 15/05 Q1027';

function enter(
  fields: ConditionsFields,
  text: string,
  filled: Partial<ConditionsFields> = {},
  units = UNITS,
) {
  const entered = fieldsWithMetar(fields, text, units, filled);
  if (!entered.ok) throw new Error(JSON.stringify(entered.problems));
  return entered;
}

/** What the form keeps of the fields. */
function kept(fields: ConditionsFields) {
  const read = conditionsFromFields(fields, UNITS, FRESH);
  if (!read.ok) throw new Error(JSON.stringify(read.messages));
  return read.conditions;
}

describe('a METAR in the form', () => {
  test('[MF1] fills wind, temperature and QNH, and the wind stays marked as reported elsewhere', () => {
    const entered = enter(EMPTY, METAR);
    expect(entered.from).toBe('XXDL, day 10 of the month, 16:30 UTC');
    expect(kept(entered.fields)).toMatchObject({
      wind: { fromDeg: 320, reference: 'true', speedKt: 7, gustKt: 18 },
      windReportedAt: 'XXDL, varying 280 to 340',
      tempC: 15,
      qnhHpa: 1027,
      massKg: null,
      surface: null,
    });
    expect(entered.groups.map(({ words }) => words)).toEqual([
      '320° true at 7 kt, gusting 18 kt, varying 280° to 340°',
      '15 °C, dew point 5 °C',
      '1027 hPa',
    ]);
  });

  test('[MF2] never writes over what the pilot typed, and says so', () => {
    const typed = { ...EMPTY, temperature: '21', windSpeed: '3' };
    const { fields, groups } = enter(typed, METAR);
    expect([fields.temperature, fields.windSpeed, fields.windFrom]).toEqual(['21', '3', '']);
    expect(fields.windReportedAt).toBe('');
    expect(groups.filter(({ isOwnKept }) => isOwnKept).map(({ name }) => name)).toEqual([
      'Wind',
      'Temperature',
    ]);
    const calm = enter({ ...EMPTY, isCalm: true }, METAR);
    expect([calm.fields.isCalm, calm.fields.windFrom]).toEqual([true, '']);
  });

  test('[MF3] a later one replaces what an earlier one filled, and nothing that was typed since', () => {
    const first = enter(EMPTY, METAR);
    const touched = afterChange(first.fields, { qnh: '1030' });
    const second = enter(touched, 'XXDL 101700Z VRB02KT 16/06 Q1026', first.filled);
    expect([second.fields.temperature, second.fields.qnh]).toEqual(['16', '1030']);
    expect(kept(second.fields)).toMatchObject({
      wind: { fromDeg: null, speedKt: 2, gustKt: null },
      windReportedAt: 'XXDL',
    });
  });

  test('[MF4] a wind that was changed by hand is the own one, other changes leave its mark', () => {
    const { fields } = enter(EMPTY, METAR);
    expect(afterChange(fields, { temperature: '3' }).windReportedAt).not.toBe('');
    const own = afterChange(fields, { windSpeed: '5' });
    expect(own.windReportedAt).toBe('');
    expect('windReportedAt' in kept({ ...own, gust: '' })).toBe(false);
  });

  test('[MF5] a bad group changes no field and is named with what was expected', () => {
    const entered = fieldsWithMetar(EMPTY, 'XXDL 101630Z 3207KT CAVOK 15/05 Q1027', UNITS, {});
    expect(entered.ok).toBe(false);
    if (entered.ok) return;
    expect(entered.problems.map(({ where }) => where)).toEqual(['group 3207KT']);
    expect(entered.problems[0].message).toMatch(/^expected a wind group: three digits/);
  });

  test('[MF6] a group that is not reported is said and its field left alone', () => {
    const { fields, notes, groups } = enter(EMPTY, 'XXDL 101630Z 00000KT Q1013');
    expect([fields.isCalm, fields.temperature]).toEqual([true, '']);
    expect(groups.map(({ words }) => words)).toEqual(['calm', '1013 hPa']);
    expect(notes.map(({ message }) => message)).toEqual([
      'no temperature is reported; it has to be entered',
    ]);
  });

  test('[MF7] figures stand in the units of the pilot', () => {
    const units = { ...UNITS, speed: 'km/h', temperature: 'F' } as const;
    const { fields } = enter(EMPTY, METAR, {}, units);
    // 7 kt x 1.852 km; 15 x 1.8 + 32.
    expect([fields.windSpeed, fields.temperature]).toEqual(['12.96', '59']);
  });

  test('[MF8] a reported wind that came with kept conditions is kept by an untouched form', () => {
    const before = { conditions: kept(enter(EMPTY, METAR).fields), aeroplaneId: null };
    const read = conditionsFromFields(fieldsFromConditions(before, UNITS), UNITS, before);
    expect(read.ok && read.conditions).toEqual(before.conditions);
  });
});
