/** Addresses with odd ids, kinds of files by their first signs, kept results with holes. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { decodeAnalysis } from '../../src/app/decode-analysis.ts';
import { kindOfFile, otherJson } from '../../src/app/file-kind.ts';
import { parseRoute, routeHash } from '../../src/app/route.ts';
import { HEIGHT_SHAPES } from '../../src/events/height-shapes.ts';
import { ALONG } from '../../src/events/tuning.ts';
import { summariseFlight, type FlightSummary } from '../../src/report/flight-summary.ts';
import { flightOf } from '../drawings/demo-pictures.ts';
import { sampleText } from './page-store.ts';

describe('addresses', () => {
  test('[RT3] take ids with every sign that means something in an address', () => {
    const odd = ['a/b', '%', '%2F', '#x', '?y=1&z', '..', ' ', 'Å strip', '\u{1F411}', '+', '%zz'];
    expect(parseRoute(routeHash('debrief', ...odd))).toEqual({ room: 'debrief', args: odd });
    for (const id of odd) {
      // As a browser gives it back from an address it was handed.
      const { hash } = new URL(routeHash('strips', id), 'https://windrow.example/');
      expect(parseRoute(hash)).toEqual({ room: 'strips', args: [id] });
    }
  });

  test('[RT4] never fail, not even for half a character', () => {
    const broken = fc.string({ unit: fc.constantFrom('a', '/', '%', '\uD800', '\uDC00', 'é') });
    fc.assert(
      fc.property(broken, (id) => {
        const { room } = parseRoute(routeHash('strips', id));
        expect(room).toBe('strips');
      }),
      { seed: 20261125 },
    );
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (hash) => {
        expect(Array.isArray(parseRoute(hash).args)).toBe(true);
      }),
      { seed: 20261125 },
    );
  });
});

describe('kinds of files', () => {
  const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

  test('[FK2] a list, a number or a word in JSON is none of ours', () => {
    for (const text of ['[1, 2]', '7', '"text"', 'null', 'true']) {
      expect(kindOfFile(utf8(text), 'a.json')).toBe('track');
    }
    expect(kindOfFile(utf8('{"kind":"aeroplane"}'), 'a.json')).toBe('aeroplane');
    expect(kindOfFile(utf8('{"kind":"factor-set"}'), 'a.json')).toBe('factor-set');
  });

  test('[FK4] JSON that is none of ours is called that, with what was found and what is expected', () => {
    const said = (text: string): string => {
      expect(kindOfFile(utf8(text), 'a.json')).toBe('other-json');
      return otherJson(utf8(text)).message;
    };
    const expected =
      'expected a strips file ("type": "FeatureCollection"), an aeroplane ("kind": "aeroplane") or a factor set ("kind": "factor-set")';
    expect(said('{}')).toBe(`found JSON with no "kind", ${expected}`);
    expect(said('{ "type": "Feature" }')).toBe(`found JSON with "type": "Feature", ${expected}`);
    expect(said('{ "kind": "debrief" }')).toBe(`found JSON with "kind": "debrief", ${expected}`);
    expect(said(`{ "kind": "${'x'.repeat(1000)}" }`).length).toBeLessThan(250);
    expect(said('{ "kind": 7 }')).toContain('no "kind"');
  });

  test('[FK5] conditions and touchdowns of the command line are told where they are entered here', () => {
    const conditions = utf8(sampleText('conditions.json'));
    expect(kindOfFile(conditions, 'conditions.json')).toBe('other-json');
    expect(otherJson(conditions).message).toMatch(/^found a conditions file.*in the debrief/);
    const touchdowns = utf8('{ "schema": 1, "kind": "touchdowns", "touchdowns": [] }');
    expect(otherJson(touchdowns).message).toMatch(/^found a touchdowns file.*by hand/);
  });

  test('[FK3] a logbook is told by its name in capitals too, and only where it is packed', () => {
    expect(kindOfFile(Uint8Array.of(0x1f, 0x8b), 'MINE.WINDROW')).toBe('logbook');
    expect(kindOfFile(utf8('{}'), 'mine.windrow')).toBe('other-json');
    expect(kindOfFile(Uint8Array.of(0x1f), 'mine.windrow')).toBe('track');
  });
});

describe('kept results', () => {
  let summary: FlightSummary;
  beforeAll(async () => {
    summary = summariseFlight(await flightOf('2024-08-04-three-strips.igc'));
  });

  /** Where each field lies: objects' keys, and each place of a list. */
  function pathsOf(part: unknown, path: readonly (string | number)[] = []): (string | number)[][] {
    if (typeof part !== 'object' || part === null) return [];
    return Object.entries(part).flatMap(([key, inner]) => {
      const here = [...path, Array.isArray(part) ? Number(key) : key];
      return [here, ...pathsOf(inner, here)];
    });
  }

  function changed(
    path: readonly (string | number)[],
    change: (parent: Record<string, unknown>, key: string) => void,
  ): unknown {
    const copy = structuredClone({ flights: [summary], problems: [] }) as Record<string, unknown>;
    let at = copy;
    for (const key of path.slice(0, -1)) at = at[key] as Record<string, unknown>;
    change(at, String(path.at(-1)));
    return copy;
  }

  test('[KR3] with any field missing are refused', () => {
    const fields = pathsOf({ flights: [summary], problems: [] }).filter(
      (path) => typeof path.at(-1) === 'string',
    );
    expect(fields.length).toBeGreaterThan(200);
    for (const path of fields) {
      const holed = changed(path, (parent, key) => Reflect.deleteProperty(parent, key));
      expect(decodeAnalysis(holed), `without ${path.join('.')}`).toBeNull();
    }
  });

  test('[KR4] with a number that is none, or that is a text, are refused', () => {
    const numbers = pathsOf({ flights: [summary], problems: [] }).filter((path) => {
      let at: unknown = { flights: [summary], problems: [] };
      for (const key of path) at = (at as Record<string, unknown>)[key];
      return typeof at === 'number';
    });
    expect(numbers.length).toBeGreaterThan(100);
    for (const path of numbers) {
      for (const wrong of [NaN, Infinity, '12']) {
        const broken = changed(path, (parent, key) => (parent[key] = wrong));
        expect(decodeAnalysis(broken), `${String(wrong)} at ${path.join('.')}`).toBeNull();
      }
    }
  });

  test('[KR5] with words that no measuring uses, or nine passes for ten, are refused', () => {
    const [event] = summary.events;
    const withEvent = (part: object) => ({
      flights: [{ ...summary, events: [{ ...event, ...part }] }],
      problems: [],
    });
    expect(decodeAnalysis(withEvent({}))).not.toBeNull();
    expect(decodeAnalysis(withEvent({ outcome: 'perfect' }))).toBeNull();
    expect(decodeAnalysis(withEvent({ kind: 'landing' }))).toBeNull();
    for (const key of ['approach', 'approach--1', 'approach-1"', ' approach-1', 'take-off-x']) {
      expect(decodeAnalysis(withEvent({ key })), key).toBeNull();
    }
    const ten = Array.from({ length: 10 }, (_, k) => k);
    const passes = { fromM: ten, toM: ten, extrapolatedToM: null };
    expect(decodeAnalysis(withEvent({ passes }))).not.toBeNull();
    expect(decodeAnalysis(withEvent({ passes: { ...passes, toM: ten.slice(1) } }))).toBeNull();
    expect(decodeAnalysis(withEvent({ roll: { ...event.roll, role: 'may count' } }))).toBeNull();
    const surface = { flights: [{ ...summary, surface: 'ice' }], problems: [] };
    expect(decodeAnalysis(surface)).toBeNull();
  });

  test('[KR6] with a lesson of other brakes or round-outs than the measuring knows are refused', () => {
    const withLesson = (brakes: number, shapes: number | null, share = 1, part = {}) => {
      const lesson = {
        ...{ timeS: 0, effort: 'full', ...part },
        brakes: new Array<number>(brakes).fill(share),
        shapes: shapes === null ? null : new Array<number>(shapes).fill(share),
      };
      return decodeAnalysis({ flights: [{ ...summary, lessons: [lesson] }], problems: [] });
    };
    const [brakes, shapes] = [ALONG.brakeDelaysS.length, HEIGHT_SHAPES.length];
    expect(withLesson(brakes, shapes)).not.toBeNull();
    expect(withLesson(brakes, null)).not.toBeNull();
    expect(withLesson(brakes - 1, shapes)).toBeNull();
    expect(withLesson(brakes, shapes + 1)).toBeNull();
    // Nothing but zeros would be no share of anything.
    expect(withLesson(brakes, shapes, 0)).toBeNull();
    expect(withLesson(brakes, shapes, 1, { effort: 'lazy' })).toBeNull();
  });
});
