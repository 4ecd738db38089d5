/** What holds of the debrief of every event of the demo world. */
import { describe, expect, test } from 'vitest';
import { debriefDemo, demoContext, DEMO_FILES } from '../../debrief/demo-flights.ts';
import type { Flight } from '../../../src/debrief/debrief.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import { hasFigure } from '../../../src/report/figure-text.ts';
import { summariseFlight } from '../../../src/report/flight-summary.ts';
import { readAtTime, timeAtPlace } from '../../../src/report/story/cursor-columns.ts';
import { eventDebrief, type EventDebrief } from '../../../src/report/story/event-debrief.ts';
import { isUndetermined, type Measured } from '../../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../../src/strips/strip.ts';
import { DEMO_STRIPS } from '../../drawings/demo-pictures.ts';
import { expectNear } from '../../expect-near.ts';

const options = { units: makeSettings(0).units, ownRollFactor: 1.2 };
const context = demoContext();
const flights: { readonly file: string; readonly flight: Flight }[] = [];
const shown: { readonly file: string; readonly flight: Flight; readonly event: EventDebrief }[] =
  [];
for (const file of DEMO_FILES) {
  const [flight] = (await debriefDemo(file, context)).flights;
  flights.push({ file, flight });
  for (const { key } of summariseFlight(flight).events) {
    shown.push({ file, flight, event: eventDebrief(flight, key, DEMO_STRIPS, options) });
  }
}

/** Every text in a value, however deep. */
function* textsIn(value: unknown): Generator<string> {
  if (typeof value === 'string') yield value;
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return;
  for (const inner of Object.values(value)) yield* textsIn(inner);
}

const numberOf = (text: string): number =>
  Number(text.replace('\u2212', '-').replace('+', '').replaceAll('\u00a0', ''));

/** The figure of a row as a number; NaN where there is none. */
function rowOf({ measured }: EventDebrief, label: string): number {
  const row = measured.find((each) => each.label === label);
  return row && hasFigure(row.figure) ? numberOf(row.figure.value) : NaN;
}

const valueOf = (measured: Measured): number => (isUndetermined(measured) ? NaN : measured.value);

describe('the debrief of every demo event', () => {
  test('[ST60] never approves: no such word, tick or green in any text of it', () => {
    expect(shown.length).toBeGreaterThan(80);
    const approving =
      /\b(safe|safely|good|well done|ok|okay|fine|approved|perfect|excellent|green|tick)\b|[✓✔☑✅👍]/iu;
    for (const { event, file } of shown) {
      for (const text of textsIn(event)) expect(text, file).not.toMatch(approving);
    }
  });

  test('[ST61] holds no trace of a value that is none', () => {
    for (const { event, file } of shown) {
      for (const text of textsIn(event)) {
        expect(text, file).not.toMatch(/NaN|undefined\b|Infinity|\[object|null/);
      }
    }
  });

  test('[ST62] crosses to the page whole', () => {
    for (const { event } of shown) expect(structuredClone(event)).toEqual(event);
  });

  test('[ST63] is of the same moment as its line in the logbook', () => {
    for (const { event, flight, file } of shown) {
      const line = summariseFlight(flight).events.find(({ key }) => key === event.key);
      expectNear(event.timeS, line?.timeS ?? NaN, 1e-6, `${file} ${event.key ?? ''}`);
    }
  });

  test('[ST64] measures what the flight measured', () => {
    let compared = 0;
    const same = (row: number, measured: Measured, what: string): void => {
      const value = valueOf(measured);
      expect(Number.isNaN(row), what).toBe(Number.isNaN(value));
      if (Number.isNaN(value)) return;
      // Whole metres are shown.
      expectNear(row, value, 0.5000001, what);
      compared++;
    };
    for (const { event, flight, file } of shown) {
      const index = Number(event.key?.split('-').at(-1));
      if (event.kind === 'take-off') {
        const { groundRollM, stripLeftM } = flight.events.takeOffs[index];
        same(rowOf(event, 'take-off ground roll'), groundRollM, file);
        same(rowOf(event, 'strip left at lift-off'), stripLeftM, file);
        continue;
      }
      const approach = flight.events.approaches[index];
      if (approach.goAround) continue;
      const { touchdown, groundRollM, stripLeftM } = approach;
      same(rowOf(event, 'ground roll'), groundRollM, file);
      same(rowOf(event, 'strip left'), stripLeftM, file);
      same(
        rowOf(event, 'touchdown'),
        isUndetermined(touchdown) ? touchdown : touchdown.alongM,
        file,
      );
    }
    expect(compared).toBeGreaterThan(200);
  });

  test('[ST65] [ADD1] splits a roll into rows that add up to the difference of the two as they are shown', () => {
    let split = 0;
    for (const { event, flight, file } of shown) {
      if (event.kind !== 'approach' || isUndetermined(event.why)) continue;
      const parts = event.why.rows.flatMap(({ figure }) => (hasFigure(figure) ? [figure] : []));
      const approach = flight.events.approaches[Number(event.key?.split('-').at(-1))];
      const { prediction } = flight.compared.approaches[Number(event.key?.split('-').at(-1))];
      if (parts.length < 2 || isUndetermined(prediction)) continue;
      if (isUndetermined(prediction.landing)) throw new Error('split without a prediction');
      const { expectedRollM } = prediction.landing;
      if (isUndetermined(expectedRollM)) throw new Error('split without an expected roll');
      const rolls = [valueOf(approach.fullStopRollM), expectedRollM];
      const [measuredShown, expectedShown] = rolls.map((metres) => Number(metres.toFixed(0)));
      const difference = measuredShown - expectedShown;
      // A sign before each, and one only.
      for (const { value } of parts) expect(value, file).toMatch(/^(\+|\u2212)\d|^0$/);
      const sum = parts.reduce((all, { value }) => all + numberOf(value), 0);
      expect(sum, file).toBe(difference);
      if (difference === 0) {
        expect(event.why.heading, file).toBe('Why it was as long as expected');
        continue;
      }
      const [, size, side] = /was (\d+)\u00a0m (longer|shorter)/.exec(event.why.heading) ?? [];
      expect(Number(size), file).toBe(Math.abs(difference));
      expect(side).toBe(difference < 0 ? 'shorter' : 'longer');
      split++;
    }
    expect(split).toBeGreaterThan(15);
  });

  test('[ST66] reads time at a place and place at that time as inverses along every roll', () => {
    let read = 0;
    for (const { event, flight } of shown) {
      if (event.kind !== 'approach') continue;
      const { touchdown, rollEnd } = flight.events.approaches[Number(event.key?.split('-').at(-1))];
      if (isUndetermined(touchdown) || isUndetermined(rollEnd)) continue;
      const [fromM, toM] = [valueOf(touchdown.alongM), valueOf(rollEnd.alongM)];
      for (const share of [0, 0.25, 0.5, 0.75]) {
        const atM = fromM + share * (toM - fromM);
        const atS = timeAtPlace(event.cursor, atM);
        // Seconds since 1970 are kept to 2^-22 s: at 40 m/s some hundredths of a millimetre.
        expectNear(readAtTime(event.cursor, atS).alongM, atM, 2e-5, 'place');
        expectNear(atS, valueOf(touchdown.timeS), 90, 'a time in the roll');
        read++;
      }
    }
    expect(read).toBeGreaterThan(100);
  });
});

describe('a log without any strip', () => {
  test('[ST67] offers the strip of every landing where the true one lies', async () => {
    let offered = 0;
    for (const { file, flight } of flights) {
      const [unknown] = (await debriefDemo(file, { ...context, strips: EMPTY_STRIP_BOOK })).flights;
      for (const { key, kind, outcome } of summariseFlight(unknown).events) {
        const event = eventDebrief(unknown, key, EMPTY_STRIP_BOOK, options);
        expect(event.place).toBeNull();
        if (kind !== 'approach' || outcome !== 'full-stop') continue;
        if (!event.offer) throw new Error(`${file}: no offer for ${key}`);
        const { latDegA, lonDegA, latDegB, lonDegB } = event.offer;
        const landing = summariseFlight(flight).events.find(
          (each) => each.kind === 'approach' && Math.abs(each.timeS - event.timeS) < 10,
        );
        const view = flight.events.views.find(
          ({ stripId, direction }) =>
            stripId === landing?.stripId && direction.designator === landing.designator,
        );
        if (!view) throw new Error(`${file}: ${key} is no landing at a strip of the demo`);
        const lat = Float64Array.of(latDegA, latDegB);
        const { alongM, crossM } = view.frame.toAlongCross(lat, Float64Array.of(lonDegA, lonDegB));
        expectNear(crossM[0], 0, 15, `${file} ${key} end A across`);
        expectNear(crossM[1], 0, 15, `${file} ${key} end B across`);
        // From before the touchdown, A, to behind the end of the roll, and no longer than that asks for.
        const known = flight.events.approaches.find(
          ({ touchdown }) =>
            !isUndetermined(touchdown) &&
            !isUndetermined(touchdown.timeS) &&
            Math.abs(touchdown.timeS.value - event.timeS) < 10,
        );
        if (!known || isUndetermined(known.touchdown) || isUndetermined(known.rollEnd))
          throw new Error(`${file}: ${key} is no landing of the demo`);
        const [began, ended] = [known.touchdown.alongM, known.rollEnd.alongM];
        if (isUndetermined(began) || isUndetermined(ended)) throw new Error('known strips');
        expect(alongM[0], `${file} ${key} A`).toBeLessThan(began.value);
        expect(alongM[1], `${file} ${key} B`).toBeGreaterThan(ended.value);
        expect(alongM[1] - alongM[0], `${file} ${key} length`).toBeLessThan(1_000);
        offered++;
      }
    }
    expect(offered).toBeGreaterThan(25);
  });

  test('[PG25] draws and lists each obstacle passed with the height over its top', () => {
    let passed = 0;
    for (const { flight, event } of shown) {
      if (event.kind !== 'approach' || event.key === null) continue;
      const index = Number(event.key.replace('approach-', ''));
      const clearances = flight.surroundings.approaches[index];
      for (const { obstacle, verticalM } of clearances) {
        const row = event.measured.find(({ label }) => label === `height over ${obstacle}`);
        expect(row?.how).toMatch(/^From the wheels to the top/);
        if (isUndetermined(verticalM) || isUndetermined(event.final)) continue;
        const drawn = event.final.passed.find(({ name }) => name === obstacle);
        expectNear(drawn?.overM ?? NaN, verticalM.value, 1e-9);
        expect(drawn?.isBelow).toBe(verticalM.value < 0);
        // Feet as the units of a new logbook have them: 0.3048 m exactly.
        expectNear(rowOf(event, `height over ${obstacle}`), verticalM.value / 0.3048, 0.51);
        passed++;
      }
    }
    expect(passed).toBeGreaterThan(10);
  });
});
