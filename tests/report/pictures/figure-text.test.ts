/** Figures are written as the look of the page asks: value, unit, band; rounded outwards. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { undetermined } from '../../../src/result.ts';
import {
  angleFigure,
  bandText,
  countFigure,
  descentFigure,
  figureLine,
  figureSpoken,
  figureValue,
  hasFigure,
  heightFigure,
  lengthFigure,
  numberText,
  ratioFigure,
  secondsFigure,
  speedFigure,
  USUAL_UNITS,
  type PilotUnits,
} from '../../../src/report/figure-text.ts';

const FEET: PilotUnits = { length: 'ft', height: 'm', speed: 'km/h' };

describe('a figure', () => {
  test('[FIG1] has its value, its unit after a no-break space, and its band after an en dash', () => {
    const roll = lengthFigure({ value: 183.4, low: 171.2, high: 195.1 }, USUAL_UNITS);
    expect(figureLine(roll)).toBe('183\u00a0m 171\u2013196');
    expect(figureValue(roll)).toBe('183\u00a0m');
    expect(figureSpoken(roll)).toBe('183 metres, between 171 and 196');
  });

  test('[FIG2] has a true minus, in words where the whole band is below zero', () => {
    const across = lengthFigure({ value: 4, low: -7, high: 15 }, USUAL_UNITS);
    expect(figureLine(across)).toBe('4\u00a0m \u22127\u201315');
    const below = lengthFigure({ value: -44, low: -72, high: -16 }, USUAL_UNITS);
    expect(figureLine(below)).toBe('\u221244\u00a0m \u221272 to \u221216');
    expect(figureSpoken(below)).toBe('minus 44 metres, between minus 72 and minus 16');
  });

  test('[FIG3] is in the units of the pilot (1 ft = 0.3048 m, 1 kt = 1852 m/h exactly)', () => {
    expect(figureValue(lengthFigure(304.8, FEET))).toBe('1000\u00a0ft');
    expect(figureValue(heightFigure(15.24, USUAL_UNITS))).toBe('50\u00a0ft');
    expect(figureValue(speedFigure(1852 / 36, USUAL_UNITS))).toBe('100\u00a0kt');
    expect(figureValue(speedFigure(10, FEET))).toBe('36\u00a0km/h');
    expect(figureValue(speedFigure(0.44704, { ...FEET, speed: 'mph' }))).toBe('1\u00a0mph');
  });

  test('[FIG4] has two decimals as a ratio and one as an angle', () => {
    expect(figureLine(ratioFigure({ value: 1.128, low: 1.058, high: 1.201 }))).toBe(
      '1.13 1.05\u20131.21',
    );
    expect(figureValue(angleFigure(4.14))).toBe('4.1°');
  });

  test('[FIG8] has no band where both of its ends would be the figure itself', () => {
    const counted = secondsFigure({ value: 14, low: 14, high: 14 });
    expect(figureLine(counted)).toBe('14\u00a0s');
    expect(figureSpoken(counted)).toBe('14 seconds');
    expect(figureLine(countFigure({ value: 2, low: 2, high: 2 }))).toBe('2');
    // However narrow, a band that is there is not lost: its ends are rounded outwards.
    const narrow = secondsFigure({ value: 14, low: 13.99, high: 14.01 });
    expect(figureLine(narrow)).toBe('14\u00a0s 13\u201315');
    expect(bandText('3', '3')).toBe('');
  });

  test('[FIG9] has rates of descent to ten feet a minute, or a tenth of a metre a second', () => {
    // 1 ft is 0.3048 m exactly: 3 m/s are 590.55 ft/min.
    const sink = { value: 3, low: 2.4, high: 3.6 };
    expect(figureLine(descentFigure(sink, USUAL_UNITS))).toBe('590\u00a0ft/min 470\u2013710');
    expect(figureLine(descentFigure(sink, { ...FEET, verticalSpeed: 'm/s' }))).toBe(
      '3.0\u00a0m/s 2.4\u20133.6',
    );
    expect(numberText(-15, -1)).toBe('\u221220');
    expect(numberText(-4, -1)).toBe('0');
  });

  test('[FIG5] gives way to the reason where the data cannot tell', () => {
    const none = lengthFigure(undetermined('the log ends in the roll'), USUAL_UNITS);
    expect(hasFigure(none)).toBe(false);
    expect(figureLine(none)).toBe('the log ends in the roll');
    expect(figureSpoken(none)).toBe('undetermined: the log ends in the roll');
    expect(figureValue(lengthFigure(NaN, USUAL_UNITS))).toBe('not known');
  });

  test('[FIG6] never shows a band narrower than the measured one', () => {
    const number = (text: string): number => Number(text.replace('\u2212', '-'));
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 3000, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        (low, below, above) => {
          const measured = { low, value: low + below, high: low + below + above };
          const figure = lengthFigure(measured, USUAL_UNITS);
          if (!hasFigure(figure)) return false;
          // Without a band both ends are the figure itself.
          const ends =
            figure.band === '' ? [figure.value, figure.value] : figure.band.split('\u2013');
          const [from, to] = ends.map(number);
          const slack = 1e-6;
          const isOutside = from <= measured.low + slack && to >= measured.high - slack;
          return isOutside && measured.low - from < 1 && to - measured.high < 1;
        },
      ),
    );
  });
});

describe('a number', () => {
  test('[FIG7] has no minus before zero and a mark only from 10 000 up', () => {
    expect(numberText(-0.2, 0)).toBe('0');
    expect(numberText(-3.25, 1)).toBe('\u22123.3');
    expect(numberText(9999, 0)).toBe('9999');
    expect(numberText(12_345, 0)).toBe('12\u00a0345');
  });
});
