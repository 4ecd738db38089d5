/**
 * Independent flights (see README.md) whose logs lack heights here and there: what is stated still holds,
 * what cannot be told is undetermined, and nothing is invented.
 */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import type { Track } from '../../src/track/track.ts';
import { eventsIn, START_S } from './events-in-truth.ts';
import type { LoggedAs } from './log-truth.ts';
import { numberOf, readTruthFlights, type TruthEvent, type TruthFlight } from './read-truth.ts';

const FLIGHTS = readTruthFlights();
const SEEDS = [1, 2, 3];

/** When the wheels touched or were lowest, or left the ground, seconds UTC but for a part of one. */
function momentS({ events }: TruthFlight): number {
  const [first] = events.filter(({ type }) => type !== 'climb_50ft');
  const columns: Partial<Record<TruthEvent['type'], string>> = {
    landing: 'td_t',
    go_around: 'min_h_t',
  };
  const column = columns[first.type] ?? 't';
  return START_S + numberOf(first, column);
}

/** A track without the satellite heights of some fixes. */
function without(track: Track, isGone: (i: number) => boolean): Track {
  return { ...track, heightM: track.heightM.map((value, i) => (isGone(i) ? NaN : value)) };
}

/** A track whose heights of both kinds were rounded. */
function rounded(track: Track, stepM: number): Track {
  const round = (column: Float64Array): Float64Array =>
    column.map((value) => stepM * Math.round(value / stepM));
  return {
    ...track,
    heightM: round(track.heightM),
    pressureHeightM: round(track.pressureHeightM),
  };
}

const SPOILT: Readonly<Record<string, (track: Track, momentS: number) => Track>> = {
  'the first half': (track) => without(track, (i) => i < track.length / 2),
  'the second half': (track) => without(track, (i) => i >= track.length / 2),
  'a minute at the start': (track) => without(track, (i) => i < 60),
  'forty seconds at the strip': (track, atS) =>
    without(track, (i) => Math.abs(track.timeS[i] - atS) < 20),
  'nine fixes of ten': (track) => without(track, (i) => i % 10 !== 0),
  'all of them, written as nought': (track) => ({
    ...track,
    heightM: new Float64Array(track.length),
  }),
  all: (track) => without(track, () => true),
  'all but the nearest hundred feet': (track) => rounded(track, 30.48),
  'all but the nearest ten metres': (track) => rounded(track, 10),
};

function outcomeOf(event: TruthEvent): string {
  if (event.type === 'go_around') return 'go-around';
  return event.kind === 'touch_and_go' ? 'touch-and-go' : 'full-stop';
}

describe.each<LoggedAs>(['gpx', 'igc'])('[PH2] logged as %s, heights are missing', (as) => {
  test.each(Object.entries(SPOILT))('[PH2] %s: nothing is misnamed, missed or invented, and bands hold', (_, spoil) => {
    const held = { touchdown: 0, lowest: 0 };
    const stated = { touchdown: 0, lowest: 0 };
    const judge = (what: 'touchdown' | 'lowest', measured: Measured, truth: number): void => {
      if (isUndetermined(measured)) return;
      stated[what]++;
      if (measured.low <= truth && truth <= measured.high) held[what]++;
    };
    for (const flight of FLIGHTS) {
      const approaching = flight.events.filter(({ type }) => /landing|go_around/.test(type));
      const leaving = flight.events.filter(({ type }) => type.startsWith('liftoff'));
      for (const seed of SEEDS) {
        const found = eventsIn(flight, seed, as, (track) => spoil(track, momentS(flight)));
        const where = `${flight.name} seed ${seed}`;
        expect(found.approaches, where).toHaveLength(approaching.length);
        expect(found.takeOffs, where).toHaveLength(leaving.length);
        found.approaches.forEach(({ outcome, touchdown, goAround }, k) => {
          const event = approaching[k];
          if (!isUndetermined(outcome)) expect(outcome, where).toBe(outcomeOf(event));
          if (event.type === 'landing') {
            if (isUndetermined(touchdown)) return;
            judge('touchdown', touchdown.alongM, numberOf(event, 'td_x'));
          } else if (goAround) {
            judge('lowest', goAround.lowestAboveM, numberOf(event, 'min_h'));
          }
        });
      }
    }
    // A touchdown is found with any heights or none; nine bands of ten hold, 24 of 27 fewer once in ten draws.
    expect(stated.touchdown).toBeGreaterThanOrEqual(24);
    expect(held.touchdown / stated.touchdown).toBeGreaterThan(0.75);
    if (stated.lowest > 0) expect(held.lowest / stated.lowest).toBeGreaterThan(0.6);
  });
});

test('[PH3] a log with pressure heights alone measures its touchdowns by them', () => {
  const widths = (spoil: (track: Track) => Track): number => {
    const found = FLIGHTS.flatMap((flight) =>
      eventsIn(flight, 1, 'igc', spoil).approaches.flatMap(({ touchdown }) =>
        isUndetermined(touchdown) || isUndetermined(touchdown.alongM) ? [] : [touchdown.alongM],
      ),
    );
    return found.reduce((sum, { low, high }) => sum + high - low, 0) / found.length;
  };
  const alone = widths((track) => without(track, () => true));
  const neither = widths((track) => ({
    ...without(track, () => true),
    pressureHeightM: track.pressureHeightM.map(() => NaN),
  }));
  // Measured: 69 and 110 m.
  expect(alone).toBeLessThan(0.75 * neither);
});

test('[PH3] and a contact ties them: heights over the threshold are within their bands', () => {
  let held = 0;
  const errors: number[] = [];
  for (const flight of FLIGHTS) {
    const { strip, columns, events } = flight;
    const stop = events.find(({ type, kind }) => type === 'landing' && kind === 'full_stop');
    if (!stop) continue;
    const heightAt = (t: number): number => columns.alt[Math.round(10 * t)];
    const slope = (strip.elevationFarM - strip.elevationThresholdM) / strip.lengthM;
    const stoppedM = heightAt(numberOf(stop, 'stop_t')) - slope * numberOf(stop, 'stop_x');
    for (const seed of SEEDS) {
      const found = eventsIn(flight, seed, 'igc', (track) => without(track, () => true));
      const [landing] = found.approaches.filter(({ outcome }) => outcome === 'full-stop');
      const { thresholdCrossing } = landing;
      if (isUndetermined(thresholdCrossing)) continue;
      const { timeS, aboveM } = thresholdCrossing;
      if (isUndetermined(timeS) || isUndetermined(aboveM)) continue;
      // Fixes fall on whole seconds, the true moments anywhere between them: the seed draws where.
      const phaseS = createRandom(seed).uniform();
      const truth = heightAt(timeS.value - START_S - phaseS) - stoppedM;
      errors.push(Math.abs(aboveM.value - truth));
      // Nobody has measured the cabin: the static pressure may be off by a tenth of the dynamic one.
      const { groundSpeedMps } = thresholdCrossing;
      const speedMps = isUndetermined(groundSpeedMps) ? NaN : groundSpeedMps.value;
      const dynamicM = speedMps ** 2 / (2 * 9.80665);
      if (aboveM.low > 0) expect(aboveM.high - aboveM.low).toBeGreaterThan(0.2 * dynamicM);
      if (aboveM.low <= truth && truth <= aboveM.high) held++;
    }
  }
  expect(errors.length).toBeGreaterThanOrEqual(20);
  expect(held / errors.length).toBeGreaterThan(0.8);
  expect(errors.toSorted((a, b) => a - b)[errors.length >> 1]).toBeLessThan(3);
});
