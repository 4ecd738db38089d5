/** What a visit needs against what is declared. Numbers are worked out here by hand. */
import { describe, expect, test } from 'vitest';
import { USUAL_UNITS } from '../../../src/report/figure-text.ts';
import {
  landingFigures,
  planLength,
  planWords,
  takeOffFigures,
} from '../../../src/report/story/visit-figures.ts';
import { rodsFrom, ropeFor } from '../../../src/report/pictures/rods.ts';
import { undetermined } from '../../../src/result.ts';
import { visitOf } from '../../drawings/demo-pictures.ts';

const NO_CHAIN = { expected: [], planned: [] };
const LANDING = {
  expectedRollM: 200,
  plannedRollM: 330,
  expectedFrom50FtM: 400,
  plannedFrom50FtM: 560,
  expectedAirM: 200,
  marginM: -60,
  latestTouchdownAlongM: 170,
  chain: NO_CHAIN,
};
const OWN = { landingWhole: 1.5, landingRoll: 1.2, takeOffWhole: null };
const NO_OWN = { landingWhole: null, landingRoll: null, takeOffWhole: null };
const plain = (text: string | null): string => (text ?? '').replaceAll('\u00a0', ' ');
const textOf = (figure: object | null): string =>
  figure && 'value' in figure ? String(figure.value) : JSON.stringify(figure);

describe('the figures of a landing', () => {
  test('[VI1] leave what is declared less what is needed, negative as plainly as positive', () => {
    const rows = landingFigures(LANDING, OWN, { ldaM: 500, endsGuessed: false }, USUAL_UNITS);
    const whole = rows.filter(({ of }) => of !== null);
    expect(
      whole.map(({ kind, figure, left, isShort }) => [kind, textOf(figure), textOf(left), isShort]),
    ).toEqual([
      ['expected', '400', '100', false],
      ['planned', '560', '\u221260', true],
      ['own', '600', '\u2212100', true],
    ]);
    expect(whole.map(({ of }) => plain(of))).toEqual(['LDA 500 m', 'LDA 500 m', 'LDA 500 m']);
  });

  test('[ADD1] leave what a reader comes to who takes one shown figure from the other', () => {
    // Drawn, not declared: 559.6 m reads as 560, 430.4 as 430, and 129.2 as 129.
    const drawn = { ...LANDING, expectedFrom50FtM: 430.4, plannedFrom50FtM: 600.5 };
    const rows = landingFigures(drawn, NO_OWN, { ldaM: 559.6, endsGuessed: false }, USUAL_UNITS);
    const [expected, planned] = rows.filter(({ of }) => of !== null);
    expect([expected, planned].map(({ of }) => plain(of))).toEqual(['LDA 560 m', 'LDA 560 m']);
    expect([textOf(expected.figure), textOf(expected.left)]).toEqual(['430', '130']);
    expect([textOf(planned.figure), textOf(planned.left)]).toEqual(['601', '\u221241']);
    expect(plain(planWords(600.5, 559.6, USUAL_UNITS))).toBe('plan 601 m of 560 m, 41 m too long');
  });

  test('[VI2] hold a ground roll against no length and no published factor', () => {
    const rolls = landingFigures(
      LANDING,
      OWN,
      { ldaM: 500, endsGuessed: false },
      USUAL_UNITS,
    ).filter(({ label }) => label.includes('roll'));
    expect(rolls.map(({ figure }) => textOf(figure))).toEqual(['200', '330', '240']);
    expect(rolls.every(({ of, left }) => of === null && left === null)).toBe(true);
  });

  test('[VI3] give the reason in place of a figure that cannot be had', () => {
    const lacking = {
      ...LANDING,
      expectedRollM: undetermined('the handbook gives 15 m figures only'),
    };
    const [row] = landingFigures(
      lacking,
      NO_OWN,
      { ldaM: 500, endsGuessed: false },
      USUAL_UNITS,
    ).filter(({ label }) => label === 'expected ground roll');
    expect(row.figure).toEqual({ reason: 'the handbook gives 15 m figures only' });
  });
});

describe('the figures of a take-off', () => {
  test('[VI4] hold distances to 50 ft against TODA and ground rolls against TORA', () => {
    const takeOff = {
      expectedRollM: 220,
      plannedRollM: 360,
      expectedTo50FtM: 350,
      plannedTo50FtM: 466,
      marginM: 0,
      chain: NO_CHAIN,
    };
    const rows = takeOffFigures(
      takeOff,
      NO_OWN,
      { toraM: 355, todaM: 480, endsGuessed: false },
      USUAL_UNITS,
    );
    expect(rows.map(({ of, left }) => [plain(of), textOf(left)])).toEqual([
      ['TODA 480 m', '130'],
      ['TODA 480 m', '14'],
      ['TORA 355 m', '135'],
      ['TORA 355 m', '\u22125'],
    ]);
  });
});

describe('the length to plan with', () => {
  test('[VI5] is never shortened by an own factor, and is lengthened by one', () => {
    expect(planLength(560, 500)).toEqual({ lengthM: 560, isOwn: false });
    expect(planLength(560, 600)).toEqual({ lengthM: 600, isOwn: true });
    expect(planLength(560, null)).toEqual({ lengthM: 560, isOwn: false });
    const none = undetermined('no table');
    expect(planLength(none, 600)).toEqual({ lengthM: none, isOwn: false });
  });

  test('[VI6] says by how much it is too long', () => {
    expect(plain(planWords(560, 500, USUAL_UNITS))).toBe('plan 560 m of 500 m, 60 m too long');
    expect(plain(planWords(440, 500, USUAL_UNITS))).toBe('plan 440 m of 500 m');
    expect(planWords(undetermined('no table'), 500, USUAL_UNITS)).toBeNull();
  });

  test('[VI34] where the ends are guessed no distance is held against the lengths', () => {
    expect(plain(planWords(560, null, USUAL_UNITS))).toBe('plan 560 m of a length that is a guess');
    const declared = { ldaM: 500, endsGuessed: true };
    for (const { of, left, isShort } of landingFigures(LANDING, OWN, declared, USUAL_UNITS)) {
      expect({ left, isShort }).toEqual({ left: null, isShort: false });
      if (of !== null) expect(plain(of)).toBe('LDA 500 m, guessed');
    }
    const rolls = { expectedM: 200, plannedM: 900, ownM: null };
    const ground = { ldaM: 500, endsGuessed: true };
    const rods = rodsFrom(100, 500, ground, rolls, USUAL_UNITS);
    expect(rods.map(({ leftText, isTooLong }) => [leftText, isTooLong])).toEqual([
      ['end guessed', false],
      ['end guessed', false],
    ]);
    expect(ropeFor(ground, rolls, USUAL_UNITS)).toEqual({
      rope: null,
      noRope: 'no latest touchdown point: the end is guessed',
    });
  });

  test('[VI34] nor half of a guess drawn as a mark to stop at', () => {
    const place = { stripId: 'ternholm', landing: '25', takeOff: '25' };
    expect(visitOf(place).takeOff.halfway?.label).toBe('half of TORA');
    expect(visitOf(place, { endsGuessed: true }).takeOff.halfway).toBeNull();
  });
});
