/** What is known of the level of the heights over a strip, on one independent go-around (see README.md). */
import { expect, test } from 'vitest';
import { gates } from '../../src/events/gates.ts';
import { offsetAtView, offsetOf } from '../../src/events/ground-tie.ts';
import { viewsOf } from '../../src/events/strip-view.ts';
import { TiedHeights } from '../../src/events/tied-heights.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { START_S, stripOf } from './events-in-truth.ts';
import { independentTrack } from './log-truth.ts';
import { readTruthFlights } from './read-truth.ts';

const flight = readTruthFlights().find(({ name }) => name === 'ga_01');
if (!flight) throw new Error('no such flight');
const [entered] = stripOf(flight).strips;
const unentered = { ...entered, elevationM: null, profile: null };
const track = independentTrack(flight, START_S, createRandom(1), 'igc');
const motion = computeMotion(track);
const [known] = viewsOf(motion, entered, entered.id);
const [unknown] = viewsOf(motion, unentered, entered.id);
const lowest = known.smoothAboveM.indexOf(Math.min(...known.smoothAboveM));
const pass = { kind: 'arrival' as const, begunLate: false, from: 0, to: motion.length, referenceMps: 30 };
const one = (value: number): Float64Array => Float64Array.of(value);
const level = (metres: number) =>
  offsetOf({ weight: one(1), mean: one(metres), sd: one(4) }, false);

test('[GT6] no gate is told where nobody knows how high the strip lies', () => {
  const told = (view: typeof known): number => {
    const heights = new TiedHeights(motion, view, () => level(view.smoothAboveM[lowest]));
    return gates(motion, view, pass, heights, lowest).length;
  };
  expect(told(known)).toBeGreaterThan(0);
  expect(told(unknown)).toBe(0);
});

test('[GT6] a tie at another strip tells nothing of one without elevation', () => {
  const elsewhere = {
    ...{ timeS: motion.timeS[0], offsetM: 47, sdM: 0.5 },
    ...{ placeId: 'elsewhere', elevationKnown: true },
  };
  const tied = (view: typeof known): boolean =>
    offsetAtView(view, [elsewhere], 'unstated')(motion.timeS[lowest]).tied;
  expect(tied(known)).toBe(true);
  expect(tied(unknown)).toBe(false);
});

test('[PH3] the level of a pressure height is less certain at speed than where it was tied', () => {
  const alone = computeMotion({ ...track, heightM: track.heightM.map(() => NaN) });
  expect(alone.heightDatum).toBe('pressure');
  const atS = motion.timeS[lowest];
  const dynamicM = motion.speedMps[lowest] ** 2 / (2 * 9.80665);
  const sdM = (of: typeof motion): number =>
    new TiedHeights(of, known, () => level(0)).levelSdM(atS);
  expect(sdM(motion)).toBeCloseTo(4, 6);
  // A twelfth of the dynamic pressure, beside the 4 m of the level.
  expect(sdM(alone)).toBeGreaterThan(Math.hypot(4, 0.07 * dynamicM));
});
