/** Factor sets of the pilot's own on the page: named, laid out, begun from the default one. */
import { describe, expect, test } from 'vitest';
import {
  factorFigures,
  factorSetName,
  factorSetToBeginWith,
  readFactorSets,
} from '../../../src/app/entry/own-factor-sets.ts';
import { factorSetChoices } from '../../../src/app/entry/settings-fields.ts';
import { surfaceChoices } from '../../../src/app/entry/surface-choices.ts';
import { decodeFactorSet } from '../../../src/performance/factor-sets/decode-factor-set.ts';
import { UK_LEAFLET } from '../../../src/performance/factor-sets/uk-leaflet.ts';
import { inventedFactorSet } from '../../logbook/invented-entries.ts';

describe('own factor sets', () => {
  test('[OF1] are read, named, and stand after the published ones as the own', () => {
    const records = [inventedFactorSet()];
    const own = readFactorSets(records);
    expect(readFactorSets(records)).toBe(own);
    expect(factorSetName('club-rules', own)).toBe('Club rules');
    expect(factorSetName('gone', own)).toBe('gone');
    expect(factorSetChoices(own).at(-1)).toMatchObject({
      value: 'club-rules',
      words: 'Club rules, your own',
      note: 'safety 1.43 landing, 1.33 take-off',
    });
  });

  test('[OF2] one that cannot be read is left out', () => {
    const damaged = { ...inventedFactorSet(), document: { id: 'club-rules' } };
    expect(readFactorSets([damaged])).toEqual([]);
  });

  test('[OF3] every figure stands with its source and how it came here', () => {
    const figures = factorFigures(UK_LEAFLET);
    const wet = figures.find(({ what }) => what === 'landing: grass, wet, up to 20 cm');
    expect(wet?.factor).toBe(String(UK_LEAFLET.landing.surface['grass-wet']?.factor));
    expect(figures.every(({ source }) => /\((read|quoted|from memory)\)$/.test(source))).toBe(true);
    // Safety factors of the leaflet: 1.43 and 1.33 (UK CAA Safety Sense Leaflet 7c, from memory).
    const safety = figures.filter(({ what }) => what.endsWith('safety factor'));
    expect(safety.map(({ factor }) => factor)).toEqual(['1.43', '1.33']);
  });

  test('[OF4] the file to begin with is a factor set that is taken in as it stands', () => {
    const read = decodeFactorSet(factorSetToBeginWith());
    expect(read.ok && read.value.id).toBe('my-factors');
    expect(read.problems).toEqual([]);
  });

  test('[OF5] a surface that the own set has no factor for is said beforehand', () => {
    const record = inventedFactorSet();
    const document = structuredClone(record.document) as {
      landing: { surface: Record<string, unknown> };
    };
    delete document.landing.surface['grass-wet'];
    const own = readFactorSets([{ ...record, document: document as typeof record.document }]);
    const wet = surfaceChoices('club-rules', own).find(({ value }) => value === 'grass-wet');
    expect(wet?.caution).toBe('no published factor for landing, so no prediction');
  });
});
