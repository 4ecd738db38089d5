/** A visit that is planned, kept, and joined to its flight. */
import { describe, expect, test } from 'vitest';
import { entryId, type Json, type VisitRecord } from '../../src/logbook/entry.ts';
import { freeze, readFrozen, type FrozenDocument } from '../../src/logbook/frozen-prediction.ts';
import { makeLog, makeVisit } from '../../src/logbook/make-entry.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import { joinVisit, plannedMomentS, planVisit } from '../../src/logbook/planned-visit.ts';
import { put } from '../../src/logbook/logbook-store.ts';
import { addRemark, removeRemark } from '../../src/logbook/remarks.ts';
import { undetermined } from '../../src/result.ts';
import { CONDITIONS, NOW_S, OWN } from './invented-entries.ts';

const NONE = undetermined('not part of this test');
const DOCUMENT: FrozenDocument = {
  schema: 1,
  uses: ['landing'],
  own: { landingWhole: 1.2, landingRoll: null, takeOffWhole: null },
  prediction: {
    factorSet: 'uk-leaflet',
    day: {
      headwindMps: NONE,
      crosswindMps: 1.5,
      pressureAltitudeM: -12,
      densityAltitudeM: 120,
      densityRatio: 0.99,
    },
    speeds: NONE,
    takeOff: NONE,
    notes: [{ code: 'a', text: 'b' }],
    landing: {
      expectedRollM: NONE,
      plannedRollM: 330,
      expectedFrom50FtM: 400,
      plannedFrom50FtM: 560,
      expectedAirM: NONE,
      marginM: -60,
      latestTouchdownAlongM: 170,
      chain: {
        expected: [
          {
            name: 'handbook',
            factor: 1,
            addM: null,
            actsOn: 'whole distance',
            source: 'the handbook',
            why: 'its table',
            runningM: 400,
          },
        ],
        planned: [],
      },
    },
  },
};

const PLANNED = planVisit(
  entryId('visit', 'planned-1'),
  {
    isoDay: '2025-06-14',
    aeroplaneId: entryId('aeroplane', 'marram-160'),
    conditions: CONDITIONS,
    predictions: [
      {
        savedS: NOW_S,
        stripId: entryId('strip', 'sedge'),
        designator: '20',
        aeroplaneId: entryId('aeroplane', 'marram-160'),
        conditions: CONDITIONS,
        algorithmVersion: 1,
        prediction: freeze(DOCUMENT),
      },
    ],
  },
  OWN,
);

async function aLog() {
  const made = await makeLog('flight.gpx', new TextEncoder().encode('<gpx/>'), OWN);
  if (!made.ok) throw new Error('no log');
  return made.value;
}

const written = (changes: ReturnType<typeof joinVisit>): VisitRecord => {
  const [first] = changes;
  if (!('put' in first) || first.put.kind !== 'visit') throw new Error('no visit was put');
  return first.put;
};

describe('a frozen prediction', () => {
  test('[LB70] comes back as it was kept', () => {
    expect(readFrozen({ prediction: freeze(DOCUMENT) })).toEqual(DOCUMENT);
  });

  test('[LB71] is not believed in another shape', () => {
    const damaged = freeze(DOCUMENT) as Record<string, Json>;
    const other = {
      ...damaged,
      prediction: { ...(damaged.prediction as Record<string, Json>), day: 'calm' },
    };
    for (const prediction of [null, {}, { ...damaged, schema: 2 }, other]) {
      expect(readFrozen({ prediction })).toBeNull();
    }
  });

  test('[LB72] is taken by the logbook as part of a visit', async () => {
    const logbook = createMemoryStore();
    expect((await logbook.write([put(PLANNED)])).ok).toBe(true);
    const back = await logbook.get('visit', PLANNED.id);
    expect(back.ok && back.value).toEqual(PLANNED);
  });
});

describe('a planned visit', () => {
  test('[LB73] is written down at noon UTC of its day, and a day that is none is no moment', () => {
    expect(new Date(plannedMomentS('2025-06-14') * 1000).toISOString()).toBe(
      '2025-06-14T12:00:00.000Z',
    );
    expect(plannedMomentS('14 June')).toBeNaN();
  });

  test('[LB74] becomes the visit of its log, the weather as planned only where that is said', async () => {
    const log = await aLog();
    const later = { nowS: NOW_S + 60 };
    const asPlanned = written(joinVisit(PLANNED, null, log, { ...later, asPlanned: true }));
    expect(asPlanned).toMatchObject({ id: PLANNED.id, logId: log.id, conditions: CONDITIONS });
    const other = written(joinVisit(PLANNED, null, log, { ...later, asPlanned: false }));
    expect(other.conditions).toBeNull();
    expect(other.predictions).toEqual(PLANNED.predictions);
  });

  test('[LB75] never overwrites what was entered about the flight', async () => {
    const log = await aLog();
    const entered = { ...CONDITIONS, tempC: 22 };
    const remark = { id: 'r', timeS: null, text: 'soft by the gate', writtenS: NOW_S };
    const own = { ...makeVisit(entryId('visit', 'own'), log, OWN), conditions: entered };
    const existing = addRemark(own, remark);
    const changes = joinVisit(PLANNED, existing, log, { asPlanned: true, nowS: NOW_S + 60 });
    expect(written(changes)).toMatchObject({
      id: 'own',
      conditions: entered,
      remarks: [remark],
      predictions: PLANNED.predictions,
      plannedForS: PLANNED.plannedForS,
    });
    expect(changes[1]).toEqual({ remove: { kind: 'visit', id: PLANNED.id } });
  });

  test('[LB46] a prediction joined again, after its visit came back from a file, stands once', async () => {
    const log = await aLog();
    const later = { asPlanned: true, nowS: NOW_S + 60 };
    const own = makeVisit(entryId('visit', 'own'), log, OWN);
    const joined = written(joinVisit(PLANNED, own, log, later));
    expect(written(joinVisit(PLANNED, joined, log, later)).predictions).toEqual(
      PLANNED.predictions,
    );
  });

  test('[LB47] remarks that were removed from either stay out, and what is joined counts as entered then', async () => {
    const log = await aLog();
    const remark = (id: string) => ({ id, timeS: null, text: id, writtenS: NOW_S });
    const without = (visit: VisitRecord, id: string): VisitRecord =>
      removeRemark(addRemark(visit, remark(id)), id, NOW_S + 5);
    const own = without(makeVisit(entryId('visit', 'own'), log, OWN), 'b');
    const planned = without(PLANNED, 'a');
    const joined = written(joinVisit(planned, own, log, { asPlanned: true, nowS: NOW_S + 60 }));
    expect(joined.removedRemarks.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(joined.enteredS).toBe(NOW_S + 60);
    expect(PLANNED.enteredS).toBe(NOW_S);
  });
});

describe('remarks', () => {
  test('[LB76] stand in the order of their moments, those without one first, and go one by one', () => {
    const at = (id: string, timeS: number | null, writtenS: number) => ({
      id,
      timeS,
      text: id,
      writtenS,
    });
    const visit = [at('late', 200, 1), at('early', 100, 2), at('whole', null, 3)].reduce(
      addRemark,
      PLANNED,
    );
    expect(visit.remarks.map(({ id }) => id)).toEqual(['whole', 'early', 'late']);
    expect(removeRemark(visit, 'early', 9).remarks.map(({ id }) => id)).toEqual(['whole', 'late']);
    expect(removeRemark(visit, 'nobody', 9)).toBe(visit);
  });
});
