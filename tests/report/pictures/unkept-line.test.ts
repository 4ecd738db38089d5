/** A flight at a place nobody has kept: what the log alone carries, held against the same flight at its kept strip. */
import { describe, expect, test } from 'vitest';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import type { FinalPicture } from '../../../src/report/pictures/final-picture.ts';
import { seenApproach, unkeptView } from '../../../src/report/pictures/unkept-line.ts';
import { eventDebrief, type EventDebrief } from '../../../src/report/story/event-debrief.ts';
import { isUndetermined, type Undetermined } from '../../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../../src/strips/strip.ts';
import { debriefDemo, demoContext } from '../../debrief/demo-flights.ts';
import { determined } from '../../drawings/demo-pictures.ts';
import { expectNear } from '../../expect-near.ts';
import { notPlain } from './plain-data.ts';

const context = demoContext();
const options = { units: makeSettings(0).units, ownRollFactor: 1.3 };

/** An event twice: in a logbook without strips, and at its strip. */
async function both(
  file: string,
  key: string,
): Promise<{ bare: EventDebrief; kept: EventDebrief }> {
  const flightIn = async (strips: typeof context.strips) =>
    (await debriefDemo(file, { ...context, strips })).flights[0];
  const [without, known] = [await flightIn(EMPTY_STRIP_BOOK), await flightIn(context.strips)];
  return {
    bare: eventDebrief(without, key, EMPTY_STRIP_BOOK, options),
    kept: eventDebrief(known, key, context.strips, options),
  };
}

const CIRCUITS = '2024-04-20-first-circuits-ternholm.gpx';
const landing = await both(CIRCUITS, 'approach-2');

/** A column of a final at a place along it, between its points. */
function atPlace({ alongM, value }: FinalPicture['speed'], atM: number): number {
  const i = alongM.findIndex((along) => along >= atM);
  const share = (atM - alongM[i - 1]) / (alongM[i] - alongM[i - 1]);
  return value[i - 1] + share * (value[i] - value[i - 1]);
}

describe('a landing at a place nobody has kept', () => {
  test('[UN1] shows the roll from the touchdown on, its whole band at the touchdown', () => {
    const roll = determined(landing.bare.bareRoll);
    const found = landing.bare.measured.find(({ label }) => label === 'ground roll');
    if (!found) throw new Error('the roll is measured');
    expect(found.figure).toEqual(roll.roll);
    const [touchdown, stop] = roll.marks;
    expect([touchdown.kind, stop.kind]).toEqual(['touchdown', 'stop']);
    expect(touchdown.atM).toBe(0);
    // The shortest roll ends where the longest does: at the stop.
    expectNear(stop.atM - touchdown.highM, Number(/^\d+/.exec(roll.roll.band)?.[0]), 1);
    expectNear(stop.atM - touchdown.lowM, Number(/\d+$/.exec(roll.roll.band)?.[0]), 1);
    expectNear(roll.passes.toM[0], stop.atM, 1e-6);
    expectNear(roll.passes.toM[9], stop.atM, 1e-6);
    expect(notPlain(roll)).toEqual([]);
  });

  test('[UN2] has the heights and speeds of the same landing at its strip, counted from the touchdown', () => {
    const [bare, kept] = [determined(landing.bare.final), determined(landing.kept.final)];
    if (!bare.height || !kept.height || !kept.touchdown) throw new Error('the log has heights');
    const zeroM = kept.touchdown.atM;
    const rise = (alongM: number): number => {
      const surface = kept.ground.surface;
      if (!surface) throw new Error('the strip has elevations');
      return atPlace(
        { alongM: surface.alongM, value: surface.riseM, low: surface.riseM, high: surface.riseM },
        alongM,
      );
    };
    for (const atM of [-500, -300, -100]) {
      // Both know the touchdown to some metres; at 24 m/s the speed changes little over them.
      expectNear(atPlace(bare.speed, atM), atPlace(kept.speed, atM + zeroM), 0.5);
      // The heights of the strip count from its threshold, those of the log from the wheels.
      const shown = atPlace(kept.height, atM + zeroM) - rise(zeroM + 100);
      expectNear(atPlace(bare.height, atM), shown, 3);
    }
    expectNear(bare.touchdown?.atM ?? NaN, 0, 1e-9);
    expectNear(bare.touchdown?.speedMps ?? NaN, kept.touchdown.speedMps, 1);
  });

  test('[UN3] draws the circuit with the landing direction up, and no strip', () => {
    const [bare, kept] = [determined(landing.bare.plan), determined(landing.kept.plan)];
    expectNear(bare.ground.trueBearingDeg, kept.ground.trueBearingDeg, 1.5);
    expect(bare.flown?.durationS).toBeGreaterThan(100);
    expect(bare.side).toBe(kept.side);
    for (const { ground } of [bare, determined(landing.bare.final)]) {
      expect(ground).toMatchObject({
        isKept: false,
        designator: '',
        slopeText: null,
        obstacles: [],
      });
      expect(ground.surface).toBeNull();
    }
    expect(kept.ground.isKept).toBe(true);
  });

  test('[UN4] says what is not known and what lengths count from; nothing is predicted', () => {
    expect(landing.bare.lineWords).toMatch(/^No threshold, no end and no slope .* touchdown/);
    expect(landing.kept.lineWords).toBeNull();
    expect(isUndetermined(landing.kept.bareRoll)).toBe(true);
    const { ruler, working, why, final, plan } = landing.bare;
    for (const part of [ruler, working, why]) expect(isUndetermined(part)).toBe(true);
    expect(determined(final)).toMatchObject({ expected: null, guide: null, overThreshold: null });
    const pictures = [determined(final), determined(plan), determined(landing.bare.bareRoll)];
    const rows = pictures.flatMap((picture) => picture.rows);
    // What would count from a threshold gives the reason why it is not known.
    const ofThreshold = rows.filter(({ label }) => /threshold|^final$/.test(label));
    expect(ofThreshold.every(({ value }) => value.startsWith('undetermined'))).toBe(true);
    const said = rows.map(({ label, value }) => `${label} ${value}`).join(' ');
    expect(said).not.toMatch(/LDA|TORA|expected|planned|Ternholm/);
    expect(said).toContain('counted from the touchdown');
  });

  test('[UN5] reads places of the plumb line along the same line', () => {
    const { cursor, timeS } = landing.bare;
    const near = cursor.timeS.findIndex((each) => each >= timeS);
    expect(Math.abs(cursor.alongM[near])).toBeLessThan(60);
    expect(cursor.alongM[cursor.to - 1]).toBeGreaterThan(100);
  });
});

describe('other events there', () => {
  test('[UN6] a take-off has its run from brakes off, lift-off with the band, and 50 ft', async () => {
    const { bare } = await both(CIRCUITS, 'take-off-0');
    const run = determined(bare.bareRoll);
    expect(run.marks.map(({ label }) => label)).toEqual(['brakes off', 'lift-off', '50 ft']);
    expect(run.marks[0]).toMatchObject({ atM: 0, lowM: 0, highM: 0 });
    expect(run.passes.fromM.every((at) => at === 0)).toBe(true);
    expectNear(run.passes.toM[0], run.marks[1].lowM, 0.01);
    expect(bare.lineWords).toContain('brakes off');
  });

  test('[UN7] a go-around counts from its lowest point; there is no roll, and why', async () => {
    const { bare } = await both('2025-09-07-microlight-go-arounds-sedge.igc', 'approach-1');
    expect(bare.sentence).toMatch(/^Went around/);
    const final = determined(bare.final);
    expect(final.lowest?.atM).toBe(0);
    expect(final.touchdown).toBeNull();
    expect(isUndetermined(bare.bareRoll) && bare.bareRoll.undetermined).toMatch(/not touch/);
    expect(bare.lineWords).toContain('lowest');
  });

  test('[UN8] a place has the level of its own wheels, not of another place of the flight', async () => {
    const { flights } = await debriefDemo('2024-08-04-three-strips.igc', {
      ...context,
      strips: EMPTY_STRIP_BOOK,
    });
    const { approaches } = flights[0].events;
    const landed = approaches.flatMap(({ touchdown }, k) => (isUndetermined(touchdown) ? [] : [k]));
    const placeOf = (k: number) => unkeptView(flights[0].events, approaches[k])?.strip;
    expect(new Set(landed.map(placeOf)).size).toBeGreaterThan(1);
    for (const k of landed) {
      const seen = seenApproach(flights[0], k);
      if (isUndetermined(seen)) throw new Error(seen.undetermined);
      // As many contacts tie it as landings were made on its place.
      const here = landed.filter((each) => placeOf(each) === placeOf(k));
      expect(seen.ties).toHaveLength(here.length);
      const shown = eventDebrief(flights[0], `approach-${k}`, EMPTY_STRIP_BOOK, options);
      const final: FinalPicture | Undetermined = shown.final;
      const { height } = determined(final);
      // Wheels on the ground: the last of the roll lies within its own band of nothing.
      expect(height?.value.at(-1)).toBeLessThan(3);
    }
  });
});
