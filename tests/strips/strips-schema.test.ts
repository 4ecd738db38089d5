/**
 * The JSON Schema of the strips file, by ajv as an independent validator, against the reader.
 */

import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import schema from '../../docs/schema/strips.schema.json' with { type: 'json' };
import { decodeStrips } from '../../src/strips/decode-strips.ts';
import { encodeStrips } from '../../src/strips/encode-strips.ts';
import { feature, readBook, stripFeature, stripsFile } from './invented-strip.ts';

const isValid = new Ajv2020({ strictTypes: false, strictTuples: false }).compile(schema);

function schemaTakes(text: string): boolean {
  return isValid(JSON.parse(text));
}

const ring = [
  [2.3, 54.7],
  [2.4, 54.7],
  [2.4, 54.8],
  [2.3, 54.7],
];
const whole = {
  designator: '09',
  from: 'A',
  use: 'landing',
  displacedM: 10,
  ldaM: 300,
  toraM: 300,
  todaM: 310,
  asdaM: 300,
  circuit: 'left',
  circuitHeightM: 200,
  commitM: -300,
};

describe('a file that both take', () => {
  test.each([
    ['no feature', []],
    ['a plain strip', [stripFeature()]],
    ['null for not given', [stripFeature({ name: null, elevationM: null, directions: null })]],
    ['ends that are guessed', [stripFeature({ endsGuessed: true })]],
    ['a whole direction', [stripFeature({ directions: [whole] })]],
    [
      'its surroundings',
      [
        feature({ kind: 'obstacle', topMslM: 30 }, 'Point', [2.3, 54.7]),
        feature({ kind: 'obstacle', strip: 'x', topAboveThresholdM: 3 }, 'LineString', ring),
        feature({ kind: 'avoid', belowMslM: null }, 'Polygon', [ring]),
        feature({ kind: 'approach-path', strip: 'x', designator: '1' }, 'LineString', ring),
        feature({ kind: 'pond' }, 'MultiPoint', ring),
        { type: 'Feature', properties: null, geometry: null },
      ],
    ],
  ])('[SS1] %s', (_, features) => {
    const text = stripsFile(...features);
    expect(decodeStrips(text).ok).toBe(true);
    expect(schemaTakes(text), JSON.stringify(isValid.errors)).toBe(true);
    expect(schemaTakes(encodeStrips(readBook(text)))).toBe(true);
  });
});

describe('a file that neither takes', () => {
  const directed = (direction: object) =>
    stripFeature({ directions: [{ ...whole, ...direction }] });
  test.each([
    ['a number for an id', stripFeature({ id: 4 })],
    ['no width', stripFeature({ widthM: undefined })],
    ['an unknown surface', stripFeature({ surface: 'ice' })],
    ['one elevation', stripFeature({ elevationM: [3] })],
    ['three elevations', stripFeature({ elevationM: [3, 4, 5] })],
    ['a profile of one point', stripFeature({ profile: [[0, 1]] })],
    ['a negative position error', stripFeature({ positionErrorM: -1 })],
    ['ends guessed in words', stripFeature({ endsGuessed: 'yes' })],
    ['no direction', stripFeature({ directions: [] })],
    ['a blank designator', directed({ designator: ' ' })],
    ['an end C', directed({ from: 'C' })],
    ['an unknown use', directed({ use: 'none' })],
    ['a negative displacement', directed({ displacedM: -1 })],
    ['an LDA of 5 m', directed({ ldaM: 5 })],
    ['a circuit overhead', directed({ circuit: 'overhead' })],
    ['a circuit height of 5 km', directed({ circuitHeightM: 5000 })],
    ['a commit point as text', directed({ commitM: '-300' })],
    ['a centreline of one position', stripFeature({}, [[2.3, 54.7]])],
    ['an obstacle of no height', feature({ kind: 'obstacle' }, 'Point', [2.3, 54.7])],
    [
      'a top above no threshold',
      feature({ kind: 'obstacle', topAboveThresholdM: 3 }, 'Point', [2.3, 54.7]),
    ],
    ['a strip as a polygon', feature({ ...stripFeature().properties }, 'Polygon', [ring])],
    ['an avoid area as a line', feature({ kind: 'avoid' }, 'LineString', ring)],
    ['a ring of three', feature({ kind: 'avoid' }, 'Polygon', [ring.slice(1)])],
    [
      'a path of no strip',
      feature({ kind: 'approach-path', designator: '09' }, 'LineString', ring),
    ],
    ['a latitude of 91', feature({ kind: 'obstacle', heightM: 3 }, 'Point', [2.3, 91])],
  ])('[SS2] %s', (_, wrong) => {
    const text = stripsFile(wrong);
    expect(decodeStrips(text).ok).toBe(false);
    expect(schemaTakes(text)).toBe(false);
  });
});
