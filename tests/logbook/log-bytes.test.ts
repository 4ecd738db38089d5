/**
 * A file's bytes packed, and proved when they are read back. Rules: docs/spec/logbook.md, LB1.
 */

import { gunzipSync, gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  logBytes,
  MOST_LOG_BYTES,
  packGzip,
  sha256Hex,
  TooMuchUnpacked,
  unpackedPieces,
} from '../../src/logbook/log-bytes.ts';
import { makeLog } from '../../src/logbook/make-entry.ts';
import { bytesOf, codesOf, inventedLog, OWN, valueOf } from './invented-entries.ts';

describe('the bytes of a log', () => {
  test('[LB1] come back, every one, whatever they are', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 5000 }), async (some) => {
        const bytes = Uint8Array.from(some);
        const log = valueOf(await makeLog('x.gpx', bytes, OWN));
        expect(valueOf(await logBytes(log))).toEqual(bytes);
        // A second reader of RFC 1952 finds the same in them.
        expect(Uint8Array.from(gunzipSync(log.gzip))).toEqual(bytes);
      }),
      { seed: 1952, numRuns: 60 },
    );
  });

  test('[LB1] packed by another program come back as well', async () => {
    const log = await inventedLog('a.igc', 'abc');
    const gzip = Uint8Array.from(gzipSync(bytesOf('abc'), { level: 1 }));
    expect(valueOf(await logBytes({ ...log, gzip }))).toEqual(bytesOf('abc'));
  });

  // FIPS 180-4 with its example "abc", as widely published; from memory.
  test('[LB1] have the SHA-256 of the published example', async () => {
    const expected = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
    expect(await sha256Hex(bytesOf('abc'))).toBe(expected);
    expect((await inventedLog('a.igc', 'abc')).id).toBe(expected);
  });

  test('[LB1] that another hand has touched are refused: other bytes, fewer, more, no gzip', async () => {
    const log = await inventedLog('a.igc', 'abc');
    const damaged: [Uint8Array<ArrayBuffer>, RegExp][] = [
      [await packGzip(bytesOf('abd')), /^found bytes with the SHA-256 /],
      [await packGzip(bytesOf('ab')), /^found 2 bytes, expected the 3 bytes of a.igc/],
      [await packGzip(bytesOf('abcd')), /^found gzip that cannot be unpacked .*more than 3 bytes/],
      [log.gzip.slice(0, -3), /^found gzip that cannot be unpacked/],
      [bytesOf('abc'), /^found gzip that cannot be unpacked/],
      [new Uint8Array(), /^found gzip that cannot be unpacked/],
    ];
    for (const [gzip, message] of damaged) {
      const result = await logBytes({ ...log, gzip });
      expect(codesOf(result)).toEqual(['logbook-bytes']);
      expect(result.problems[0].message).toMatch(message);
      expect(result.problems[0].where).toMatch(/^log "ba7816bf.*": gzip$/);
    }
  });

  test('[LB1] that are claimed to be many cost nothing until they come', async () => {
    const log = await inventedLog('a.igc', 'abc');
    const before = process.memoryUsage().arrayBuffers;
    const result = await logBytes({ ...log, sizeBytes: MOST_LOG_BYTES });
    expect(codesOf(result)).toEqual(['logbook-bytes']);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(32 * 2 ** 20);
  });

  test('[LB44] stop unpacking at a limit', async () => {
    const packed = await packGzip(new Uint8Array(8 * 2 ** 20));
    let size = 0;
    const unpack = async () => {
      for await (const piece of unpackedPieces(packed, 2 ** 20)) size += piece.length;
    };
    await expect(unpack()).rejects.toThrow(TooMuchUnpacked);
    expect(size).toBeLessThanOrEqual(2 ** 20);
    expect(size).toBeGreaterThan(0);
  });
});
