/** Places nobody has kept, what goes into a place and not into a length, and launches; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { detectEvents } from '../../src/events/detect-events.ts';
import { launchOf } from '../../src/events/launch.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { expectNear } from '../expect-near.ts';
import { boardAeroplane } from '../synthetic/demo/demo-pilot.ts';
import { demoStrips } from '../synthetic/demo/doggerland-strips.ts';
import { createMap } from '../synthetic/runway.ts';
import {
  flyDrawnApproach,
  flyDrawnTakeOff,
  SCENARIO_START_S,
  type Scenario,
} from '../synthetic/scenarios.ts';
import { bandOf, eventsOf, onlyOne, record } from './simulated.ts';

/** A circuit from one place with a pass at a height, then a landing. */
function circuitWithPass(seed: number, aboveM: number): Scenario {
  const pilot = boardAeroplane({
    startTimeS: SCENARIO_START_S + seed / 7,
    aeroplane: 'marram-160',
    massKg: 1000,
    windFromDeg: 240,
    windKt: 8,
    gusty: false,
    wet: false,
    effort: 'normal',
    seed,
  });
  pilot.lineUp('ternholm', '25');
  pilot.takeOff();
  pilot.circuit();
  pilot.goAround(aboveM);
  pilot.circuit();
  pilot.land();
  const strip = demoStrips(createMap()).ternholm;
  return { strip, designator: '25', flown: pilot.finish() };
}

describe('[UP3] passes at places nobody has kept', () => {
  test('[UP3] are told where the flight took off or landed, be it that the data cannot tell a touch', () => {
    for (const aboveM of [0.4, 1.5, 20]) {
      for (const seed of [720, 721, 722]) {
        const { approaches } = eventsOf(circuitWithPass(seed, aboveM), { seed, strips: [] });
        expect(approaches, `seed ${seed}, ${aboveM} m`).toHaveLength(2);
        const [pass, landing] = approaches;
        expect([pass.strip, landing.strip]).toEqual([null, null]);
        expect(landing.outcome).toBe('full-stop');
        if (!isUndetermined(pass.outcome)) {
          expect(['go-around', 'low-pass', 'touch-and-go']).toContain(pass.outcome);
        }
      }
    }
  });

  test('[UP3] are nothing where it did not: a valley flown down and up is no approach', () => {
    for (const seed of [31, 32, 213, 214]) {
      const scenario = flyDrawnApproach(seed, 'go-around');
      expect(eventsOf(scenario, { seed, strips: [] }).approaches, `seed ${seed}`).toEqual([]);
    }
  });
});

describe('[PE1] the error of a strip as drawn', () => {
  test('[PE1] goes into places along it, never into a roll', () => {
    const scenario = flyDrawnApproach(44, 'full-stop');
    const found = (positionErrorM: number) => {
      const strips = [{ ...scenario.strip, positionErrorM }];
      const approach = onlyOne(eventsOf(scenario, { strips }).approaches);
      const { touchdown, rollEnd } = approach;
      if (isUndetermined(touchdown) || isUndetermined(rollEnd)) throw new Error('no landing');
      return { ...approach, touchdown, rollEnd };
    };
    const halfWidth = (measured: Measured): number => {
      const { low, high } = bandOf(measured);
      return (high - low) / 2;
    };
    const [exact, drawn] = [found(0), found(30)];
    expect(drawn.groundRollM).toEqual(exact.groundRollM);
    expect(drawn.fullStopRollM).toEqual(exact.fullStopRollM);
    expect(drawn.hardestBrakingRollM).toEqual(exact.hardestBrakingRollM);
    // 30 m 95 times in 100, all round: 30 / 2.4477 is one standard deviation along the strip (FGDC-STD-007.3),
    // which makes 20.16 m of band either way, added in squares.
    const squares = (a: Measured, b: Measured): number =>
      Math.sqrt(halfWidth(a) ** 2 - halfWidth(b) ** 2);
    expectNear(squares(drawn.rollEnd.alongM, exact.rollEnd.alongM), 20.16, 0.05);
    expectNear(squares(drawn.stripLeftM, exact.stripLeftM), 20.16, 0.05);
    expectNear(squares(drawn.touchdown.crossM, exact.touchdown.crossM), 20.16, 0.05);
    expect(halfWidth(drawn.touchdown.alongM)).toBeGreaterThan(20);
  });

  test('[PE1] nor into a take-off run', () => {
    const scenario = flyDrawnTakeOff(45);
    const found = (positionErrorM: number) =>
      onlyOne(eventsOf(scenario, { strips: [{ ...scenario.strip, positionErrorM }] }).takeOffs);
    expect(found(30).groundRollM).toEqual(found(0).groundRollM);
    expect(found(30).screen).toEqual(found(0).screen);
    expect(found(30).stripLeftM).not.toEqual(found(0).stripLeftM);
  });
});

describe('[LA1] launches', () => {
  const scenario = flyDrawnTakeOff(301);
  const track = record(scenario);
  const book = { ...EMPTY_STRIP_BOOK, strips: [scenario.strip] };
  const launchWith = (level: number) => {
    const noise = new Float64Array(track.length).fill(level);
    const motion = computeMotion(track);
    return onlyOne(detectEvents(motion, book, noise).takeOffs).launch;
  };

  test('[LA1] a take-off in which the recorder hears no engine was towed', () => {
    expect([launchWith(40), launchWith(800), launchWith(NaN)]).toEqual(['tow', null, null]);
  });

  test('[LA1] a climb too steep and too fast for an aeroplane was a winch', () => {
    const [takeOff] = eventsOf(scenario).takeOffs;
    if (isUndetermined(takeOff.liftOff)) throw new Error('no lift-off');
    const liftOffS = bandOf(takeOff.liftOff.timeS).value;
    const climbing = (mps: number) => {
      const heightM = track.heightM.map((height, i) => {
        const sinceS = track.timeS[i] - liftOffS - 4;
        return sinceS > 0 ? height + mps * sinceS : height;
      });
      return launchOf(computeMotion({ ...track, heightM }), takeOff, null);
    };
    expect(climbing(0)).toBeNull();
    expect(climbing(3)).toBeNull();
    expect(climbing(12)).toBe('winch');
  });

  test('[LA1] none of forty drawn take-offs under an own engine is called one', () => {
    for (let seed = 800; seed < 840; seed++) {
      for (const { launch } of eventsOf(flyDrawnTakeOff(seed), { seed }).takeOffs) {
        expect(launch, `seed ${seed}`).toBeNull();
      }
    }
  });
});
