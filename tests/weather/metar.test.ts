/**
 * METAR groups, by the published forms and by a second reader.
 *
 * Sources: FAA AC 00-45H (14 Nov 2016), 3.1.5.5 (read: the wind groups 05008KT, 15014KT, 340112KT,
 * 27020G35KT, VRB03KT, 21010KT 180V240, 00000KT and the report of KOKC); WMO-No. 306, FM 15 (quoted:
 * 31005G10MPS, 280V350, VRB01MPS, 140P99KT, 240P49MPS, /////KT); ICAO Annex 3, appendix 3 (M for
 * minus, Q, A; from memory); a report as issued (LFRS, quoted). Second reader: metar-taf-parser
 * 9.1.3 (MIT), run only here.
 */
import fc from 'fast-check';
import { parseMetar } from 'metar-taf-parser';
import { describe, expect, test } from 'vitest';
import type { Conditions } from '../../src/weather/conditions.ts';
import { conditionsFor, decodeConditions } from '../../src/weather/decode-conditions.ts';
import { readMetar, withMetar, type MetarReading } from '../../src/weather/metar.ts';
import { STILL_DAY } from '../performance/invented-aeroplane.ts';
import { expectNear } from '../expect-near.ts';

function read(text: string): MetarReading {
  const result = readMetar(text);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

const withWind = (group: string): string => `METAR XXDL 101630Z ${group} 9999 15/05 Q1027`;

describe('[MET1] wind groups', () => {
  // Group, direction, speed in kt, gust in kt; metres a second and kilometres an hour by their definition.
  test.each([
    ['05008KT', 50, 8, null],
    ['15014KT', 150, 14, null],
    ['27020G35KT', 270, 20, 35],
    ['VRB03KT', null, 3, null],
    ['21010KT 180V240', 210, 10, null],
    ['00000KT', null, 0, null],
    ['31005G10MPS', 310, 9.7, 19.4],
    ['VRB01MPS', null, 1.9, null],
    ['24004MPS', 240, 7.8, null],
    ['24030KMH', 240, 16.2, null],
    ['24030G50KPH', 240, 16.2, 27],
  ])('[MET1] %s', (group, fromDeg, speedKt, gustKt) => {
    expect(read(withWind(group)).wind).toEqual({ fromDeg, reference: 'true', speedKt, gustKt });
  });

  test('[MET2] a sector of directions is kept', () => {
    expect(read(withWind('21010KT 180V240')).sectorDeg).toEqual([180, 240]);
    expect(read(withWind('31005G10MPS 280V350')).sectorDeg).toEqual([280, 350]);
    expect(read(withWind('05008KT')).sectorDeg).toBeNull();
  });

  test('[MET3] a wind that is not reported is missing, never calm', () => {
    for (const group of ['/////KT', '', '///05KT']) {
      const result = readMetar(withWind(group));
      if (!result.ok) throw new Error(group);
      expect(result.value.wind).toBeNull();
      expect(result.problems.map(({ message }) => message).join()).toContain(
        'no wind is reported; it has to be entered',
      );
    }
  });
});

describe('[MET4] temperature and pressure', () => {
  test.each([
    ['15/05 Q1027', 15, 5, 1027],
    ['M03/M05 Q0995', -3, -5, 995],
    ['M00/M01 Q1013', 0, -1, 1013],
    // 29.92 inches of 33.86389 hPa are 1013.2 hPa, to a tenth.
    ['18/16 A2992', 18, 16, 1013.2],
    ['15/// Q1011', 15, null, 1011],
    ['15/05 Q1013 A2992', 15, 5, 1013],
    ['///// Q////', null, null, null],
  ])('[MET4] %s', (groups, tempC, dewPointC, qnhHpa) => {
    const found = read(`METAR XXDL 101630Z 05008KT CAVOK ${groups}`);
    expect([found.tempC, found.dewPointC, found.qnhHpa]).toEqual([tempC, dewPointC, qnhHpa]);
  });
});

describe('[MET5] whole reports', () => {
  test('[MET5] the report of AC 00-45H: gust, sector, inches, remarks left out', () => {
    const found = read(
      'METAR KOKC 011955Z AUTO 22015G25KT 180V250 3/4SM R17L/2600FT +TSRA BR OVC010CB 18/16 A2992 RMK AO2 TSB25 TS OHD MOV E SLP132',
    );
    expect(found).toEqual({
      station: 'KOKC',
      observed: 'day 1 of the month, 19:55 UTC',
      wind: { fromDeg: 220, reference: 'true', speedKt: 15, gustKt: 25 },
      sectorDeg: [180, 250],
      tempC: 18,
      dewPointC: 16,
      qnhHpa: 1013.2,
    });
  });

  test('[MET5] a report as issued, with CAVOK and without METAR before it', () => {
    const found = read('LFRS 101630Z AUTO 32007KT 280V340 CAVOK 15/05 Q1027=');
    expect(found.station).toBe('LFRS');
    expect(found.wind?.fromDeg).toBe(320);
    expect([found.tempC, found.qnhHpa]).toEqual([15, 1027]);
  });

  test('[MET6] trends and remarks are no observation', () => {
    const found = read(
      'METAR XXDL 101630Z 05008KT 9999 15/12 Q1011 TEMPO 25025G40KT RMK 27040KT A3001',
    );
    expect(found.wind?.speedKt).toBe(8);
    expect(found.qnhHpa).toBe(1011);
  });

  test('[MET6] lower case, line breaks and a report without its heading are read', () => {
    expect(read('metar xxdl 101630z\n 27020g35kt cavok\n 15/12 q1012').wind?.gustKt).toBe(35);
    expect(read('27020KT CAVOK 15/12 Q1012').station).toBeNull();
  });
});

describe('[MET7] what cannot be read gets a message with the group and what was expected', () => {
  test.each([
    ['more than a figure', withWind('140P99KT'), '140P99KT', 'above what the code can state'],
    ['the same in m/s', withWind('240P49MPS'), '240P49MPS', 'above what the code can state'],
    ['a gust without figure', withWind('27020GP99KT'), '27020GP99KT', 'above what the code'],
    ['112 kt', withWind('340112KT'), '340112KT', 'found 112 kt, expected 0 to 100 kt'],
    ['370 degrees', withWind('37008KT'), '37008KT', 'found a direction of 370 degrees'],
    [
      'a gust below the wind',
      withWind('24012G08KT'),
      '24012G08KT',
      'at or above the wind of 12 kt',
    ],
    ['a digit too few', withWind('2408KT'), '2408KT', 'expected a wind group'],
    ['one digit of gust', withWind('24012G8KT'), '24012G8KT', 'expected a wind group'],
    ['two winds', withWind('24012KT 25012KT'), '25012KT', 'a second wind group after 24012KT'],
    ['a sector of 400', withWind('24012KT 200V400'), '200V400', 'from 0 to 360 degrees'],
    ['95 degrees of heat', '05008KT 95/12 Q1012', '95/12', 'expected -50 to 60'],
    ['a minus sign', '05008KT -3/-5 Q1012', '-3/-5', 'M for minus'],
    ['a dew point above', '05008KT 10/12 Q1012', '10/12', 'dew point lies above'],
    ['QNH 2012', '05008KT 15/12 Q2012', 'Q2012', 'found 2012 hPa, expected 850 to 1100 hPa'],
    ['three digits', '05008KT 15/12 Q995', 'Q995', 'four digits of hPa'],
    ['two pressures', '05008KT 15/12 Q1012 A3030', 'A3030', 'beside 1012 hPa'],
  ])('[MET7] %s', (_what, text, group, message) => {
    const result = readMetar(text);
    expect(result.ok).toBe(false);
    expect(result.problems[0].where).toBe(`group ${group}`);
    expect(result.problems[0].message).toContain(message);
  });

  test.each([
    ['TAF XXDL 101630Z 1018/1118 27020KT', 'found a forecast'],
    ['METAR XXDL 101630Z NIL=', 'no observation'],
    ['METAR XXDL 101630Z 05008KT= METAR XXDM 101630Z 06008KT=', 'more than one report'],
    ['XXDL 101630Z 05008KT= XXDM 101630Z 06008KT=', 'more than one report'],
    ['no report at all', 'found neither wind, temperature nor pressure'],
    ['', 'found neither wind'],
    ['05008KT '.repeat(625), 'found 5000 characters'],
  ])('[MET8] %.40s', (text, message) => {
    const result = readMetar(text);
    expect(result.ok).toBe(false);
    expect(result.problems[0].message).toContain(message);
  });

  test('[MET8] no text makes the reader throw, and what it reads is in range', () => {
    const piece = fc.constantFrom(
      ...['METAR', 'XXDL', '101630Z', '24012KT', '24012G20KT', 'P99KT', 'VRB', '/////KT', '15/12'],
      ...['M03/M05', 'Q1013', 'A2992', 'Q9999', '=', 'RMK', 'TEMPO', 'CAVOK', '200V280', '//', 'é'],
    );
    const text = fc.oneof(
      fc.string(),
      fc.array(piece).map((pieces) => pieces.join(' ')),
    );
    fc.assert(
      fc.property(text, (drawn) => {
        const result = readMetar(drawn);
        if (!result.ok) {
          expect(result.problems.length).toBeGreaterThan(0);
          return;
        }
        const { wind, tempC, qnhHpa } = result.value;
        if (wind) expect(wind.speedKt).toBeLessThanOrEqual(wind.gustKt ?? 100);
        if (tempC !== null) expect(Math.abs(tempC)).toBeLessThanOrEqual(60);
        if (qnhHpa !== null) expectNear(qnhHpa, 975, 125, 'QNH');
      }),
      { numRuns: 400, seed: 20260405 },
    );
  });
});

test('[MET9] agrees with a second reader over the forms that both know', () => {
  const two = (value: number): string => String(value).padStart(2, '0');
  const signed = (value: number): string => (value < 0 ? `M${two(-value)}` : two(value));
  fc.assert(
    fc.property(
      fc.record({
        tens: fc.integer({ min: 1, max: 36 }),
        speed: fc.integer({ min: 1, max: 45 }),
        gust: fc.option(fc.integer({ min: 10, max: 20 })),
        tempC: fc.integer({ min: -49, max: 49 }),
        spreadC: fc.integer({ min: 0, max: 20 }),
        hpa: fc.integer({ min: 900, max: 1090 }),
        inches: fc.boolean(),
      }),
      ({ tens, speed, gust, tempC, spreadC, hpa, inches }) => {
        const gusting = gust === null ? '' : `G${two(speed + gust)}`;
        const wind = `${String(tens * 10).padStart(3, '0')}${two(speed)}${gusting}KT`;
        const hundredths = Math.round((hpa / 33.86389) * 100);
        const pressure = inches ? `A${hundredths}` : `Q${String(hpa).padStart(4, '0')}`;
        const text = `METAR XXDL 101630Z ${wind} 9999 SCT020 ${signed(tempC)}/${signed(Math.max(tempC - spreadC, -60))} ${pressure}`;
        const ours = read(text);
        const theirs = parseMetar(text);
        expect(ours.wind?.fromDeg).toBe(theirs.wind?.degrees);
        expect(ours.wind?.speedKt).toBe(theirs.wind?.speed);
        expect(ours.wind?.gustKt ?? undefined).toBe(theirs.wind?.gust);
        expect(ours.tempC).toBe(theirs.temperature);
        const value = theirs.altimeter?.value ?? Number.NaN;
        expectNear(ours.qnhHpa ?? NaN, inches ? value * 33.86389 : value, 0.051, 'pressure');
      },
    ),
    { numRuns: 200, seed: 20260406 },
  );
});

describe('[MET10] a METAR in the conditions', () => {
  const METAR = 'LFRS 101630Z AUTO 32007KT CAVOK 15/05 Q1027';
  const NOTHING: Conditions = { ...STILL_DAY, wind: null, tempC: null, qnhHpa: null };

  test('[MET10] fills in what was not entered and marks the wind as reported elsewhere', () => {
    const found = withMetar(NOTHING, read(METAR));
    expect(found.wind).toEqual({ fromDeg: 320, reference: 'true', speedKt: 7, gustKt: null });
    expect([found.tempC, found.qnhHpa, found.windReportedAt]).toEqual([15, 1027, 'LFRS']);
  });

  test('[MET10] a wind that varied says between which directions', () => {
    const found = withMetar(NOTHING, read(withWind('21010KT 180V240')));
    expect(found.windReportedAt).toBe('XXDL, varying 180 to 240');
  });

  test('[MET10] leaves what was entered, and a wind of the strip is not marked', () => {
    const found = withMetar({ ...STILL_DAY, tempC: null }, read(METAR));
    expect(found).toEqual({ ...STILL_DAY, tempC: 15 });
  });

  const book = (all: object, flights: object = {}) =>
    decodeConditions(JSON.stringify({ schema: 1, kind: 'conditions', all, flights }));

  test('[MET11] is read from a conditions document, field by field', () => {
    const result = book({ metar: METAR, tempC: 12, surface: 'grass-dry' });
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    expect(result.problems).toEqual([]);
    expect(result.value.all).toMatchObject({ tempC: 12, qnhHpa: 1027, windReportedAt: 'LFRS' });
    // What is stored again says the same.
    const again = book({ ...result.value.all });
    expect(again.ok && again.value.all).toEqual(result.value.all);
  });

  test('[MET11] a wind noted for one flight is not taken for that of the METAR for all', () => {
    const wind = { fromDeg: 90, reference: 'true', speedKt: 4 };
    const result = book({ metar: METAR }, { 'a.igc': { wind } });
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    expect(conditionsFor(result.value, 'a.igc')?.windReportedAt).toBeUndefined();
    expect(conditionsFor(result.value, 'b.igc')?.windReportedAt).toBe('LFRS');
  });

  test('[MET12] one that cannot be read names the field and the group', () => {
    const result = book({ metar: 'XXDL 101630Z 2408KT 15/05 Q1027' });
    expect(result.ok).toBe(false);
    expect(result.problems[0].where).toBe('all.metar');
    expect(result.problems[0].message).toContain('group 2408KT: expected a wind group');
  });
});
