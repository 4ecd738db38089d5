/** What the ends of a strip make while they are typed. */
import { describe, expect, test } from 'vitest';
import { fieldsFromStrip, type StripFields } from '../../../src/app/entry/strip-fields.ts';
import { typedStrip } from '../../../src/app/entry/typed-strip.ts';
import { demoStrip, enter, FEET, NEW_STRIP, UNITS } from './strip-form-texts.ts';

const typed = (change: Partial<StripFields>, units = UNITS): string =>
  typedStrip({ ...fieldsFromStrip(null, units), ...change }, units, null).words.replaceAll(
    '\u00a0',
    ' ',
  );

describe('[SL1] the ends of a strip as typed', () => {
  test('[SL1] say length, true bearing and both designators', () => {
    // 0.0062 degrees of longitude at 54.7 north are 399.6 m (111 320 m by the cosine, and the ellipsoid).
    expect(typed(NEW_STRIP)).toBe(
      '400 m, 090° true from A to B: lands 09 from end A, 27 from end B.',
    );
    expect(typed(NEW_STRIP, FEET)).toMatch(/^1311 ft, 090° true/);
    expect(typed({ ...NEW_STRIP, 'a.designator': '10' })).toMatch(/lands 10 from end A, 27 from/);
  });

  test('[SL1] say what is missing, by name', () => {
    expect(typed({})).toBe('Length and bearing stand here once both ends are typed.');
    expect(typed({ ...NEW_STRIP, 'b.lon': '' })).toBe(
      'No length and no bearing yet: the longitude of end B is missing.',
    );
    expect(typed({ 'a.lat': '54.7', 'a.lon': '2.3' })).toBe(
      'No length and no bearing yet: the latitude of end B and longitude of end B are missing.',
    );
  });

  test('[SL1] say which cannot be read, before what is missing', () => {
    expect(typed({ ...NEW_STRIP, 'a.lon': '2.3x', 'b.lon': '' })).toMatch(
      /^The longitude of end A cannot be read: found .*2\.3x.*, expected/,
    );
  });

  test('[SL1] say when they are one place, too near, or further apart than any strip', () => {
    expect(typed({ ...NEW_STRIP, 'b.lon': '2.3' })).toMatch(/^Both ends are the same place/);
    expect(typed({ ...NEW_STRIP, 'b.lon': '2.3002' })).toBe(
      'Found ends 13 m apart, expected 50 m or more.',
    );
    // A sign or a degree slipped.
    expect(typed({ ...NEW_STRIP, 'b.lon': '-2.3062' })).toMatch(
      /^Found ends about 297 km apart, further .* \(5 km\): look at the longitude of both\.$/,
    );
    expect(typed({ ...NEW_STRIP, 'b.lat': '45.7' })).toMatch(/look at the latitude of both\.$/);
    expect(typed({ ...NEW_STRIP, 'b.lon': '-177.7' })).toMatch(/further than those of any strip/);
  });

  test('[SL1] draw nothing that the reader of strips would refuse for its length', () => {
    for (const lon of ['2.3', '2.3005', '2.301', '2.3062', '2.37', '2.38', '-2.3']) {
      const change = { ...NEW_STRIP, 'b.lon': lon };
      const { line } = typedStrip({ ...fieldsFromStrip(null, UNITS), ...change }, UNITS, null);
      expect(line !== null, lon).toBe(enter(change).ok);
    }
  });

  test('[SL1] of a kept strip are those of its line', () => {
    const fields = fieldsFromStrip(demoStrip('ternholm'), UNITS);
    const { line } = typedStrip(fields, UNITS, null);
    expect(line?.designators).toEqual({ a: fields['a.designator'], b: fields['b.designator'] });
    expect(typedStrip(fields, UNITS, 612).words).toMatch(/^612.m, along the line as kept/);
  });
});
