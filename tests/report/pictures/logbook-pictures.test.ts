/** Picture models of the whole logbook, from summaries of all demo flights. */
import { beforeAll, describe, expect, test } from 'vitest';
import { ownFactors } from '../../../src/debrief/own-factors.ts';
import { isUndetermined } from '../../../src/result.ts';
import { USUAL_UNITS } from '../../../src/report/figure-text.ts';
import { ownFactorsOf } from '../../../src/report/logged-factors.ts';
import type { LoggedFlight } from '../../../src/report/logged-flight.ts';
import { factorEntries } from '../../../src/report/pictures/factor-entries.ts';
import { individualsPicture } from '../../../src/report/pictures/individuals-picture.ts';
import {
  landingBarsPicture,
  type LandingBarsPicture,
} from '../../../src/report/pictures/landing-bars-picture.ts';
import { mownFieldPicture } from '../../../src/report/pictures/mown-field-picture.ts';
import { shortLengths } from '../../../src/debrief/short-lengths.ts';
import { loggedLengths } from '../../../src/report/logged-lengths.ts';
import { dispersionPictures } from '../../../src/report/pictures/dispersion-picture.ts';
import { individualsChart } from '../../../src/calibration/control-chart.ts';
import { DEMO_FILES } from '../../debrief/demo-flights.ts';
import {
  allFlights,
  determined,
  factorOf,
  flightOf,
  individualsOf,
} from '../../drawings/demo-pictures.ts';
import { expectNear } from '../../expect-near.ts';
import { notPlain } from './plain-data.ts';

let logbook: LoggedFlight[];
let bars: LandingBarsPicture;

beforeAll(async () => {
  logbook = await allFlights();
  bars = landingBarsPicture(logbook, USUAL_UNITS);
});

describe('a summary', () => {
  test('[LOGP1] survives JSON whole', () => {
    const copied: unknown = JSON.parse(JSON.stringify(logbook));
    expect(copied).toEqual(logbook);
  });

  test('[LOGP2] gives the same own factors as the flights themselves', async () => {
    const flights = await Promise.all(DEMO_FILES.map((file) => flightOf(file)));
    const [fromFlights, fromSummaries] = [ownFactors(flights), ownFactorsOf(logbook)];
    expect(fromSummaries.map(({ aeroplane }) => aeroplane)).toEqual(
      fromFlights.map(({ aeroplane }) => aeroplane),
    );
    expect(fromSummaries.length).toBeGreaterThan(1);
    fromFlights.forEach(({ factors, goArounds }, i) => {
      expect(fromSummaries[i].goArounds).toBe(goArounds);
      factors.forEach((factor, k) => {
        const other = fromSummaries[i].factors[k];
        expect(other.kind).toBe(factor.kind);
        expect(other.counts).toEqual(factor.counts);
        if (factor.kind === 'own-factor' && other.kind === 'own-factor') {
          expectNear(other.factor, factor.factor, 1e-9);
        }
      });
    });
  });
});

describe('the list of landings', () => {
  test('[LOGP3] has every approach but overflights, newest first, with its address', () => {
    const wanted = logbook.flatMap(({ id, summary }) =>
      summary.events
        .filter(({ kind, outcome }) => kind === 'approach' && outcome !== 'overflight')
        .map(({ key }) => `${id} 0 ${key}`),
    );
    const addresses = bars.bars.map(
      ({ logId, flightIndex, key }) => `${logId} ${flightIndex} ${key}`,
    );
    expect(addresses.toSorted()).toEqual(wanted.toSorted());
    expect(addresses.length).toBeGreaterThan(30);
    const times = bars.bars.map(({ timeS }) => timeS);
    expect(times).toEqual(times.toSorted((a, b) => b - a));
  });

  test('[LOGP4] carries the numbers to sort by, the text, and null where there are none', () => {
    const events = new Map(
      logbook.flatMap(({ id, summary }) => summary.events.map((event) => [id + event.key, event])),
    );
    const landings = bars.bars.filter(({ rollM }) => rollM !== null);
    expect(landings.length).toBeGreaterThan(20);
    for (const { logId, key, rollM, leftM, ratioValue, ratio, ratioOf, roll } of bars.bars) {
      const event = events.get(logId + key);
      if (!event) throw new Error('no such event');
      const isLanding = event.outcome === 'full-stop' || event.outcome === 'stop-and-go';
      if (!isLanding) {
        expect([rollM, leftM, ratioValue, roll]).toEqual([null, null, null, null]);
        continue;
      }
      expect(rollM).toBe(isUndetermined(event.rollM) ? null : event.rollM.value);
      expect(leftM).toBe(isUndetermined(event.leftM) ? null : event.leftM.value);
      const isWhole = isUndetermined(event.roll.ratio) && !isUndetermined(event.whole.ratio);
      if (ratio !== null) expect(ratioOf).toBe(isWhole ? 'whole' : 'roll');
      if (rollM !== null) expect(roll).toBe(`${Math.round(rollM)}\u00a0m`);
    }
  });

  test('[LOGP5] names a place that nobody keeps as a strip, without a length', () => {
    const [first] = logbook;
    const event = first.summary.events.find(({ kind }) => kind === 'approach');
    if (!event) throw new Error('no approach');
    const nowhere = {
      ...event,
      ...{ stripId: null, stripName: 'a place not kept yet', designator: null },
      ...{ lengthM: null, passes: null },
    };
    const only = { ...first, summary: { ...first.summary, events: [nowhere] } };
    const picture = landingBarsPicture([only], USUAL_UNITS);
    expect(picture.bars).toHaveLength(1);
    expect(picture.bars[0]).toMatchObject({ stripId: null, ldaM: null, passes: null });
    expect(picture.bars[0].spoken).toContain('a place not kept yet');
    expect(picture.longestM).toBe(0);
  });
});

describe('the mown field', () => {
  const place = { stripId: 'sedge', designator: '20' };
  const rowOf = (rows: readonly { label: string; value: string }[] = [], label: string) =>
    rows.find((row) => row.label.startsWith(label))?.value;

  test('[LOGP6] holds each landing of one direction against the point planned for itself', () => {
    const field = mownFieldPicture(bars.bars, place, USUAL_UNITS);
    const here = logbook.flatMap(({ summary }) =>
      summary.events.filter(
        ({ kind, stripId, designator, passes }) =>
          kind === 'approach' && stripId === 'sedge' && designator === '20' && passes,
      ),
    );
    expect(field?.columns).toHaveLength(here.length);
    const planned = here.filter(({ latestTouchdownM }) => latestTouchdownM !== null);
    const past = planned.filter(
      ({ placeM, latestTouchdownM }) =>
        !isUndetermined(placeM) && placeM.value > (latestTouchdownM ?? Infinity),
    );
    expect(planned.length).toBeGreaterThan(3);
    expect(rowOf(field?.below, 'touched past')).toBe(
      `${past.length}\u00a0of\u00a0${planned.length}`,
    );
    expect(field?.rows.slice(0, field.below.length)).toEqual(field?.below);
    const nowhere = { stripId: 'sedge', designator: '99' };
    expect(mownFieldPicture(bars.bars, nowhere, USUAL_UNITS)).toBeNull();
  });

  test('[LOGP6] says whose latest touchdown point is drawn, or that the strip has none', () => {
    const [bar] = bars.bars.filter(({ stripId, passes }) => stripId === 'sedge' && passes);
    const only = (latestTouchdownM: number | null) =>
      mownFieldPicture(
        [{ ...bar, designator: '20', touchdownM: 60, latestTouchdownM, aeroplane: 'Marram 160' }],
        place,
        USUAL_UNITS,
      );
    expect(only(80)?.rope?.atM).toBe(80);
    expect(rowOf(only(80)?.below, 'latest touchdown point, as planned for')).toBe('80\u00a0m');
    expect(
      only(80)
        ?.below.map(({ label }) => label)
        .join(),
    ).toContain('Marram 160');
    expect(rowOf(only(80)?.below, 'touched past')).toBe('0\u00a0of\u00a01');
    expect(rowOf(only(40)?.below, 'touched past')).toBe('1\u00a0of\u00a01');
    const none = only(-34);
    expect(none?.rope).toBeNull();
    expect(rowOf(none?.below, 'latest touchdown point')).toBe(
      'none: the planned roll is 34\u00a0m longer than the LDA',
    );
    expect(rowOf(none?.below, 'touched past')).toBe('1\u00a0of\u00a01');
    expect(only(null)?.below).toHaveLength(1);
    expect(only(null)?.rope).toBeNull();
  });
});

describe('the own factor', () => {
  test('[LOGP7] heap has 95 of 100 left of the factor, as the words beside it say', () => {
    const picture = factorOf(logbook, 'marram-160', 'landing-roll');
    const { heap, own, heapWords } = picture;
    if (!heap || !own) throw new Error('no factor');
    expect(heapWords?.within).toBe('95 of 100 to the left');
    // The trapezium rule over the logarithm of the ratio.
    let [left, all] = [0, 0];
    for (let i = 1; i < heap.ratio.length; i++) {
      const step = Math.log(heap.ratio[i] / heap.ratio[i - 1]);
      const piece = ((heap.density[i] + heap.density[i - 1]) / 2) * step;
      all += piece;
      if (heap.ratio[i] <= own.ratio) left += piece;
    }
    expectNear(left / all, 0.95, 0.015);
  });

  test('[LOGP8] only a whole distance is held against a published factor', () => {
    expect(factorOf(logbook, 'marram-160').published?.ratio).toBe(1.43);
    expect(factorOf(logbook, 'marram-160', 'landing-roll').published).toBeNull();
  });

  test('[LOGP9] every landing is in it once, counted or left out with its reason', () => {
    const picture = factorOf(logbook, 'eelgrass-450', 'landing-from-50-ft', 'dry');
    const entries = factorEntries(logbook, 'eelgrass-450', 'landing-from-50-ft', 'dry');
    expect(entries.length).toBeGreaterThan(5);
    expect(picture.counted.length + picture.leftOut.length).toBe(entries.length);
    for (const { why } of picture.leftOut) expect(why.length).toBeGreaterThan(5);
    expect(picture).toMatchObject({ heap: null, own: null, heapWords: null });
    expect(picture.tooFew).toMatch(/^too few landings/);
  });
});

describe('landings in the order flown', () => {
  test('[LOGP10] limits agree with the worked example of a handbook', () => {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, ten batches, from memory:
    // middle 50.81, limits 55.8041 and 45.8159, mean moving range 1.8778.
    const flow = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
    const { middle, upper, lower, rangeLimit } = individualsChart(flow);
    expectNear(middle, 50.81, 5e-4);
    expectNear(upper, 55.8041, 5e-4);
    expectNear(lower, 45.8159, 5e-4);
    expectNear(rangeLimit, 3.267 * 1.8778, 5e-4);
    expect(() => individualsChart([1])).toThrow(/two/);
  });

  test('[LOGP11] hold the counted landings, oldest first, between limits about their middle', () => {
    const picture = determined(individualsOf(logbook, 'marram-160', 'landing-roll', 'dry'));
    const factor = factorOf(logbook, 'marram-160', 'landing-roll', 'dry');
    expect(picture.points.map(({ ratio }) => ratio.toFixed(6))).toEqual(
      factor.counted.toReversed().map(({ ratio }) => ratio.toFixed(6)),
    );
    const mean =
      picture.points.reduce((sum, { ratio }) => sum + Math.log(ratio), 0) / picture.points.length;
    expectNear(picture.middle.ratio, Math.exp(mean), 1e-9);
    expectNear(picture.upper.ratio * picture.lower.ratio, picture.middle.ratio ** 2, 1e-9);
    expect(picture.points[0].step).toBeNull();
    for (const { step } of picture.points.slice(1)) expect(step).toBeGreaterThanOrEqual(1);
  });

  test('[LOGP12] that grow longer from day to day are called a drift, and few are not drawn', () => {
    const entries = factorEntries(logbook, 'marram-160', 'landing-roll');
    const [model] = entries.filter(({ comparison }) => comparison.role === 'counts');
    const made = (ratios: readonly number[]) =>
      ratios.map((ratio, i) => ({
        ...model,
        timeS: i,
        comparison: {
          ...model.comparison,
          dayKey: `day ${i}`,
          ratio: { value: ratio, low: ratio, high: ratio },
          log: { value: Math.log(ratio), sd: 0.05 },
        },
      }));
    const steady = made([1, 1.1, 1, 1.1, 1, 1.1, 1, 1.1, 1, 1.1]);
    expect(determined(individualsPicture(steady)).verdict).toBe('no drift found');
    const shifted = made([...Array<number>(8).fill(1), ...Array<number>(8).fill(1.5)]);
    expect(determined(individualsPicture(shifted)).verdict).toMatch(
      /^a drift: longer by .* %.* from day to day.*course has left its limits/,
    );
    expect(
      determined(individualsPicture(shifted.toReversed().map((each, i) => ({ ...each, timeS: i }))))
        .verdict,
    ).toMatch(/^a drift: shorter by/);
    const oneDay = steady.map((each) => ({
      ...each,
      comparison: { ...each.comparison, dayKey: 'day' },
    }));
    expect(determined(individualsPicture(oneDay)).verdict).toBe(
      'a drift cannot be told on fewer than 8 days',
    );
    const odd = made([1, 1.02, 1, 1.02, 1, 1.02, 1, 1.02, 2, 1.02, 1, 1.02, 1, 1.02, 1, 1.02]);
    expect(determined(individualsPicture(odd)).verdict).toMatch(/beyond the limits/);
    expect(individualsPicture(steady.slice(0, 4))).toEqual({
      undetermined: '4 that count; a course needs 5 or more',
    });
  });
});

describe('every model of the logbook', () => {
  test('[LOGP13] is plain data', () => {
    const models = {
      bars,
      field: mownFieldPicture(bars.bars, { stripId: 'ternholm', designator: '25' }, USUAL_UNITS),
      factor: factorOf(logbook, 'marram-160'),
      order: determined(individualsOf(logbook, 'marram-160')),
    };
    expect(notPlain(models)).toEqual([]);
    expect(structuredClone(models)).toEqual(models);
  });
});

describe('what the landings say of strips', () => {
  test('[LOGP13] every touchdown of a direction stands where it was found, about their middle', () => {
    const widths = new Map([['tern', 22]]);
    const pictures = dispersionPictures(logbook, 'marram-160', USUAL_UNITS, widths);
    const [most] = pictures;
    const here = logbook
      .flatMap(({ summary }) =>
        isUndetermined(summary.aeroplane) || summary.aeroplane.id !== 'marram-160'
          ? []
          : summary.events,
      )
      .filter(
        ({ stripName, designator, kind }) =>
          kind === 'approach' && stripName === most.name && designator === most.designator,
      )
      .flatMap(({ placeM, crossM }) =>
        isUndetermined(placeM) || isUndetermined(crossM)
          ? []
          : [{ alongM: placeM.value, crossM: crossM.value }],
      );
    expect(most.points).toEqual(here);
    const mean = here.reduce((sum, { alongM }) => sum + alongM, 0) / here.length;
    expectNear(most.middle.alongM, mean, 1e-9);
    expect(most.alongWords).toContain(`middle ${Math.round(mean)}`);
    expect(most.points.length).toBeGreaterThanOrEqual(pictures.at(-1)?.points.length ?? 0);
    for (const { points } of pictures) expect(points.length).toBeGreaterThanOrEqual(5);
  });

  test('[LOGP14] the length that short landings need is that of the whole debriefs', async () => {
    const file = DEMO_FILES[DEMO_FILES.length - 1];
    const flight = await flightOf(file);
    const own = shortLengths([flight]).map(({ needed }) => needed);
    const logged = loggedLengths(
      logbook.filter(({ id }) => id === file),
      'marram-160',
    );
    expect(logged.map(({ needed }) => needed)).toEqual(expect.arrayContaining(own));
    const all = loggedLengths(logbook, 'marram-160').map(({ needed }) => needed);
    expect(all.length).toBeGreaterThan(3);
    // Each in its own direction: two of one strip may have another LDA.
    const flights = await Promise.all(DEMO_FILES.map((each) => flightOf(each)));
    const whole = shortLengths(flights).map(({ needed }) => needed);
    expect(whole).toHaveLength(all.length);
    expect(all).toEqual(expect.arrayContaining(whole));
    for (const needed of all) {
      if (needed.kind === 'too-few') throw new Error(needed.reason);
      expectNear(needed.lengthM.value + needed.leftM.value, needed.today.ldaM, 1e-9);
      expect(needed.lengthM.value).toBeGreaterThan(needed.middleM);
    }
  });
});
