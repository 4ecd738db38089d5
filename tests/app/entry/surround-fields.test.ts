import { describe, expect, test } from 'vitest';
import {
  fieldsFromSurround,
  surroundFromFields,
  type SurroundFields,
} from '../../../src/app/entry/surround-fields.ts';
import type { Feature } from '../../../src/logbook/entry.ts';
import { demoFeatures, UNITS } from './strip-form-texts.ts';

const enter = (feature: Feature, change: Partial<SurroundFields>) =>
  surroundFromFields({ ...fieldsFromSurround(feature, UNITS), ...change }, UNITS, feature);
const around = demoFeatures.filter(
  ({ properties }) => (properties as { kind: string }).kind !== 'strip',
);
const tree: Feature = {
  type: 'Feature',
  properties: { kind: 'obstacle', strip: 'sedge', name: 'Oak', heightM: 9, planted: 1880 },
  geometry: { type: 'Point', coordinates: [2.4, 54.7] },
};
const village: Feature = {
  type: 'Feature',
  properties: { kind: 'avoid', name: 'Village', belowMslM: 300 },
  geometry: {
    type: 'Polygon',
    coordinates: [
      [
        [2.3, 54.7],
        [2.31, 54.7],
        [2.31, 54.71],
        [2.3, 54.7],
      ],
    ],
  },
};

describe('what stands around a strip', () => {
  test('[SU1] goes back exactly where nothing was touched', () => {
    expect(around.length).toBeGreaterThan(3);
    for (const feature of [...around, tree, village]) {
      expect(enter(feature, {})).toEqual({ ok: true, feature });
    }
  });

  test('[SU2] gets a new name and height, and keeps everything else', () => {
    expect(enter(tree, { name: 'Two oaks', height: '40 ft' })).toEqual({
      ok: true,
      feature: {
        ...tree,
        properties: { ...(tree.properties as object), name: 'Two oaks', heightM: 40 * 0.3048 },
      },
    });
  });

  test('[SU3] a height above something else replaces the old one', () => {
    const read = enter(tree, { heightKind: 'topMslM', height: '100' });
    const { heightM, topMslM } = (read.ok ? read.feature.properties : {}) as Record<
      string,
      unknown
    >;
    expect(heightM).toBeUndefined();
    expect(topMslM).toBeCloseTo(30.48, 9);
  });

  test('[SU4] a second height that was kept survives a change of the name', () => {
    const both: Feature = { ...tree, properties: { ...(tree.properties as object), topMslM: 20 } };
    const read = enter(both, { name: 'Oak by the gate' });
    expect(read.ok && read.feature.properties).toMatchObject({ topMslM: 20, heightM: 9 });
  });

  test('[SU5] an obstacle needs a height; an area without one is avoided at any height', () => {
    expect(enter(tree, { height: '' })).toEqual({
      ok: false,
      messages: { height: 'found nothing, expected the height of the obstacle' },
    });
    const read = enter(village, { height: '' });
    expect(read.ok && read.feature.properties).toEqual({ kind: 'avoid', name: 'Village' });
  });

  test('[SU6] what is wrong is told beside its field, in the unit that was typed', () => {
    expect(enter(tree, { height: 'tall' })).toEqual({
      ok: false,
      messages: { height: 'found "tall", expected a number of ft' },
    });
    expect(enter(tree, { height: '99999' })).toEqual({
      ok: false,
      messages: {
        height: 'found 99999 ft (30479.7 m), expected a number from 0 to 2000 metres',
      },
    });
    expect(enter(tree, { name: 'x'.repeat(300) })).toMatchObject({ ok: false });
  });

  test('[SU7] a top above the threshold needs a strip to count from', () => {
    const alone: Feature = { ...tree, properties: { kind: 'obstacle', heightM: 9 } };
    const read = enter(alone, { heightKind: 'topAboveThresholdM' });
    expect(read.ok ? '' : read.messages.height).toMatch(/expected the id of the strip/);
  });
});
