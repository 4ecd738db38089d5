/** Addresses, kinds of files, kept results: small parts of the page. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeAnalysis } from '../../src/app/decode-analysis.ts';
import { kindOfFile } from '../../src/app/file-kind.ts';
import { parseRoute, ROOMS, routeHash } from '../../src/app/route.ts';
import { allFlights } from '../drawings/demo-pictures.ts';
import { sampleText } from './page-store.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('addresses', () => {
  test('[RT1] come back whole, whatever an id is made of', () => {
    const room = fc.constantFrom(...ROOMS.map(({ id }) => id));
    const args = fc.array(fc.string({ minLength: 1, unit: 'grapheme' }), { maxLength: 3 });
    fc.assert(
      fc.property(room, args, (id, parts) => {
        expect(parseRoute(routeHash(id, ...parts))).toEqual({ room: id, args: parts });
      }),
      { seed: 20261125 },
    );
  });

  test('[RT2] of no room, or broken ones, lead somewhere all the same', () => {
    expect(parseRoute('#/nowhere/at/all')).toEqual({ room: 'logbook', args: [] });
    expect(parseRoute('')).toEqual({ room: 'logbook', args: [] });
    expect(parseRoute('#/strips/%E0%A4%A')).toEqual({ room: 'strips', args: ['%E0%A4%A'] });
  });
});

describe('files', () => {
  test('[FK1] are known by their content, not by their name', () => {
    expect(kindOfFile(bytes(sampleText('strips.geojson')), 'a.gpx')).toBe('strips');
    expect(kindOfFile(bytes(`\uFEFF ${sampleText('aeroplanes/marram-160.json')}`), 'a.txt')).toBe(
      'aeroplane',
    );
    expect(kindOfFile(bytes('<gpx/>'), 'a.json')).toBe('track');
    expect(kindOfFile(bytes('{ broken'), 'a.geojson')).toBe('track');
    expect(kindOfFile(bytes(''), '')).toBe('track');
    const packed = Uint8Array.of(0x1f, 0x8b, 8, 0);
    expect(kindOfFile(packed, 'log.gpx.gz')).toBe('track');
    expect(kindOfFile(packed, 'mine.windrow')).toBe('logbook');
  });
});

describe('kept results', () => {
  test('[KR1] of every demo flight pass through JSON unchanged and are accepted', async () => {
    const flights = await allFlights();
    const analysis = { flights: flights.map(({ summary }) => summary), problems: [] };
    const back: unknown = JSON.parse(JSON.stringify(analysis));
    expect(back).toEqual(analysis);
    expect(decodeAnalysis(back)).toEqual(analysis);
  }, 60_000);

  test('[KR2] with any field gone or of another kind are refused', async () => {
    const [{ summary }] = await allFlights();
    const good = { flights: [summary], problems: [] };
    expect(decodeAnalysis(good)).not.toBeNull();
    let tried = 0;
    for (const broken of brokenCopies(good)) {
      expect(decodeAnalysis(broken)).toBeNull();
      tried++;
    }
    expect(tried).toBeGreaterThan(40);
    expect(decodeAnalysis(null)).toBeNull();
    expect(decodeAnalysis('text')).toBeNull();
  }, 60_000);
});

/** Copies of a value, each with one field of its objects replaced by a function's name. */
function* brokenCopies(value: object): Generator {
  const paths: string[][] = [];
  const walk = (part: unknown, path: string[]): void => {
    if (typeof part !== 'object' || part === null) return;
    for (const [key, inner] of Object.entries(part)) {
      if (!Array.isArray(part)) paths.push([...path, key]);
      // The first of a list stands for all.
      if (!Array.isArray(part) || key === '0') walk(inner, [...path, key]);
    }
  };
  walk(value, []);
  for (const path of paths) {
    const copy = structuredClone(value) as Record<string, unknown>;
    const last = path[path.length - 1];
    let at = copy;
    for (const key of path.slice(0, -1)) at = at[key] as Record<string, unknown>;
    at[last] = { wrong: true };
    yield copy;
  }
}
