/** The debrief of one event: plain data, figures of the flight, what is missing shown as missing. */
import { describe, expect, test } from 'vitest';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import { hasFigure } from '../../../src/report/figure-text.ts';
import { readAtTime, timeAtPlace } from '../../../src/report/story/cursor-columns.ts';
import { eventDebrief } from '../../../src/report/story/event-debrief.ts';
import { titleBlock, windText } from '../../../src/report/story/title-block.ts';
import { isUndetermined, undetermined } from '../../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../../src/strips/strip.ts';
import { debriefDemo, demoContext } from '../../debrief/demo-flights.ts';
import { DEMO_STRIPS, flightOf } from '../../drawings/demo-pictures.ts';
import { expectNear } from '../../expect-near.ts';

const FILE = '2024-04-20-first-circuits-ternholm.gpx';
const flight = await flightOf(FILE);
const { units } = makeSettings(0);
const options = { units, ownRollFactor: 1.3 };
const landing = eventDebrief(flight, 'approach-2', DEMO_STRIPS, options);
const number = (text: string): number => Number(text.replace('\u2212', '-').replace('+', ''));

describe('the debrief of an event', () => {
  test('[ED1] is plain data that crosses to the page whole', () => {
    expect(structuredClone(landing)).toEqual(landing);
  });

  test('[ED2] chooses the last landing where no event is named', () => {
    expect(eventDebrief(flight, null, DEMO_STRIPS, options).key).toBe('approach-2');
    expect(() => eventDebrief(flight, 'approach-9', DEMO_STRIPS, options)).toThrow(/approach-9/);
  });

  test('[ED3] measures what the flight measured', () => {
    const { groundRollM, stripLeftM } = flight.events.approaches[2];
    if (isUndetermined(groundRollM) || isUndetermined(stripLeftM)) throw new Error('measured');
    const shown = (label: string): string => {
      const row = landing.measured.find((each) => each.label === label);
      return row && hasFigure(row.figure) ? row.figure.value : '';
    };
    expect(shown('ground roll')).toBe(String(Math.round(groundRollM.value)));
    expect(shown('strip left')).toBe(String(Math.round(stripLeftM.value)));
    expect(landing.measured.every(({ how }) => how.length > 20)).toBe(true);
  });

  test('[ED4] splits the difference from the expected roll into rows that add up', () => {
    if (isUndetermined(landing.why)) throw new Error('the demo landing can be split');
    const { heading } = landing.why;
    const found = /(\d+)\u00a0m (longer|shorter)/.exec(heading);
    if (!found) expect(heading).toBe('Why it was as long as expected');
    const longer = found ? Number(found[1]) * (found[2] === 'shorter' ? -1 : 1) : 0;
    const parts = landing.why.rows.flatMap(({ figure }) =>
      hasFigure(figure) ? [number(figure.value)] : [],
    );
    expect(parts.length).toBe(2);
    expectNear(parts[0] + parts[1], longer, 1.01, 'sum of the rounded rows');
  });

  test('[ED10] notes of the prediction only what belongs to the event shown', () => {
    const credit = (phase: 'landing' | 'take-off', what: string) => ({
      code: 'credit-not-taken',
      text: `${phase}, slope: no credit is taken for ${what}`,
      phase,
    });
    const notes = [credit('landing', '1.3 % uphill'), credit('take-off', '1.3 % downhill')];
    const noted = <T extends { readonly prediction: object }>(each: T): T =>
      isUndetermined(each.prediction)
        ? each
        : { ...each, prediction: { ...each.prediction, notes } };
    const { takeOffs, approaches } = flight.compared;
    const compared = { takeOffs: takeOffs.map(noted), approaches: approaches.map(noted) };
    const shown = (key: string): string =>
      eventDebrief({ ...flight, compared }, key, DEMO_STRIPS, options).notes.join(' ');
    expect(shown('approach-2')).toContain('The planned landing takes no credit for slope (1.3');
    expect(shown('approach-2')).not.toContain('downhill');
    expect(shown('take-off-0')).toContain('The planned take-off takes no credit for slope (1.3');
    expect(shown('take-off-0')).not.toContain('uphill');
  });

  test('[DN5] says in the pilot\u2019s units what cannot be had, also of a count', () => {
    const reasonFor = (height: 'm' | 'ft'): string => {
      const told = { units: { ...units, height }, ownRollFactor: null };
      const { measured } = eventDebrief(flight, 'approach-2', DEMO_STRIPS, told);
      const row = measured.find(({ label }) => label === 'bounces');
      return row && !hasFigure(row.figure) ? row.figure.reason : 'no reason';
    };
    const [, metres] = /lower than ([\d.]+) m$/.exec(reasonFor('m')) ?? [];
    const [, feet] = /lower than ([\d.]+) ft$/.exec(reasonFor('ft')) ?? [];
    // Whole feet of tenths of a metre.
    expectNear(Number(feet), Number(metres) / 0.3048, 0.5, 'feet');
  });

  test('[ED5] reads time at a place and place at that time as inverses along the roll', () => {
    const { cursor } = landing;
    const { touchdown, rollEnd } = flight.events.approaches[2];
    if (isUndetermined(touchdown) || isUndetermined(rollEnd)) throw new Error('measured');
    if (isUndetermined(touchdown.alongM) || isUndetermined(rollEnd.alongM)) throw new Error('here');
    const [from, to] = [touchdown.alongM.value, rollEnd.alongM.value];
    for (let share = 0; share < 1; share += 0.1) {
      const atM = from + share * (to - from - 2);
      // UTC seconds as a double resolve 0.24 µs: some 6 µm at flying speed.
      expectNear(readAtTime(cursor, timeAtPlace(cursor, atM)).alongM, atM, 1e-5, 'place');
    }
    expect(readAtTime(cursor, cursor.timeS[0] - 1).speedMps).toBeNaN();
  });

  test('[ED6] offers to keep the place of a landing at no known strip, where it lies', async () => {
    const context = { ...demoContext(), strips: EMPTY_STRIP_BOOK };
    const [unknown] = (await debriefDemo(FILE, context)).flights;
    const shown = eventDebrief(unknown, null, EMPTY_STRIP_BOOK, options);
    expect(shown.place).toBeNull();
    const { offer } = shown;
    if (!offer) throw new Error('an offer');
    // Against the strip as the demo draws it: both ends near its centreline.
    const view = flight.events.views.find(({ direction }) => direction.designator === '25');
    if (!view) throw new Error('the view of Ternholm 25');
    const { crossM } = view.frame.toAlongCross(
      Float64Array.of(offer.latDegA, offer.latDegB),
      Float64Array.of(offer.lonDegA, offer.lonDegB),
    );
    expectNear(crossM[0], 0, 15, 'end A across');
    expectNear(crossM[1], 0, 15, 'end B across');
    expect(landing.offer).toBeNull();
  });

  test('[ED7] a take-off has its own rows and no landing pictures', () => {
    const takeOff = eventDebrief(flight, 'take-off-0', DEMO_STRIPS, options);
    expect(takeOff.kind).toBe('take-off');
    expect(takeOff.measured.map(({ label }) => label)).toContain('take-off ground roll');
    expect(isUndetermined(takeOff.final)).toBe(true);
  });
});

describe('the title block', () => {
  test('[ED8] shows what nobody entered as missing, never as calm or dry', () => {
    const block = titleBlock(undetermined('nothing entered'), 'landing', units);
    expect(block.map(({ value }) => value)).toEqual([null, null, null, null, null]);
  });

  test('[ED9] writes wind, gust and reference in the unit of the pilot', () => {
    const wind = { fromDeg: 50, reference: 'magnetic', speedKt: 10, gustKt: 18 } as const;
    const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
    expect(plain(windText(wind, { speed: 'kt' }))).toBe('050°M 10 kt, gusts 18');
    // 10 kt are 18.52 km/h exactly (definition of the knot).
    expect(plain(windText(wind, { speed: 'km/h' }))).toBe('050°M 19 km/h, gusts 33');
    expect(windText({ ...wind, speedKt: 0, gustKt: null }, { speed: 'kt' })).toBe('calm');
    expect(plain(windText({ ...wind, fromDeg: null }, { speed: 'kt' }))).toMatch(/^variable 10 kt/);
  });
});
