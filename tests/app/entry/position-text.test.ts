import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  positionExample,
  readPosition,
  showDegrees,
  type Axis,
} from '../../../src/app/entry/position-text.ts';
import { expectNear } from '../../expect-near.ts';

const degreesIn = (text: string, axis: Axis): number => {
  const read = readPosition(text, axis);
  if (read.kind !== 'degrees') throw new Error(`${text}: ${JSON.stringify(read)}`);
  return read.deg;
};
const messageFor = (text: string, axis: Axis = 'latitude') => {
  const read = readPosition(text, axis);
  return read.kind === 'wrong' ? read.message : read;
};
/** Two ways of writing one angle differ by rounding only. */
const ROUNDING_DEG = 1e-12;

describe('a position as typed', () => {
  test('[PT1] may be decimal degrees with a sign, a letter, a degree mark or a decimal comma', () => {
    for (const text of ['54.5', '54,5', '+54.5', '54.5 N', 'N54.5', '54.5°', '54.5° n']) {
      expect(degreesIn(text, 'latitude')).toBe(54.5);
    }
    for (const text of ['-2.25', '2.25W', 'W 2.25', '\u22122.25°']) {
      expect(degreesIn(text, 'longitude')).toBe(-2.25);
    }
  });

  test('[PT9] the example is one place twice, in mid-ocean and west', () => {
    const [[lat, latAgain], [lon, lonAgain]] = (['latitude', 'longitude'] as const).map((axis) =>
      positionExample(axis)
        .split(' or ')
        .map((text) => degreesIn(text, axis)),
    );
    // Both are written to a ten-metre or so.
    expectNear(latAgain, lat, 1e-5);
    expectNear(lonAgain, lon, 1e-5);
    // Between 50 and 58 N the Atlantic has no land from 20 to 45 W.
    expect(lat).toBeGreaterThan(50);
    expect(lat).toBeLessThan(58);
    expect(lon).toBeGreaterThan(-45);
    expect(lon).toBeLessThan(-20);
  });

  test('[PT2] may be degrees and decimal minutes, or with seconds, by 60 minutes in a degree', () => {
    for (const text of [
      '54 30.6 N',
      "54°30.6'N",
      '54° 30.6\u2032 N',
      'N54 30,6',
      '54:30.6',
      '54.51',
    ]) {
      expectNear(degreesIn(text, 'latitude'), 54.51, ROUNDING_DEG);
    }
    expectNear(degreesIn('2°24\'36"W', 'longitude'), -2.41, ROUNDING_DEG);
    expectNear(degreesIn('002 24 36.0 E', 'longitude'), 2.41, ROUNDING_DEG);
    expectNear(degreesIn('-2 24.6', 'longitude'), -2.41, ROUNDING_DEG);
  });

  test('[PT3] is told in which way it was read, with the side of the world', () => {
    const words = (text: string, axis: Axis) => {
      const read = readPosition(text, axis);
      return read.kind === 'degrees' ? read.words : read.kind;
    };
    expect(words('54.5', 'latitude')).toBe('54.5° N, read as decimal degrees');
    expect(words('2 24.6 W', 'longitude')).toBe('2.41° W, read as degrees and decimal minutes');
    expect(words('2 24 36', 'longitude')).toBe('2.41° E, read as degrees, minutes and seconds');
    expect(words('  ', 'latitude')).toBe('empty');
  });

  test.each([
    ['91', 'latitude', 'found "91", expected at most 90 degrees'],
    ['181 W', 'longitude', 'found "181 W", expected at most 180 degrees'],
    ['54 60.0', 'latitude', 'found "54 60.0", expected minutes and seconds below 60'],
    ['54 30 61', 'latitude', 'found "54 30 61", expected minutes and seconds below 60'],
    ['54 E', 'latitude', 'found "54 E", expected a latitude with N or S'],
    ['2 N', 'longitude', 'found "2 N", expected a longitude with E or W'],
    ['-54 S', 'latitude', 'found "-54 S", expected a letter or a sign, not both'],
    ['N54S', 'latitude', 'found "N54S", expected a latitude with N or S'],
  ] as const)('[PT4] %s as %s is refused: %s', (text, axis, message) => {
    expect(messageFor(text, axis)).toBe(message);
  });

  test.each(['north', '54.5 2.3 1 4', '54.5 30', '1e1', '54..5', '5-4', ';', '54 .'])(
    '[PT5] %j is no latitude, and an example is given',
    (text) => {
      expect(messageFor(text)).toMatch(/^found ".*", expected a latitude /);
    },
  );

  test('[PT6] degrees as a field shows them are read back to within a centimetre, then exactly', () => {
    // A ten-millionth of a degree of latitude is 1.1 cm; half of it is lost in rounding.
    fc.assert(
      fc.property(fc.double({ min: -90, max: 90, noNaN: true }), (deg) => {
        const once = degreesIn(showDegrees(deg), 'latitude');
        expectNear(once, deg, 0.51e-7);
        expect(degreesIn(showDegrees(once), 'latitude')).toBe(once);
      }),
      { seed: 6 },
    );
  });

  test('[PT7] any text is read or refused, never a number that is none', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const read = readPosition(text, 'longitude');
        if (read.kind === 'degrees') expect(Math.abs(read.deg)).toBeLessThanOrEqual(180);
        else expect(['empty', 'wrong']).toContain(read.kind);
      }),
      { seed: 7 },
    );
  });
});
