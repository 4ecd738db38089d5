/** Figures of a circuit and how it was joined, from legs made by hand; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { describeCircuit } from '../../src/events/circuit-figures.ts';
import { BANK, LEG, TURN } from '../../src/events/circuit-tuning.ts';
import { offsetOf } from '../../src/events/ground-tie.ts';
import { joinOf } from '../../src/events/join.ts';
import type { LegName, NamedLeg } from '../../src/events/leg-track.ts';
import type { StripView } from '../../src/events/strip-view.ts';
import { TiedHeights } from '../../src/events/tied-heights.ts';
import { isUndetermined, Z90 } from '../../src/result.ts';
import { placeSdM } from '../../src/strips/place-error.ts';
import { ENDS_GUESSED } from '../../src/strips/strip.ts';
import type { Motion } from '../../src/track/motion.ts';
import { GRAVITY_MPS2 } from '../../src/units/convert.ts';
import { expectNear } from '../expect-near.ts';
import { makeRun } from './made-motion.ts';
import { bandOf } from './simulated.ts';

const { view: VIEW, motion: MADE } = makeRun({
  ...{ fromAlongM: -900, lengthS: 120, speedMps: () => 30 },
});

/** A motion at these times, with what it is asked for. */
const motionOf = (timeS: Float64Array, rest: Partial<Motion>): Motion => ({
  ...MADE,
  ...{ timeS, length: timeS.length, hasHeight: false },
  ...rest,
});

const leg = (name: LegName, from: number, settled: number, to: number): NamedLeg => ({
  leg: name,
  stretch: {
    ...{ heading: 'along', from, settled, to },
    ...{ fromS: from, settledS: settled, toS: to },
  },
});

const everyS = (count: number): Float64Array => Float64Array.from({ length: count }, (_, k) => k);

function figures(motion: Motion, view: StripView, named: readonly NamedLeg[]) {
  const heights = new TiedHeights(motion, view, () =>
    offsetOf(
      { weight: Float64Array.of(1), mean: Float64Array.of(0), sd: Float64Array.of(1) },
      true,
    ),
  );
  const end = motion.length - 1;
  return describeCircuit(motion, view, heights, { named, side: 'left', orbits: [], end });
}

describe('[CI10] a leg between two turns whose moments are doubtful', () => {
  const named = [leg('downwind', 0, 10, 16), leg('base', 16, 20, 30), leg('final', 30, 34, 40)];
  /** Downwind with a column that grows by so much a second through it. */
  const flown = (slope: number) => {
    const timeS = everyS(41);
    const column = timeS.map((t) => 35 + slope * (t - 13));
    const motion = motionOf(timeS, { speedMps: column });
    const view = { ...VIEW, smoothCrossM: timeS.map((t) => -700 + 20 * slope * (t - 13)) };
    return figures(motion, view, named);
  };
  /** One sd of the mean of a column over 6 s with such a slope, by both ends together. */
  const endsSd = (slope: number): number => {
    const momentS = Math.hypot(TURN.began.sdS, TURN.began.sdPerStep);
    return Math.SQRT2 * ((3 * Math.abs(slope)) / 6) * momentS;
  };

  test.each([0, 2, -2])('[CI10] has a mean speed as doubtful as its ends, at %d m/s2', (slope) => {
    const { value, low, high } = bandOf(flown(slope).legs[0].groundSpeedMps);
    expectNear(value, 35, 1e-9);
    const sdMps = Math.hypot(LEG.speedSdMps, LEG.speedSdPerStep, endsSd(slope));
    expectNear(high - low, 2 * Z90 * sdMps, 0.01);
  });

  test.each([0, 2, -2])('[CI10] and a spacing too, %d times 20 m askew a second', (slope) => {
    const { value, low, high } = bandOf(flown(slope).downwindSpacingM);
    expectNear(value, 700, 1e-9);
    const sdM = Math.hypot(2, placeSdM(VIEW.strip), endsSd(20 * slope));
    expectNear(high - low, 2 * Z90 * sdM, 0.05);
  });
});

describe('[CI10] a turn beside a hole of the log', () => {
  /** How far before the threshold base was turned on to, with a step of so many seconds there. */
  const baseTurn = (stepS: number) => {
    const timeS = everyS(41).map((t) => (t < 17 ? t : t + stepS - 1));
    const legAt = (name: LegName, from: number, settled: number, to: number): NamedLeg => {
      const { leg: named, stretch } = leg(name, from, settled, to);
      const [fromS, settledS, toS] = [from, settled, to].map((i) => timeS[i]);
      return { leg: named, stretch: { ...stretch, fromS, settledS, toS } };
    };
    const legs = [legAt('downwind', 0, 10, 16), legAt('base', 16, 20, 30)];
    const motion = motionOf(timeS, { speedMps: timeS.map(() => 35) });
    return figures(motion, VIEW, [...legs, legAt('final', 30, 34, 40)]).baseTurnPastThresholdM;
  };

  test('[CI10] of ten seconds is still placed, of more nobody knows where it began', () => {
    // Made to fly from 900 m before the threshold at 30 m/s.
    expectNear(bandOf(baseTurn(10)).value, 900 - 30 * 16, 60);
    expect(baseTurn(10.5)).toEqual({ undetermined: 'the log has a hole of 11 s there' });
  });
});

test('[UP4] where the ends are guessed neither final nor base turn is counted from a threshold', () => {
  const legs = [leg('downwind', 0, 10, 16), leg('base', 16, 20, 30), leg('final', 30, 34, 40)];
  const timeS = everyS(41);
  const motion = motionOf(timeS, { speedMps: timeS.map(() => 30) });
  const told = figures(motion, VIEW, legs);
  expect(isUndetermined(told.baseTurnPastThresholdM)).toBe(false);
  const strip = { ...VIEW.strip, endsGuessed: true };
  const { finalLengthM, baseTurnPastThresholdM } = figures(motion, { ...VIEW, strip }, legs);
  expect(finalLengthM).toEqual({ undetermined: ENDS_GUESSED });
  expect(baseTurnPastThresholdM).toEqual({ undetermined: ENDS_GUESSED });
});

describe('[CI11] where a final was lined up', () => {
  /** The length of a final whose track is so many degrees off the landing direction, second by second. */
  const finalLength = (offDeg: (t: number) => number) => {
    const timeS = everyS(31);
    const rad = timeS.map((t) => (offDeg(t) * Math.PI) / 180);
    const view = {
      ...VIEW,
      forwardMps: rad.map((angle) => 30 * Math.cos(angle)),
      rightMps: rad.map((angle) => 30 * Math.sin(angle)),
    };
    const motion = motionOf(timeS, {
      ...{ speedMps: timeS.map(() => 30), speedSdMps: timeS.map(() => 0.4) },
      ...{ velocityEastMps: timeS.map(() => 0), velocityNorthMps: timeS.map(() => 30) },
      ...{ accelerationNorthMps2: timeS.map(() => 0), accelerationEastMps2: timeS.map(() => 0) },
    });
    return bandOf(
      figures(motion, view, [leg('base', 0, 1, 2), leg('final', 2, 8, 30)]).finalLengthM,
    );
  };

  test.each([14.5, 15.5])(
    '[CI11] is open where the track keeps within its own error of the limit: %d degrees for ten seconds',
    (askewDeg) => {
      // Turning in until 8 s, askew until 17 s, straight from 20 s on.
      const { low, high } = finalLength((t) =>
        t < 8 ? askewDeg + 5 * (8 - t) : t < 18 ? askewDeg : Math.max(0, askewDeg - 7 * (t - 17)),
      );
      expect(low).toBeLessThan(900 - 30 * 17);
      expect(high).toBeGreaterThan(900 - 30 * 8);
    },
  );

  test('[CI10] counts from where it was lined up for good, not from a first look along it', () => {
    const finalM = finalLength((t) => (t < 5 ? 40 : t < 9 ? 5 : t < 14 ? 30 : 0));
    expectNear(finalM.value, 900 - 30 * 13.5, 30);
  });

  test('[CI10] is no shorter than nothing where it never was', () => {
    expect(finalLength(() => 40).low).toBe(0);
  });

  test('[CI11] is as sure as before where the track turns through the limit', () => {
    const { low, high } = finalLength((t) => Math.max(0, 40 - 5 * t));
    const momentM =
      30 * Math.cos((15 * Math.PI) / 180) * Math.hypot(TURN.linedUp.sdS, TURN.linedUp.sdPerStep);
    expectNear(high - low, 2 * Z90 * Math.hypot(2, placeSdM(VIEW.strip), momentM), 0.5);
  });
});

describe('[CI4] the steepest bank in a log that skips moments', () => {
  /** A turn that is steepest, 30 degrees, half-way through its 40 s, seen at these times. */
  const steepest = (times: readonly number[]) => {
    const timeS = Float64Array.from(times);
    const bank = (t: number): number => (t < 20 || t > 60 ? 0 : 30 - Math.abs(t - 40) / 10);
    const motion = motionOf(timeS, {
      speedMps: timeS.map(() => 30),
      ...{ velocityEastMps: timeS.map(() => 0), velocityNorthMps: timeS.map(() => 30) },
      accelerationNorthMps2: timeS.map(() => 0),
      accelerationEastMps2: timeS.map((t) => GRAVITY_MPS2 * Math.tan((bank(t) * Math.PI) / 180)),
    });
    const along = timeS.map((t) => -2000 + 20 * t);
    const view = {
      ...{ ...VIEW, smoothAlongM: along, smoothCrossM: timeS.map(() => 0) },
      ...{ forwardMps: timeS.map(() => 30), rightMps: timeS.map(() => 0) },
    };
    return bandOf(
      figures(motion, view, [leg('base', 0, 0, 3), leg('final', 3, 4, times.length)])
        .steepestBankDeg,
    );
  };
  const sixes = Array.from({ length: 14 }, (_, k) => 6 * k - 2);
  const around = [36, 37, 38, 39, 41, 42, 43, 44];

  test('[CI4] may have been rounded off less where fixes stand close beside it, so it may be less', () => {
    const even = steepest(sixes);
    const uneven = steepest([...sixes, ...around].toSorted((a, b) => a - b));
    expectNear(even.value, 30 + 6 * BANK.roundedOffPerS - BANK.seenDeg, 0.01);
    expectNear(uneven.value, even.value, 0.01);
    expectNear(uneven.high, even.high, 0.01);
    // Half of what a log every 6 s rounds off more than one every second.
    expectNear(even.low - uneven.low, (BANK.roundedOffPerS * (6 - 1)) / 2, 0.7);
  });
});

describe('[CI2] an overhead join', () => {
  /** Over the strip 600 m up, to the dead side and down, across to downwind on the left at 300 m. */
  const timeS = everyS(181);
  const crossM = timeS.map((t) =>
    t < 40 ? 15 * t : t < 60 ? 600 : Math.max(-700, 600 - 20 * (t - 60)),
  );
  const highM = timeS.map((t) => (t < 40 ? 600 : Math.max(300, 600 - 10 * (t - 40))));
  const view = {
    ...{ ...VIEW, smoothCrossM: crossM, smoothAboveM: highM },
    smoothAlongM: timeS.map(() => 400),
  };
  const motion = motionOf(timeS, { hasHeight: true });
  const legs = [leg('crosswind', 60, 70, 120), leg('downwind', 120, 130, 170)];

  test('[CI2] counts from the turn on to downwind, another one from that on to its first leg', () => {
    const overhead = joinOf(motion, view, legs, 'left');
    expect(overhead).toMatchObject({ kind: 'overhead', timeS: 120 });
    const low = { ...view, smoothAboveM: timeS.map(() => 300) };
    expect(joinOf(motion, low, legs, 'left')).toMatchObject({ kind: 'crosswind', timeS: 60 });
    expect(joinOf(motion, low, legs.slice(1), 'left')).toMatchObject({
      ...{ kind: 'downwind', timeS: 120 },
    });
    expect(joinOf(motion, view, [], 'left')).toBeNull();
  });

  test('[CI2] is none where the aircraft was last overhead before it took off elsewhere', () => {
    expect(joinOf(motion, view, legs, 'left', 20)).toMatchObject({ kind: 'overhead' });
    expect(joinOf(motion, view, legs, 'left', 45)).toMatchObject({ kind: 'crosswind' });
  });

  test('[CI2] is none where it came down on the side of the circuit', () => {
    const crossed = timeS.map((t) => Math.max(-700, -15 * Math.max(0, t - 40)));
    const straight = { ...view, smoothCrossM: crossed };
    expect(joinOf(motion, straight, legs, 'left')).toMatchObject({ kind: 'crosswind' });
  });
});
