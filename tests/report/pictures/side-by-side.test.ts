/** Approaches laid over each other, and the rulers of a visit: what the models hold. */
import { describe, expect, test } from 'vitest';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import { hasFigure, USUAL_UNITS } from '../../../src/report/figure-text.ts';
import {
  GATE_HEIGHTS_FT,
  sideBySidePicture,
} from '../../../src/report/pictures/side-by-side-picture.ts';
import { eventDebrief } from '../../../src/report/story/event-debrief.ts';
import { isUndetermined } from '../../../src/result.ts';
import { expectNear } from '../../expect-near.ts';
import { DEMO_STRIPS, flightOf, sideBySideOf, visitOf } from '../../drawings/demo-pictures.ts';

const around = await flightOf('2025-09-07-microlight-go-arounds-sedge.igc');
const circuits = await flightOf('2024-04-20-first-circuits-ternholm.gpx');
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('approaches laid over each other', () => {
  const picture = sideBySideOf(circuits, [0, 1, 2]);

  test('[SB6] have a slot in every column for every point drawn', () => {
    for (const { alongM, heightM, speedMps, crossM } of picture.lanes) {
      expect([heightM?.length, speedMps.length, crossM.length]).toEqual(
        Array(3).fill(alongM.length),
      );
    }
  });

  test('[SB7] say the figures that each debrief says', () => {
    picture.table.forEach((row, k) => {
      const approach = circuits.events.approaches[k];
      const at = isUndetermined(approach.touchdown) ? null : approach.touchdown.alongM;
      const said = hasFigure(row.touchdown) ? Number(row.touchdown.value) : NaN;
      expectNear(said, at && !isUndetermined(at) ? at.value : NaN, 0.5);
      expect(row.gates).toHaveLength(GATE_HEIGHTS_FT.length);
    });
    const touchdowns = picture.table.map(({ touchdown }) =>
      hasFigure(touchdown) ? Number(touchdown.value) : NaN,
    );
    expect(plain(picture.spread ?? '')).toBe(
      `touchdowns from ${Math.min(...touchdowns)} m to ${Math.max(...touchdowns)} m`,
    );
  });

  test('[SB8] keep a go-around among them, with its lowest point and without a roll', () => {
    const [first] = sideBySideOf(around, [0, 1, 2]).lanes;
    expect(first.words).toMatch(/^no touchdown, lowest \d+/);
    expect(first.passes).toBeNull();
    expect(first.lowestM).not.toBeNull();
    expect(sideBySideOf(around, [0, 1, 2]).spread).toBeNull();
  });

  test('[SB9] are undetermined where none was flown at a strip that is kept', () => {
    const options = { units: makeSettings(0).units, ownRollFactor: null };
    const event = eventDebrief(circuits, 'take-off-0', DEMO_STRIPS, options);
    expect(isUndetermined(sideBySidePicture([event], USUAL_UNITS))).toBe(true);
  });
});

describe('the rulers of a visit', () => {
  const place = { stripId: 'sedge', landing: '20', takeOff: '20' };
  const own = { landingWhole: 1.2, landingRoll: 1.5, takeOffWhole: null };

  test('[VI30] lay whole distances from the threshold, the own one 1.2 times the expected', () => {
    const { landing } = visitOf(place, { own });
    const rod = (kind: string) => landing.rods.find((each) => each.kind === kind);
    expect(landing.rods.map(({ fromM }) => fromM)).toEqual([0, 0, 0]);
    expectNear(rod('own')?.toM ?? NaN, 1.2 * (rod('expected')?.toM ?? NaN), 1e-9);
    expect(rod('planned')?.isTooLong).toBe((rod('planned')?.toM ?? NaN) > 355);
    expect(landing.end.atM).toBe(355);
  });

  test('[VI31] begin a take-off at the end of the run, behind a displaced threshold', () => {
    const { takeOff } = visitOf({ stripId: 'ternholm', landing: '25', takeOff: '25' });
    expect(takeOff.start.atM).toBe(-60);
    expect(takeOff.end.atM).toBe(500);
    expect(takeOff.rods.every(({ fromM }) => fromM === -60)).toBe(true);
    expect(takeOff.rods.map(({ kind }) => kind)).toEqual(['expected', 'planned']);
  });

  test('[VI32] hold nothing that looks measured', () => {
    const { landing, takeOff } = visitOf(place, { own });
    for (const { passes, roll, left, lowest } of [landing, takeOff]) {
      expect([passes, roll, left, lowest]).toEqual([null, null, null, null]);
    }
  });
});
