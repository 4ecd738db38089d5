/**
 * Invented records at random, for the property tests of the logbook: any text, any bytes, any JSON.
 */

import fc from 'fast-check';
import {
  entryId,
  type AeroplaneRecord,
  type Entry,
  type Json,
  type LandingEntry,
  type ResultRecord,
  type StripRecord,
  type VisitRecord,
} from '../../src/logbook/entry.ts';
import { makeLog, makeResult, makeSettings } from '../../src/logbook/make-entry.ts';
import type { Conditions } from '../../src/weather/conditions.ts';
import { CONDITIONS, CORRECTION, FROZEN, NOW_S, valueOf } from './invented-entries.ts';

/** Objects as a program of ours makes them, with the prototype that they have. */
const record = <T extends object>(model: { [K in keyof T]: fc.Arbitrary<T[K]> }) =>
  fc.record<T>(model, { noNullPrototype: true });

/** Few ids, so that records meet; some that are awkward as keys of objects and databases. */
const id = fc.constantFrom(
  'a',
  'b',
  'A ',
  '__proto__',
  'constructor',
  '\u{1F411}',
  'x\0y',
  '\ud800',
);
const text = fc.oneof(
  fc.string({ minLength: 1, maxLength: 12, unit: 'binary' }),
  fc.constantFrom('\ud83d', 'line\nline', '\u2028', '"\\"', '\ufeffx'),
);
/** No negative zero: JSON does not have it (LB12). */
const json = fc
  .jsonValue({ maxDepth: 4 })
  .map((value) => JSON.parse(JSON.stringify(value)) as Json);
const timeS = fc.oneof(
  fc.integer({ min: 0, max: 1e11 }),
  fc.double({ min: 0, max: 1e11, noNaN: true }).map(Math.abs),
);
/** Few times, so that ties happen. */
const changedS = fc.constantFrom(NOW_S, NOW_S + 0.25, NOW_S + 1, NOW_S + 2);
const orNull = <T>(some: fc.Arbitrary<T>) => fc.option(some, { nil: null });
const upTo3 = <T>(some: fc.Arbitrary<T>) => fc.array(some, { maxLength: 3 });

const conditions: fc.Arbitrary<Conditions> = record({
  wind: fc.constantFrom(null, CONDITIONS.wind),
  tempC: fc.constantFrom(null, 0, -2.5),
  qnhHpa: fc.constantFrom(null, 1013.25),
  massKg: orNull(fc.double({ min: 50, max: 10_000, noNaN: true })),
  takeOffMassKg: fc.constant(null),
  surface: fc.constantFrom(null, 'grass-wet'),
  flap: orNull(text),
  aeroplane: orNull(id),
  factorSet: orNull(text),
  effort: fc.constantFrom(null, 'coasted'),
});

/** Few times of entering, so that copies tie. */
const markedS = fc.constantFrom(NOW_S - 5, NOW_S, NOW_S + 3);

const landing: fc.Arbitrary<LandingEntry> = record({
  // Few times, so that two copies speak of one landing, also of one that is merely near.
  aroundS: fc.oneof(timeS, fc.constantFrom(NOW_S - 900, NOW_S - 895)),
  conditions: orNull(conditions),
  effort: orNull(
    record({
      mark: fc.constantFrom('full', 'normal'),
      markedS,
      ratioShown: fc.boolean(),
    }),
  ),
  unmarkedS: orNull(markedS),
  corrections: upTo3(
    fc.oneof(
      record({
        takenBackS: orNull(markedS),
        madeS: markedS,
        what: fc.constantFrom('touchdown', 'roll-end', 'lift-off'),
      }).map((given) => ({ ...CORRECTION, ...given })),
      record({
        what: fc.constant('contact'),
        measured: orNull(fc.constantFrom(0, 0.4, 1)),
        corrected: fc.constantFrom('touched', 'not-touched'),
        algorithmVersion: fc.constant(3),
        madeS: markedS,
        takenBackS: orNull(markedS),
      }),
    ),
  ),
});

/** One visit. */
export const anyVisit: fc.Arbitrary<VisitRecord> = record({
  kind: fc.constant('visit'),
  id: id.map((each) => entryId('visit', each)),
  changedS,
  demo: fc.boolean(),
  logId: orNull(id.map((each) => entryId('log', each))),
  enteredS: orNull(markedS),
  plannedForS: orNull(timeS),
  aeroplaneId: orNull(id.map((each) => entryId('aeroplane', each))),
  conditions: orNull(conditions),
  landings: upTo3(landing),
  remarks: fc
    .uniqueArray(id, { maxLength: 3 })
    .chain((ids) =>
      fc.tuple(
        ...ids.map((each) =>
          record({ id: fc.constant(each), timeS: orNull(timeS), text, writtenS: markedS }),
        ),
      ),
    ),
  removedRemarks: fc.uniqueArray(record({ id, removedS: markedS }), {
    maxLength: 2,
    selector: (each) => each.id,
  }),
  predictions: upTo3(json.map((prediction) => ({ ...FROZEN, prediction }))),
});

const feature = (own: string) =>
  record({ isStrip: fc.boolean(), more: json }).map(({ isStrip, more }) => ({
    type: 'Feature',
    properties: isStrip ? { kind: 'strip', id: own.trim(), more } : { kind: 'obstacle', more },
    geometry: null,
  }));

const strip: fc.Arbitrary<StripRecord> = id.chain((each) =>
  record({
    kind: fc.constant('strip'),
    id: fc.constant(entryId('strip', each.trim())),
    changedS,
    demo: fc.boolean(),
    versions: fc
      .tuple(feature(each), feature(each), fc.boolean())
      .map(([first, second, moved]) => [
        { fromS: null, feature: first },
        ...(moved ? [{ fromS: NOW_S, feature: second }] : []),
      ]),
  }),
);

const aeroplane: fc.Arbitrary<AeroplaneRecord> = record({
  id,
  more: json,
  changedS,
  demo: fc.boolean(),
}).map(({ id: own, more, ...rest }) => ({
  kind: 'aeroplane',
  id: entryId('aeroplane', own),
  ...rest,
  document: { id: own, more },
}));

const settings = record({ changedS, timeZone: text }).map(({ changedS: now, timeZone }) => ({
  ...makeSettings(now),
  timeZone,
}));

const log = record({
  bytes: fc.oneof(
    fc.uint8Array({ maxLength: 400 }),
    fc.constantFrom(new Uint8Array(), new Uint8Array(3000)),
  ),
  fileName: text.filter((name) => !/[/\\]$/.test(name)),
  nowS: changedS,
  demo: fc.boolean(),
  result: orNull(json),
});

/** What a whole logbook is made of; `entriesOf` makes it, because digests take their time. */
export const anyLogbook = record({
  logs: fc.uniqueArray(log, { maxLength: 3, selector: ({ bytes }) => bytes.join() }),
  others: fc.uniqueArray(fc.oneof(anyVisit, strip, aeroplane, settings), {
    maxLength: 8,
    selector: (entry: Entry) => `${entry.kind} ${entry.id}`,
  }),
});

type AnyLogbook = typeof anyLogbook extends fc.Arbitrary<infer T> ? T : never;

/** The records of a logbook at random: logs, their results, and others. */
export async function entriesOf({ logs, others }: AnyLogbook): Promise<Entry[]> {
  const entries: Entry[] = [...others];
  for (const { bytes, fileName, nowS, demo, result } of logs) {
    const made = valueOf(await makeLog(fileName, Uint8Array.from(bytes), { nowS, demo }));
    const results: ResultRecord[] =
      result === null ? [] : [makeResult(made, result, 'b'.repeat(64), nowS)];
    entries.push(made, ...results);
  }
  return entries;
}
