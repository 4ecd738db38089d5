/**
 * Invented records of every kind for the tests of the logbook.
 */

import { expect } from 'vitest';
import {
  entryId,
  type AeroplaneRecord,
  type Entry,
  type FactorSetRecord,
  type FrozenPrediction,
  type LogRecord,
  type PlaceCorrection,
  type SettingsRecord,
  type StripRecord,
  type VisitRecord,
} from '../../src/logbook/entry.ts';
import { makeLog, makeResult, makeSettings, makeVisit } from '../../src/logbook/make-entry.ts';
import { UK_LEAFLET } from '../../src/performance/factor-sets/uk-leaflet.ts';
import type { Result } from '../../src/result.ts';
import type { Conditions } from '../../src/weather/conditions.ts';

/** A day in May 2025. */
export const NOW_S = 1_748_000_000;

export const OWN = { nowS: NOW_S, demo: false };

export const CONDITIONS: Conditions = {
  wind: { fromDeg: 240, reference: 'magnetic', speedKt: 9, gustKt: null },
  tempC: 0,
  qnhHpa: 1009,
  massKg: 930,
  takeOffMassKg: null,
  surface: 'grass-wet',
  flap: 'full',
  aeroplane: 'marram-160',
  factorSet: null,
  effort: null,
};

export const CORRECTION: Omit<PlaceCorrection, 'takenBackS'> = {
  what: 'touchdown',
  measured: { timeS: NOW_S - 900, alongM: 62.5 },
  algorithmVersion: 1,
  corrected: { timeS: NOW_S - 898.5, alongM: 101 },
  madeS: NOW_S,
};

export const FROZEN: FrozenPrediction = {
  savedS: NOW_S - 86_400,
  stripId: entryId('strip', 'sedge'),
  designator: '20',
  aeroplaneId: entryId('aeroplane', 'marram-160'),
  conditions: CONDITIONS,
  algorithmVersion: 1,
  prediction: { landing: { expectedRollM: 214.25, plannedRollM: { undetermined: 'no table' } } },
};

/** The value of a result that must have succeeded. */
export function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

/** The codes of a result that must have failed. */
export function codesOf(result: Result<unknown>): string[] {
  expect(result.ok, 'the result is a failure').toBe(false);
  return result.problems.map(({ code }) => code);
}

export function bytesOf(text: string): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(text);
}

export async function inventedLog(
  fileName = '2025-05-23-sedge.igc',
  text = 'AXWR001\r\nB1101355206343N00006198WA0058700558\r\n',
): Promise<LogRecord> {
  return valueOf(await makeLog(fileName, bytesOf(text), OWN));
}

export function inventedVisit(id = 'visit-1', log: LogRecord | null = null): VisitRecord {
  return {
    ...makeVisit(entryId('visit', id), log, OWN),
    enteredS: NOW_S - 7200,
    plannedForS: NOW_S - 3600,
    aeroplaneId: entryId('aeroplane', 'marram-160'),
    conditions: CONDITIONS,
    landings: [
      {
        aroundS: NOW_S - 900,
        conditions: null,
        effort: { mark: 'full', markedS: NOW_S, ratioShown: false },
        unmarkedS: null,
        corrections: [{ ...CORRECTION, takenBackS: null }],
      },
    ],
    remarks: [
      { id: 'r1', timeS: NOW_S - 910, text: 'Sank in the lee of the alders.', writtenS: NOW_S },
      { id: 'r2', timeS: null, text: 'Sheep moved first. \u{1F411}', writtenS: NOW_S },
    ],
    removedRemarks: [{ id: 'r0', removedS: NOW_S - 60 }],
    predictions: [FROZEN],
  };
}

export function inventedStrip(id = 'sedge', name = 'Sedgeholt'): StripRecord {
  const feature = {
    type: 'Feature',
    properties: { kind: 'strip', id, name, widthM: 14, surface: 'grass', hedge: ['alder', 2.5] },
    geometry: {
      type: 'LineString',
      coordinates: [
        [2.3, 54.7],
        [2.3055, 54.7001],
      ],
    },
  };
  return {
    kind: 'strip',
    id: entryId('strip', id),
    changedS: NOW_S,
    demo: false,
    versions: [{ fromS: null, feature }],
  };
}

export function inventedAeroplane(id = 'marram-160'): AeroplaneRecord {
  return {
    kind: 'aeroplane',
    id: entryId('aeroplane', id),
    changedS: NOW_S,
    demo: false,
    document: { schema: 1, kind: 'aeroplane', id, name: 'Marram 160', invented: true },
  };
}

export function inventedFactorSet(id = 'club-rules'): FactorSetRecord {
  const published = JSON.parse(JSON.stringify(UK_LEAFLET)) as FactorSetRecord['document'];
  return {
    kind: 'factor-set',
    id: entryId('factor-set', id),
    changedS: NOW_S,
    demo: false,
    document: { schema: 1, kind: 'factor-set', ...published, id, name: 'Club rules' },
  };
}

export function inventedSettings(): SettingsRecord {
  return { ...makeSettings(NOW_S), timeZone: 'Europe/London', theme: 'dark' };
}

/** One record of each kind that belong together. */
export async function inventedLogbook(): Promise<Entry[]> {
  const log = await inventedLog();
  return [
    log,
    inventedVisit('visit-1', log),
    inventedStrip(),
    inventedAeroplane(),
    inventedFactorSet(),
    inventedSettings(),
    makeResult(log, { approaches: [{ stripLeftM: -3.5 }] }, 'a'.repeat(64), NOW_S),
  ];
}
