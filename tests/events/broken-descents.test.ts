/**
 * When a descent was broken and where it was lowest, in logs with a fix every second, every four, and
 * every one to six: drawn go-arounds, by seeds that chose nothing, against their truth.
 */
import { describe, expect, test } from 'vitest';
import { halfRateS } from '../synthetic/broken-descent.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { unevenLog } from '../synthetic/uneven-log.ts';
import { bandOf, eventsOf, holds } from './simulated.ts';

/** With how far the middle one may be off and how wide its band may be, seconds; the place in metres. */
const LOGS = [
  { name: 'second', intervalS: 1, uneven: false, offS: 0.7, lowestOffM: 11, widthS: 3.5 },
  { name: 'four seconds', intervalS: 4, uneven: false, offS: 1.5, lowestOffM: 17, widthS: 5 },
  {
    name: 'one to six seconds',
    intervalS: 1,
    uneven: true,
    offS: 1.6,
    lowestOffM: 17,
    widthS: 7.5,
  },
] as const;

const FLIGHTS = Array.from({ length: 100 }, (_, k) => 4_600 + k).map((seed) => {
  const scenario = flyDrawnApproach(seed, 'go-around');
  const { goAround } = scenario.flown.truth.approaches[0];
  if (!goAround) throw new Error(`seed ${seed} is no go-around`);
  return { seed, scenario, truth: goAround };
});

describe.each(LOGS)('[GA1] a descent in a log with a fix every $name', (log) => {
  const found = FLIGHTS.flatMap(({ seed, scenario, truth }) => {
    const { approaches } = eventsOf(scenario, {
      seed,
      receiver: { intervalS: log.intervalS },
      ...(log.uneven ? { edit: (track) => unevenLog(track, seed) } : {}),
    });
    const goAround = approaches.at(-1)?.goAround;
    return goAround ? [{ goAround, truth, scenario }] : [];
  });

  test('[GA1] was broken when its band says, which is no wider than it must be', () => {
    expect(found.length).toBeGreaterThan(80);
    const begun = found.map(({ goAround, truth, scenario }) => ({
      quantity: bandOf(goAround.initiationTimeS),
      truthS: halfRateS(scenario.flown, truth.lowestTimeS),
    }));
    const held = begun.filter(({ quantity, truthS }) => holds(quantity, truthS));
    expect(held.length / begun.length).toBeGreaterThan(0.8);
    const off = begun.map(({ quantity, truthS }) => Math.abs(quantity.value - truthS));
    expect(middle(off)).toBeLessThan(log.offS);
    expect(middle(begun.map(({ quantity: { low, high } }) => high - low))).toBeLessThan(log.widthS);
  });

  test('[GA1] was lowest when and where its bands say', () => {
    const times = found.filter(({ goAround, truth }) =>
      holds(goAround.lowestTimeS, truth.lowestTimeS),
    );
    const places = found.filter(({ goAround, truth }) =>
      holds(goAround.lowestAlongM, truth.lowestAlongM),
    );
    expect(times.length / found.length).toBeGreaterThan(0.8);
    expect(places.length / found.length).toBeGreaterThan(0.8);
    const off = found.map(({ goAround, truth }) =>
      Math.abs(bandOf(goAround.lowestAlongM).value - truth.lowestAlongM),
    );
    expect(middle(off)).toBeLessThan(log.lowestOffM);
  });
});

function middle(list: readonly number[]): number {
  return list.toSorted((a, b) => a - b)[list.length >> 1];
}
