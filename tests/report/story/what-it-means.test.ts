/** Sentences at their edges, and the lines below them: ratio, latest touchdown point, doubtful wheels. */
import { describe, expect, test } from 'vitest';
import type { Flight } from '../../../src/debrief/debrief.ts';
import type { Approach, TakeOff } from '../../../src/events/flight-event.ts';
import { USUAL_UNITS, type PilotUnits } from '../../../src/report/figure-text.ts';
import { approachPicture, predictedRolls } from '../../../src/report/pictures/approach-picture.ts';
import {
  approachMeaning,
  approachSentence,
  takeOffMeaning,
  takeOffSentence,
} from '../../../src/report/story/sentence.ts';
import { ENDS_GUESSED } from '../../../src/strips/strip.ts';
import { isUndetermined, undetermined, type Measured } from '../../../src/result.ts';
import { demoContext } from '../../debrief/demo-flights.ts';
import { about, demoFlight, landingLike } from '../demo-flight.ts';

const { flight } = await demoFlight('2024-04-20-first-circuits-ternholm.gpx');
const [model] = flight.events.approaches;
const [run] = flight.events.takeOffs;
const FEET: PilotUnits = { length: 'ft', height: 'm', speed: 'mph' };
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const none = (why: string) => undetermined(why);
const say = (changes: Partial<Approach>, units = USUAL_UNITS): string =>
  plain(approachSentence(landingLike(model, changes), units));
const sayRun = (changes: Partial<TakeOff>): string =>
  plain(takeOffSentence({ ...run, ...changes }, USUAL_UNITS));

/** The flight with its landing, and what was planned and compared for it, replaced. */
function meaning(
  changes: Partial<Approach>,
  {
    latestM = 100,
    roll,
    whole,
    factor = null,
  }: { latestM?: number; roll?: Measured; whole?: Measured; factor?: number | null } = {},
): string[] {
  const approaches = flight.events.approaches.with(2, landingLike(model, changes));
  const compared = flight.compared.approaches[2];
  const { prediction } = compared;
  if (isUndetermined(prediction) || isUndetermined(prediction.landing)) {
    throw new Error('the demo landing is predicted');
  }
  const landing = { ...prediction.landing, latestTouchdownAlongM: latestM };
  const replaced = {
    ...compared,
    prediction: { ...prediction, landing },
    roll: { ...compared.roll, ratio: roll ?? compared.roll.ratio },
    whole: { ...compared.whole, ratio: whole ?? compared.whole.ratio },
  };
  const other: Flight = {
    ...flight,
    events: { ...flight.events, approaches },
    compared: {
      ...flight.compared,
      approaches: flight.compared.approaches.with(2, replaced),
    },
  };
  return approachMeaning(other, 2, USUAL_UNITS, factor).map(({ text, band }) =>
    plain(`${text} ${band}`).trim(),
  );
}

const touch = (alongM: Measured, shortProbability = 0): Approach['touchdown'] => {
  const { touchdown } = landingLike(model, {});
  if (isUndetermined(touchdown)) throw new Error('made up with a touchdown');
  return { ...touchdown, alongM, shortProbability };
};

describe('the sentence of an approach', () => {
  test('[ST40] at an unknown place speaks of the roll alone', () => {
    const here = none('no strip is known here');
    const { rollEnd } = landingLike(model, {});
    if (isUndetermined(rollEnd)) throw new Error('made up with an end');
    const changes = { touchdown: touch(here), stripLeftM: here };
    expect(say(changes)).toBe('Touched down, rolled 180 m and stopped.');
    expect(say({ ...changes, rollEnd: { ...rollEnd, kind: 'vacated' } })).toBe(
      'Touched down, rolled 180 m and turned off.',
    );
    expect(say({ ...changes, groundRollM: here })).toBe('Touched down and stopped.');
  });

  test('[ST41] ends as the roll ended', () => {
    const { rollEnd } = landingLike(model, {});
    if (isUndetermined(rollEnd)) throw new Error('made up with an end');
    const end = (kind: typeof rollEnd.kind, more: Partial<Approach> = {}): string =>
      say({ rollEnd: { ...rollEnd, kind }, ...more });
    expect(end('taxi')).toMatch(/rolled 180 m, was taxiing with 135 m left\.$/);
    expect(end('vacated')).toMatch(/rolled 180 m, turned off with 135 m left\.$/);
    expect(end('vacated', { stripLeftM: about(-3) })).toMatch(/turned off 3 m past the end\.$/);
    // Power opened: what is left of the strip is not what was left of the roll.
    expect(end('power', { outcome: 'touch-and-go' })).toBe(
      'Touched down 40 m in, rolled 180 m, and went again.',
    );
  });

  test('[ST42] in the units of the pilot', () => {
    // 40 m, 180 m and 135 m are 131, 591 and 443 ft (0.3048 m, by definition).
    expect(say({}, FEET)).toBe('Touched down 131 ft in, rolled 591 ft, stopped with 443 ft left.');
  });

  test('[ST43] of a log that ends in the roll says the touchdown and stays silent of the end', () => {
    const outcome = none('the log ends in the roll: a full stop or a touch-and-go');
    const end = none('the log ends before the roll does');
    expect(say({ outcome, rollEnd: end, groundRollM: end, stripLeftM: end })).toBe(
      'Touched down 40 m in.',
    );
  });

  test('[ST44] of a pass leaves out the height and the place that cannot be had', () => {
    const goAround = {
      initiationTimeS: about(0),
      lowestTimeS: about(10),
      lowestAboveM: about(3.048),
      lowestAlongM: about(16),
      contactProbability: 0,
    };
    const pass = (part: Partial<typeof goAround> | object): string =>
      say({ outcome: 'go-around', touchdown: none('no'), goAround: { ...goAround, ...part } });
    expect(pass({})).toBe('Went around, lowest 10 ft, 16 m past the threshold.');
    expect(pass({ lowestAlongM: none('no strip') })).toBe('Went around, lowest 10 ft.');
    expect(pass({ lowestAboveM: none('no height') })).toBe('Went around.');
  });
});

describe('the sentence of a take-off', () => {
  test('[ST45] says what is known and no more', () => {
    const why = none('the log begins in the run');
    const liftOff = { timeS: about(0), alongM: about(121), groundSpeedMps: about(25) };
    expect(sayRun({ groundRollM: why, liftOff, stripLeftM: about(379) })).toBe(
      'Lifted off 121 m in with 379 m left.',
    );
    expect(sayRun({ groundRollM: about(170), liftOff, stripLeftM: about(-4) })).toBe(
      'Ran 170 m, lifted off 121 m in, 4 m past the end.',
    );
    expect(sayRun({ groundRollM: about(170), liftOff: why, stripLeftM: why })).toBe('Ran 170 m.');
    expect(sayRun({ groundRollM: why, liftOff: why, stripLeftM: why })).toBe('Took off.');
    expect(sayRun({ kind: 'rejected', groundRollM: why })).toBe('Gave up the take-off.');
  });
});

describe('what a landing means', () => {
  test('[ST46] is the ratio of rolls, else that of the whole distance, else why there is none', () => {
    const roll = { value: 1.304, low: 0.881, high: 1.536 };
    const whole = { value: 0.984, low: 0.9, high: 1.1 };
    expect(meaning({}, { roll, whole })[0]).toBe('1.30 times the expected roll 0.88–1.54');
    expect(meaning({}, { roll: none('no roll'), whole })[0]).toBe(
      '0.98 times the expected distance from 50 ft, 220 m instead of 383 m 0.90–1.10',
    );
    const neither = meaning({}, { roll: none('no roll'), whole: none('no wind was entered') });
    expect(neither[0]).toBe('Not compared: no wind was entered.');
    const guess = meaning({}, { roll: none('no aeroplane'), whole: none(ENDS_GUESSED) });
    expect(guess[0]).toBe('Not compared: no aeroplane.');
  });

  test('[ST47] is how far before or past the latest touchdown point, the band turned with it', () => {
    const at = { value: 40, low: 30, high: 55 };
    const latest = (latestM: number) => meaning({ touchdown: touch(at) }, { latestM }).at(-1);
    expect(latest(100)).toBe('Down 60 m before the latest touchdown point 45–70');
    expect(latest(15)).toBe('Down 25 m past the latest touchdown point 15–40');
    // A planned roll longer than the strip: the point lies before the threshold.
    expect(latest(-20)).toBe(
      'Down 60 m too late for the planned roll, which is 20 m longer than the LDA 50–75',
    );
    expect(latest(45)).toBe('Down 5 m before the latest touchdown point −10–15');
    // Touched before that point, which is none: not "before the latest touchdown point".
    const short = { value: -60, low: -75, high: -50 };
    expect(meaning({ touchdown: touch(short) }, { latestM: -7 }).at(-1)).toBe(
      'Down 53 m early enough for the planned roll, which is 7 m longer than the LDA 43–68',
    );
    const nowhere = meaning({ touchdown: touch(none('no strip is known here')) });
    expect(nowhere.some((line) => line.includes('latest'))).toBe(false);
  });

  test('[ST47] is that of the planned roll by name where the strip shows the one by the own factor', () => {
    const at = { touchdown: touch({ value: 40, low: 30, high: 55 }) };
    const told = (factor: number) => meaning(at, { factor }).at(-1);
    const drawn = (ownRollFactor: number) => {
      const options = { units: USUAL_UNITS, aimM: null, ownRollFactor };
      const picture = approachPicture(flight, 2, demoContext().strips, options);
      if (isUndetermined(picture)) throw new Error(picture.undetermined);
      return picture;
    };
    const { expectedM, plannedM } = predictedRolls(flight, 2, null);
    const longer = (1.05 * Number(plannedM)) / Number(expectedM);
    const rowOf = (factor: number) => drawn(factor).rows.map(({ label }) => label);
    expect(told(1)).toBe('Down 60 m before the latest touchdown point 45–70');
    expect(rowOf(1)).toContain('latest touchdown point');
    expect(told(longer)).toBe(
      'Down 60 m before the latest touchdown point of the planned roll 45–70',
    );
    expect(rowOf(longer)).toContain('latest touchdown point by the own factor');
    expect(told(9)).toBe(told(longer));
    expect(drawn(9).noRope).toMatch(
      /^no latest touchdown point by the own factor: the roll is \d+\sm longer than the LDA$/,
    );
  });

  test('[ST48] says a chance of being short from 5 in 100 on', () => {
    const chance = (share: number) =>
      meaning({ touchdown: touch(about(3), share) }).find((line) => line.startsWith('Short'));
    expect(chance(0.04)).toBeUndefined();
    expect(chance(0.31)).toBe('Short of the threshold with a chance of 31 in 100.');
    expect(chance(1)).toBe('Short of the threshold with a chance of 100 in 100.');
    // Put there by hand: the sentence above says it already.
    const exact = meaning({ touchdown: touch({ value: -4, low: -4, high: -4 }, 1) });
    expect(exact.some((line) => line.startsWith('Short'))).toBe(false);
  });

  test('[ST49] of a pass is whether its wheels may have touched', () => {
    const pass = (contactProbability: number, outcome: Approach['outcome'] = 'go-around') =>
      meaning({ outcome, contactProbability, touchdown: none('no') });
    expect(pass(0.02)).toEqual([]);
    expect(pass(0.2)).toEqual(['The wheels may have touched: 20 in 100.']);
    expect(pass(0.2, 'low-pass')).toEqual(['The wheels may have touched: 20 in 100.']);
    // Nobody can tell which it was: then above all.
    expect(pass(0.5, none('a touch or a pass'))[0]).toBe('The wheels may have touched: 50 in 100.');
    // With the wheels surely down nobody asks.
    expect(meaning({}).some((line) => line.includes('may have touched'))).toBe(false);
  });
});

describe('what a take-off means', () => {
  test('[ST50] is the ratio of runs, and nothing where it was given up', () => {
    const [first] = takeOffMeaning(flight, 0);
    const { ratio } = flight.compared.takeOffs[0].roll;
    if (isUndetermined(ratio)) throw new Error('the demo run is compared');
    expect(first.text).toBe(`${ratio.value.toFixed(2)} times the expected run`);
    const takeOffs = flight.events.takeOffs.with(0, { ...run, kind: 'rejected' });
    const rejected = { ...flight, events: { ...flight.events, takeOffs } };
    expect(takeOffMeaning(rejected, 0)).toEqual([]);
  });
});
