/**
 * What is plain JSON, and its text in a fixed order. Rules: docs/spec/logbook.md, "Checks".
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalText, whyNotPlain } from '../../src/logbook/plain-json.ts';

function nested(levels: number): unknown {
  let value: unknown = 1;
  for (let i = 0; i < levels; i++) value = i % 2 === 0 ? [value] : { in: value };
  return value;
}

describe('plain JSON', () => {
  test('[LB11] is whatever a JSON text can hold', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), (value) => {
        expect(whyNotPlain(value)).toBeNull();
        expect(whyNotPlain(JSON.parse(JSON.stringify(value)))).toBeNull();
      }),
      { seed: 8259 },
    );
  });

  test.each([
    ['NaN', { a: [1, Number.NaN] }, 'found NaN at a.1'],
    ['infinity', -Infinity, 'found -Infinity'],
    ['undefined', { a: undefined }, 'found undefined that JSON does not have at a'],
    ['a hole in a list', [1, , 2], 'found undefined that JSON does not have at 1'], // eslint-disable-line no-sparse-arrays
    ['a function', [() => 1], 'found function that JSON does not have at 0'],
    ['a bigint', { n: 1n }, 'found bigint that JSON does not have at n'],
    ['a date', new Date(0), 'found object that JSON does not have'],
    ['a map', { m: new Map() }, 'found object that JSON does not have at m'],
    ['a column', { c: new Float64Array(2) }, 'found object that JSON does not have at c'],
  ])('[LB11] is not %s, and says where', (_what, value, why) => {
    expect(whyNotPlain(value)).toBe(why);
  });

  test('[LB11] has at most 64 levels', () => {
    expect(whyNotPlain(nested(64))).toBeNull();
    expect(whyNotPlain(nested(65))).toMatch(/^found over 64 levels of lists and objects at /);
    expect(whyNotPlain(nested(3))).toBeNull();
  });

  test('[LB11] that bites its own tail is refused, not followed for ever', () => {
    const ring: Record<string, unknown> = { name: 'ring' };
    ring.again = ring;
    expect(whyNotPlain(ring)).toContain('over 64 levels');
  });

  test('[LB11] has at most 20 million values and characters', () => {
    const text = 'x'.repeat(1_000_000);
    expect(whyNotPlain(Array.from({ length: 19 }, () => text))).toBeNull();
    expect(whyNotPlain(Array.from({ length: 20 }, () => text))).toContain('more than 20000000');
    // A web of shared parts is small in memory and endless in text.
    let web: unknown = [];
    for (let i = 0; i < 40; i++) web = [web, web];
    expect(whyNotPlain(web)).toContain('more than 20000000');
    expect(whyNotPlain({ ['k'.repeat(20_000_001)]: 1, b: 2 })).toContain('more than 20000000');
  });
});

describe('the text of plain JSON', () => {
  test('[LB41] is the same whatever the order of keys', () => {
    const one = { b: [{ y: 1, x: 2 }], a: null, 10: 'ten', 9: 'nine' };
    const other = { 9: 'nine', a: null, 10: 'ten', b: [{ x: 2, y: 1 }] };
    expect(canonicalText(one)).toBe(canonicalText(other));
    expect(canonicalText({ b: 1, a: 2 })).toBe('{"a":2,"b":1}');
  });

  test('[LB42] differs where the data differ, and means the data', () => {
    expect(canonicalText([1, 2])).not.toBe(canonicalText([2, 1]));
    expect(canonicalText({ a: 1 })).not.toBe(canonicalText({ a: '1' }));
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(JSON.parse(canonicalText(value))).toEqual(JSON.parse(JSON.stringify(value)));
      }),
      { seed: 8785 },
    );
  });

  test('[LB42] keeps a key that is named like a part of the language', () => {
    const value: unknown = JSON.parse('{"__proto__":{"a":1},"constructor":2}');
    expect(canonicalText(value)).toBe('{"__proto__":{"a":1},"constructor":2}');
    expect(whyNotPlain(value)).toBeNull();
  });
});
