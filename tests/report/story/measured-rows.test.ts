/** Measured figures in rows: the flight's own numbers, or the reason why there is none. */
import { describe, expect, test } from 'vitest';
import type { Approach, TakeOff } from '../../../src/events/flight-event.ts';
import { hasFigure, USUAL_UNITS } from '../../../src/report/figure-text.ts';
import {
  approachRows,
  takeOffRows,
  type MeasuredRow,
} from '../../../src/report/story/measured-rows.ts';
import { isUndetermined, undetermined } from '../../../src/result.ts';
import { about, demoFlight, landingLike } from '../demo-flight.ts';

const { flight } = await demoFlight('2024-04-20-first-circuits-ternholm.gpx');
const [model] = flight.events.approaches;
const [run] = flight.events.takeOffs;
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const rowsOf = (changes: Partial<Approach>): MeasuredRow[] =>
  approachRows(landingLike(model, changes), 1, USUAL_UNITS);
const runRows = (changes: Partial<TakeOff>, halfM: number | null = null): MeasuredRow[] =>
  takeOffRows({ ...run, ...changes }, halfM, USUAL_UNITS);

function figure(rows: readonly MeasuredRow[], label: string): string {
  const row = rows.find((each) => each.label === label);
  if (!row) throw new Error(`no row ${label}`);
  return hasFigure(row.figure)
    ? plain(`${row.figure.value} ${row.figure.unit} ${row.figure.band}`)
    : row.figure.reason;
}

const CROSSING = {
  timeS: about(0),
  aboveM: { value: 15.24, low: 12.192, high: 18.288 },
  crossM: about(0),
  groundSpeedMps: { value: 25.72, low: 25.2, high: 26.2 },
};

describe('rows of a landing', () => {
  test('[ST30] stand in the order flown, each with how it was found', () => {
    const rows = rowsOf({ thresholdCrossing: CROSSING });
    expect(rows.map(({ label }) => label)).toEqual([
      'over the threshold',
      'touchdown',
      'ground speed at touchdown',
      'from the threshold or 50 ft to touchdown',
      'bounces',
      'stopped',
      'ground roll',
      'from the threshold or 50 ft to the end of the roll',
      'roll at the hardest braking held for 2 s',
      'strip left',
    ]);
    for (const { how, label } of rows) expect(how.length, label).toBeGreaterThan(30);
    // 15.24 m are 50 ft, 25.72 m/s are 50.0 kt (definitions of foot and knot).
    expect(figure(rows, 'over the threshold')).toBe('50 ft 40–60');
    expect(plain(rows[0].beside)).toBe('at 50 kt 48–51 over the ground');
    expect(figure(rows, 'touchdown')).toBe('40 m 35–45');
    expect(figure(rows, 'bounces')).toBe('1  ');
    expect(figure(rows, 'ground roll')).toBe('180 m 175–185');
    expect(figure(rows, 'strip left')).toBe('135 m 130–140');
  });

  test('[ST31] show a strip left below nought as plainly, with a true minus', () => {
    expect(figure(rowsOf({ stripLeftM: about(-8) }), 'strip left')).toBe('−8 m −13 to −3');
  });

  test('[ST32] give the extrapolated roll only where no stop was seen', () => {
    const label = 'roll to a full stop, extrapolated';
    expect(rowsOf({}).some((row) => row.label === label)).toBe(false);
    const { rollEnd } = landingLike(model, {});
    if (isUndetermined(rollEnd)) throw new Error('made up with an end');
    for (const [kind, words] of [
      ['taxi', 'taxiing on'],
      ['vacated', 'turned off'],
      ['power', 'power opened'],
    ] as const) {
      const rows = rowsOf({ rollEnd: { ...rollEnd, kind }, fullStopRollM: about(240) });
      expect(figure(rows, label)).toBe('240 m 235–245');
      expect(figure(rows, words)).toBe('220 m 215–225');
    }
  });

  test('[ST33] say why, where a figure cannot be had, and never show nought for it', () => {
    const why = undetermined('the log ends in the roll');
    const rows = rowsOf({ thresholdCrossing: why, touchdown: why, rollEnd: why, groundRollM: why });
    for (const label of [
      'over the threshold',
      'touchdown',
      'ground speed at touchdown',
      'bounces',
      'end of the roll',
      'ground roll',
    ]) {
      expect(figure(rows, label), label).toBe('the log ends in the roll');
    }
    expect(rows[0].beside).toBe('');
    // A speed that cannot be had is no figure to stand behind another.
    const slow = { ...CROSSING, groundSpeedMps: undetermined('too few fixes') };
    expect(rowsOf({ thresholdCrossing: slow })[0].beside).toBe('');
  });

  test('[ST34] of a go-around end with its lowest height', () => {
    const goAround = {
      initiationTimeS: about(0),
      lowestTimeS: about(5),
      lowestAboveM: { value: 3.048, low: 0.3048, high: 6.096 },
      lowestAlongM: about(-44),
      contactProbability: 0.1,
    };
    const rows = rowsOf({ goAround, outcome: 'go-around' });
    expect(rows.map(({ label }) => label)).toEqual(['over the threshold', 'lowest height']);
    expect(figure(rows, 'lowest height')).toBe('10 ft 1–20');
  });
});

describe('rows of a take-off', () => {
  test('[ST35] are in the order flown, with the share of lift-off speed at half way', () => {
    const rows = runRows({
      brakeRelease: { timeS: about(0), alongM: about(-60) },
      liftOff: { timeS: about(9), alongM: about(121), groundSpeedMps: about(25.72) },
      groundRollM: about(181),
      screen: { timeS: about(15), distanceM: about(390) },
      halfway: {
        groundSpeedMps: about(20),
        shareOfLiftOff: { value: 0.684, low: 0.652, high: 0.711 },
      },
      stripLeftM: about(379),
    });
    expect(figure(rows, 'brake release')).toBe('−60 m −65 to −55');
    expect(figure(rows, 'lift-off')).toBe('121 m 116–126');
    expect(figure(rows, 'take-off ground roll')).toBe('181 m 176–186');
    expect(figure(rows, 'brake release to 50 ft')).toBe('390 m 385–395');
    // The band's ends outwards, as all bands.
    expect(figure(rows, 'speed at half the TORA, share of lift-off')).toBe('68 % 65–72');
    expect(figure(rows, 'strip left at lift-off')).toBe('379 m 374–384');
    const half = rows.find(({ label }) => label.startsWith('speed at half'));
    expect(half?.how).toMatch(/reason to stop\. It is never a reason to go\.$/);
  });

  test('[ST37] say that it was off by half way where the lift-off lies before it', () => {
    const changes = {
      liftOff: { timeS: about(9), alongM: about(121), groundSpeedMps: about(25.72) },
      halfway: {
        groundSpeedMps: about(26),
        shareOfLiftOff: { value: 1.01, low: 0.97, high: 1.05 },
      },
    };
    const said = (halfM: number) =>
      figure(runRows(changes, halfM), 'speed at half the TORA, share of lift-off');
    expect(said(124)).toMatch(/^off the ground by then, more likely than not/);
    expect(said(118)).toBe('101 % 97–105');
    const why = undetermined('the log begins in the run');
    const open = { ...changes, halfway: { ...changes.halfway, shareOfLiftOff: why } };
    expect(figure(runRows(open, 124), 'speed at half the TORA, share of lift-off')).toMatch(
      /begins in the run/,
    );
  });

  test('[ST36] say why for each that is missing', () => {
    const why = undetermined('the log begins in the run');
    const rows = runRows({
      brakeRelease: why,
      liftOff: { timeS: about(9), alongM: about(121), groundSpeedMps: why },
      groundRollM: why,
      screen: why,
      halfway: why,
    });
    for (const label of ['brake release', 'take-off ground roll', 'brake release to 50 ft']) {
      expect(figure(rows, label)).toBe('the log begins in the run');
    }
    expect(figure(rows, 'speed at half the TORA, share of lift-off')).toMatch(/begins in the run/);
    expect(rows.find(({ label }) => label === 'lift-off')?.beside).toBe('');
  });
});
