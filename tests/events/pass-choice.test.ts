/** Which strip a pass that was never slow is told at: heights and places made by hand; rule SC1 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { keepBest, type ViewedPass } from '../../src/events/pass-choice.ts';
import type { StripView } from '../../src/events/strip-view.ts';
import type { Motion } from '../../src/track/motion.ts';

const FIXES = 80;
const SPEED_MPS = 30;

/** A strip in line with the flight: where it begins, how long it is, how far beside the flight it lies. */
interface Wish {
  readonly beginsM: number;
  readonly lengthM: number;
  readonly besideM: number;
  readonly stripId?: string | null;
}

/** The ids of the strips kept, of a flight straight on at 30 m/s, at a height by its metres flown. */
function kept(heightM: (flownM: number) => number, wishes: readonly Wish[]): (string | null)[] {
  const each = (value: (i: number) => number): Float64Array =>
    Float64Array.from({ length: FIXES }, (_, i) => value(i));
  const motion = {
    ...{ length: FIXES, timeS: each((i) => i), speedMps: each(() => SPEED_MPS) },
  } as unknown as Motion;
  const pass = {
    ...{ kind: 'arrival' as const, from: 0, to: FIXES, begunLate: false },
    referenceMps: SPEED_MPS,
  };
  const passes = wishes.map(({ beginsM, lengthM, besideM, stripId = `at ${beginsM}` }) => {
    const view = {
      ...{ stripId, listed: true, strip: { endsGuessed: false } },
      ...{ beginsAlongM: 0, endsAlongM: lengthM },
      smoothAlongM: each((i) => SPEED_MPS * i - beginsM),
      smoothCrossM: each(() => besideM),
      forwardMps: each(() => SPEED_MPS),
      smoothAboveM: each((i) => heightM(SPEED_MPS * i)),
    } as unknown as StripView;
    return { view, pass } satisfies ViewedPass;
  });
  return keepBest(motion, passes).map(({ view }) => view.stripId);
}

/** Down at an even slope to half a metre, and up again. */
const touchingAt =
  (atM: number, slope: number) =>
  (flownM: number): number =>
    0.5 + slope * Math.abs(flownM - atM);

const LONG = { beginsM: 600, lengthM: 900, besideM: 0 };
const BESIDE = { beginsM: 600, lengthM: 400, besideM: 40 };

describe('[SC1] a pass that was never slow', () => {
  test('[SC1] high over the threshold, but lowest well before the last part, is told at that strip', () => {
    // 300 m in, from 60 m up over the threshold: steep, but it is this strip that it came down to.
    expect(kept(touchingAt(900, 0.2), [LONG, BESIDE])).toEqual([`at ${LONG.beginsM}`]);
  });

  test('[SC1] lowest in the last 150 m after so high a threshold it was heading further on', () => {
    // 810 m in, 90 m before its end, from 49 m up over the threshold: 34 m too many, 1.6 m each.
    const further = { beginsM: 1500, lengthM: 900, besideM: 20 };
    expect(kept(touchingAt(1410, 0.06), [LONG, further])).toEqual([`at ${further.beginsM}`]);
    // Lowest 720 m in, 30 m before the last part begins, it is that of this strip.
    expect(kept(touchingAt(1317, 0.06), [LONG, further])).toEqual([`at ${LONG.beginsM}`]);
  });

  test('[SC1] from 15 m over the threshold, lowest in the last part, is a long landing there', () => {
    // Far higher before the threshold, as every approach is.
    const further = { beginsM: 1500, lengthM: 900, besideM: 5 };
    expect(kept(touchingAt(1410, 0.018), [LONG, further])).toEqual([`at ${LONG.beginsM}`]);
  });

  test('[SC1] is told where it was lowest, not at a strip passed before, however flat it came', () => {
    const behind = { beginsM: 0, lengthM: 500, besideM: 0 };
    const beside = { ...LONG, besideM: 20 };
    expect(kept(touchingAt(900, 0.05), [behind, beside])).toEqual([`at ${LONG.beginsM}`]);
    expect(kept(touchingAt(900, 0.015), [behind, beside])).toEqual([`at ${LONG.beginsM}`]);
  });

  test('[SC1] broken off before all strips it was made to the nearer, a metre ahead a tenth of one beside', () => {
    const far = { beginsM: 1500, lengthM: 500, besideM: 0 };
    const near = (besideM: number): Wish => ({ beginsM: 1000, lengthM: 450, besideM });
    // 600 m ahead are 60 m, 100 m ahead 10 m.
    expect(kept(touchingAt(900, 0.05), [far, near(49)])).toEqual(['at 1000']);
    expect(kept(touchingAt(900, 0.05), [far, near(51)])).toEqual(['at 1500']);
  });

  test('[SC1] a known strip comes before a place nobody has kept, 30 m of it', () => {
    const place = { ...LONG, stripId: null };
    const known = (besideM: number): Wish => ({ ...LONG, beginsM: 601, besideM });
    expect(kept(touchingAt(900, 0.05), [place, known(29)])).toEqual(['at 601']);
    expect(kept(touchingAt(900, 0.05), [place, known(31)])).toEqual([null]);
  });
});
