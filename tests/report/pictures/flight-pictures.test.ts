/** Picture models of single flights show the flight's own figures. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Flight } from '../../../src/debrief/debrief.ts';
import { isUndetermined, type Measured, type Undetermined } from '../../../src/result.ts';
import { USUAL_UNITS } from '../../../src/report/figure-text.ts';
import { flightLinePicture } from '../../../src/report/pictures/flight-line-picture.ts';
import { tenPointsOfBand, tenPointsOfMixture } from '../../../src/report/pictures/passes.ts';
import {
  approachOf,
  begunOverStrip,
  chanceOf,
  circuitOf,
  finalOf,
  flightOf,
  takeOffOf,
} from '../../drawings/demo-pictures.ts';
import { expectNear } from '../../expect-near.ts';
import { notPlain } from './plain-data.ts';

let flight: Flight;

beforeAll(async () => {
  flight = await flightOf('2024-04-20-first-circuits-ternholm.gpx');
});

function known<T>(value: T | Undetermined): T {
  if (isUndetermined(value)) throw new Error(value.undetermined);
  return value;
}

const valueOf = (measured: Measured): number => known(measured).value;

describe('ten passes', () => {
  // Points of the standard normal: quantiles in any statistical table.
  const NORMAL = [-1.6449, -1.0364, -0.6745, -0.3853, -0.1257];

  test('[PASS1] are the 5, 15 ... 95 % points of a normal', () => {
    const points = tenPointsOfMixture({
      weight: Float64Array.of(1),
      mean: Float64Array.of(100),
      sd: Float64Array.of(10),
    });
    expect(points).toHaveLength(10);
    NORMAL.forEach((z, i) => {
      expectNear(points[i], 100 + 10 * z, 0.01);
      expectNear(points[9 - i], 100 - 10 * z, 0.01);
    });
  });

  test('[PASS2] of a band of 90 % begin and end at its ends, each side as wide as it is', () => {
    const points = tenPointsOfBand({ value: 50, low: 40, high: 80 });
    expectNear(points[0], 40, 0.01);
    expectNear(points[9], 80, 0.01);
    expectNear(points[2], 50 + (10 / 1.6449) * NORMAL[2], 0.01);
    expectNear(points[7], 50 - (30 / 1.6449) * NORMAL[2], 0.01);
  });

  test('[PASS3] of two equal humps stand five in each', () => {
    const points = tenPointsOfMixture({
      weight: Float64Array.of(0.5, 0.5),
      mean: Float64Array.of(0, 1000),
      sd: Float64Array.of(5, 5),
    });
    expect(points.filter((at) => at < 500)).toHaveLength(5);
  });

  test('[PASS4] of a landing span the band of its touchdown and of its stop', () => {
    const { passes } = approachOf(flight, 2);
    const approach = flight.events.approaches[2];
    const touchdown = known(known(approach.touchdown).alongM);
    const stop = known(known(approach.rollEnd).alongM);
    if (!passes) throw new Error('no passes');
    expectNear(passes.fromM[0], touchdown.low, 1, 'the 5 % point');
    expectNear(passes.fromM[9], touchdown.high, 1, 'the 95 % point');
    expectNear((passes.fromM[4] + passes.fromM[5]) / 2, touchdown.value, 3, 'the middle');
    expectNear(passes.toM[0], stop.low, 0.01);
    expectNear(passes.toM[9], stop.high, 0.01);
    expect(passes.extrapolatedToM).toBeNull();
  });
});

describe('the ruler of a landing', () => {
  test('[PICT1] shows the places, rolls and margins that were measured and expected', () => {
    const picture = approachOf(flight, 2, { ownRollFactor: 1.62 });
    const approach = flight.events.approaches[2];
    const prediction = known(flight.compared.approaches[2].prediction);
    const landing = known(prediction.landing);
    const touchM = valueOf(known(approach.touchdown).alongM);
    const place = (kind: string): number =>
      picture.places.find((each) => each.kind === kind)?.atM ?? NaN;
    expect(picture.kind).toBe('landing');
    expectNear(place('touchdown'), touchM, 1e-9);
    expectNear(place('stop'), valueOf(known(approach.rollEnd).alongM), 1e-9);
    const length = (kind: string): number => {
      const rod = picture.rods.find((each) => each.kind === kind);
      return rod ? rod.toM - rod.fromM : NaN;
    };
    expectNear(length('expected'), known(landing.expectedRollM), 1e-9);
    expectNear(length('planned'), known(landing.plannedRollM), 1e-9);
    expectNear(length('own'), 1.62 * known(landing.expectedRollM), 1e-9);
    expectNear(
      (picture.left?.toM ?? NaN) - (picture.left?.fromM ?? NaN),
      valueOf(approach.stripLeftM),
      1e-9,
    );
    expect(picture.roll?.value).toBe(String(Math.round(valueOf(approach.groundRollM))));
    // The rope: LDA less the longer of the planned roll and the roll by the own factor.
    const longer = Math.max(length('planned'), length('own'));
    expectNear(picture.rope?.atM ?? NaN, picture.ground.ldaM - longer, 1e-9);
  });

  test('[PICT2] says the same in its sentence and its table', () => {
    const picture = approachOf(flight, 2);
    const roll = picture.roll?.value ?? '';
    expect(roll).toMatch(/^\d+$/);
    expect(picture.spoken).toContain(`Rolled ${roll} metres, between`);
    const row = picture.rows.find(({ label }) => label.includes('roll'));
    expect(
      picture.rows.some(({ value }) => value.startsWith(`${roll}\u00a0m`)),
      row?.value,
    ).toBe(true);
  });

  test('[PICT3] of a touch-and-go goes on dashed to the standstill that was not seen', () => {
    const { passes, kind, againM } = approachOf(flight, 0);
    const approach = flight.events.approaches[0];
    expect(kind).toBe('touch-and-go');
    if (!passes?.extrapolatedToM) throw new Error('not extrapolated');
    const full = valueOf(approach.fullStopRollM);
    const touchM = valueOf(known(approach.touchdown).alongM);
    const middle = (passes.extrapolatedToM[4] + passes.extrapolatedToM[5]) / 2;
    const end = valueOf(known(approach.rollEnd).alongM);
    expectNear(middle, end + full - valueOf(approach.groundRollM), 3);
    expect(middle).toBeGreaterThan(touchM + full / 2);
    const liftOff = known(flight.events.takeOffs[1].liftOff);
    expectNear(againM ?? NaN, valueOf(liftOff.alongM), 1e-9);
  });

  test('[PICT11] of a log that begins over the strip outlines what it does not show, up to the stop, with the reason', () => {
    const reason = /the log begins over the strip/;
    const begun = approachOf(begunOverStrip(flight, 2), 2);
    const stop = begun.places.find(({ kind }) => kind === 'stop');
    expect(begun.unknown).toMatchObject({ fromM: 0, toM: stop?.atM });
    expect(begun.unknown?.reason).toMatch(reason);
    expect(begun.spoken).toMatch(reason);
    expect(begun.passes).toBeNull();
    expect(begun.left?.figure.value).toBe(approachOf(flight, 2).left?.figure.value);
  });

  test('[PICT4] of a rod past the end says by how much it is too long, and has no rope', async () => {
    const tail = await flightOf('2024-09-15-tail-wind-landing-sedge.gpx');
    const { rods, ground, rope, noRope } = approachOf(tail, 0);
    const planned = rods.find(({ kind }) => kind === 'planned');
    expect(planned?.isTooLong).toBe(true);
    const over = Math.round((planned?.toM ?? NaN) - ground.ldaM);
    expect(planned?.leftText).toBe(`${over}\u00a0m too long`);
    expect(rope).toBeNull();
    expect(noRope).toMatch(/longer than the LDA/);
  });
});

describe('the ruler of a take-off', () => {
  test('[PICT5] begins where the brakes were let go and ends at lift-off', () => {
    const picture = takeOffOf(flight, 0);
    const takeOff = flight.events.takeOffs[0];
    const release = known(takeOff.brakeRelease);
    const place = (kind: string): number =>
      picture.places.find((each) => each.kind === kind)?.atM ?? NaN;
    expectNear(place('brake-release'), valueOf(release.alongM), 1e-9);
    expectNear(place('lift-off'), valueOf(known(takeOff.liftOff).alongM), 1e-9);
    for (const rod of picture.rods) expectNear(rod.fromM, valueOf(release.alongM), 1e-9);
  });
});

describe('the chance of a touchdown', () => {
  test('[PICT6] lies before the threshold in the share that the words say', async () => {
    const short = await flightOf('2025-03-16-short-of-the-threshold.gpx');
    const { alongM, density, shortText, highM, lowM } = chanceOf(short, 0);
    const mass = (keep: (atM: number) => boolean): number =>
      density.reduce((sum, each, i) => sum + (keep(alongM[i]) ? each : 0), 0);
    const all = mass(() => true);
    const said = Number(/^(\d+)/.exec(shortText ?? '')?.[1]);
    expectNear((100 * mass((at) => at < 0)) / all, said, 2, 'per cent');
    expectNear(mass((at) => at >= lowM && at <= highM) / all, 0.9, 0.03);
    expectNear(Math.max(...density), 1, 1e-12);
  });
});

describe('the plan', () => {
  test('[PICT7] holds the track in order, the places on the strip, and the wind turned to it', () => {
    const picture = circuitOf(flight, 2);
    const times = Array.from(picture.trackTimeS).filter((each) => !Number.isNaN(each));
    expect(times.length).toBeGreaterThan(50);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
    const approach = flight.events.approaches[2];
    expectNear(picture.touchdownM ?? NaN, valueOf(known(approach.touchdown).alongM), 1e-9);
    expectNear(picture.stopM ?? NaN, valueOf(known(approach.rollEnd).alongM), 1e-9);
    // Wind from 260 blows to 080; seen with the landing direction up it is turned by that bearing.
    const { wind } = known(flight.conditions);
    expect(wind?.fromDeg).toBe(260);
    expect(wind?.reference).toBe('true');
    expectNear(picture.wind?.toDeg ?? NaN, 260 + 180 - picture.ground.trueBearingDeg, 1e-9);
  });

  test('[PICT8] joins the other flying to the chosen circuit', () => {
    const { track, others } = circuitOf(flight, 2);
    const isEnd = (along: number, cross: number): boolean =>
      Array.from(others.alongM).some(
        (each, i) => Math.hypot(each - along, others.crossM[i] - cross) < 1e-6,
      );
    expect(isEnd(track.alongM[0], track.crossM[0])).toBe(true);
    const last = track.alongM.length - 1;
    expect(isEnd(track.alongM[last], track.crossM[last])).toBe(true);
  });
});

describe('the line of a flight', () => {
  test('[PICT12] is broken where the log has a hole of more than half a minute', () => {
    const heights = (stepS: number): Float64Array => {
      const timeS = Float64Array.from({ length: 60 }, (_, i) => (i < 40 ? i : i + stepS - 1));
      const motion = { ...flight.motion, length: 60, timeS };
      const events = { ...flight.events, approaches: [], takeOffs: [] };
      const circuits = { ...flight.circuits, circuits: [] };
      return flightLinePicture({ ...flight, motion, events, circuits }, USUAL_UNITS).heightM;
    };
    expect(heights(30).some(Number.isNaN)).toBe(false);
    expect(Array.from(heights(31), Number.isNaN).indexOf(true)).toBe(40);
    expect(heights(31).filter(Number.isNaN)).toHaveLength(1);
  });
});

describe('every model of a flight', () => {
  test('[PICT9] is plain data that a store and another thread can hold', () => {
    const models = {
      line: flightLinePicture(flight, USUAL_UNITS),
      ruler: approachOf(flight, 2),
      takeOff: takeOffOf(flight, 0),
      final: finalOf(flight, 2),
      plan: circuitOf(flight, 2),
      chance: chanceOf(flight, 2),
    };
    expect(notPlain(models)).toEqual([]);
    expect(structuredClone(models)).toEqual(models);
    // The check itself finds what is not plain.
    expect(notPlain({ a: [() => 1], b: new Date(0), c: undefined })).toHaveLength(3);
  });
});
