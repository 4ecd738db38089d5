/**
 * How a strip lay on a day. Rules: docs/spec/logbook.md, LB2.
 */

import { describe, expect, test } from 'vitest';
import { decodeEntry } from '../../src/logbook/decode-logbook.ts';
import { addVersion, featureAt } from '../../src/logbook/strip-versions.ts';
import { inventedStrip, NOW_S, valueOf } from './invented-entries.ts';

const named = (name: string) => inventedStrip('sedge', name).versions[0].feature;
const nameAt = (strip: ReturnType<typeof inventedStrip>, timeS: number) =>
  (featureAt(strip, timeS).properties as { name: string }).name;

describe('a strip that was mown elsewhere', () => {
  const moved = addVersion(
    addVersion(inventedStrip('sedge', 'of old'), 2000, named('third'), NOW_S + 2),
    1000,
    named('second'),
    NOW_S + 3,
  );

  test('[LB2] lies for each flight as it lay on its day', () => {
    expect([0, 999.9, 1000, 1999, 2000, 1e10].map((timeS) => nameAt(moved, timeS))).toEqual([
      'of old',
      'of old',
      'second',
      'second',
      'third',
      'third',
    ]);
    expect(moved.changedS).toBe(NOW_S + 3);
    expect(valueOf(decodeEntry(moved))).toEqual(moved);
  });

  test('[LB2] lies before its first version as in its first', () => {
    const young = { ...moved, versions: moved.versions.slice(1) };
    expect(nameAt(young, 5)).toBe('second');
  });

  test('[LB2] has a version drawn again in the place of the one of the same time', () => {
    const redrawn = addVersion(moved, 1000, named('second, exactly'), NOW_S + 4);
    expect(redrawn.versions.map(({ fromS }) => fromS)).toEqual([null, 1000, 2000]);
    expect(nameAt(redrawn, 1500)).toBe('second, exactly');
    const older = addVersion(moved, null, named('as on the old map'), NOW_S + 5);
    expect(older.versions.map(({ fromS }) => fromS)).toEqual([null, 1000, 2000]);
    expect(nameAt(older, 1)).toBe('as on the old map');
    expect(nameAt(moved, 1)).toBe('of old');
  });

  test('[LB2] keeps a first version that was never there before in front', () => {
    const young = { ...moved, versions: moved.versions.slice(1) };
    const whole = addVersion(young, null, named('of old'), NOW_S + 6);
    expect(whole.versions.map(({ fromS }) => fromS)).toEqual([null, 1000, 2000]);
    expect(valueOf(decodeEntry(whole))).toEqual(whole);
  });
});
