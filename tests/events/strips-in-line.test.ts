/** Which of several strips a landing, touch-and-go or take-off was made at; rule SC1 in docs/spec/measuring.md. Seeds are fixed. */
import { describe, expect, test } from 'vitest';
import { isUndetermined } from '../../src/result.ts';
import { completeDirections } from '../../src/strips/declared-distances.ts';
import type { Strip } from '../../src/strips/strip.ts';
import type { Track } from '../../src/track/track.ts';
import { createMap, createRunway, toEastNorth } from '../synthetic/runway.ts';
import { flyDrawnApproach, flyDrawnTakeOff, type Scenario } from '../synthetic/scenarios.ts';
import { eventsOf, onlyOne, type Recording } from './simulated.ts';

/** A second strip like the first, moved along by as much as its length and a gap (metres; negative: before it), and to the right. */
function inLine(scenario: Scenario, gapM: number, rightM = 0): Strip {
  const { nearEndAlongM, farEndAlongM } = runwayOf(scenario);
  const lengthM = farEndAlongM - nearEndAlongM;
  return moved(scenario, gapM + Math.sign(gapM) * lengthM, rightM);
}

function moved(scenario: Scenario, alongM: number, rightM: number): Strip {
  const runway = runwayOf(scenario);
  const { nearEndAlongM, farEndAlongM } = runway;
  const [a, b] = [nearEndAlongM, farEndAlongM].map((endM) => {
    const place = toEastNorth(runway, endM + alongM, rightM);
    return createMap().toLatLon(place.eastM, place.northM);
  });
  const bearingDeg = (runway.bearingRad * 180) / Math.PI;
  return {
    ...scenario.strip,
    id: 'second',
    latDeg: [a.latDeg, b.latDeg],
    lonDeg: [a.lonDeg, b.lonDeg],
    elevationM: null,
    profile: null,
    directions: completeDirections(null, farEndAlongM - nearEndAlongM, bearingDeg),
  };
}

const runwayOf = ({ strip, designator }: Scenario) => createRunway(strip, designator, createMap());

/** Drawn landings that end in a standstill on the strip. */
const STOPPED = Array.from({ length: 30 }, (_, k) => k + 71)
  .map((seed) => ({ seed, flown: flyDrawnApproach(seed, 'full-stop') }))
  .filter(({ flown }) => flown.flown.truth.approaches[0].rollEnd?.kind === 'stopped');

const GAPS_M = [60, 200, 500, -60, -200, -500];
const SEEDS = [71, 72, 73, 74, 75, 76];

/** Strips of the approaches and take-offs found, of `seed` recorded beside both strips. */
function stripsFound(scenario: Scenario, seed: number, second: Strip): (string | null)[] {
  const strips = [second, scenario.strip];
  const { approaches, takeOffs } = eventsOf(scenario, { seed, strips });
  return [...approaches, ...takeOffs].map(({ strip }) => strip);
}

describe('[SC1] beside a second strip in line whose ends are a guess', () => {
  for (const gapM of GAPS_M) {
    test(`[SC1] ${gapM} m off each landing, touch-and-go and take-off keeps the strip that is known there`, () => {
      for (const seed of SEEDS) {
        for (const flown of [
          flyDrawnApproach(seed, 'full-stop'),
          flyDrawnApproach(seed, 'touch-and-go'),
          flyDrawnTakeOff(seed),
        ]) {
          const second = { ...inLine(flown, gapM), endsGuessed: true };
          const found = stripsFound(flown, seed, second);
          expect(new Set(found), `seed ${seed}`).toEqual(new Set([flown.strip.id]));
        }
      }
    });
  }
});

describe('[SC1] beside a second strip in line', () => {
  for (const gapM of GAPS_M) {
    test(`[SC1] ${gapM} m off each landing, touch-and-go and take-off keeps its own`, () => {
      for (const seed of SEEDS) {
        for (const flown of [
          flyDrawnApproach(seed, 'full-stop'),
          flyDrawnApproach(seed, 'touch-and-go'),
          flyDrawnTakeOff(seed),
        ]) {
          for (const rightM of [0, -6, 6]) {
            const found = stripsFound(flown, seed, inLine(flown, gapM, rightM));
            expect(found.length, `seed ${seed}`).toBeGreaterThan(0);
            expect(new Set(found), `seed ${seed}, ${rightM} m`).toEqual(new Set([flown.strip.id]));
          }
        }
      }
    });
  }

  test('[SC1] a go-around keeps its own where the second lies beyond', () => {
    for (const gapM of [60, 200, 500]) {
      for (let seed = 71; seed < 87; seed++) {
        const flown = flyDrawnApproach(seed, 'go-around');
        const found = stripsFound(flown, seed, inLine(flown, gapM));
        expect(new Set(found), `seed ${seed}, ${gapM} m`).toEqual(new Set([flown.strip.id]));
      }
    }
  });

  test('[SC1] a go-around from high over the strip before its own is told at its own in most', () => {
    const own = [-60, -200, -500].map((gapM) => {
      let count = 0;
      for (let seed = 71; seed < 101; seed++) {
        const flown = flyDrawnApproach(seed, 'go-around');
        const found = stripsFound(flown, seed, inLine(flown, gapM));
        if (found.length > 0 && found.every((id) => id === flown.strip.id)) count++;
      }
      return count;
    });
    // 17, 22 and 27 of 30; without the rule of a high threshold 14, 17 and 26. The others were lowest over the first.
    expect(own[0]).toBeGreaterThanOrEqual(16);
    expect(own[1]).toBeGreaterThanOrEqual(20);
    expect(own[2]).toBeGreaterThanOrEqual(26);
  });

  test('[SC1] where the heights of a pass are missing its speed tells, as in a log without any', () => {
    let own = 0;
    for (let seed = 71; seed < 91; seed++) {
      const flown = flyDrawnApproach(seed, 'touch-and-go');
      const touchedS = flown.flown.truth.approaches[0].touchdown?.timeS ?? NaN;
      const edit = (track: Track): Track => ({
        ...track,
        heightM: track.heightM.map((m, i) => (Math.abs(track.timeS[i] - touchedS) < 45 ? NaN : m)),
      });
      const strips = [inLine(flown, -200), flown.strip];
      const { approaches } = eventsOf(flown, { seed, strips, edit });
      if (approaches.some(({ strip }) => strip === flown.strip.id)) own++;
    }
    // With the strips in this order the first was told in half of them.
    expect(own).toBeGreaterThanOrEqual(18);
  });

  test('[SC1] a landing at a place nobody has kept is found there, not lost to a strip in line', () => {
    for (const gapM of [200, 500, -200, -500]) {
      for (const seed of SEEDS) {
        const flown = flyDrawnApproach(seed, 'full-stop');
        const { approaches } = eventsOf(flown, { seed, strips: [inLine(flown, gapM)] });
        const landing = onlyOne(approaches);
        expect([landing.outcome, landing.strip], `seed ${seed}`).toEqual(['full-stop', null]);
      }
    }
  });
});

describe('[RE1] the end of a roll that stood', () => {
  const kindOf = (flown: Scenario, recording: Recording): string => {
    const { rollEnd } = onlyOne(eventsOf(flown, recording).approaches);
    return isUndetermined(rollEnd) ? 'undetermined' : rollEnd.kind;
  };

  test('[RE1] is no turning off where the strip is drawn 20 m beside the grass', () => {
    expect(STOPPED.length).toBeGreaterThan(10);
    for (const { seed, flown } of STOPPED) {
      for (const rightM of [20, -20]) {
        const strips = [moved(flown, 0, rightM)];
        expect(kindOf(flown, { seed, strips }), `seed ${seed}`).toBe('stopped');
      }
    }
  });

  test('[RE1] is no turning off where positions are in steps of 5 or 11 m', () => {
    for (const stepDeg of [5e-5, 1e-4]) {
      const coarse = (deg: number): number => Math.round(deg / stepDeg) * stepDeg;
      const kinds = STOPPED.map(({ seed, flown }) =>
        kindOf(flown, {
          seed,
          edit: (track) => ({
            ...track,
            latDeg: track.latDeg.map(coarse),
            lonDeg: track.lonDeg.map(coarse),
            positionStepM: 111_195 * stepDeg,
          }),
        }),
      );
      expect(kinds).not.toContain('vacated');
      const stood = kinds.filter((kind) => kind === 'stopped').length;
      expect(stood).toBeGreaterThan(0.8 * STOPPED.length);
    }
  });
});

describe('[BG1] a log that begins late', () => {
  /** The track from a time before or after the touchdown on, seconds. */
  const begunAt = (seed: number, afterS: number) => {
    const scenario = flyDrawnApproach(seed, 'full-stop');
    const { touchdown } = scenario.flown.truth.approaches[0];
    const fromS = (touchdown?.timeS ?? NaN) + afterS;
    const { timeS } = scenario.flown;
    const rows = timeS.findIndex((t) => t >= fromS);
    const cut = Object.fromEntries(
      Object.entries(scenario.flown).map(([name, column]) => [
        name,
        column instanceof Float64Array ? column.slice(rows) : (column as unknown),
      ]),
    ) as unknown as Scenario['flown'];
    const flown = { ...cut, length: timeS.length - rows };
    return onlyOne(eventsOf({ ...scenario, flown }, { seed }).approaches);
  };

  test('[BG1] over the strip gives a full stop with its end, and no touchdown, which may have been before', () => {
    for (const seed of SEEDS) {
      for (const afterS of [-1, 1]) {
        const { outcome, touchdown, groundRollM, rollEnd } = begunAt(seed, afterS);
        expect(outcome, `seed ${seed}`).toBe('full-stop');
        expect(touchdown).toEqual({
          undetermined: 'the log begins over the strip: the wheels may have touched before',
        });
        expect(groundRollM).toEqual(touchdown);
        expect(isUndetermined(rollEnd)).toBe(false);
      }
    }
  });
});
