/** Limits at the gates, the preferred path and the commit point; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { finalsOf, type Final } from '../../src/debrief/finals.ts';
import { firstAtOrAfter, valueAt } from '../../src/events/arrival-data.ts';
import { detectEvents, type FlightEvents } from '../../src/events/detect-events.ts';
import type { Gate } from '../../src/events/flight-event.ts';
import { checkGate } from '../../src/events/gate-check.ts';
import { pathFollowed } from '../../src/events/preferred-path.ts';
import { fitWind } from '../../src/events/wind-from-track.ts';
import { isUndetermined, undetermined, type Estimate } from '../../src/result.ts';
import { createStripFrame } from '../../src/strips/strip-frame.ts';
import { ENDS_GUESSED } from '../../src/strips/strip.ts';
import {
  EMPTY_STRIP_BOOK,
  type ApproachPath,
  type Strip,
  type StripBook,
} from '../../src/strips/strip.ts';
import { applyCleaning, cleanTrack } from '../../src/track/clean-track.ts';
import { computeMotion, type Motion } from '../../src/track/motion.ts';
import type { Track } from '../../src/track/track.ts';
import { MPS_PER_KNOT } from '../../src/units/convert.ts';
import type { Conditions } from '../../src/weather/conditions.ts';
import type { GateLimits } from '../../src/weather/gate-limits.ts';
import { bandOf, holds, onlyOne, record, valueOf } from '../events/simulated.ts';
import { flyDrawnCircuits, logDrawnCircuits } from '../synthetic/circuit-population.ts';
import { scoreFloat } from '../synthetic/float-score.ts';
import { toTrack } from '../synthetic/logged-track.ts';
import { flyDrawnApproach, type Scenario } from '../synthetic/scenarios.ts';

const NO_LIMITS: GateLimits = {
  fromFt: 300,
  ...{ airspeedKt: null, groundSpeedKt: null, descentRateFpm: null, pathDeg: null, crossM: null },
};

describe('[GL1] a gate against the pilot’s own limits', () => {
  const about = (value: number, half: number): Estimate => ({
    value,
    low: value - half,
    high: value + half,
  });
  const gate: Gate = {
    ...{ heightFt: 200, timeS: 0, alongM: about(-700, 20), crossM: about(4, 8) },
    ...{ groundSpeedMps: about(25, 0.5), descentRateMps: about(3, 0.6), pathDeg: about(5, 1) },
  };
  const found = (limits: Partial<GateLimits>, knots = about(60, 4)): string[] => {
    const mps = {
      value: knots.value * MPS_PER_KNOT,
      low: knots.low * MPS_PER_KNOT,
      high: knots.high * MPS_PER_KNOT,
    };
    return checkGate(gate, mps, { ...NO_LIMITS, ...limits }).map((each) => each.found);
  };

  test('[GL1] is in where the whole band is, out where none of it is, else nobody can tell', () => {
    expect(found({ airspeedKt: [55, 65] })).toEqual(['in']);
    expect(found({ airspeedKt: [57, 65] })).toEqual(['cannot-tell']);
    expect(found({ airspeedKt: [65, 75] })).toEqual(['out']);
    expect(found({ airspeedKt: [40, 55] })).toEqual(['out']);
    // The figure lies outside, its band does not.
    expect(found({ airspeedKt: [61, 75] })).toEqual(['cannot-tell']);
    expect(found({ airspeedKt: [40, 59] })).toEqual(['cannot-tell']);
    // A band wider than the limits straddles both.
    expect(found({ airspeedKt: [59, 61] })).toEqual(['cannot-tell']);
    // 3 m/s is 591 ft/min.
    expect(found({ descentRateFpm: [400, 720] })).toEqual(['in']);
    expect(found({ descentRateFpm: [100, 400] })).toEqual(['out']);
    expect(found({ crossM: [-10, 10] })).toEqual(['cannot-tell']);
  });

  test('[GL1] only what is limited is checked, from the height on that was asked for', () => {
    expect(found({})).toEqual([]);
    expect(found({ fromFt: 200, pathDeg: [3, 7], crossM: [-20, 20] })).toEqual(['in', 'in']);
    expect(found({ fromFt: 100, pathDeg: [3, 7] })).toEqual([]);
  });

  test('[GL2] what cannot be had from the data is neither in nor out', () => {
    const limits: GateLimits = { ...NO_LIMITS, airspeedKt: [50, 60] };
    const [check] = checkGate(gate, undetermined('no wind'), limits);
    expect(check.found).toBe('cannot-tell');
  });
});

const NOTHING_ENTERED: Conditions = {
  ...{ wind: null, tempC: null, qnhHpa: null, massKg: null, takeOffMassKg: null },
  ...{ surface: null, flap: null, aeroplane: null, factorSet: null, effort: null },
};

function withoutHeights(track: Track): Track {
  return { ...track, heightM: track.heightM.map(() => NaN) };
}

/** A simulated approach as recorded, and what was found in it. */
function eventsOfScenario(
  scenario: Scenario,
  seed: number,
  book: StripBook = { ...EMPTY_STRIP_BOOK, strips: [scenario.strip] },
  noHeights = false,
): { motion: Motion; events: FlightEvents } {
  const edit = noHeights ? withoutHeights : (track: Track): Track => track;
  const recorded = record(scenario, { seed, edit });
  const track = applyCleaning(recorded, cleanTrack(recorded));
  const motion = computeMotion(track);
  return { motion, events: detectEvents(motion, book) };
}

/** The final of a simulated approach, with what was entered and kept. */
function finalOf(
  scenario: Scenario,
  seed: number,
  kept: {
    conditions?: Conditions;
    paths?: readonly ApproachPath[];
    commitM?: number;
    noHeights?: boolean;
  } = {},
): Final {
  const strip: Strip = {
    ...scenario.strip,
    directions: scenario.strip.directions.map((each) => ({
      ...each,
      commitM: kept.commitM ?? null,
    })),
  };
  const book = { ...EMPTY_STRIP_BOOK, strips: [strip], approachPaths: kept.paths ?? [] };
  const { motion, events } = eventsOfScenario(scenario, seed, book, kept.noHeights);
  const conditions = kept.conditions ?? undetermined('no conditions were entered');
  return onlyOne(finalsOf(motion, events, { wind: fitWind(motion), conditions, book }));
}

describe('[EA4] the wind that airspeeds rest on', () => {
  const scenario = flyDrawnApproach(810, 'full-stop');

  test('[EA4] without turns and without an entered wind there is no airspeed', () => {
    const { gates, airspeedWind } = finalOf(scenario, 810);
    expect(airspeedWind).toBeNull();
    expect(gates.length).toBeGreaterThan(0);
    const [{ estimatedAirspeedMps }] = gates;
    if (!isUndetermined(estimatedAirspeedMps)) throw new Error('an airspeed without a wind');
    expect(estimatedAirspeedMps.undetermined).toContain('no wind was entered');
  });

  test('[EA4] without turns it is the entered wind, magnetic directions turned', () => {
    const wind = { fromDeg: 0, reference: 'true', speedKt: 20, gustKt: null } as const;
    const by = (reference: 'true' | 'magnetic', fromDeg: number): Final =>
      finalOf(scenario, 810, {
        conditions: { ...NOTHING_ENTERED, wind: { ...wind, reference, fromDeg } },
      });
    const plain = by('true', 30);
    expect(plain.airspeedWind).toBe('entered');
    const speed = valueOf(plain.gates[0].estimatedAirspeedMps);
    expect(valueOf(by('true', 210).gates[0].estimatedAirspeedMps)).not.toBeCloseTo(speed, 0);
    // The variation there is under two degrees: not the same, but near.
    const turned = valueOf(by('magnetic', 30).gates[0].estimatedAirspeedMps);
    expect(turned).not.toBe(speed);
    expect(Math.abs(turned - speed)).toBeLessThan(0.6);
  });
});

test('[EA4] with turns and an entered wind it is both, between them and with a narrower band', () => {
  const seed = 66_000;
  const flight = flyDrawnCircuits(seed, 'take-off');
  const track = toTrack(logDrawnCircuits(flight, seed, 1));
  const motion = computeMotion(applyCleaning(track, cleanTrack(track)));
  const book = { ...EMPTY_STRIP_BOOK, strips: [flight.strip] };
  const events = detectEvents(motion, book);
  const wind = fitWind(motion);
  if (isUndetermined(wind)) throw new Error(wind.undetermined);
  // What the track says, at 10 m, 4 kt stronger: an error that an entered wind may well have.
  const share = 0.1 ** 0.15;
  const speedKt = (share * Math.hypot(wind.eastMps, wind.northMps)) / MPS_PER_KNOT + 4;
  const fromDeg = ((Math.atan2(-wind.eastMps, -wind.northMps) * 180) / Math.PI + 360) % 360;
  const entered = { fromDeg, reference: 'true', speedKt, gustKt: null } as const;
  const none = undetermined('the flight turns too little');
  const at = (of: typeof wind | typeof none, conditions: Conditions): Final =>
    finalsOf(motion, events, { wind: of, conditions, book })[0];
  const airspeeds = (final: Final): Estimate => bandOf(final.gates[0].estimatedAirspeedMps);
  const track1 = at(wind, NOTHING_ENTERED);
  const entered1 = at(none, { ...NOTHING_ENTERED, wind: entered });
  const both = at(wind, { ...NOTHING_ENTERED, wind: entered });
  expect([track1, entered1, both].map(({ airspeedWind }) => airspeedWind)).toEqual([
    ...['track', 'entered', 'both'],
  ]);
  const values = [track1, both, entered1].map((final) => airspeeds(final).value);
  expect(values[1]).toBeGreaterThan(Math.min(values[0], values[2]));
  expect(values[1]).toBeLessThan(Math.max(values[0], values[2]));
  const width = (final: Final): number => airspeeds(final).high - airspeeds(final).low;
  expect(width(both)).toBeLessThan(width(track1));
  expect(width(both)).toBeLessThan(width(entered1));
});

/** A path by places along and right of the direction flown. */
function pathOf(scenario: Scenario, corners: readonly (readonly [number, number])[]): ApproachPath {
  const { strip, designator } = scenario;
  const direction = strip.directions.find((each) => each.designator === designator);
  if (!direction) throw new Error(designator);
  const frame = createStripFrame(strip, direction);
  const places = corners.map(([alongM, crossM]) => frame.pointAt(alongM, crossM));
  return {
    ...{ strip: strip.id, designator, properties: {} },
    latDeg: places.map(({ latDeg }) => latDeg),
    lonDeg: places.map(({ lonDeg }) => lonDeg),
  };
}

describe('[PP1] the preferred path', () => {
  const scenario = flyDrawnApproach(820, 'full-stop');
  const by = (corners: readonly (readonly [number, number])[]) => {
    const path = finalOf(scenario, 820, { paths: [pathOf(scenario, corners)] }).preferredPath;
    if (!path) throw new Error('no path');
    return path;
  };

  test('[PP1] along the straight final is followed, whichever end was drawn first', () => {
    const inwards = by([
      [-900, 0],
      [-400, 0],
      [-50, 0],
    ]);
    expect(inwards.found).toBe('followed');
    expect(inwards.parts).toHaveLength(2);
    expect(valueOf(inwards.greatestOffM)).toBeLessThan(40);
    const outwards = by([
      [-50, 0],
      [-400, 0],
      [-900, 0],
    ]);
    expect(outwards).toEqual(inwards);
  });

  test('[PP1] one 250 m beside it was left by as much; one at the limit nobody can tell', () => {
    const beside = by([
      [-900, 250],
      [-100, 250],
    ]);
    expect(beside.found).toBe('left');
    // The simulated pilot keeps within some 25 m of the centreline this far out.
    expect(Math.abs(valueOf(beside.meanOffM) - 250)).toBeLessThan(25);
    expect(holds(beside.greatestOffM, valueOf(beside.meanOffM))).toBe(true);
    const edge = by([
      [-400, 100],
      [-100, 100],
    ]);
    expect(edge.found).toBe('cannot-tell');
  });

  test('[PP1] a part the log does not reach back to is undetermined, the rest is not', () => {
    const angled = by([
      [-400, 900],
      [-400, 0],
      [-50, 0],
    ]);
    // Nobody flew across to the centreline: the log begins on final.
    expect(angled.found).toBe('cannot-tell');
    expect(isUndetermined(angled.parts[0].greatestOffM)).toBe(true);
    expect(valueOf(angled.parts[1].greatestOffM)).toBeLessThan(40);
  });

  test('[PP1] flown the other way along it, all of it was left', () => {
    const { motion, events } = eventsOfScenario(scenario, 820);
    const [view] = events.views;
    const outbound = {
      ...view,
      smoothAlongM: view.smoothAlongM.toReversed(),
      smoothCrossM: view.smoothCrossM.toReversed(),
    };
    const path = pathOf(scenario, [
      [-900, 0],
      [-50, 0],
    ]);
    const { touchdown } = onlyOne(events.approaches);
    if (isUndetermined(touchdown)) throw new Error(touchdown.undetermined);
    const contact = firstAtOrAfter(motion.timeS, valueOf(touchdown.timeS));
    const inbound = { from: 1, to: contact };
    expect(pathFollowed(view, inbound, path).found).toBe('followed');
    const away = { from: motion.length - contact, to: motion.length };
    const found = pathFollowed(outbound, away, path);
    expect(found.found).toBe('left');
    expect(isUndetermined(found.greatestOffM)).toBe(true);
  });

  test('[PP2] of another direction or without a path there is nothing to say', () => {
    expect(finalOf(scenario, 820).preferredPath).toBeNull();
    const other = {
      ...pathOf(scenario, [
        [-900, 0],
        [0, 0],
      ]),
      designator: 'none',
    };
    expect(finalOf(scenario, 820, { paths: [other] }).preferredPath).toBeNull();
  });
});

describe('[CP1] the commit point of a go-around', () => {
  const flights = Array.from({ length: 8 }, (_, k) => 830 + k).map((seed) => {
    const scenario = flyDrawnApproach(seed, 'go-around');
    const { goAround } = scenario.flown.truth.approaches[0];
    if (!goAround) throw new Error(`seed ${seed} is no go-around`);
    return { seed, scenario, alongM: alongAt(scenario, goAround.initiationTimeS) };
  });

  test('[CP1] begun well before it or well past it is told so, by how much', () => {
    let held = 0;
    for (const { seed, scenario, alongM } of flights) {
      const early = finalOf(scenario, seed, { commitM: Math.round(alongM + 300) }).commitPoint;
      const late = finalOf(scenario, seed, { commitM: Math.round(alongM - 300) }).commitPoint;
      if (!early || !late) throw new Error(`seed ${seed}: no commit point`);
      if (isUndetermined(early.beforeM)) continue;
      expect(valueOf(early.beforeM), `seed ${seed}`).toBeGreaterThan(0);
      expect(valueOf(late.beforeM), `seed ${seed}`).toBeLessThan(0);
      expect(early.beforeProbability).toBeGreaterThan(0.9);
      expect(late.beforeProbability).toBeLessThan(0.1);
      const { low, high } = bandOf(early.initiationAlongM);
      if (low <= alongM && alongM <= high) held++;
    }
    expect(held).toBeGreaterThanOrEqual(5);
  });

  test('[UP4] where the ends are guessed it is told, and nothing that counts from it', () => {
    const [{ scenario, seed }] = flights;
    const strip = { ...scenario.strip, endsGuessed: true };
    const none = { undetermined: ENDS_GUESSED };
    expect(finalOf({ ...scenario, strip }, seed, { commitM: -200 }).commitPoint).toEqual({
      ...{ commitM: -200, initiationAlongM: none, beforeM: none, beforeProbability: null },
    });
  });

  test('[CP2] a landing, or a direction without a commit point, has none', () => {
    expect(finalOf(flights[0].scenario, flights[0].seed).commitPoint).toBeNull();
    const landing = flyDrawnApproach(840, 'full-stop');
    expect(finalOf(landing, 840, { commitM: -200 }).commitPoint).toBeNull();
  });
});

describe('[FL1] the float', () => {
  test('[FL1] from the end of the round-out to touchdown lies in its bands', () => {
    const scores = Array.from({ length: 14 }, (_, k) => scoreFloat(7_800 + k, 1));
    const found = scores.filter((score) => score !== null);
    expect(found.length).toBeGreaterThan(9);
    const held = found.filter(({ time, distance }) => time.held && distance.held);
    expect(held.length / found.length).toBeGreaterThan(0.7);
    // Most known beforehand is that it lasts 0 to 14 s.
    for (const { time } of found) expect(time.width).toBeLessThanOrEqual(8);
  });

  test('[FL2] a go-around, or a log without heights, has none', () => {
    const scenario = flyDrawnApproach(830, 'go-around');
    expect(isUndetermined(finalOf(scenario, 830).float)).toBe(true);
    const flat = finalOf(flyDrawnApproach(840, 'full-stop'), 840, { noHeights: true });
    expect(isUndetermined(flat.float)).toBe(true);
  });
});

/** Where the aircraft truly was at a moment, along from the threshold of the direction flown. */
function alongAt({ strip, designator, flown }: Scenario, timeS: number): number {
  const direction = strip.directions.find((each) => each.designator === designator);
  if (!direction) throw new Error(designator);
  const i = firstAtOrAfter(flown.timeS, timeS);
  expect(valueAt(flown.timeS, flown.timeS, timeS)).toBeCloseTo(timeS, 3);
  const { latDeg, lonDeg } = flown.map.toLatLon(flown.eastM[i], flown.northM[i]);
  const frame = createStripFrame(strip, direction);
  return frame.toAlongCross(Float64Array.of(latDeg), Float64Array.of(lonDeg)).alongM[0];
}
