/** Bands of what is derived beside the events, held against made motions and worked by hand; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { commitCheck } from '../../src/events/commit-point.ts';
import type { Gate, GoAround, TouchdownPosterior } from '../../src/events/flight-event.ts';
import { halfwayCheck } from '../../src/events/halfway-check.ts';
import { fullStopRoll } from '../../src/events/landing.ts';
import {
  airDistance,
  landingDistance,
  type LandingStart,
} from '../../src/events/landing-distance.ts';
import { findRollEnd } from '../../src/events/roll-end.ts';
import { changeWithin } from '../../src/events/smoothed-speed.ts';
import { normalCdf } from '../../src/numeric/posterior.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined, undetermined, Z90, type Estimate } from '../../src/result.ts';
import { ENDS_GUESSED } from '../../src/strips/strip.ts';
import { placeSdM } from '../../src/strips/place-error.ts';
import { expectNear } from '../expect-near.ts';
import { drawReceiver } from '../synthetic/population.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { makeRun } from './made-motion.ts';
import { bandOf, eventsOf, holds, onlyOne, valueOf } from './simulated.ts';

/** A touchdown known to half a metre and 0.2 m/s, beside the receiver's drift. */
function knownTouchdown(timeS: number, alongM: number, speedMps: number): TouchdownPosterior {
  const one = (value: number): Float64Array => Float64Array.of(value);
  return {
    ...{ timeS: one(timeS), weight: one(1), alongM: one(alongM) },
    alongSdM: one(Math.hypot(2, 0.5)),
    ...{ speedMps: one(speedMps), speedSdMps: one(0.2), arrival: null },
  };
}

describe('[RO1] a roll of which the log holds a part', () => {
  // From 20 m/s at 2 m/s2; the log ends at 10 m/s, 75 m from touchdown, 25 m before the standstill.
  const { motion, view, startS } = makeRun({
    ...{ fromAlongM: 50, lengthS: 5, intervalS: 0.2 },
    speedMps: (t) => 20 - 2 * t,
  });
  const roll = bandOf(
    fullStopRoll(motion, view, knownTouchdown(startS, 50, 20), motion.length - 1),
  );

  test('[RO1] may be braked harder or easier by a fifth from there on', () => {
    expectNear(roll.value, 100, 1);
    const rest = (share: number): number => 10 ** 2 / (2 * 2 * share);
    expect(holds(roll, 75 + rest(0.8))).toBe(true);
    expect(holds(roll, 75 + rest(1.2))).toBe(true);
    // And not by half: a constant braking of five seconds says more than that.
    expect(roll.high).toBeLessThan(75 + rest(0.5));
  });

  test('[RO1] is no shorter than what was surely rolled, however doubtful the rest', () => {
    let told = 0;
    for (let seed = 0; seed < 40; seed++) {
      const part = makeRun({
        ...{ fromAlongM: 50, lengthS: 6, intervalS: 0.5, noiseSdM: 0.6, seed },
        speedMps: (t) => 20 - 0.5 * t,
      });
      const found = fullStopRoll(
        part.motion,
        part.view,
        knownTouchdown(part.startS, 50, 20),
        part.motion.length - 1,
      );
      if (isUndetermined(found)) continue;
      told++;
      // 111 m rolled, known to the noise and half a metre at either end.
      expect(found.low, `seed ${seed}`).toBeGreaterThan(108);
      // From 17 m/s the friction of grass alone stops it within 17^2 / (2 x 0.25) = 578 m; the last
      // speed, at the end of a short noisy log, may be 1.7 m/s too great, which is 120 m of it.
      expect(found.high, `seed ${seed}`).toBeLessThan(111 + 578 + 120);
      bandOf(found);
    }
    expect(told).toBeGreaterThan(5);
  });
});

describe('[RE1] the last creep', () => {
  test('[RE1] slower than twice the limit of a standstill it is no taxi but belongs to the roll', () => {
    const creeps = (creepMps: number) => {
      const { motion, view, trueAlongM } = makeRun({
        ...{ fromAlongM: 100, lengthS: 40 },
        speedMps: (t) => (t < 7 ? 15 - 2 * t : t < 20 ? creepMps : 0),
      });
      return { end: findRollEnd(motion, view, 0, motion.length), stopM: trueAlongM(40) };
    };
    const slow = creeps(0.8);
    expect(slow.end?.kind).toBe('stopped');
    expectNear(slow.end?.alongM ?? NaN, slow.stopM, 1);
    expect(creeps(1.3).end?.kind).toBe('taxi');
  });
});

describe('[RO2] the roll at the hardest braking', () => {
  test('[RO2] is as doubtful as the square of the touchdown speed, at least', () => {
    for (let seed = 500; seed < 508; seed++) {
      const scenario = flyDrawnApproach(seed, 'full-stop', {
        roll: { end: 'stopped', brakes: { mps2: 2 } },
      });
      const receiver = drawReceiver(createRandom(seed), 1);
      const { hardestBrakingRollM, touchdown } = onlyOne(
        eventsOf(scenario, { seed, receiver }).approaches,
      );
      if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
      const roll = bandOf(hardestBrakingRollM);
      const speed = bandOf(touchdown.groundSpeedMps);
      const ofSpeed = 2 * Math.log(speed.high / speed.low);
      expect(Math.log(roll.high / roll.low), `seed ${seed}`).toBeGreaterThan(0.99 * ofSpeed);
    }
  });
});

describe('[RE1] when a roll stopped', () => {
  test.each([1, 2, 4])(
    '[RE1] [RO1] [RO2] is when it slowed below 0.5 m/s, every %d s; the whole roll ends there, and the hardest braking needs no more',
    (intervalS) => {
      let held = 0;
      const offS: number[] = [];
      for (let seed = 560; seed < 600; seed++) {
        const scenario = flyDrawnApproach(seed, 'full-stop', { roll: { end: 'stopped' } });
        const [{ rollEnd: truth }] = scenario.flown.truth.approaches;
        const receiver = drawReceiver(createRandom(seed), intervalS);
        const landing = onlyOne(eventsOf(scenario, { seed, receiver }).approaches);
        const { rollEnd, groundRollM, fullStopRollM, hardestBrakingRollM: hardest } = landing;
        if (isUndetermined(rollEnd) || rollEnd.kind !== 'stopped') continue;
        expect(fullStopRollM).toEqual(groundRollM);
        if (!isUndetermined(hardest)) {
          const whole = bandOf(fullStopRollM);
          expect(hardest.value, `seed ${seed}`).toBeLessThanOrEqual(whole.value);
          expect(hardest.high, `seed ${seed}`).toBeLessThanOrEqual(whole.high);
        }
        expect(bandOf(rollEnd.groundSpeedMps).low).toBe(0);
        const trueS = truth?.timeS ?? NaN;
        if (holds(rollEnd.timeS, trueS)) held++;
        offS.push(Math.abs(valueOf(rollEnd.timeS) - trueS));
      }
      expect(offS.length).toBeGreaterThan(30);
      // Of 40 bands that hold nine times in ten, fewer than 31 hold once in 150 draws (binomial).
      expect(held / offS.length).toBeGreaterThan(0.77);
      expect(offS.toSorted((a, b) => a - b)[offS.length >> 1]).toBeLessThan(0.3 * intervalS + 0.2);
    },
  );
});

describe('[LD1] the landing distance, worked by hand', () => {
  const scenario = flyDrawnApproach(503, 'full-stop', { roll: { end: 'stopped' } });
  const { approaches, views } = eventsOf(scenario, { seed: 503 });
  const landing = onlyOne(approaches);
  const [view] = views;
  const stopAt = (alongM: Estimate) => {
    if (isUndetermined(landing.rollEnd)) throw new Error(landing.rollEnd.undetermined);
    return { ...landing, rollEnd: { ...landing.rollEnd, alongM } };
  };
  const stopped = stopAt({ value: 200, low: 196, high: 204 });
  const { thresholdCrossing: crossing } = landing;
  if (isUndetermined(crossing)) throw new Error(crossing.undetermined);
  const crossingAt = (aboveM: Estimate): LandingStart => ({
    ...{ view, gates: [] },
    crossing: { ...crossing, aboveM },
  });
  const fiftyAt = (alongM: Estimate): LandingStart => {
    const gate: Gate = { ...landing.gates[0], heightFt: 50, alongM };
    return { view, gates: [gate], crossing };
  };

  test('[LD1] from 50 ft it is as doubtful as stop and start together', () => {
    const found = bandOf(landingDistance(stopped, fiftyAt({ value: 80, low: 50, high: 120 })));
    expectNear(found.value, 120, 1e-9);
    expectNear(found.low, 120 - Math.hypot(4, 40), 1e-9, 'the start further on');
    expectNear(found.high, 120 + Math.hypot(4, 30), 1e-9, 'the start further back');
  });

  test('[LD1] where 50 ft may have been on either side of the threshold the start is not exact', () => {
    const found = bandOf(landingDistance(stopped, fiftyAt({ value: -10, low: -40, high: 20 })));
    expectNear(found.value, 200, 1e-9, 'from the threshold');
    expectNear(found.low, 200 - Math.hypot(4, 20), 1e-9, 'from 50 ft, 20 m in');
    expectNear(found.high, 204, 1e-9, 'never from before the threshold');
    const unknown = { ...landing.gates[0], heightFt: 50, alongM: undetermined('no place') };
    expect(landingDistance(stopped, { view, gates: [unknown], crossing })).toEqual(unknown.alongM);
  });

  test('[LD1] counts from the threshold only where it was surely passed below 50 ft', () => {
    const below = landingDistance(stopped, crossingAt({ value: 12, low: 9, high: 15 }));
    expect(below).toEqual({ value: 200, low: 196, high: 204 });
    const perhaps = crossingAt({ value: 12, low: 8, high: 16 });
    expect(isUndetermined(landingDistance(stopped, perhaps))).toBe(true);
    expect(isUndetermined(airDistance(stopped, perhaps))).toBe(true);
  });

  test('[LD1] is never negative, nor shorter than what was surely covered', () => {
    const short = stopAt({ value: 30, low: 26, high: 34 });
    const doubtful = fiftyAt({ value: 20, low: 5, high: 90 });
    expect(bandOf(landingDistance(short, doubtful)).low).toBe(0);
    if (isUndetermined(landing.rollEnd)) throw new Error(landing.rollEnd.undetermined);
    const taxied = {
      ...landing,
      rollEnd: { ...landing.rollEnd, kind: 'taxi', alongM: { value: 250, low: 245, high: 255 } },
      fullStopRollM: { value: 150, low: 60, high: 700 },
    } as const;
    const found = bandOf(landingDistance(taxied, crossingAt({ value: 12, low: 9, high: 15 })));
    expect(found.low).toBeGreaterThanOrEqual(245);
  });
});

describe('[TO4] half the TORA', () => {
  test('[TO4] counts from the end of the strip, also where the threshold is displaced', () => {
    const { motion, view, startS } = makeRun({
      ...{ fromAlongM: -100, displacedM: 100, lengthS: 26, intervalS: 0.5 },
      speedMps: (t) => 2 * t,
    });
    const range = { from: 0, to: motion.length, rollingSinceS: null };
    const lift = { value: 45, low: 44, high: 46 };
    const liftAt = (t: number) => ({ value: startS + t, low: startS + t, high: startS + t });
    const found = halfwayCheck(motion, view, range, lift, liftAt(22.5));
    if (isUndetermined(found)) throw new Error(found.undetermined);
    // 400 m of 800 from standing at 2 m/s2: v = sqrt(2 x 2 x 400).
    expectNear(valueOf(found.groundSpeedMps), 40, 0.3);
    const half = bandOf(found.groundSpeedMps);
    const share = bandOf(found.shareOfLiftOff);
    expectNear(share.low, half.low / 46, 1e-9);
    expectNear(share.high, half.high / 44, 1e-9);
    // Half way is passed 20 s after the start: off the ground before, it tells nothing of the run.
    const early = halfwayCheck(motion, view, range, lift, liftAt(19));
    if (isUndetermined(early)) throw new Error(early.undetermined);
    expect(early.groundSpeedMps).toEqual(found.groundSpeedMps);
    expect(early.shareOfLiftOff).toEqual(undetermined('it was off the ground by half way'));
  });
});

describe('[TC2] how much a column changes within a moment that is doubtful', () => {
  test('[TC2] is slope times doubt where it is straight, and right for a bend', () => {
    const { motion, startS } = makeRun({ fromAlongM: 0, lengthS: 60, speedMps: () => 20 });
    const since = motion.timeS.map((t) => t - startS - 30);
    expectNear(changeWithin(motion, since, startS + 30, 2), 2, 1e-4);
    // Of a square the mean square under a normal error is three times its sd to the fourth.
    const bent = since.map((u) => u * u);
    // Straight lines between fixes a second apart lie up to a quarter above the bend.
    expectNear(changeWithin(motion, bent, startS + 30, 4), Math.sqrt(3) * 16, 0.3);
  });
});

describe('[CP1] where a descent was broken, worked by hand', () => {
  const { motion, view, startS, trueAlongM } = makeRun({
    ...{ fromAlongM: -900, lengthS: 30 },
    speedMps: () => 30,
  });
  const kept = { ...view, direction: { ...view.direction, commitM: -200 } };
  const at = (sdS: number) => {
    const t = startS + 20;
    const initiationTimeS = { value: t, low: t - Z90 * sdS, high: t + Z90 * sdS };
    const check = commitCheck(motion, kept, { initiationTimeS } as GoAround);
    if (!check) throw new Error('no check');
    return check;
  };

  test.each([0, 2])('[CP1] with %d s of doubt it holds those, the drift and the strip', (sdS) => {
    const band = bandOf(at(sdS).beforeM);
    expectNear(band.value, -200 - trueAlongM(20), 1);
    const sdM = Math.hypot(30 * sdS, 2, placeSdM(view.strip));
    expectNear(band.high - band.low, 2 * Z90 * sdM, 0.1);
    const place = bandOf(at(sdS).initiationAlongM);
    expectNear(place.high - place.low, 2 * Z90 * sdM, 0.1);
    expectNear(at(sdS).beforeProbability ?? NaN, normalCdf(band.value / sdM), 0.003);
  });

  test('[UP4] where the ends are guessed nobody knows how far before the commit point it was', () => {
    const guessed = { ...kept, strip: { ...kept.strip, endsGuessed: true } };
    const initiationTimeS = { value: startS + 20, low: startS + 19, high: startS + 21 };
    const none = { undetermined: ENDS_GUESSED };
    expect(commitCheck(motion, guessed, { initiationTimeS } as GoAround)).toEqual({
      commitM: -200,
      initiationAlongM: none,
      beforeM: none,
      beforeProbability: null,
    });
  });
});
