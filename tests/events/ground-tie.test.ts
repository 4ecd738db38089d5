/** The height offset between contacts, against Gaussian conditioning by hand; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { tieBetween } from '../../src/events/contact-tie.ts';
import { elevationNotes } from '../../src/events/elevation-notes.ts';
import {
  offsetAtView,
  tieHeights,
  type Tie,
  type TiedOffset,
} from '../../src/events/ground-tie.ts';
import { TIE } from '../../src/events/tuning.ts';
import { UNTIED } from '../../src/events/untied-tuning.ts';
import { geoidHeightM } from '../../src/geo/geoid.ts';
import { mixtureCdf, mixtureQuantile } from '../../src/numeric/posterior.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import type { HeightReference } from '../../src/track/motion-heights.ts';
import { expectNear } from '../expect-near.ts';
import { gateTruths } from '../synthetic/gate-truth.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { makeRun } from './made-motion.ts';
import { eventsOf, holds, valueOf } from './simulated.ts';

const at = (timeS: number, offsetM: number, placeId = 'here'): Tie => ({
  timeS,
  offsetM,
  sdM: TIE.tieSdM,
  placeId,
  elevationKnown: true,
});

const UNSTATED = { datum: 'unstated', geoidM: 42 } as const;

/** Constant, drift and tie variances. */
const CONSTANT = TIE.constantSdM ** 2;
const DRIFT = TIE.driftSdM ** 2;
const OWN = TIE.tieSdM ** 2;

describe('[GT1] heights between contacts', () => {
  test('[GT1] one tie: its own offset everywhere, sure at the contact, drifting away from it', () => {
    const offsetAt = tieHeights([at(1000, 47)], UNSTATED, 'here');
    for (const gapS of [0, 60, 300, 3600]) {
      const found = offsetAt(1000 + gapS);
      expect(found.tied).toBe(true);
      expectNear(found.offsetM, 47, 1e-9, `after ${gapS} s`);
      // One observation of a sum: prior less covariance squared over the observation's variance.
      const shared = CONSTANT + DRIFT * Math.exp(-gapS / TIE.driftTimeS);
      const variance = CONSTANT + DRIFT - shared ** 2 / (CONSTANT + DRIFT + OWN);
      expectNear(found.sdM, Math.sqrt(variance), 1e-6, `sd after ${gapS} s`);
    }
    // An hour later both drifts count: root two of 4 m.
    expectNear(offsetAt(4600).sdM, Math.hypot(4, 4), 0.2);
  });

  test('[GT1] between two ties the offset lies between them and is surer than from one', () => {
    const both = tieHeights([at(0, 40), at(200, 50)], UNSTATED, 'here');
    expectNear(both(100).offsetM, 45, 1e-6);
    expectNear(both(0).offsetM, 40, 0.5);
    expect(both(100).sdM).toBeLessThan(tieHeights([at(0, 40)], UNSTATED, 'here')(100).sdM);
  });

  test('[GT1] a tie at another strip brings the error of its entered elevation', () => {
    const here = tieHeights([at(0, 40)], UNSTATED, 'here')(0).sdM;
    const there = tieHeights([at(0, 40, 'there')], UNSTATED, 'here')(0).sdM;
    expectNear(Math.sqrt(there ** 2 - here ** 2), TIE.elevationSdM, 0.1);
  });

  test('[GT1] errors of the elevations entered at two other strips are two errors', () => {
    const two = tieHeights([at(0, 47, 'a'), at(0, 47, 'b')], UNSTATED, 'here')(0).sdM;
    const same = tieHeights([at(0, 47, 'a'), at(0, 47, 'a')], UNSTATED, 'here')(0).sdM;
    // Each off by its elevation: half of that variance is left of two strips, all of it of one.
    expectNear(two, Math.sqrt((TIE.elevationSdM ** 2 + OWN) / 2), 0.05);
    expectNear(same, Math.sqrt(TIE.elevationSdM ** 2 + OWN / 2), 0.05);
  });

  test('[GT1] a place nobody has kept is tied by its own contacts, not by those of another', () => {
    const { motion, view } = makeRun({ fromAlongM: 0, lengthS: 900, speedMps: () => 0.1 });
    const startS = motion.timeS[0];
    // The second place lies 80 m higher.
    const flown = {
      ...motion,
      noise: { ...motion.noise, verticalSdM: 1 },
      sourceHeightM: motion.timeS.map((t) => (t < startS + 600 ? 47 : 127)),
    };
    const placeOf = (id: string) => ({
      ...{ ...view, stripId: null, groundM: new Float64Array(motion.length) },
      strip: { ...view.strip, id, elevationM: null, profile: null },
    });
    const [low, high] = [placeOf('place-1'), placeOf('place-2')];
    const ties = [tieBetween(flown, low, startS, startS + 10)].concat(
      tieBetween(flown, high, startS + 700, startS + 710),
    );
    const known = ties.filter((tie) => tie !== null);
    expect(known).toHaveLength(2);
    expectNear(offsetAtView(low, known, 'unstated')(startS + 600).offsetM, 47, 1e-9);
    expectNear(offsetAtView(high, known, 'unstated')(startS + 100).offsetM, 127, 1e-9);
    // A known strip that happens to have the place's name is another.
    const named = { ...view, stripId: 'place-1', strip: { ...view.strip, id: 'place-1' } };
    expect(offsetAtView(named, known, 'unstated')(startS).tied).toBe(false);
  });

  test('[GT2] without a contact: by the declared datum, the geoid over the ellipsoid, or both', () => {
    const [sea, ellipsoid, unstated] = (['geoid', 'ellipsoid', 'unstated'] as const).map((datum) =>
      tieHeights([], { datum, geoidM: 42 }, 'here')(0),
    );
    const median = ({ offset }: TiedOffset): number => mixtureQuantile(offset, 0.5);
    expect([sea.tied, unstated.tied, ellipsoid.tied]).toEqual([false, false, false]);
    expectNear(median(sea), TIE.antennaM, 1);
    expectNear(median(ellipsoid), TIE.antennaM + 42, 1.5);
    // Both that it may be lie inside 90 %, with what lies between them unlikely.
    expect(mixtureCdf(unstated.offset, TIE.antennaM)).toBeGreaterThan(0.05);
    expect(mixtureCdf(unstated.offset, TIE.antennaM + 42)).toBeLessThan(0.95);
    const between = mixtureCdf(unstated.offset, 30) - mixtureCdf(unstated.offset, 16);
    expect(between).toBeLessThan(0.1);
  });

  test('[GT2] weights of what a datum may be add up to 1 with the strayed rest', () => {
    for (const [sea, ellipsoid] of Object.values(UNTIED.datumShares)) {
      expect(sea + ellipsoid).toBeLessThan(1);
      expect(Math.min(sea, ellipsoid)).toBeGreaterThan(0);
    }
  });
});

/** A height over the strip drawn and recorded, then looked for again. */
describe('[GT4] a lonely pass is tied by where its path was heading', () => {
  const SEEDS = Array.from({ length: 24 }, (_, k) => 4100 + k);

  test.each(['geoid', 'ellipsoid'] as const)(
    '[GT4] heights over the %s, nothing stated: within 4 m in the middle, bands hold',
    (heights) => {
      const errors: number[] = [];
      let held = 0;
      for (const seed of SEEDS) {
        const scenario = flyDrawnApproach(seed, 'go-around');
        const truth = scenario.flown.truth.approaches[0].goAround;
        const [found] = eventsOf(scenario, { seed, receiver: { heights } }).approaches;
        if (!truth || !found.goAround) continue;
        errors.push(Math.abs(valueOf(found.goAround.lowestAboveM) - truth.lowestAboveM));
        if (holds(found.goAround.lowestAboveM, truth.lowestAboveM)) held++;
      }
      expect(errors.length).toBeGreaterThanOrEqual(22);
      errors.sort((a, b) => a - b);
      expect(errors[errors.length >> 1]).toBeLessThan(4);
      // Of 24 bands that hold nine times in ten, fewer than 18 hold once in 100 draws (binomial).
      expect(held).toBeGreaterThanOrEqual(18);
    },
  );
});

describe('[GT9] a lonely pass was nowhere below the ground', () => {
  test.each(['geoid', 'ellipsoid'] as const)(
    '[GT9] so that its gates lie where it came down through them: heights over the %s',
    (heights) => {
      const errors: number[] = [];
      let held = 0;
      for (let seed = 4200; seed < 4224; seed++) {
        const scenario = flyDrawnApproach(seed, 'go-around');
        const truth = scenario.flown.truth.approaches[0].goAround;
        const [found] = eventsOf(scenario, { seed, receiver: { heights } }).approaches;
        if (!truth || !found.goAround) continue;
        const passed = gateTruths(scenario, truth.lowestTimeS)(200);
        const gate = found.gates.find(({ heightFt }) => heightFt === 200);
        if (!passed || !gate) continue;
        errors.push(Math.abs(valueOf(gate.alongM) - passed.alongM));
        if (holds(gate.alongM, passed.alongM)) held++;
      }
      expect(errors.length).toBeGreaterThanOrEqual(18);
      errors.sort((a, b) => a - b);
      expect(errors[errors.length >> 1]).toBeLessThan(60);
      expect(errors[Math.floor(errors.length * 0.9)]).toBeLessThan(250);
      expect(held / errors.length).toBeGreaterThan(0.75);
    },
  );
});

describe('[GT3] an entered elevation that the log contradicts', () => {
  const book = { ...EMPTY_STRIP_BOOK, strips: [flyDrawnApproach(1, 'full-stop').strip] };
  const { id, latDeg, lonDeg } = book.strips[0];
  const geoidM = geoidHeightM(latDeg[0], lonDeg[0]);
  const noted = (offsetM: number, datum: HeightReference): string[] =>
    elevationNotes([at(0, TIE.antennaM + offsetM, id)], datum, book).map(({ message }) => message);

  test('[GT3] is noted from 8 m on, over the sea and over the ellipsoid', () => {
    expect(noted(7, 'geoid')).toEqual([]);
    expect(noted(9, 'geoid')[0]).toMatch(/9 m above/);
    expect(noted(geoidM - 7, 'ellipsoid')).toEqual([]);
    expect(noted(geoidM - 12, 'ellipsoid')[0]).toMatch(/12 m below/);
  });

  test('[GT3] is not noted where a recorder may have written sea level; where nothing is stated only what no receiver could be off by', () => {
    expect(noted(3, 'ellipsoid')).toEqual([]);
    expect(noted(geoidM + 90, 'unstated')).toEqual([]);
    expect(noted(300, 'unstated')[0]).toMatch(/m above the elevation/);
    expect(noted(-2900, 'unstated')[0]).toMatch(/expected within 100 m/);
    expect(noted(300, 'pressure')).toEqual([]);
    expect(noted(-400, 'pressure')[0]).toMatch(/400 m below/);
  });

  test('[GT3] is none where no elevation was entered', () => {
    const tie = { ...at(0, 300, id), elevationKnown: false };
    expect(elevationNotes([tie], 'geoid', book)).toEqual([]);
  });
});
