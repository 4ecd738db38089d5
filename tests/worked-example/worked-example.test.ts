/**
 * The worked example of docs/worked-example.md, held against plain arithmetic and against the tool.
 *
 * Each line of its tables has a calculation and a result. The calculation is worked out from the
 * numbers printed in it, without anything of the project; the tool's own value of the same line
 * comes from the files of the demo. So neither the page nor the tool can drift alone.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { predictAtStrip } from '../../src/debrief/predict-at-strip.ts';
import { stripPlaceOf } from '../../src/debrief/strip-place.ts';
import type { HandbookQuantity } from '../../src/performance/aeroplane.ts';
import { decodeAeroplane } from '../../src/performance/decode-aeroplane.ts';
import { UK_LEAFLET } from '../../src/performance/factor-sets/uk-leaflet.ts';
import { findTable, readTable, type HandbookDay } from '../../src/performance/handbook-table.ts';
import type { ChainStep } from '../../src/performance/prediction.ts';
import { isUndetermined, type Result } from '../../src/result.ts';
import { decodeStrips } from '../../src/strips/decode-strips.ts';
import { METRES_PER_FOOT, MPS_PER_KNOT } from '../../src/units/convert.ts';
import { conditionsFor, decodeConditions } from '../../src/weather/decode-conditions.ts';
import { expectNear } from '../expect-near.ts';
import { workOut } from './arithmetic.ts';

interface Line {
  readonly id: string;
  readonly byHand: string;
  readonly result: number;
  /** One in the last digit shown. */
  readonly lastDigit: number;
}

const PAGE = readFileSync('docs/worked-example.md', 'utf8');
const LINES: readonly Line[] = [
  ...PAGE.matchAll(/^\| ([A-Z]\d+) +\|[^|]*\|([^|]*)\|([^|]*)\|$/gm),
].map(([, id, byHand, result]) => {
  const [, sign, digits] = /^(−?)(\d+(?:\.\d+)?)/.exec(result.trim()) ?? [];
  const decimals = (digits.split('.').at(1) ?? '').length;
  const value = Number(digits) * (sign === '−' ? -1 : 1);
  return { id, byHand: byHand.trim(), result: value, lastDigit: 10 ** -decimals };
});

function given<T>(value: T): Exclude<T, { undetermined: string } | null> {
  if (isUndetermined(value) || value === null) throw new Error(JSON.stringify(value));
  return value as Exclude<T, { undetermined: string } | null>;
}

function read<T>(file: string, decode: (text: string) => Result<T>): T {
  const result = decode(readFileSync(`tracks-sample/${file}`, 'utf8'));
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

/** The tool's value of each line, by its id. */
function toolValues(): Map<string, number> {
  const strip = read('strips.geojson', decodeStrips).strips.find(({ id }) => id === 'ternholm');
  const aeroplane = read('aeroplanes/marram-160.json', decodeAeroplane);
  const book = read('conditions.json', decodeConditions);
  const conditions = given(conditionsFor(book, '2024-06-02-wet-grass-ternholm.igc'));
  if (!strip) throw new Error('no Ternholm');
  const place = given(stripPlaceOf(strip, '25'));
  const prediction = given(
    predictAtStrip(place, { aeroplane, conditions, factorSet: UK_LEAFLET, timeS: 1.78e9 }),
  );
  const { day } = prediction;
  const landing = given(prediction.landing);
  const takeOff = given(prediction.takeOff);
  const speeds = given(prediction.speeds);
  const pressureAltitudeFt = day.pressureAltitudeM / METRES_PER_FOOT;

  const figure = (quantity: HandbookQuantity, at: HandbookDay): number =>
    given(readTable(given(findTable(aeroplane, quantity, conditions.flap)), at, 'refuse'))
      .distanceM;
  /** Four corners at the day's mass, two altitudes at the day's temperature, the day itself. */
  const lookUps = (quantity: HandbookQuantity, massKg: number): number[] =>
    [
      ...[-1000, 1500].flatMap((ft) => [-10, 15].map((tempC) => [ft, tempC])),
      ...[-1000, 1500, pressureAltitudeFt].map((ft) => [ft, given(conditions.tempC)]),
    ].map(([ft, tempC]) => figure(quantity, { pressureAltitudeFt: ft, tempC, massKg }));

  const factorOf = (steps: readonly ChainStep[], name: string): number =>
    given(steps.find((step) => step.name === name)?.factor ?? null);
  const running = (steps: readonly ChainStep[]): number[] =>
    steps
      .filter(({ actsOn }) => actsOn === 'whole distance')
      .map(({ runningM }) => runningM)
      .slice(1);
  const air = (steps: readonly ChainStep[]): number[] =>
    steps.filter(({ actsOn }) => actsOn === 'air part').map(({ runningM }) => runningM);

  const values = new Map<string, number>();
  const put = (letter: string, figures: readonly number[]): void => {
    figures.forEach((value, k) => values.set(`${letter}${k + 1}`, value));
  };
  put('D', [
    place.frame.elevationMslM(0),
    100 * place.frame.slopeRatio,
    day.pressureAltitudeM,
    pressureAltitudeFt,
    ...[day.headwindMps, day.crosswindMps].map((mps) => given(mps) / MPS_PER_KNOT),
    ...[speeds.stallMps, speeds.approachMps].map((mps) => mps / MPS_PER_KNOT),
  ]);
  put('F', [
    factorOf(landing.chain.expected, 'headwind'),
    factorOf(landing.chain.planned, 'headwind'),
    factorOf(landing.chain.expected, 'slope'),
    factorOf(takeOff.chain.expected, 'slope'),
  ]);
  put('W', lookUps('landing-from-screen', given(conditions.massKg)));
  put('R', lookUps('landing-roll', given(conditions.massKg)));
  put('X', lookUps('take-off-to-screen', given(conditions.takeOffMassKg)));
  put('Y', lookUps('take-off-roll', given(conditions.takeOffMassKg)));
  const rollIn = given(landing.expectedRollM);
  put('E', [...running(landing.chain.expected), ...air(landing.chain.expected), rollIn]);
  put('P', [
    ...running(landing.chain.planned),
    ...[landing.plannedRollM, landing.marginM, landing.latestTouchdownAlongM].map(given),
  ]);
  const rollOut = given(takeOff.expectedRollM);
  put('T', [...running(takeOff.chain.expected), ...air(takeOff.chain.expected), rollOut]);
  put('U', [
    ...running(takeOff.chain.planned),
    ...[takeOff.plannedRollM, takeOff.marginM].map(given),
  ]);
  return values;
}

describe('[WEX1] the worked example', () => {
  const tool = toolValues();

  test('[WEX1] has a line for each value of the tool, and none besides', () => {
    expect(LINES.map(({ id }) => id).sort()).toEqual([...tool.keys()].sort());
    expect(LINES.length).toBeGreaterThan(60);
  });

  test.each(LINES)(
    '[WEX2] line $id is what its own numbers make, to one in the last digit',
    (line) => {
      // Half a digit for the result's own rounding, one for that of the rounded figures before it.
      expectNear(workOut(line.byHand), line.result, 1.5 * line.lastDigit + 1e-9, line.byHand);
    },
  );

  test.each(LINES)("[WEX3] line $id is the tool's own value to the last digit shown", (line) => {
    expectNear(tool.get(line.id) ?? NaN, line.result, 0.5 * line.lastDigit + 1e-9, line.id);
  });
});

test('[WEX4] arithmetic on paper', () => {
  expectNear(workOut('2 + 3 × (4 − 1) ÷ 2 ^ 2'), 4.25, 1e-12);
  expectNear(workOut('√(9 × 4) + cos(60)'), 6.5, 1e-12);
  for (const wrong of ['2 +', '(2', '2 3', 'x']) expect(() => workOut(wrong)).toThrow('expected');
});
