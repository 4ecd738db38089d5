/** Why a roll was longer or shorter: a worked example through the flight, and reasons where there is none. */
import { describe, expect, test } from 'vitest';
import type { Flight } from '../../../src/debrief/debrief.ts';
import type { Approach } from '../../../src/events/flight-event.ts';
import { figureValue, USUAL_UNITS } from '../../../src/report/figure-text.ts';
import { whyRows } from '../../../src/report/story/why-rows.ts';
import { isUndetermined, undetermined, type Measured } from '../../../src/result.ts';
import { demoFlight, landingLike } from '../demo-flight.ts';

const { flight } = await demoFlight('2024-04-20-first-circuits-ternholm.gpx');
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const around = (value: number): Measured => ({ value, low: value - 1, high: value + 1 });

interface Example {
  readonly rollM: number;
  readonly touchdownMps: number;
  readonly headwindMps: Measured | number;
  readonly densityRatio: number;
}

/** A flight whose second landing was expected to touch down at 25 m/s through the air and roll so far. */
function example(
  { rollM, touchdownMps, headwindMps, densityRatio }: Example,
  changes: Partial<Approach> = {},
  expectedRollM = 200,
): Flight {
  const compared = flight.compared.approaches[2];
  const { prediction } = compared;
  if (isUndetermined(prediction) || isUndetermined(prediction.landing))
    throw new Error('predicted');
  if (isUndetermined(prediction.speeds)) throw new Error('the demo aeroplane has speeds');
  const expected = {
    ...prediction,
    landing: { ...prediction.landing, expectedRollM },
    speeds: { ...prediction.speeds, touchdownMps: 25 },
    day: { ...prediction.day, densityRatio, headwindMps: headwindMps as number },
  };
  const model = landingLike(flight.events.approaches[2], {});
  if (isUndetermined(model.touchdown)) throw new Error('made up with a touchdown');
  const touchdown = { ...model.touchdown, groundSpeedMps: around(touchdownMps) };
  const approach = { ...model, touchdown, fullStopRollM: around(rollM), ...changes };
  return {
    ...flight,
    events: { ...flight.events, approaches: flight.events.approaches.with(2, approach) },
    compared: {
      ...flight.compared,
      approaches: flight.compared.approaches.with(2, { ...compared, prediction: expected }),
    },
  };
}

function why(other: Flight): string[] {
  const table = whyRows(other, 2, USUAL_UNITS);
  if (isUndetermined(table)) return [table.undetermined];
  const rows = table.rows.map(({ label, figure }) => `${label}: ${figureValue(figure)}`);
  return [table.heading, ...rows].map(plain);
}

describe('why a roll differed', () => {
  test('[ST100] is the speed alone, in a head wind, where the braking was as expected', () => {
    // 25 m/s less 5 m/s of head wind is 20 m/s; 20 m/s and 200 m is 1 m/s2 (0.10 g), at which 22 m/s
    // takes 242 m (v2 = 2 a s). 22 and 20 m/s are 43 and 39 kt.
    const it = { rollM: 242, touchdownMps: 22, headwindMps: 5, densityRatio: 1 };
    expect(why(example(it))).toEqual([
      'Why it was 42 m longer than expected',
      'ground speed at touchdown, 43 kt against 39: +42 m',
      'slowing down, 0.10 g against 0.10: 0 m',
      'wind, slope and surface: as entered, in the expected roll',
    ]);
  });

  test('[ST105] [ADD1] adds up as it is shown: the rolls, the difference in the heading, the rows', () => {
    // 258.6 m against 211.4 m read as 259 and 211: 48 m, though 47.2 m lie between them.
    const expectedM = 211.4;
    for (const touchdownMps of [21.1, 22, 23.3, 24.2]) {
      const it = { rollM: 258.6, touchdownMps, headwindMps: 5, densityRatio: 1 };
      const [heading, speed, slowing] = why(example(it, {}, expectedM));
      expect(heading).toBe('Why it was 48 m longer than expected');
      const metres = [speed, slowing].map((row) =>
        Number(/: ([+−]?\d+) m$/.exec(row)?.[1].replace('−', '-')),
      );
      expect(metres[0] + metres[1]).toBe(48);
    }
  });

  test('[ST101] counts a tail wind and thin air against the speed over the ground', () => {
    // At 0.81 of the density the same wing flies 25 / 0.9 = 27.8 m/s, with 2.2 m/s behind it 30 m/s:
    // touching at just that, all of the 100 m less is harder braking.
    const thin = { rollM: 100, touchdownMps: 30, headwindMps: 25 / 0.9 - 30, densityRatio: 0.81 };
    expect(why(example(thin)).slice(0, 3)).toEqual([
      'Why it was 100 m shorter than expected',
      'ground speed at touchdown, 58 kt against 58: 0 m',
      'slowing down, 0.46 g against 0.23: −100 m',
    ]);
  });

  test('[ST102] cannot be told of the braking without brakes', () => {
    if (isUndetermined(flight.aeroplane)) throw new Error('the demo flight has an aeroplane');
    const it = { rollM: 242, touchdownMps: 22, headwindMps: 5, densityRatio: 1 };
    const bare = { ...example(it), aeroplane: { ...flight.aeroplane, brakes: false } };
    expect(why(bare)[2]).toBe('slowing down: no brakes: cannot be told');
    expect(why(bare)[1]).toMatch(/\+42 m$/);
  });

  test('[ST103] has a reason where it cannot be split', () => {
    const it = { rollM: 242, touchdownMps: 22, headwindMps: 5, densityRatio: 1 };
    const none = undetermined('the log ends in the roll');
    expect(why(example(it, { touchdown: none }))).toEqual(['the log ends in the roll']);
    expect(why(example(it, { fullStopRollM: none }))).toEqual(['the log ends in the roll']);
    expect(why(example({ ...it, headwindMps: undetermined('no wind was entered') }))).toEqual([
      'no wind was entered',
    ]);
    // More head wind than speed: it would touch down standing.
    expect(why(example({ ...it, headwindMps: 26 }))).toEqual([
      'the expected touchdown speed over the ground is not positive',
    ]);
  });

  test('[ST104] is not called longer where the difference rounds to nought', () => {
    const same = { rollM: 200.3, touchdownMps: 20, headwindMps: 5, densityRatio: 1 };
    const [heading] = why(example(same));
    expect(heading).toBe('Why it was as long as expected');
  });
});
