/**
 * How rightly are circuits, joins, wind, airspeeds and floats found? `npm run accuracy-circuits` writes
 * docs/accuracy-circuits.md.
 *
 *   npm run accuracy-circuits [-- --flights 500] [--seed 70000]
 *
 * Detectors and bands were chosen on seeds below 10,000; flights that judge have seeds from 70,000 on.
 */
import { parseArgs } from 'node:util';
import { debriefTrack, type Flight } from '../../src/debrief/debrief.ts';
import { finalsOf } from '../../src/debrief/finals.ts';
import { fitWind } from '../../src/events/wind-from-track.ts';
import { isUndetermined } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import type { Track } from '../../src/track/track.ts';
import { scoreAirspeeds, windAsEntered, type AirspeedScore } from '../synthetic/airspeed-score.ts';
import {
  flyDrawnCircuits,
  keptToStrip,
  logDrawnCircuits,
  type CircuitFlight,
} from '../synthetic/circuit-population.ts';
import {
  MIDDLE_SLACK_S,
  scoreCircuits,
  SLACK_S,
  type FlightScore,
} from '../synthetic/circuit-score.ts';
import { circuitFound, scoreSizes, type SizeScore } from '../synthetic/circuit-sizes.ts';
import { scoreFloat, type FloatAgainst } from '../synthetic/float-score.ts';
import { toTrack } from '../synthetic/logged-track.ts';
import { unevenLog } from '../synthetic/uneven-log.ts';
import type { Conditions } from '../../src/weather/conditions.ts';
import {
  airspeedRow,
  at,
  confusion,
  held,
  JOINS,
  legRow,
  misses,
  sizeRows,
  windRow,
} from './accuracy-circuit-rows.ts';
import { tableHead, tableRow } from './accuracy-tally.ts';
import { writeMarkdown } from './write-markdown.ts';

const { values } = parseArgs({
  options: {
    flights: { type: 'string', default: '500' },
    seed: { type: 'string', default: '70000' },
  },
});
const FLIGHTS = Number(values.flights);
const FIRST_SEED = Number(values.seed);
const INTERVALS_S = [1, 2, 4];
const airspeeds = new Map<number, AirspeedScore[]>(INTERVALS_S.map((each) => [each, []]));
const withEntered = new Map<number, AirspeedScore[]>(INTERVALS_S.map((each) => [each, []]));
const sizes = new Map<string, SizeScore[]>();

function debriefOf(flight: CircuitFlight, seed: number, track: Track): Flight {
  const strips = { ...EMPTY_STRIP_BOOK, strips: [flight.strip] };
  const given = { strips, aeroplanes: [], conditions: null };
  const { flights } = debriefTrack(
    { track, headers: new Map(), notes: [], leftOut: [] },
    'drawn',
    '',
    given,
  );
  if (flights.length !== 1) throw new Error(`seed ${seed}: ${flights.length} flights`);
  return flights[0];
}

function addSizes(flight: CircuitFlight, { circuits }: Flight, log: string): void {
  const list = sizes.get(log) ?? [];
  sizes.set(log, list);
  flight.flown.truth.circuits.forEach((truth, k) => {
    const seen = circuitFound(circuits.circuits, truth);
    if (seen) list.push(...scoreSizes(flight, k, seen));
  });
}

function scoreAt(flight: CircuitFlight, seed: number, intervalS: number): FlightScore {
  const track = toTrack(logDrawnCircuits(flight, seed + 5_000_000, intervalS));
  const debriefed = debriefOf(flight, seed, track);
  addSizes(flight, debriefed, `${intervalS} s`);
  if (intervalS === 1) {
    addSizes(flight, debriefOf(flight, seed, unevenLog(track, seed)), '1 to 6 s');
  }
  const elevationM = flight.strip.elevationM?.[0] ?? 0;
  const gates = airspeeds.get(intervalS) ?? [];
  gates.push(...scoreAirspeeds(flight.flown, debriefed, elevationM, seed));
  const { motion, events } = debriefed;
  const wind = fitWind(motion);
  if (!isUndetermined(wind)) {
    const conditions = { ...NOTHING_ENTERED, wind: windAsEntered(flight.day, seed) };
    const book = { ...EMPTY_STRIP_BOOK, strips: [flight.strip] };
    const finals = finalsOf(motion, events, { wind, conditions, book });
    const both = withEntered.get(intervalS) ?? [];
    both.push(...scoreAirspeeds(flight.flown, { events, finals }, elevationM, seed));
  }
  return scoreCircuits(flight, debriefed.circuits, debriefed.wind, intervalS);
}

const NOTHING_ENTERED: Conditions = {
  ...{ wind: null, tempC: null, qnhHpa: null, massKg: null, takeOffMassKg: null },
  ...{ surface: null, flap: null, aeroplane: null, factorSet: null, effort: null },
};

const scores = new Map<number, FlightScore[]>(INTERVALS_S.map((intervalS) => [intervalS, []]));
let beside = 0;
for (let k = 0; k < FLIGHTS; k++) {
  const seed = FIRST_SEED + k;
  const flight = flyDrawnCircuits(seed);
  if (!keptToStrip(flight)) {
    beside++;
    continue;
  }
  for (const [intervalS, list] of scores) list.push(scoreAt(flight, seed, intervalS));
}

/** Landings for the float: fewer, each is sought by its touchdown. */
const FLOATS = Math.round(FLIGHTS / 2);

function floatRow(intervalS: number): string {
  const scores = Array.from({ length: FLOATS }, (_, k) => scoreFloat(FIRST_SEED + k, intervalS));
  const found = scores.filter((score) => score !== null);
  const off = (list: readonly FloatAgainst[], unit: string): string => {
    const errors = list.map(({ error }) => Math.abs(error));
    return `${at(errors, 0.5)} / ${at(errors, 0.9)} ${unit}`;
  };
  const times = found.map(({ time }) => time);
  const truths = times.map(({ truth }) => truth);
  return tableRow([
    `${intervalS} s`,
    String(scores.length),
    String(scores.length - found.length),
    `${at(truths, 0.05)} to ${at(truths, 0.95)} s`,
    off(times, 's'),
    held(times),
    `${at(
      times.map(({ width }) => width),
      0.5,
    )} s`,
    off(
      found.map(({ distance }) => distance),
      'm',
    ),
    held(found.map(({ distance }) => distance)),
  ]);
}

const all = [...scores.values()].flat();
const four = (list: readonly FlightScore[]): FlightScore[] =>
  list.filter(({ wind }) => wind.fourLegs);
const lines = [
  '# How rightly circuits, joins and the wind are found',
  '',
  `Made by \`npm run accuracy-circuits -- --flights ${FLIGHTS} --seed ${FIRST_SEED}\`. All flights are simulated and invented: ${FLIGHTS} flights of one to three circuits (${beside} left out, in which the simulated pilot turned so late that the threshold was passed beside the strip), left and right, square, skew (legs 65 to 108 degrees apart, downwind up to 10 degrees off), turned in one go, with extended downwind legs and orbits; half of them joined from afar in one of five ways; aeroplanes that fly downwind at 17 to 55 m/s, pilots who slow down from there to short final by 10 to 36 % (5 to 95 %), abeam the threshold, in the turns, bit by bit or late, and climb faster once clear, wind up to 12 m/s at circuit height (less for slow aeroplanes) with shear and gusts; consumer receivers, GPX and IGC. Detectors and bands were chosen on other seeds.`,
  '',
  `A circuit is right when it is found with its side, all its legs in order, its orbits, and every turn on to a leg begins within ${SLACK_S} s and one logging interval of the truth (${MIDDLE_SLACK_S} s where two turns are flown as one, and for the climb-out, which begins with lift-off). Borders are not judged where an orbit and a turn are flown in one go: nobody can say which came first. Percentages carry their standard error.`,
  '',
  '## Legs, joins and bank',
  '',
  tableHead([
    'a fix every',
    'circuits',
    'right',
    'invented',
    'turns begin off by (5 to 95 %)',
    'joins',
    'right',
    'steepest bank off by (median / 90 %)',
    'its band holds',
  ]),
  ...[...scores].map(([intervalS, list]) => legRow(intervalS, list)),
  '',
  'What went wrong with the others:',
  '',
  tableHead(['circuit', 'count']),
  ...misses(all),
  '',
  'Joins, flown (rows) against found:',
  '',
  tableHead(['flown', ...JOINS]),
  ...confusion(all),
  '',
  '## Size and speeds',
  '',
  'Where the base turn began and where final was lined up, how wide downwind was flown, and the mean speed on its straight part and on that of base; circuits without an orbit. Some recorders write a fix every one or two seconds in turns and every one to six on straights: 1 to 6 s.',
  '',
  tableHead([
    'figure',
    'a fix every',
    'count',
    'off by (median / 90 %)',
    'band holds',
    'width of band',
  ]),
  ...[...sizes].flatMap(([log, list]) => sizeRows(log, list)),
  '',
  '## Wind',
  '',
  'The error is that of the wind as a vector, against the mean wind at the heights flown.',
  '',
  tableHead([
    'flights',
    'count',
    'undetermined',
    'off by (median / 90 %)',
    'too strong by (median)',
    'within 2 m/s',
    'band of speed holds',
    'band of direction holds',
    'width of speed band',
  ]),
  ...[...scores].map(([intervalS, list]) =>
    windRow(`a circuit of four legs or more, a fix every ${intervalS} s`, four(list)),
  ),
  windRow(
    'no such circuit, all intervals',
    all.filter(({ wind }) => !wind.fourLegs),
  ),
  '',
  '## Airspeed at the gates',
  '',
  'By the wind from the track, without any entered condition; and by it and an entered wind together, which is drawn about the true one at 10 m with 1.5 m/s and a fifth of it, one standard deviation, in each component. The temperature of the day is drawn with 8 K about the standard. All flights whose turns tell a wind.',
  '',
  tableHead([
    'wind',
    'a fix every',
    'gates',
    'off by (median / 90 %)',
    'too fast by (median)',
    'within 5 kt',
    'band holds',
    'width of band',
  ]),
  ...[...airspeeds].map(([intervalS, list]) => airspeedRow('track', intervalS, list)),
  ...[...withEntered].map(([intervalS, list]) => airspeedRow('track and entered', intervalS, list)),
  '',
  '## Float',
  '',
  'From the end of the round-out to touchdown, in drawn landings of all kinds. Long floats are rather found too short. A band wider than 8 s tells nothing and counts as undetermined.',
  '',
  tableHead([
    'a fix every',
    'landings',
    'undetermined',
    'flown (5 to 95 %)',
    'time off by (median / 90 %)',
    'band of time holds',
    'its width',
    'distance off by (median / 90 %)',
    'band of distance holds',
  ]),
  ...INTERVALS_S.map(floatRow),
  '',
];
await writeMarkdown('docs/accuracy-circuits.md', lines.join('\n'));
