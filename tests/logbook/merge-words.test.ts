/**
 * What was not taken is told in words that a pilot understands. Rule: docs/spec/logbook.md, LB55.
 */
import { describe, expect, test } from 'vitest';
import { entryId, type Entry, type VisitRecord } from '../../src/logbook/entry.ts';
import { stampEntered } from '../../src/logbook/entered-fields.ts';
import { addCorrection, markEffort } from '../../src/logbook/landing-entries.ts';
import { makeVisit } from '../../src/logbook/make-entry.ts';
import { meet } from '../../src/logbook/merge.ts';
import { addRemark, removeRemark } from '../../src/logbook/remarks.ts';
import type { EventSummary, FlightSummary } from '../../src/report/flight-summary.ts';
import { notTakenLines, type MergeLookups } from '../../src/report/merge-words.ts';
import { undetermined } from '../../src/result.ts';
import {
  CONDITIONS,
  CORRECTION,
  FROZEN,
  inventedAeroplane,
  inventedFactorSet,
  inventedLog,
  inventedSettings,
  inventedStrip,
  NOW_S,
  OWN,
} from './invented-entries.ts';

/** 2025-05-23 11:33:20 UTC. */
expect(new Date(NOW_S * 1000).toISOString()).toBe('2025-05-23T11:33:20.000Z');

const log = await inventedLog();
const T = NOW_S - 900;
const BARE: VisitRecord = makeVisit(entryId('visit', 'of-c10a0d54'), log, OWN);

const event = (timeS: number, kind: EventSummary['kind']) =>
  ({ timeS, kind, stripName: 'Sedgeholt' }) as EventSummary;
const flight: FlightSummary = {
  startS: T - 3000,
  endS: T + 60,
  usedFixes: 3000,
  medianIntervalS: 1,
  aeroplane: undetermined('none'),
  surface: null,
  events: [event(T - 2900, 'take-off'), event(T, 'approach')],
  lessons: [],
  path: { timeS: [], latDeg: [], lonDeg: [] },
};
const LOOKUPS: MergeLookups = {
  logs: [log],
  strips: [inventedStrip()],
  aeroplanes: [inventedAeroplane()],
  flightsOf: () => [flight],
  factorSetName: (id) => (id === 'club-rules' ? 'Club rules' : id),
  units: { ...inventedSettings().units, timeZone: 'UTC' },
};

function told(there: Entry, incoming: Entry, lookups: MergeLookups = LOOKUPS): string[] {
  const lines = meet(there, incoming).conflicts.flatMap((each) => notTakenLines(each, lookups));
  for (const line of lines) {
    expect(line, 'no ids, no epoch seconds').not.toMatch(/of-c10a0d54|\d{9}|"/);
    expect(line).toMatch(/^[A-Z0-9].*[.”]$/s);
  }
  return lines.map((line) => line.replaceAll('\u00a0', ' '));
}

const said = (text: string, writtenS: number, timeS: number | null = null) =>
  addRemark(BARE, { id: 'r', timeS, text, writtenS });

describe('of a flight', () => {
  test('[LB55] a remark in two wordings, from either side', () => {
    const [early, late] = [said('Long.', NOW_S, T + 5), said('A bit long.', NOW_S + 1, T + 5)];
    expect(told(early, late)).toEqual([
      '23 May 2025 11:18 UTC, Sedgeholt: your logbook had the remark at 11:18:25 “Long.”; the remark at 11:18:25 “A bit long.”, as in the file, stands now.',
    ]);
    expect(told(late, early)).toEqual([
      '23 May 2025 11:18 UTC, Sedgeholt: the file has the remark at 11:18:25 “Long.”; the remark at 11:18:25 “A bit long.”, as in your logbook, stays.',
    ]);
  });

  test('[LB55] a remark that was removed', () => {
    const here = said('Long.', NOW_S);
    const removed = removeRemark(here, 'r', NOW_S + 2);
    expect(told(removed, here)).toEqual([
      '23 May 2025 11:18 UTC, Sedgeholt: the file has the remark “Long.”; in your logbook it was taken out, and it stays out.',
    ]);
    expect(told(here, removed)).toEqual([
      '23 May 2025 11:18 UTC, Sedgeholt: your logbook had the remark “Long.”; in the file it was taken out, and it is out now.',
    ]);
  });

  test('[LB55] conditions, in the units and the time zone of the pilot; not those that agree', () => {
    const with12 = { ...CONDITIONS, tempC: 12, takeOffMassKg: 950 };
    const first = stampEntered({ ...BARE, conditions: CONDITIONS }, BARE, NOW_S);
    const second = stampEntered({ ...first, conditions: with12 }, first, NOW_S + 5);
    const third = stampEntered(
      { ...first, conditions: { ...with12, wind: null } },
      first,
      NOW_S + 9,
    );
    const warm = { ...LOOKUPS, units: { ...LOOKUPS.units, temperature: 'F' as const } };
    expect(told(second, first, warm)).toEqual([
      '23 May 2025 11:18 UTC, Sedgeholt: the file has temperature 32 °F; temperature 54 °F, as in your logbook, stays.',
    ]);
    const units = { ...LOOKUPS.units, temperature: 'C', timeZone: 'Europe/London' } as const;
    expect(told(second, first, { ...LOOKUPS, units })).toEqual([
      '23 May 2025 12:18 local time, Sedgeholt: the file has temperature 0 °C; temperature 12 °C, as in your logbook, stays.',
    ]);
    expect(told(second, third)).toEqual([
      '23 May 2025 11:18 UTC, Sedgeholt: your logbook had wind 240°M 9 kt; what the file has was entered later and is without it, and that stands now.',
    ]);
  });

  test('[LB55] places put by hand and marks of braking', () => {
    const put = (alongM: number, madeS: number) =>
      addCorrection(BARE, T, { ...CORRECTION, corrected: { timeS: T, alongM }, madeS });
    const mark = (visit: VisitRecord, effort: 'full' | 'coasted', markedS: number) =>
      markEffort(visit, T, { mark: effort, markedS, ratioShown: false }, markedS);
    const mine = mark(put(20, NOW_S), 'full', NOW_S + 8);
    const theirs = mark(put(30.4, NOW_S + 3), 'coasted', NOW_S + 7);
    expect(told(mine, theirs)).toEqual([
      '23 May 2025 11:18 UTC, Sedgeholt: your logbook had the touchdown put by hand at 20 m from the threshold; the touchdown put by hand at 30 m from the threshold, as in the file, stands now.',
      '23 May 2025 11:18 UTC, Sedgeholt: the file has braking coasted; braking full, as in your logbook, stays.',
    ]);
  });

  test('[LB55] whose log is not measured, or only planned, is named as well as can be', () => {
    const unmeasured = { ...LOOKUPS, flightsOf: () => [] };
    const [line] = told(said('Long.', NOW_S), said('Longer.', NOW_S + 1), unmeasured);
    expect(line).toContain('The flight in 2025-05-23-sedge.igc: ');
    const planned = (visit: VisitRecord): VisitRecord => ({
      ...visit,
      logId: null,
      plannedForS: Date.UTC(2025, 5, 14, 12) / 1000,
      predictions: [FROZEN],
    });
    const [other] = told(planned(said('Long.', NOW_S)), planned(said('Longer.', NOW_S + 1)));
    expect(other).toContain('Visit planned for 14 Jun 2025, Sedgeholt (strip): ');
  });

  test('[LB55] nothing is told of what is only on one side', () => {
    expect(told(said('Long.', NOW_S), BARE)).toEqual([]);
    expect(told(BARE, said('Long.', NOW_S))).toEqual([]);
  });
});

describe('of other records', () => {
  const later = <T extends Entry>(entry: T, change: Partial<T>): T => ({
    ...entry,
    ...change,
    changedS: NOW_S + 3600,
  });

  test('[LB55] a strip, with the fields that differ as its file names them', () => {
    const strip = inventedStrip();
    const [{ feature }] = strip.versions;
    const properties = { ...(feature.properties as object), widthM: 12 };
    const geometry = { type: 'LineString', coordinates: [] };
    const newer = later(strip, {
      versions: [{ fromS: null, feature: { ...feature, properties, geometry } }],
    });
    expect(told(newer, strip)).toEqual([
      'Sedgeholt (strip): that of your logbook, changed 23 May 2025 12:33, stands; that of the file, changed 23 May 2025 11:33 UTC, was not taken; they differ in widthM (14; now 12), the line drawn.',
    ]);
    const moved = later(strip, { versions: [...strip.versions, { fromS: NOW_S, feature }] });
    const [line] = told({ ...moved, changedS: NOW_S }, later(strip, {}));
    expect(line).toContain('they differ in how it lay from 23 May 2025, which is not there now.');
  });

  test('[LB55] an aeroplane, a factor set, the settings and the name of a log', () => {
    const plane = inventedAeroplane();
    const renamed = later(plane, { document: { ...plane.document, speeds: { approachKt: 62 } } });
    expect(told(plane, renamed)[0]).toMatch(
      /^The aeroplane Marram 160: that of the file, .* stands; that of your logbook, .* was not taken; they differ in speeds\.$/,
    );
    const set = inventedFactorSet();
    const stricter = later(set, { document: { ...set.document, note: 'stricter' } });
    expect(told(set, stricter)[0]).toContain('The factor set Club rules: that of the file');
    expect(told(set, stricter)[0]).toContain('they differ in note (none; now stricter).');
    const settings = inventedSettings();
    const feet = { ...settings.units, length: 'ft' as const };
    const changed = later(settings, { units: feet, theme: 'light', factorSet: 'club-rules' });
    expect(told(settings, changed)[0]).toContain(
      'they differ in unit of lengths (m; now ft), factor set (none; now Club rules), light or dark (dark; now light).',
    );
    const [line] = told(log, later(log, { fileName: 'away.igc' }));
    expect(line).toContain('The name of the log of 23 May 2025 11:18 UTC, Sedgeholt: ');
    expect(line).toContain('they differ in name (2025-05-23-sedge.igc; now away.igc).');
  });
});
