import { describe, expect, test } from 'vitest';
import { readNumber, showNumber } from '../../../src/app/entry/number-text.ts';

const numberIn = (text: string, unit = '') => {
  const read = readNumber(text, unit);
  return read.kind === 'number' ? read.value : read.kind;
};

describe('a number as typed', () => {
  test('[EN1] has a decimal point or a decimal comma', () => {
    expect(numberIn('29.92')).toBe(29.92);
    expect(numberIn('29,92')).toBe(29.92);
    expect(numberIn(' 12 ')).toBe(12);
    expect(numberIn('.5')).toBe(0.5);
    expect(numberIn('5.')).toBe(5);
  });

  test('[EN2] may be below zero, with a hyphen or with a true minus, and is never minus zero', () => {
    expect(numberIn('-3.5')).toBe(-3.5);
    expect(numberIn('\u22123,5')).toBe(-3.5);
    expect(Object.is(numberIn('-0'), 0)).toBe(true);
  });

  test('[EN3] may carry its unit, in small or large letters, and no other', () => {
    expect(numberIn('8 kt', 'kt')).toBe(8);
    expect(numberIn('8KT', 'kt')).toBe(8);
    expect(numberIn('250°', '°')).toBe(250);
    expect(numberIn('8 mph', 'kt')).toBe('wrong');
  });

  test('[EN4] refuses a mark for thousands, which could be a decimal comma, and says both readings', () => {
    const read = readNumber('1,200', 'ft');
    expect(read).toEqual({
      kind: 'wrong',
      message: 'found "1,200", expected no mark for thousands: 1200, or a decimal point',
    });
    expect(numberIn('0,15')).toBe(0.15);
    expect(numberIn('1,2000')).toBe(1.2);
  });

  test.each(['abc', '1e3', '1 200', '0x10', 'NaN', 'Infinity', '--1', '1.2.3', '-', '.', '½'])(
    '[EN5] %j is no number and is said so',
    (text) => {
      expect(readNumber(text, 'kg')).toEqual({
        kind: 'wrong',
        message: `found "${text}", expected a number of kg`,
      });
    },
  );

  test('[EN6] nothing, and blanks, are empty: never zero', () => {
    expect(numberIn('')).toBe('empty');
    expect(numberIn('  \t')).toBe('empty');
  });

  test('[EN9] with hundreds of digits is no number: it would be kept as infinity', () => {
    expect(numberIn('9'.repeat(400))).toBe('wrong');
  });

  test('[EN7] is quoted shortened where it is long', () => {
    const read = readNumber('x'.repeat(5000), '');
    expect(read.kind === 'wrong' && read.message.length).toBeLessThan(80);
  });
});

describe('a number in a field', () => {
  test('[EN8] shows only decimals that say something', () => {
    expect(showNumber(15, 2)).toBe('15');
    expect(showNumber(15.5, 2)).toBe('15.5');
    expect(showNumber(15.555_555, 2)).toBe('15.56');
    expect(showNumber(-0.001, 2)).toBe('0');
  });
});
