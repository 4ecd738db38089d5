/**
 * With what a kept log is debriefed. Rules: docs/spec/logbook.md, LB2, LB7 and LB8.
 */

import { beforeAll, describe, expect, test } from 'vitest';
import { debriefFile, type Debrief, type DebriefContext } from '../../src/debrief/debrief.ts';
import {
  contextFor,
  fingerprint,
  flightConditions,
  type KeptInputs,
} from '../../src/logbook/debrief-context.ts';
import { demoRecords } from '../../src/logbook/demo-logbook.ts';
import {
  entryId,
  type AeroplaneRecord,
  type Entry,
  type EntryKind,
  type EntryOf,
  type LogRecord,
} from '../../src/logbook/entry.ts';
import { logBytes } from '../../src/logbook/log-bytes.ts';
import { addVersion } from '../../src/logbook/strip-versions.ts';
import { decodeAeroplane } from '../../src/performance/decode-aeroplane.ts';
import { debriefDocument, debriefJsonText } from '../../src/report/debrief-json.ts';
import { decodeStrips } from '../../src/strips/decode-strips.ts';
import { decodeConditions } from '../../src/weather/decode-conditions.ts';
import { demoFiles } from './demo-files.ts';
import {
  CONDITIONS,
  inventedFactorSet,
  inventedVisit,
  NOW_S,
  valueOf,
} from './invented-entries.ts';

const FLIGHT = '2024-07-14-gusty-go-around-sedge.gpx';
const FLOWN_S = Date.UTC(2024, 6, 14) / 1000;
const files = demoFiles();
let records: Entry[];
let inputs: KeptInputs;
let log: LogRecord;

function ofKind<K extends EntryKind>(kind: K): EntryOf<K>[] {
  return records.filter((each): each is EntryOf<K> => each.kind === kind);
}

beforeAll(async () => {
  records = valueOf(await demoRecords(files, NOW_S));
  inputs = { strips: ofKind('strip'), aeroplanes: ofKind('aeroplane'), visits: ofKind('visit') };
  const found = ofKind('log').find(({ fileName }) => fileName === FLIGHT);
  if (!found) throw new Error(`${FLIGHT} is missing`);
  log = found;
});

const context = (some: Partial<KeptInputs> = {}) =>
  contextFor({ ...inputs, ...some }, log, FLOWN_S);

describe('the context of a kept log', () => {
  test('[LB8] debriefs it exactly as the files that the records were made of', async () => {
    const fromFiles: DebriefContext = {
      strips: valueOf(decodeStrips(files.strips)),
      aeroplanes: files.aeroplanes.map((text) => valueOf(decodeAeroplane(text))),
      conditions: valueOf(decodeConditions(files.conditions)),
    };
    const kept = context();
    expect(kept.problems).toEqual([]);
    const bytes = valueOf(await logBytes(log));
    const [one, other] = [
      valueOf(await debriefFile(bytes, log.fileName, valueOf(kept))),
      valueOf(await debriefFile(bytes, log.fileName, fromFiles)),
    ];
    expect(one.source.sha256).toBe(log.sha256);
    expect(one.flights.length).toBeGreaterThan(0);
    const text = (debrief: Debrief) =>
      debriefJsonText(debriefDocument([{ debrief, problems: [] }], [], []));
    expect(text(one)).toContain('"ratio"');
    expect(text(one)).toBe(text(other));
  });

  test('[LB8] leaves out a record that its own reader refuses, and names it', () => {
    const [strip, ...strips] = inputs.strips;
    const { feature } = strip.versions[0];
    const bad = { ...strip, versions: [{ fromS: null, feature: { ...feature, geometry: null } }] };
    const hurt: AeroplaneRecord = {
      ...inputs.aeroplanes[0],
      document: { id: inputs.aeroplanes[0].id },
    };
    const made = context({ strips: [bad, ...strips], aeroplanes: [hurt, inputs.aeroplanes[1]] });
    const whole = valueOf(context());
    const left = valueOf(made);
    expect(left.strips.strips).toHaveLength(whole.strips.strips.length - 1);
    expect(left.aeroplanes.map(({ id }) => id)).toEqual([inputs.aeroplanes[1].id]);
    const said = new Set(
      made.problems.map(({ code, severity, where }) => `${code} ${severity} ${where}`),
    );
    expect(said).toEqual(
      new Set([
        `logbook-left-out warning strip "${strip.id}"`,
        `logbook-left-out warning aeroplane "${hurt.id}"`,
      ]),
    );
  });

  test('[LB8] of nothing is a debrief without strips and conditions', () => {
    const bare = valueOf(contextFor({ strips: [], aeroplanes: [], visits: [] }, log, FLOWN_S));
    expect(bare.strips.strips).toEqual([]);
    expect(bare.aeroplanes).toEqual([]);
    expect(bare.conditions).toBeNull();
  });

  test('[LB2] has each strip as it lay on the day', () => {
    const sedge = inputs.strips.find(({ id }) => id === 'sedge');
    if (!sedge) throw new Error('no sedge');
    const old = sedge.versions[0].feature;
    const properties = {
      ...(old.properties as Record<string, never>),
      name: 'Sedgeholt, mown anew',
    };
    const moved = addVersion(sedge, FLOWN_S, { ...old, properties }, NOW_S);
    const strips = inputs.strips.map((each) => (each === sedge ? moved : each));
    const nameAt = (timeS: number) =>
      valueOf(contextFor({ ...inputs, strips }, log, timeS)).strips.strips.find(
        ({ id }) => id === 'sedge',
      )?.name;
    expect(nameAt(FLOWN_S - 1)).toBe('Sedgeholt');
    expect(nameAt(FLOWN_S)).toBe('Sedgeholt, mown anew');
    expect(nameAt(FLOWN_S - 1)).toBe('Sedgeholt');
  });

  test('[LB8] reads the same lists once for all logs', () => {
    const [one, other] = [
      valueOf(context()),
      valueOf(contextFor({ ...inputs, visits: [] }, log, FLOWN_S + 9)),
    ];
    expect(other.strips).toBe(one.strips);
    expect(other.aeroplanes).toBe(one.aeroplanes);
    expect(other.conditions).toBeNull();
    expect(valueOf(context({ strips: [...inputs.strips] })).strips).not.toBe(one.strips);
  });
});

describe('factor sets of a kept log', () => {
  const own = inventedFactorSet();
  /** The context of the flight with this set named in its conditions. */
  const naming = (factorSet: string | null, some: Partial<KeptInputs> = {}) =>
    valueOf(
      context({
        visits: inputs.visits.map((visit) => ({
          ...visit,
          conditions: visit.conditions && { ...visit.conditions, factorSet },
        })),
        ...some,
      }),
    );

  test('[LB9] a flight that names none is predicted by the set of the settings, an own one too', async () => {
    const usual = naming(null);
    const mine = naming(null, { factorSets: [own], factorSet: 'club-rules' });
    expect(mine.conditions?.all?.factorSet).toBe('club-rules');
    expect(mine.factorSets?.map(({ name }) => name)).toEqual(['Club rules']);
    expect(await fingerprint(mine)).not.toBe(await fingerprint(usual));
    const other = naming('class-b', { factorSets: [own], factorSet: 'club-rules' });
    expect(other.conditions?.all?.factorSet).toBe('class-b');
  });

  test('[LB9] a set that is not used makes no result stale; a changed one that is used does', async () => {
    const usual = await fingerprint(naming(null));
    expect(await fingerprint(naming(null, { factorSets: [own] }))).toBe(usual);
    const chosen = { factorSet: 'club-rules' };
    const renamed = { ...own, document: { ...own.document, name: 'Club rules, 2025' } };
    expect(await fingerprint(naming(null, { factorSets: [own], ...chosen }))).not.toBe(
      await fingerprint(naming(null, { factorSets: [renamed], ...chosen })),
    );
  });

  test('[LB9] a set that was removed leaves nothing predicted, with the reason', async () => {
    const gone = naming(null, { factorSets: [], factorSet: 'club-rules' });
    const bytes = valueOf(await logBytes(log));
    const debrief = valueOf(await debriefFile(bytes, log.fileName, gone));
    const [{ prediction }] = debrief.flights[0].compared.approaches;
    expect(prediction).toMatchObject({
      undetermined: expect.stringMatching(/no factor set is called 'club-rules'/) as string,
    });
  });
});

describe('the conditions of a flight', () => {
  const visit = (id: string, changedS: number, some: object) => ({
    ...inventedVisit(id, log),
    changedS,
    conditions: null,
    aeroplaneId: null,
    ...some,
  });

  test('[LB8] are those that were entered for its log, and nothing made up', () => {
    expect(flightConditions([], log)).toBeNull();
    expect(flightConditions([visit('blank', 1, {})], log)).toBeNull();
    expect(
      flightConditions([{ ...inventedVisit('other'), conditions: CONDITIONS }], log),
    ).toBeNull();
    expect(flightConditions([visit('v', 1, { conditions: CONDITIONS })], log)).toEqual(CONDITIONS);
  });

  test('[LB8] of two visits are joined field by field, and the later one wins', () => {
    const nothing = Object.fromEntries(Object.keys(CONDITIONS).map((key) => [key, null]));
    const first = visit('a', 10, { conditions: { ...nothing, tempC: 4, qnhHpa: 1000 } });
    const second = visit('b', 20, { conditions: { ...nothing, tempC: 0 } });
    const expected = { ...nothing, tempC: 0, qnhHpa: 1000 };
    expect(flightConditions([first, second], log)).toEqual(expected);
    expect(flightConditions([second, first], log)).toEqual(expected);
    const tie = visit('c', 20, { conditions: { ...nothing, tempC: 9 } });
    expect(flightConditions([tie, second], log)?.tempC).toBe(9);
    expect(flightConditions([second, tie], log)?.tempC).toBe(9);
  });

  test('[LB8] name the aeroplane of the visit, also where nothing else was entered', () => {
    const chosen = { aeroplaneId: entryId('aeroplane', 'eelgrass-450') };
    expect(flightConditions([visit('v', 1, chosen)], log)?.aeroplane).toBe('eelgrass-450');
    const both = { ...chosen, conditions: CONDITIONS };
    expect(flightConditions([visit('v', 1, both)], log)).toEqual({
      ...CONDITIONS,
      aeroplane: 'eelgrass-450',
    });
  });
});

describe('the fingerprint of a context', () => {
  test('[LB7] is the same for the same records, read anew, in another order of keys', async () => {
    const one = await fingerprint(valueOf(context()));
    expect(one).toMatch(/^[0-9a-f]{64}$/);
    const again = structuredClone(inputs);
    const turned = {
      ...again,
      aeroplanes: again.aeroplanes.map((each) => ({
        ...each,
        document: Object.fromEntries(Object.entries(each.document).reverse()),
      })),
    };
    expect(await fingerprint(valueOf(contextFor(turned, log, FLOWN_S)))).toBe(one);
    expect(await fingerprint(structuredClone(valueOf(context())))).toBe(one);
  });

  test('[LB7] differs where a strip, an obstacle, an aeroplane or a condition differs', async () => {
    const change = <T>(list: readonly T[], at: number, from: string, to: string) =>
      list.map((each, i) => {
        if (i !== at) return each;
        const text = JSON.stringify(each);
        expect(text).toContain(from);
        return JSON.parse(text.replace(from, to)) as T;
      });
    const at = (what: string) =>
      inputs.strips.findIndex((each) => JSON.stringify(each).includes(what));
    const own = inputs.visits.findIndex(({ logId }) => logId === log.id);
    const wind = JSON.stringify(inputs.visits[own].conditions?.wind);
    const contexts = [
      context(),
      context({
        strips: change(inputs.strips, at('"sedge"'), '"name":"Sedgeholt"', '"name":"Sedgeholt 2"'),
      }),
      context({ strips: change(inputs.strips, at('Osier row'), 'Osier row', 'Osier hedge') }),
      context({ strips: inputs.strips.slice(1) }),
      context({ aeroplanes: inputs.aeroplanes.slice(1) }),
      context({
        aeroplanes: change(inputs.aeroplanes, 0, '"massKg":{', '"note":"light","massKg":{'),
      }),
      context({ visits: [] }),
      context({ visits: change(inputs.visits, own, wind, 'null') }),
    ];
    const prints = await Promise.all(contexts.map((each) => fingerprint(valueOf(each))));
    expect(new Set(prints).size).toBe(prints.length);
    const byFile = {
      ...valueOf(context()),
      conditions: { all: null, byFile: new Map([['a', CONDITIONS]]) },
    };
    const other = { ...byFile, conditions: { all: null, byFile: new Map([['b', CONDITIONS]]) } };
    expect(await fingerprint(byFile)).not.toBe(await fingerprint(other));
  });

  test('[LB7] costs no more for many logs than for one, but for their conditions', async () => {
    const shared = valueOf(context());
    await fingerprint(shared);
    let reads = 0;
    // A strip that counts how often it is read.
    const strips = new Proxy(shared.strips, {
      get: (book, field, receiver) => {
        reads++;
        return Reflect.get(book, field, receiver) as unknown;
      },
    });
    const [one, other] = [
      { ...shared, strips },
      { ...shared, strips, conditions: null },
    ];
    await fingerprint(one);
    const afterFirst = reads;
    expect(afterFirst).toBeGreaterThan(0);
    expect(await fingerprint(other)).not.toBe(await fingerprint(one));
    expect(reads).toBe(afterFirst);
  });
});
