/** What the independent flights of tests/truth say about their spots: rows for docs/accuracy-strips.md. */
import { createRandom } from '../../src/numeric/random.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import { learnStrip } from '../../src/strips/learn-strip.ts';
import { tracesOf } from '../strips/simulated-visits.ts';
import { START_S, stripOf } from '../truth/events-in-truth.ts';
import { independentTrack } from '../truth/log-truth.ts';
import { readTruthFlights, type TruthFlight } from '../truth/read-truth.ts';
import { tableHead, tableRow } from './accuracy-tally.ts';

const SEEDS = 20;

/** Lines of Markdown. */
export function independentStrips(): string[] {
  const spots = new Map<string, TruthFlight[]>();
  for (const flight of readTruthFlights()) {
    const { thresholdLatDeg, thresholdLonDeg } = flight.strip;
    const key = `${thresholdLatDeg} ${thresholdLonDeg}`;
    spots.set(key, [...(spots.get(key) ?? []), flight]);
  }
  const rows = [...spots.values()].map(rowOf).filter((row) => row !== null);
  return [
    '## Independent flights',
    '',
    `The flights of tests/truth (an open flight-dynamics model; see the README there), ${SEEDS} receivers each, all flights at one spot taken as visits to one strip. Truth: the line and the slope of the spot; the pilot of the model rolls within about a metre of the middle.`,
    '',
    tableHead(['flights', 'receivers', 'beside', 'holds', 'turned', 'holds', 'slope', 'holds']),
    ...rows,
  ];
}

function rowOf(flights: readonly TruthFlight[]): string | null {
  const beside = new Errors();
  const turned = new Errors();
  const slope = new Errors();
  const { strip } = flights[0];
  const book = stripOf(flights[0]);
  for (let seed = 1; seed <= SEEDS; seed++) {
    const traces = flights.flatMap((flight, k) => {
      const random = createRandom(1000 * seed + k);
      return tracesOf(independentTrack(flight, START_S, random, 'igc'), book, flight.name);
    });
    const learned = learnStrip(book.strips[0], traces);
    if (isUndetermined(learned)) return null;
    beside.add(learned.rightM, 0);
    turned.add(learned.turnedDeg, 0);
    slope.add(
      learned.slopeRatio,
      (strip.elevationFarM - strip.elevationThresholdM) / strip.lengthM,
    );
  }
  return tableRow([
    String(flights.length),
    String(SEEDS),
    ...beside.cells(' m', 1, 1),
    ...turned.cells('°', 1, 2),
    ...slope.cells(' %', 100, 2),
  ]);
}

class Errors {
  readonly #errors: number[] = [];
  #held = 0;

  add(found: Measured, truth: number): void {
    if (isUndetermined(found)) return;
    this.#errors.push(Math.abs(found.value - truth));
    if (found.low <= truth && truth <= found.high) this.#held++;
  }

  cells(unit: string, factor: number, digits: number): string[] {
    const sorted = this.#errors.toSorted((a, b) => a - b);
    const n = sorted.length;
    const at = (p: number): string => (factor * sorted[Math.floor(p * n)]).toFixed(digits);
    return [`${at(0.5)} / ${at(0.9)}${unit}`, `${this.#held} of ${n}`];
  }
}
