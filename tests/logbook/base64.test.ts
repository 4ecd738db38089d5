/**
 * Bytes as base64 text.
 *
 * Source of the vectors: RFC 4648, section 10, from memory; checked against Node's own `Buffer`.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromBase64, toBase64 } from '../../src/logbook/base64.ts';
import { bytesOf } from './invented-entries.ts';

const VECTORS: [string, string][] = [
  ['', ''],
  ['f', 'Zg=='],
  ['fo', 'Zm8='],
  ['foo', 'Zm9v'],
  ['foob', 'Zm9vYg=='],
  ['fooba', 'Zm9vYmE='],
  ['foobar', 'Zm9vYmFy'],
];

describe('base64', () => {
  test.each(VECTORS)('[LB40] writes %j as RFC 4648 does, and reads it back', (text, base64) => {
    expect(toBase64(bytesOf(text))).toBe(base64);
    expect(fromBase64(base64)).toEqual(bytesOf(text));
  });

  test('[LB40] writes any bytes as another implementation does, and reads them back', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        const text = toBase64(bytes);
        expect(text).toBe(Buffer.from(bytes).toString('base64'));
        expect(fromBase64(text)).toEqual(Uint8Array.from(bytes));
      }),
      { seed: 4648 },
    );
  });

  // Pieces of 0x6000 bytes are packed by themselves: their seams must not show.
  test.each([0x5fff, 0x6000, 0x6001, 3 * 0x6000 + 2])(
    '[LB40] joins the pieces of %i bytes',
    (n) => {
      const bytes = Uint8Array.from({ length: n }, (_, i) => (i * 31) % 251);
      expect(toBase64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
    },
  );

  test.each(['Zg=a', 'Z', 'Zm9v!', '\u00e9\u00e9\u00e9\u00e9', 'Zg==='])(
    '[LB43] takes %j for no base64',
    (text) => {
      expect(fromBase64(text)).toBeNull();
    },
  );
});
