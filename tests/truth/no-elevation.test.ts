/** Independent flights (see README.md) at a strip whose elevation nobody entered. */
import { expect, test } from 'vitest';
import { detectEvents } from '../../src/events/detect-events.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { START_S, stripOf } from './events-in-truth.ts';
import { independentTrack } from './log-truth.ts';
import { readTruthFlights, type TruthFlight } from './read-truth.ts';

function found(flight: TruthFlight, seed: number) {
  const book = stripOf(flight);
  const strips = book.strips.map((strip) => ({ ...strip, elevationM: null, profile: null }));
  const track = independentTrack(flight, START_S, createRandom(seed), 'gpx');
  return detectEvents(computeMotion(track), { ...book, strips }).approaches;
}

test('[GT6] a pass that nothing ties is named, and says nothing of its heights', () => {
  const passes = readTruthFlights().filter(({ events }) =>
    events.every(({ type }) => type === 'go_around' || type === 'climb_50ft'),
  );
  expect(passes.length).toBeGreaterThanOrEqual(2);
  for (const flight of passes) {
    for (const seed of [1, 2, 3]) {
      const [approach, ...others] = found(flight, seed);
      expect([approach.outcome, others], flight.name).toEqual(['go-around', []]);
      const { goAround, thresholdCrossing, gates } = approach;
      if (!goAround || isUndetermined(thresholdCrossing)) throw new Error('both are there');
      for (const height of [goAround.lowestAboveM, thresholdCrossing.aboveM]) {
        expect(isUndetermined(height) && height.undetermined).toMatch(/no elevation of this strip/);
      }
      expect(gates).toEqual([]);
    }
  }
});

test('[GT6] a contact there ties them all the same', () => {
  const landings = readTruthFlights().filter(({ name }) => /^fs_/.test(name));
  expect(landings.length).toBeGreaterThan(3);
  for (const flight of landings) {
    const [{ thresholdCrossing, gates }] = found(flight, 1);
    if (isUndetermined(thresholdCrossing)) throw new Error('the threshold was crossed');
    const { aboveM } = thresholdCrossing;
    expect(isUndetermined(aboveM) ? NaN : aboveM.value, flight.name).toBeLessThan(20);
    expect(gates.length).toBeGreaterThan(0);
  }
});
