/**
 * Flights of an independent open flight-dynamics model (see README.md), through a receiver model,
 * against their true events. The places are invented spots, not strips.
 */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import { eventsIn, START_S } from './events-in-truth.ts';
import type { LoggedAs } from './log-truth.ts';
import { numberOf, readTruthFlights, type TruthEvent } from './read-truth.ts';

const FLIGHTS = readTruthFlights();
const SEEDS = [1, 2, 3, 4];

/** The outcome a true event should be found as; null for events that are no approach. */
function outcomeOf(event: TruthEvent): string | null {
  if (event.type === 'go_around') return 'go-around';
  if (event.type !== 'landing') return null;
  return event.kind === 'touch_and_go' ? 'touch-and-go' : 'full-stop';
}

function valueOf(measured: Measured): number {
  return isUndetermined(measured) ? NaN : measured.value;
}

function widthOf(measured: Measured): number {
  return isUndetermined(measured) ? NaN : measured.high - measured.low;
}

const LOGS: readonly LoggedAs[] = ['gpx', 'igc'];

describe('[TF1] independent flights', () => {
  test.each(LOGS)('[TF1] as %s: every approach and take-off is found and named, none invented', (as) => {
    for (const flight of FLIGHTS) {
      for (const seed of SEEDS) {
        const { approaches, takeOffs } = eventsIn(flight, seed, as);
        const wanted = flight.events.map(outcomeOf).filter((outcome) => outcome !== null);
        const where = `${flight.name} seed ${seed}`;
        expect(
          approaches.map((each) => each.outcome),
          where,
        ).toEqual(wanted);
        const lifts = flight.events.filter(({ type }) => type.startsWith('liftoff'));
        expect(takeOffs, where).toHaveLength(lifts.length);
      }
    }
  });

  test.each(LOGS)('[TF2] as %s: touchdown, stop and lift-off are as near as stated, and bands hold', (as) => {
    const touchdown = { errors: [] as number[], held: 0 };
    const widths: number[] = [];
    const stop: number[] = [];
    const stopWidths: number[] = [];
    const liftOff = { errors: [] as number[], held: 0 };
    for (const flight of FLIGHTS) {
      for (const seed of SEEDS) {
        const { approaches, takeOffs } = eventsIn(flight, seed, as);
        const landings = flight.events.filter(({ type }) => type === 'landing');
        const landed = approaches.filter(({ touchdown: found }) => !isUndetermined(found));
        landings.forEach((event, k) => {
          const found = landed[k].touchdown;
          if (isUndetermined(found)) throw new Error(found.undetermined);
          add(touchdown, found.alongM, numberOf(event, 'td_x'));
          widths.push(widthOf(found.alongM));
          const end = landed[k].rollEnd;
          if (event.kind === 'full_stop' && !isUndetermined(end)) {
            stop.push(Math.abs(valueOf(end.alongM) - numberOf(event, 'stop_x')));
            stopWidths.push(widthOf(end.alongM));
          }
        });
        flight.events
          .filter(({ type }) => type === 'liftoff')
          .forEach((event, k) => {
            const found = takeOffs[k].liftOff;
            if (isUndetermined(found)) throw new Error(found.undetermined);
            add(liftOff, found.alongM, numberOf(event, 'x'));
          });
      }
    }
    const share = touchdown.held / touchdown.errors.length;
    console.log(
      `independent flights as ${as}: touchdown ${at(touchdown.errors, 0.5)} / ${at(touchdown.errors, 0.9)} m, bands hold ${(100 * share).toFixed(0)} % of ${touchdown.errors.length}; stop ${at(stop, 0.5)} / ${at(stop, 0.9)} m; lift-off ${at(liftOff.errors, 0.5)} m`,
    );
    // Ten flights, four seeds: the standard errors are some 3 m on the median and 8 m on the 90th.
    expect(at(touchdown.errors, 0.5)).toBeLessThan(18);
    expect(at(touchdown.errors, 0.9)).toBeLessThan(48);
    expect(share).toBeGreaterThan(0.8);
    // A band that says everything says nothing: in docs/accuracy.md they are 99, 85 and 10 m wide.
    expect(at(widths, 0.5)).toBeLessThan(as === 'gpx' ? 115 : 100);
    expect(at(stopWidths, 0.5)).toBeLessThan(12);
    expect(at(stop, 0.9)).toBeLessThan(4);
    expect(at(liftOff.errors, 0.5)).toBeLessThan(30);
    expect(liftOff.held / liftOff.errors.length).toBeGreaterThan(0.7);
  });

  test.each(LOGS)('[TF3] as %s: the lowest point of a go-around lies in its bands', (as) => {
    const seeds = Array.from({ length: 8 }, (_, k) => 1 + k);
    const height = { errors: [] as number[], held: 0 };
    const place = { errors: [] as number[], held: 0 };
    const begun: number[] = [];
    for (const flight of FLIGHTS) {
      const events = flight.events.filter(({ type }) => type === 'go_around');
      if (events.length === 0) continue;
      for (const seed of seeds) {
        const broken = eventsIn(flight, seed, as).approaches.filter(
          ({ outcome }) => outcome === 'go-around',
        );
        events.forEach((event, k) => {
          const { goAround } = broken[k];
          if (!goAround) throw new Error(`${flight.name}: no go-around`);
          add(height, goAround.lowestAboveM, numberOf(event, 'min_h'));
          add(place, goAround.lowestAlongM, numberOf(event, 'min_h_x'));
          const phaseS = createRandom(seed).uniform();
          begun.push(
            valueOf(goAround.initiationTimeS) - START_S - phaseS - numberOf(event, 'decision_t'),
          );
        });
      }
    }
    console.log(
      `independent go-arounds as ${as}: lowest height ${at(height.errors, 0.5)} m off, bands hold ${height.held} of ${height.errors.length}; place ${at(place.errors, 0.5)} m off, ${place.held} of ${place.errors.length}; begun ${at(begun, 0.5)} s after the decision`,
    );
    // Sixteen bands that hold nine times in ten hold fewer than 12 times once in 60 draws (binomial).
    expect(height.errors.length).toBeGreaterThanOrEqual(16);
    expect(height.held).toBeGreaterThanOrEqual(12);
    expect(place.held).toBeGreaterThanOrEqual(12);
    expect(at(begun, 0.1)).toBeGreaterThan(-2.5);
    expect(at(begun, 0.9)).toBeLessThan(2.5);
  });
});

function add(tally: { errors: number[]; held: number }, measured: Measured, truth: number): void {
  if (isUndetermined(measured)) throw new Error(measured.undetermined);
  tally.errors.push(Math.abs(measured.value - truth));
  if (measured.low <= truth && truth <= measured.high) tally.held++;
}

/** Value below which the share lies, to a tenth of a metre. */
function at(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return Math.round(10 * sorted[Math.floor(share * sorted.length)]) / 10;
}
