/** Approaches broken off, and what heights they are measured by; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { FlightEvents } from '../../src/events/detect-events.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { createStripFrame } from '../../src/strips/strip-frame.ts';
import type { Strip } from '../../src/strips/strip.ts';
import type { Track } from '../../src/track/track.ts';
import { expectNear } from '../expect-near.ts';
import { demoStrips } from '../synthetic/demo/doggerland-strips.ts';
import { alongOfRows } from '../synthetic/flown-along.ts';
import { createMap, createRunway } from '../synthetic/runway.ts';
import { flyDrawnApproach, type Scenario } from '../synthetic/scenarios.ts';
import { windOf, type WindDay } from '../synthetic/wind-model.ts';
import { bandOf, eventsOf, holds, onlyOne, valueOf, lineUpAtTernholm } from './simulated.ts';

/** The same strip with its elevations entered so many metres too high. */
function raised(strip: Strip, byM: number): Strip {
  const { elevationM, profile } = strip;
  return {
    ...strip,
    elevationM: elevationM && [elevationM[0] + byM, elevationM[1] + byM],
    profile: profile?.map(([fromAM, heightM]) => [fromAM, heightM + byM]) ?? null,
  };
}

const SEEDS = Array.from({ length: 10 }, (_, k) => 700 + k);

/** A circuit after a take-off from the same strip, so that heights are tied, then a go-around and a landing. */
function circuitWithGoAround(seed: number, atAboveM: number): Scenario {
  const pilot = lineUpAtTernholm(seed);
  pilot.takeOff();
  pilot.circuit();
  pilot.goAround(atAboveM);
  pilot.circuit();
  pilot.land();
  return {
    strip: demoStrips(createMap()).ternholm,
    designator: '25',
    flown: pilot.finish(),
  };
}

function goAroundOf({ approaches }: FlightEvents) {
  const [first] = approaches;
  if (!first.goAround) throw new Error('no go-around');
  return first.goAround;
}

describe('[GA1] a go-around', () => {
  test.each([1.5, 8, 40])(
    '[GA1] begun %d m up is one, with its lowest point in the bands',
    (atAboveM) => {
      let height = 0;
      let place = 0;
      let time = 0;
      let begun = 0;
      for (const seed of SEEDS) {
        const scenario = circuitWithGoAround(seed, atAboveM);
        const events = eventsOf(scenario, { seed });
        expect(
          events.approaches.map(({ outcome }) => outcome),
          `seed ${seed}`,
        ).toEqual(['go-around', 'full-stop']);
        const [truth] = scenario.flown.truth.approaches;
        if (!truth.goAround) throw new Error('the simulated go-around touched');
        const found = goAroundOf(events);
        expect(found.contactProbability).toBeLessThan(0.4);
        expect(bandOf(found.lowestAboveM).low).toBeGreaterThanOrEqual(0);
        if (holds(found.lowestAboveM, truth.goAround.lowestAboveM)) height++;
        if (holds(found.lowestAlongM, truth.goAround.lowestAlongM)) place++;
        if (holds(found.lowestTimeS, truth.goAround.lowestTimeS)) time++;
        // The descent is broken when the throttle opens, or by the round-out just before.
        const off = valueOf(found.initiationTimeS) - truth.goAround.initiationTimeS;
        expectNear(off, -1, 4, `seed ${seed}`);
        if (Math.abs(off) < 2.5) begun++;
      }
      // Of 10 bands that hold nine times in ten, fewer than 7 hold once in 80 draws (binomial).
      expect(
        Math.min(height, place, time, begun),
        `${height} ${place} ${time} ${begun}`,
      ).toBeGreaterThanOrEqual(7);
    },
  );

  test('[GT5] lonely ones: bands hold nine in ten where elevations are entered 3 m off, and begin at the ground where it is near', () => {
    const widths: number[] = [];
    let held = 0;
    let down = 0;
    for (let seed = 720; seed < 750; seed++) {
      const scenario = flyDrawnApproach(seed, 'go-around');
      const truth = scenario.flown.truth.approaches[0].goAround;
      const strips = [raised(scenario.strip, 3 * createRandom(seed).normal())];
      const found = eventsOf(scenario, { seed, strips }).approaches.at(0);
      // Low ones whose wheels may have touched are measured all the same.
      if (!truth || !found?.goAround) continue;
      const { low, high } = bandOf(found.goAround.lowestAboveM);
      widths.push(high - low);
      if (low <= truth.lowestAboveM && truth.lowestAboveM <= high) held++;
      if (low === 0) down++;
    }
    // Of 25 bands that hold nine times in ten, fewer than 20 hold once in 30 draws (binomial).
    expect(widths.length).toBeGreaterThanOrEqual(25);
    expect(held / widths.length, `${held} of ${widths.length}`).toBeGreaterThanOrEqual(0.8);
    expect(widths.sort((a, b) => a - b)[widths.length >> 1]).toBeLessThan(17);
    expect(down, 'bands that reach the ground').toBeGreaterThan(5);
  });

  test('[GA1] the heights of lonely ones without a stated datum have wider bands than tied ones, never below 0', () => {
    const lonely: number[] = [];
    const tied: number[] = [];
    let held = 0;
    for (const seed of SEEDS) {
      const ending = { kind: 'go-around', atAboveM: 12 } as const;
      const scenario = flyDrawnApproach(seed, 'go-around', { approach: { ending } });
      const found = goAroundOf(eventsOf(scenario, { seed }));
      const { low, high } = bandOf(found.lowestAboveM);
      expect(low).toBeGreaterThanOrEqual(0);
      lonely.push(high - low);
      const { goAround } = scenario.flown.truth.approaches[0];
      if (holds(found.lowestAboveM, goAround?.lowestAboveM ?? NaN)) held++;
      const inCircuit = goAroundOf(eventsOf(circuitWithGoAround(seed, 12), { seed }));
      const band = bandOf(inCircuit.lowestAboveM);
      tied.push(band.high - band.low);
    }
    const middle = (widths: number[]): number => widths.sort((x, y) => x - y)[widths.length >> 1];
    expect(middle(lonely)).toBeGreaterThan(1.25 * middle(tied));
    // Of 10 bands that hold nine times in ten, fewer than 7 hold once in 80 draws (binomial).
    expect(held).toBeGreaterThanOrEqual(7);
  });
});

describe('[AP5] what heights count from', () => {
  const lifted = (metres: number) => (track: Track) => ({
    ...track,
    heightM: track.heightM.map((height) => height + metres),
  });

  test('[AP5] 47 m more change no outcome, no touchdown, no lowest height of a flight with ties', () => {
    for (const seed of SEEDS.slice(0, 4)) {
      const scenario = circuitWithGoAround(seed, 8);
      const low = eventsOf(scenario, { seed });
      const high = eventsOf(scenario, { seed, edit: lifted(47) });
      expect(high.approaches.map(({ outcome }) => outcome)).toEqual(
        low.approaches.map(({ outcome }) => outcome),
      );
      const touchdowns = [low, high].map(({ approaches }) => {
        const { touchdown } = approaches[1];
        if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
        return touchdown;
      });
      expectNear(valueOf(touchdowns[1].alongM), valueOf(touchdowns[0].alongM), 1e-3);
      expectNear(
        valueOf(goAroundOf(high).lowestAboveM),
        valueOf(goAroundOf(low).lowestAboveM),
        0.1,
      );
    }
  });

  test('[GT3] a declared sea-level height far off the entered elevation is noted, a near one is not', () => {
    const scenario = circuitWithGoAround(704, 8);
    const noted = (metres: number): string[] =>
      eventsOf(scenario, { format: 'igc', edit: lifted(metres) }).problems.map(({ code }) => code);
    expect(noted(20)).toEqual(['elevation-differs']);
    expect(noted(0)).toEqual([]);
  });
});

describe('[PH1] a pressure height that says nothing of its own', () => {
  test('[PH1] equal to the satellite height, or constant, changes nothing', () => {
    for (const seed of SEEDS.slice(0, 3)) {
      const scenario = flyDrawnApproach(seed, 'full-stop');
      const along = (edit: (track: Track) => Track): number => {
        const { touchdown } = onlyOne(eventsOf(scenario, { seed, edit }).approaches);
        if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
        return valueOf(touchdown.alongM);
      };
      const plain = along((track) => track);
      const copied = along((track) => ({ ...track, pressureHeightM: track.heightM }));
      const constant = along((track) => ({
        ...track,
        pressureHeightM: track.heightM.map(() => 0),
      }));
      expect([copied, constant]).toEqual([plain, plain]);
    }
  });
});

describe('[AP3] low passes', () => {
  /** A log of nothing but the pass: no landing, no take-off that would tie its heights. */
  const passOf = (seed: number, wind?: WindDay) => {
    const scenario = flyDrawnApproach(seed, 'low-pass', wind ? { wind } : {});
    const { approaches, takeOffs } = eventsOf(scenario, { seed });
    const [{ lowestPassM }] = scenario.flown.truth.approaches;
    return { outcome: onlyOne(approaches).outcome, takeOffs, lowestPassM: lowestPassM ?? 0 };
  };

  test('[AP3] in light winds, from 3 to 30 m up none is called a landing, and none above 6 m a doubtful one', () => {
    for (const seed of SEEDS) {
      const { outcome, takeOffs, lowestPassM } = passOf(seed, windOf(36 * seed, 3));
      expect(takeOffs, `seed ${seed}`).toHaveLength(0);
      if (lowestPassM > 6 || !isUndetermined(outcome)) {
        expect(['low-pass', 'go-around', 'overflight'], `seed ${seed}`).toContain(outcome);
      }
    }
  });

  test('[AP3] in winds of up to 8 m/s with gusts, and nothing else in the log, at most one in forty is called a landing and one in ten no low pass', () => {
    const seeds = Array.from({ length: 40 }, (_, k) => 700 + k);
    const found = seeds.map((seed) => passOf(seed).outcome);
    const landings = found.filter(
      (outcome) =>
        outcome === 'touch-and-go' || outcome === 'full-stop' || outcome === 'stop-and-go',
    );
    expect(landings.length).toBeLessThanOrEqual(1);
    expect(found.filter((outcome) => outcome !== 'low-pass').length).toBeLessThanOrEqual(4);
  });

  test('[AP3] is flown over three quarters of the strip and for more than four seconds, else a go-around', () => {
    const ending = { kind: 'low-pass', aboveM: 20 } as const;
    const passed = flyDrawnApproach(1, 'low-pass', { approach: { ending } });
    const { strip, designator, flown } = passed;
    const runway = createRunway(strip, designator, flown.map);
    const { alongM } = alongOfRows(passed);
    const outcomeOf = (scenario: Scenario) =>
      onlyOne(eventsOf(scenario, { seed: 1 }).approaches).outcome;
    /** Turns off to the right from a share of the strip on, at the same height. */
    const leavingAt = (share: number): Scenario => {
      const rightM = alongM.map((m) => 1.2 * Math.max(0, m - share * runway.farEndAlongM));
      const eastM = flown.eastM.map((m, i) => m + rightM[i] * runway.unitNorth);
      const northM = flown.northM.map((m, i) => m - rightM[i] * runway.unitEast);
      return { ...passed, flown: { ...flown, eastM, northM } };
    };
    expect([0.4, 0.9].map((share) => outcomeOf(leavingAt(share)))).toEqual([
      'go-around',
      'low-pass',
    ]);
    /** The same flight at a strip of so many metres. */
    const atStripOf = (lengthM: number): Scenario => {
      const direction = strip.directions.find((each) => each.designator === designator);
      if (!direction) throw new Error('the direction flown');
      const frame = createStripFrame(strip, direction);
      const ends = [50, 50 + lengthM].map((endM) => frame.pointAt(endM, 0));
      if (direction.from === 'B') ends.reverse();
      const [latDeg, lonDeg] = [ends.map((end) => end.latDeg), ends.map((end) => end.lonDeg)];
      return { ...passed, strip: { ...strip, latDeg, lonDeg } };
    };
    // At some 30 m/s three and five seconds.
    expect([60, 150].map((lengthM) => outcomeOf(atStripOf(lengthM)))).toEqual([
      'go-around',
      'low-pass',
    ]);
  });

  test('[AP3] surely above 400 ft is an overflight without a lowest height, about there nobody can tell', () => {
    const passedAt = (aboveM: number) => {
      const approach = { ending: { kind: 'low-pass', aboveM }, pathDeg: 12 } as const;
      const scenario = flyDrawnApproach(3, 'low-pass', { approach });
      return onlyOne(eventsOf(scenario, { format: 'igc' }).approaches);
    };
    expect(passedAt(110)).toMatchObject({ outcome: 'low-pass', goAround: {} });
    expect(passedAt(135).outcome).toEqual({
      undetermined: 'the height band straddles 400 ft: approach or overflight',
    });
    expect(passedAt(170)).toMatchObject({ outcome: 'overflight', goAround: null });
  });
});
