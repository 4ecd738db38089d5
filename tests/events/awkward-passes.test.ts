/** Curved short finals, long touch-and-goes, logs that end in the climb, runs from before the strip; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { speedSign } from '../../src/events/contact-signs.ts';
import { isUndetermined } from '../../src/result.ts';
import type { Strip } from '../../src/strips/strip.ts';
import type { Track } from '../../src/track/track.ts';
import { createMap, createRunway, toAlongCross, toEastNorth } from '../synthetic/runway.ts';
import { flyDrawnApproach, flyDrawnTakeOff, type Scenario } from '../synthetic/scenarios.ts';
import { makeRun } from './made-motion.ts';
import {
  bandOf,
  cutAt,
  eventsOf,
  eventsOfTrack,
  holds,
  onlyOne,
  record,
  valueOf,
  type Recording,
} from './simulated.ts';

const MAP = createMap();

const runwayOf = ({ strip, designator }: Scenario) => createRunway(strip, designator, MAP);

/** The same flight with its final bent: a base turn of 200 m radius that ends so far before the threshold. */
function bentFinal(scenario: Scenario, track: Track, endsM: number): Track {
  const runway = runwayOf(scenario);
  const radiusM = 200;
  const latDeg = track.latDeg.slice();
  const lonDeg = track.lonDeg.slice();
  for (let i = 0; i < track.length; i++) {
    const flat = MAP.toEastNorth(track.latDeg.subarray(i, i + 1), track.lonDeg.subarray(i, i + 1));
    const { alongM, crossM } = toAlongCross(runway, flat.eastM[0], flat.northM[0]);
    const beforeM = -endsM - alongM;
    if (beforeM <= 0) continue;
    // Along the arc to a right angle, then straight on; across stays across.
    const turned = Math.min(beforeM / radiusM, Math.PI / 2);
    const straightM = beforeM - turned * radiusM;
    const outwardM = radiusM - crossM;
    const bent = toEastNorth(
      runway,
      -endsM - outwardM * Math.sin(turned),
      radiusM - outwardM * Math.cos(turned) + straightM,
    );
    const place = MAP.toLatLon(bent.eastM, bent.northM);
    latDeg[i] = place.latDeg;
    lonDeg[i] = place.lonDeg;
  }
  return { ...track, latDeg, lonDeg };
}

describe('[TD8] a base turn that ends 300 m before the threshold', () => {
  test('[TD8] does not draw the touchdown to it: it is where a straight final puts it', () => {
    const movedM: number[] = [];
    for (let seed = 9000; seed < 9030; seed++) {
      const scenario = flyDrawnApproach(seed, 'full-stop');
      const touchdownOf = (recording: Recording) => {
        const { touchdown, outcome } = onlyOne(eventsOf(scenario, recording).approaches);
        expect(outcome, `seed ${seed}`).toBe('full-stop');
        if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
        return valueOf(touchdown.alongM);
      };
      const edit = (track: Track): Track => bentFinal(scenario, track, 300);
      movedM.push(Math.abs(touchdownOf({ seed, edit }) - touchdownOf({ seed })));
    }
    // By up to 66 m where the turn was taken for a float.
    expect(Math.max(...movedM)).toBeLessThan(10);
  });
});

describe('[TD8] a strip that is drawn 12 degrees off', () => {
  test('[TD8] is landed on straight all the same: bands of the moment hold', () => {
    let held = 0;
    let told = 0;
    for (let seed = 9000; seed < 9030; seed++) {
      const scenario = flyDrawnApproach(seed, 'full-stop');
      const { approaches } = eventsOf(scenario, { seed, strips: [turned(scenario, 12)] });
      for (const { touchdown } of approaches) {
        if (isUndetermined(touchdown)) continue;
        told++;
        const [truth] = scenario.flown.truth.approaches;
        if (holds(touchdown.timeS, truth.touchdown?.timeS ?? NaN)) held++;
      }
    }
    console.log(`strip drawn 12 degrees off: bands hold ${held} of ${told}`);
    expect(told).toBeGreaterThan(20);
    expect(held / told).toBeGreaterThan(0.8);
  });
});

/** The strip turned about its landing end by so many degrees, its elevations unknown. */
function turned(scenario: Scenario, degrees: number): Strip {
  const { strip } = scenario;
  const runway = runwayOf(scenario);
  const lengthM = runway.farEndAlongM - runway.nearEndAlongM;
  const angle = (degrees * Math.PI) / 180;
  const far = toEastNorth(
    runway,
    runway.nearEndAlongM + lengthM * Math.cos(angle),
    lengthM * Math.sin(angle),
  );
  const { latDeg, lonDeg } = MAP.toLatLon(far.eastM, far.northM);
  const isA = strip.directions.find((d) => d.designator === scenario.designator)?.from === 'A';
  return {
    ...strip,
    latDeg: isA ? [strip.latDeg[0], latDeg] : [latDeg, strip.latDeg[1]],
    lonDeg: isA ? [strip.lonDeg[0], lonDeg] : [lonDeg, strip.lonDeg[1]],
    elevationM: null,
    profile: null,
  };
}

describe('[TP2] a touch-and-go that rolls on at an even speed', () => {
  /** Final at 28 m/s, slowing at 1 m/s2 to 20 m/s, held for a while at a height, full power at 2 m/s2; the log ends before or after that. */
  const signOf = (evenS: number, heldAtM = 0, lengthS = 50 + evenS): number => {
    const { motion, view: seen } = makeRun({
      ...{ fromAlongM: -600, lengthS },
      speedMps: (t) => {
        if (t < 24) return 28;
        if (t < 32) return 28 - (t - 24);
        return t < 32 + evenS ? 20 : Math.min(30, 20 + 2 * (t - 32 - evenS));
      },
    });
    const at = (t: number): number => motion.timeS.findIndex((s) => s >= motion.timeS[0] + t);
    // Three seconds after it was slowest it is as high.
    const smoothAboveM = motion.timeS.map((_, i) => (i >= at(35) ? heldAtM : 0));
    const view = { ...seen, smoothAboveM };
    const pass = {
      ...{ kind: 'arrival' as const, from: 0, to: motion.length },
      ...{ begunLate: false, referenceMps: 28 },
    };
    const [anchor, slowest] = [at(24), heldAtM > 0 ? at(32) : at(32 + evenS / 2)];
    return speedSign(motion, view, pass, { anchor, slowest }, (i) => i >= anchor);
  };

  test('[TP2] shows the roll as clearly as a short one does', () => {
    expect(signOf(2)).toBeGreaterThan(0.9);
    for (const evenS of [12, 20, 30]) {
      expect(signOf(evenS), `${evenS} s`).toBeGreaterThan(0.9 * signOf(2));
    }
  });

  test('[TP2] power long after the slowest moment is that of a roll no higher than 4 m above it', () => {
    expect(signOf(11, 3)).toBeGreaterThan(0.9);
    expect(signOf(11, 6)).toBeLessThan(0.5);
  });

  test('[TP2] where the log ends before any power its slowing shows the roll', () => {
    expect(signOf(2, 0, 36)).toBeGreaterThan(0.9);
  });
});

/** As a receiver does that averages: at its end a log seems to stop. */
function meanOfFive(column: Float64Array): Float64Array {
  return column.map((_, i) => {
    const window = column.subarray(Math.max(0, i - 2), i + 3);
    return window.reduce((sum, value) => sum + value, 0) / window.length;
  });
}

describe('[AP8] a log that ends in the climb', () => {
  test('[AP8] did not end in the roll, however slow its last fix', () => {
    let judged = 0;
    for (let seed = 9100; seed < 9112; seed++) {
      const scenario = flyDrawnApproach(seed, 'go-around');
      const [truth] = scenario.flown.truth.approaches;
      const lowestS = truth.goAround?.lowestTimeS ?? NaN;
      const whole = record(scenario, { seed });
      const lowest = whole.timeS.findIndex((t) => t >= lowestS);
      const high = whole.heightM.findIndex((h, i) => i > lowest && h > whole.heightM[lowest] + 15);
      const end = cutAt(whole, whole.timeS[high]);
      const averaged = { ...end, latDeg: meanOfFive(end.latDeg), lonDeg: meanOfFive(end.lonDeg) };
      const { approaches } = eventsOfTrack(averaged, [scenario.strip]);
      for (const { outcome } of approaches) expect(outcome, `seed ${seed}`).not.toBe('full-stop');
      judged += approaches.length;
    }
    expect(judged).toBeGreaterThan(6);
  });
});

/** A strip whose end under the run is entered so far in. */
function enteredIn(scenario: Scenario, inM: number): Strip {
  const { strip } = scenario;
  const runway = runwayOf(scenario);
  const place = toEastNorth(runway, runway.nearEndAlongM + inM, 0);
  const { latDeg, lonDeg } = MAP.toLatLon(place.eastM, place.northM);
  const near = strip.directions.find(({ designator }) => designator === scenario.designator);
  const isA = near?.from === 'A';
  return {
    ...strip,
    latDeg: isA ? [latDeg, strip.latDeg[1]] : [strip.latDeg[0], latDeg],
    lonDeg: isA ? [lonDeg, strip.lonDeg[1]] : [strip.lonDeg[0], lonDeg],
  };
}

describe('[TO6] a strip whose end is entered too far in', () => {
  test('[TO6] take-offs that begin 100 m before it are found', () => {
    let held = 0;
    for (let seed = 9200; seed < 9208; seed++) {
      const scenario = flyDrawnTakeOff(seed);
      const { takeOffs } = eventsOf(scenario, { seed, strips: [enteredIn(scenario, 110)] });
      const found = onlyOne(takeOffs);
      expect(found.kind, `seed ${seed}`).toBe('take-off');
      expect(found.strip, `seed ${seed}`).toBe(scenario.strip.id);
      const { liftOff } = scenario.flown.truth.takeOffs[0];
      if (isUndetermined(found.liftOff) || !liftOff) throw new Error('no lift-off');
      if (holds(found.liftOff.timeS, liftOff.timeS)) held++;
      expect(bandOf(found.groundRollM).value).toBeGreaterThan(40);
    }
    expect(held).toBeGreaterThanOrEqual(6);
  });
});
