/** A visit from the draft to the debrief of its flight. */
import { describe, expect, test } from 'vitest';
import type { AppState, VisitDraft } from '../../../src/app/app-state.ts';
import { storyOfKept } from '../../../src/app/entry/kept-visit.ts';
import { forecastPairs } from '../../../src/app/entry/visit-length.ts';
import { planFromDraft } from '../../../src/app/entry/visit-plan.ts';
import { entryId } from '../../../src/logbook/entry.ts';
import { decodeAeroplane } from '../../../src/performance/decode-aeroplane.ts';
import { UK_LEAFLET } from '../../../src/performance/factor-sets/uk-leaflet.ts';
import { planVisit, plannedMomentS } from '../../../src/logbook/planned-visit.ts';
import { plannedVisitsFor } from '../../../src/report/story/visit-offer.ts';
import { isUndetermined } from '../../../src/result.ts';
import type { Conditions } from '../../../src/weather/conditions.ts';
import { openStore } from '../page-store.ts';

const CONDITIONS: Conditions = {
  wind: { fromDeg: 210, reference: 'true', speedKt: 6, gustKt: null },
  tempC: 15,
  qnhHpa: 1018,
  massKg: 900,
  takeOffMassKg: null,
  surface: 'grass-dry',
  flap: null,
  aeroplane: null,
  factorSet: null,
  effort: null,
};
/** The day of the demonstration's one flight, which leaves Sedgeholt. */
const DRAFT: VisitDraft = {
  stripId: 'sedge',
  landing: '20',
  takeOff: '20',
  day: '2024-05-12',
  aeroplaneId: 'marram-160',
  conditions: CONDITIONS,
  factorSet: null,
};
const { state } = (await openStore()).store;
const change = (part: Partial<VisitDraft>) => planFromDraft(state, { ...DRAFT, ...part });

function kept(of: AppState, draft: VisitDraft) {
  const { frozen } = planFromDraft(of, draft);
  return planVisit(
    entryId('visit', 'planned-1'),
    {
      isoDay: draft.day,
      aeroplaneId: entryId('aeroplane', 'marram-160'),
      conditions: frozen[0].conditions,
      predictions: frozen.map((each) => ({ ...each, savedS: 1_715_000_000 })),
    },
    { nowS: 1_715_000_000, demo: false },
  );
}

describe('a draft', () => {
  test('[VI20] names what is missing, and predicts nothing', () => {
    const nothing = { stripId: null, landing: null, takeOff: null, aeroplaneId: null };
    expect(change({ ...nothing, conditions: null })).toMatchObject({ story: null, frozen: [] });
    expect(change({ ...nothing, conditions: null }).missing).toEqual([
      'the strip',
      'the aeroplane',
      'the wind (calm has to be said)',
      'the temperature',
      'the mass',
      'the surface (dry has to be said)',
    ]);
    expect(change({ landing: null, takeOff: null }).missing).toEqual([
      'a direction to land or to take off in',
    ]);
    expect(change({ conditions: { ...CONDITIONS, wind: null } }).missing).toHaveLength(1);
    expect(change({ day: '' }).missing).toEqual(['the day']);
  });

  test('[VI33] notes only what belongs to the uses that are planned', () => {
    const notes = (landing: string, takeOff: string): string =>
      change({ landing, takeOff }).story?.notes.join(' ') ?? 'no story';
    // Sedgeholt falls towards 20: downhill in and uphill out are both penalties, and are taken.
    expect(notes('20', '02')).not.toContain('credit');
    expect(notes('02', '20').replaceAll('\u00a0', ' ')).toMatch(
      /The planned landing takes no credit for slope \(0\.2 % uphill\)\. The planned take-off takes no credit for slope \(0\.2 % downhill\)\./,
    );
  });

  test('[VI21] tells the plan in and out against the declared lengths', () => {
    const { story, missing } = change({});
    expect(missing).toEqual([]);
    const said = story?.sentence.replaceAll('\u00a0', ' ');
    expect(said).toMatch(/^In: plan \d+ m of 355 m, \d+ m too long\. Out: plan \d+ m of 355 m/);
  });

  test('[VI22] gives no prediction outside the limits of the aeroplane, and says why', () => {
    const { story, frozen } = change({ conditions: { ...CONDITIONS, massKg: 2000 } });
    expect(story?.sentence).toBe('In: no prediction. Out: no prediction.');
    expect(isUndetermined(story?.landing) && story.landing.undetermined).toMatch(/2000 kg/);
    expect(frozen).toEqual([]);
  });

  test('[VI23] freezes one prediction for a direction used both ways, two for two', () => {
    expect(change({}).frozen.map(({ designator }) => designator)).toEqual(['20']);
    expect(change({ takeOff: '02' }).frozen.map(({ designator }) => designator)).toEqual([
      '20',
      '02',
    ]);
    expect(change({ takeOff: null }).frozen).toHaveLength(1);
  });

  test('[VI24] takes the chosen factors, else those of the settings', () => {
    expect(change({}).story?.factorSet).toBe('uk-leaflet');
    expect(change({ factorSet: 'class-b' }).story?.factorSet).toBe('class-b');
  });
});

describe('a kept visit', () => {
  test('[VI25] is told from what was frozen, whatever the aeroplane has become', () => {
    const visit = kept(state, DRAFT);
    const gone: AppState = { ...state, aeroplanes: [] };
    expect(storyOfKept(gone, visit)?.sentence).toBe(change({}).story?.sentence);
    expect(storyOfKept({ ...state, strips: [] }, visit)).toBeNull();
    const [frozen] = visit.predictions;
    const damaged = { ...visit, predictions: [{ ...frozen, prediction: 'nothing' }] };
    expect(storyOfKept(state, damaged)).toBeNull();
  });

  test('[VI26] is offered to a flight of its day, strip and aeroplane, and to no other', () => {
    const visit = kept(state, DRAFT);
    const [analysis] = state.analyses.values();
    const [flight] = analysis.flights;
    const offered = (changed: object) =>
      plannedVisitsFor([{ ...visit, ...changed }], flight, 'UTC').length;
    expect(offered({})).toBe(1);
    expect(offered({ plannedForS: (visit.plannedForS ?? 0) + 86_400 })).toBe(0);
    expect(offered({ logId: 'flown' })).toBe(0);
    expect(offered({ aeroplaneId: 'eelgrass-450' })).toBe(0);
    const [frozen] = visit.predictions;
    expect(offered({ predictions: [{ ...frozen, stripId: 'hollowmere' }] })).toBe(0);
  });

  test('[VI27] is joined to its flight, once, and its log keeps the figures it had', async () => {
    const { store, logbook } = await openStore();
    const [log] = store.state.logs;
    const measured = store.state.analyses.get(log.id);
    await store.dispatch({ type: 'save-visit', visit: kept(store.state, DRAFT), words: 'kept' });
    expect(store.state.messages.at(-1)?.text).toBe('kept');
    const join = { type: 'join-visit', visitId: 'planned-1', logId: log.id } as const;
    await store.dispatch({ ...join, asPlanned: false });
    const visits = await logbook.list('visit');
    const own = visits.ok ? visits.value.filter(({ logId }) => logId === log.id) : [];
    expect(own).toHaveLength(1);
    expect(own[0].predictions).toHaveLength(1);
    // The demonstration had conditions for this flight: they stay, and so do its figures.
    expect(store.state.analyses.get(log.id)?.flights).toEqual(measured?.flights);
    await store.dispatch({ ...join, asPlanned: true });
    expect(store.state.messages.map(({ text }) => text).join(' ')).toMatch(
      /found no such planned visit or flight/,
    );
  });
});

describe('the length that own short landings need', () => {
  test('[VI28] is not told from too few landings, and says so', () => {
    const { length } = change({});
    expect(length).toMatchObject({
      kind: 'none',
      reason: expect.stringMatching(/^too few landings meant to be short.*found \d on/) as string,
    });
    expect(change({ landing: null }).length).toBeNull();
    expect(change({ conditions: { ...CONDITIONS, massKg: 2000 } }).length).toBeNull();
  });

  test('[VI29] takes the forecast errors of kept visits that were flown in another wind', () => {
    const record = state.aeroplanes.find(({ id }) => id === 'marram-160');
    const read = decodeAeroplane(JSON.stringify(record?.document));
    if (!read.ok) throw new Error('no aeroplane');
    const predictWith = {
      aeroplane: read.value,
      conditions: CONDITIONS,
      factorSet: UK_LEAFLET,
      timeS: plannedMomentS(DRAFT.day),
    };
    const pairs = (part: object) =>
      forecastPairs({ ...state, visits: [{ ...kept(state, DRAFT), ...part }] }, predictWith);
    const [{ id: logId }] = state.logs;
    const wind = { fromDeg: 210, reference: 'true', speedKt: 12, gustKt: null } as const;
    const flown = { logId, conditions: { ...CONDITIONS, wind } };
    const [pair] = pairs(flown);
    // The same direction, twice the speed: twice the headwind.
    expect(pair.actualMps / pair.forecastMps).toBeCloseTo(2, 9);
    expect(pairs({ ...flown, logId: null })).toEqual([]);
    // Taken over from the plan: no second observation.
    expect(pairs({ ...flown, conditions: CONDITIONS })).toEqual([]);
  });
});
