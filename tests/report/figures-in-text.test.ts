/** Notes and reasons in the pilot's units. Figures are turned by hand, with the exact pound, foot and mile. */
import { describe, expect, test } from 'vitest';
import { inPilotUnits, reasonIn, workingInPilotUnits } from '../../src/report/figures-in-text.ts';
import { undetermined } from '../../src/result.ts';

const US = {
  height: 'ft',
  speed: 'mph',
  mass: 'lb',
  pressure: 'inHg',
  temperature: 'F',
} as const;
const USUAL = { height: 'ft', speed: 'kt' } as const;
const METRIC = { height: 'm', speed: 'km/h', mass: 'kg', temperature: 'C' } as const;

describe('[DN5] figures in notes and reasons', () => {
  test.each([
    ['395 kg instead of 450 kg', '871 lb instead of 992 lb'],
    [
      'the landing mass 500 kg lies outside the limits, 290 to 450 kg',
      'the landing mass 1102 lb lies outside the limits, 639 to 992 lb',
    ],
    [
      'height noise hides a bounce lower than 3.5 m',
      'height noise hides a bounce lower than 11 ft',
    ],
    ['a 15-metre screen, 0.24 m lower than 50 ft', 'a 15-metre screen, 0.8 ft lower than 50 ft'],
    ['17.0 instead of 15.0 degrees Celsius', '62.6 instead of 59.0 °F'],
    [
      'temperature 41 degrees Celsius lies outside, which covers -10 to 40 degrees Celsius',
      'temperature 106 °F lies outside, which covers 14 to 104 °F',
    ],
    [
      '14.1 kt tailwind, one and a half times the 9.4 kt',
      '16.2 mph tailwind, one and a half times the 10.8 mph',
    ],
    [
      '30 hPa would change the distances by 4 to 8 %',
      '0.89 inHg would change the distances by 4 to 8 %',
    ],
    [
      'pressure altitude \u221232 ft instead of 0 ft',
      'pressure altitude \u221232 ft instead of 0 ft',
    ],
  ])('[DN5] %s', (text, shown) => {
    expect(inPilotUnits(text, US)).toBe(shown);
  });

  test('[DN5] metric: pressure altitudes in metres, the screen height a name as before', () => {
    expect(inPilotUnits('pressure altitude -32 ft instead of 0 ft', METRIC)).toBe(
      'pressure altitude -10 m instead of 0 m',
    );
    expect(inPilotUnits('the place of 50 ft is not in the log', METRIC)).toBe(
      'the place of 50 ft is not in the log',
    );
    expect(inPilotUnits('10.0 kt headwind at 900 kg', METRIC)).toBe('18.5 km/h headwind at 900 kg');
    expect(inPilotUnits('lower than 3.5 m', METRIC)).toBe('lower than 3.5 m');
  });

  test('[DN5] usual units leave digits as they were written, and degrees are a sign', () => {
    expect(inPilotUnits('4.4 kt, 900 kg, 30 hPa, 19.0 degrees Celsius', USUAL)).toBe(
      '4.4 kt, 900 kg, 30 hPa, 19.0 °C',
    );
  });

  test('[DN5] what is no figure with such a unit is not touched', () => {
    const text = '1,000 ft, 12:30, 3.5 minutes, 20 cm, 2.5 m/s, 26 flights';
    expect(inPilotUnits(text, US)).toBe(text);
  });

  test('[DN5] a reason is turned, anything else passes through', () => {
    expect(reasonIn(undetermined('no more than 10 kg'), US)).toEqual(
      undetermined('no more than 22 lb'),
    );
    expect(reasonIn([1, 2], US)).toEqual([1, 2]);
  });
});

describe('[DN6] the working', () => {
  test('[DN6] is in the pilot\u2019s units', () => {
    expect(workingInPilotUnits('At 450 kg, 100 ft, 15.0 degrees Celsius.', US)).toBe(
      'At 992 lb, 100 ft, 59.0 °F.',
    );
    expect(workingInPilotUnits('At 450 kg, 100 ft, 15.0 degrees Celsius.', METRIC)).toBe(
      'At 450 kg, 30 m, 15.0 °C.',
    );
    expect(
      workingInPilotUnits('6.9 kt headwind, 19.4 % of the landing speed. A tenth adds 20 %.', US),
    ).toBe('7.9 mph headwind, 19.4 % of the landing speed. A tenth adds 20 %.');
  });

  test('[DN6] keeps a figure in the unit in which its source counts, and quotes the source', () => {
    const wind = '4.4 kt headwind. Take off 10 % for every 9 kt of headwind.';
    expect(workingInPilotUnits(wind, US)).toBe(wind);
    expect(
      workingInPilotUnits(
        '17.0 instead of 15.0 degrees Celsius. Each 10 degrees Celsius adds 5 %.',
        US,
      ),
    ).toBe('17.0 instead of 15.0 °C. Each 10 °C adds 5 %.');
    const altitude =
      'pressure altitude 32 ft instead of 0 ft. Each 1,000 ft of elevation adds 5 %.';
    expect(workingInPilotUnits(altitude, METRIC)).toBe(altitude);
    const all = 'Dry grass with 5 kg of rain adds 15 %.';
    expect(workingInPilotUnits(all, US)).toBe(all);
  });
});
