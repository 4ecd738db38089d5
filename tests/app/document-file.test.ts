/** Documents in files that a pilot chooses: aeroplanes and factor sets. */
import { describe, expect, test } from 'vitest';
import { readDocumentFile } from '../../src/app/document-file.ts';
import { factorSetToBeginWith } from '../../src/app/entry/own-factor-sets.ts';
import { decodeFactorSet } from '../../src/performance/factor-sets/decode-factor-set.ts';

const read = (text: string | Uint8Array<ArrayBuffer>) =>
  readDocumentFile<{ id: string }>(
    new File([text], 'chosen.json'),
    'factor-set-file',
    decodeFactorSet,
  );

describe('[DF1] a document in a chosen file', () => {
  test('[DF1] is given as it came, also after a byte order mark', async () => {
    for (const mark of ['', '\uFEFF']) {
      const { document, refused } = await read(mark + factorSetToBeginWith());
      expect(document?.id).toBe('my-factors');
      expect(refused).toBeNull();
    }
  });

  test("[DF1] of another kind is refused with its name and the reader's words", async () => {
    const { document, refused } = await read('{"kind":"aeroplane"}');
    expect(document).toBeNull();
    expect(refused?.fileName).toBe('chosen.json');
    expect(refused?.problems.length).toBeGreaterThan(0);
  });

  test('[DF2] larger than 2 MiB is not read at all', async () => {
    const large = new Uint8Array(2 * 2 ** 20 + 1).fill(0x20);
    const { document, refused } = await read(large);
    expect(document).toBeNull();
    expect(refused?.problems[0].code).toBe('factor-set-file');
    expect(refused?.problems[0].message).toContain('2097153 bytes, expected at most 2097152');
  });
});
