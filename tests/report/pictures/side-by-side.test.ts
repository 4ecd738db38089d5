/** Approaches laid over each other, and the rulers of a visit: what the models hold. */
import { describe, expect, test } from 'vitest';
import { laidOver } from '../../../src/app/drawings/laid-over.ts';
import { smallCircuits } from '../../../src/app/drawings/small-circuits.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import { hasFigure, USUAL_UNITS } from '../../../src/report/figure-text.ts';
import { sideBySidePicture } from '../../../src/report/pictures/side-by-side-picture.ts';
import { eventDebrief } from '../../../src/report/story/event-debrief.ts';
import { isUndetermined } from '../../../src/result.ts';
import { expectNear } from '../../expect-near.ts';
import {
  circuitOf,
  DEMO_STRIPS,
  finalOf,
  flightOf,
  limitedFlightOf,
  sideBySideOf,
  smallCircuitsOf,
  visitOf,
} from '../../drawings/demo-pictures.ts';
import { templateText } from '../../drawings/template-text.ts';

const around = await flightOf('2025-09-07-microlight-go-arounds-sedge.igc');
const circuits = await flightOf('2024-04-20-first-circuits-ternholm.gpx');
const home = await flightOf('2024-07-14-gusty-home-straight-in.igc');
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
      expect(row.gates).toHaveLength(picture.gateHeightsFt.length);
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

  test('[SB15] name the aeroplane where they differ, and only there', () => {
    const events = [0, 1, 2].map((k) =>
      eventDebrief(circuits, `approach-${k}`, DEMO_STRIPS, {
        units: makeSettings(0).units,
        ownRollFactor: null,
      }),
    );
    const laid = (names: readonly (string | null)[]) => {
      const named = events.map((event, k) => ({ ...event, aeroplane: names[k] }));
      const found = sideBySidePicture(named, USUAL_UNITS);
      if (isUndetermined(found)) throw new Error(found.undetermined);
      return found;
    };
    const alike = laid(['Plain', 'Plain', 'Plain']);
    expect(alike.lanes.map(({ aeroplane }) => aeroplane)).toEqual([null, null, null]);
    expect(JSON.stringify(laidOver(alike, 1232, 1).labels)).not.toContain('Plain');
    const mixed = laid(['Plain', 'Other', null]);
    const names = ['Plain', 'Other', 'aeroplane not known'];
    expect(mixed.lanes.map(({ aeroplane }) => aeroplane)).toEqual(names);
    expect(mixed.table.map(({ aeroplane }) => aeroplane)).toEqual(names);
    names.forEach((name) => expect(mixed.spoken).toContain(`, ${name}: `));
    for (const width of [358, 776, 1232]) {
      const said = laidOver(mixed, width, 1).labels.map(({ parts }) =>
        parts.map(({ text }) => text).join(' '),
      );
      expect(
        said.some((text) => text.startsWith('2 Other, touchdown')),
        `${width}`,
      ).toBe(true);
    }
  });

  test('[SB16] have a figure beside the centreline on each side of it, however wide they were flown', () => {
    for (const wideM of [4, 9, 13, 19, 24, 37, 43, 45, 48, 60, 130, 220]) {
      const lanes = picture.lanes.map((lane) => {
        const most = Math.max(...lane.crossM.map(Math.abs).filter((m) => !Number.isNaN(m)));
        return { ...lane, crossM: lane.crossM.map((m) => (m / most) * wideM) };
      });
      for (const length of ['m', 'ft'] as const) {
        const units = { ...picture.units, length };
        const { labels } = laidOver({ ...picture, lanes, units }, 1232, null);
        const title = labels.find(({ parts }) => parts[0].text.startsWith('beside'));
        const figures = labels
          .filter(({ x, y, anchor }) => anchor === 'end' && x < 50 && y > (title?.y ?? NaN))
          .map(({ parts }) => Number.parseFloat(parts[0].text.replace('\u2212', '-')));
        const what = `${wideM} m in ${length}: ${figures.join()}`;
        expect(figures.some((each) => each < 0) && figures.some((each) => each > 0), what).toBe(
          true,
        );
        expect(figures.length, what).toBeLessThan(8);
      }
    }
  });

  test('[SB13] have at their gates the speed that was limited, with its verdict', async () => {
    expect(picture.gateSpeed).toBe('groundSpeed');
    expect(picture.table.flatMap(({ gates }) => gates).every(({ limit }) => !limit)).toBe(true);
    const limited = await limitedFlightOf('2024-04-20-first-circuits-ternholm.gpx');
    const held = sideBySideOf(limited, [0, 1]);
    expect(held.gateSpeed).toBe('airspeed');
    held.table.forEach(({ gates }, k) => {
      const rows = finalOf(limited, k).gateTable;
      for (const { heightFt, cells } of rows) {
        expect(gates[held.gateHeightsFt.indexOf(heightFt)]).toEqual(cells.airspeed);
      }
      // What was not passed has no verdict.
      const passed = rows.map(({ heightFt }) => heightFt);
      const others = gates.filter((_, g) => !passed.includes(held.gateHeightsFt[g]));
      expect(others.every(({ limit, figure }) => !limit && !hasFigure(figure))).toBe(true);
    });
  });

  test('[SB14] have a column for each gate that one of them passed, for no other, as flown down', () => {
    for (const [flight, count] of [
      [circuits, 3],
      [around, 3],
      [home, 1],
    ] as const) {
      const numbers = Array.from({ length: count }, (_, k) => k);
      const { gateHeightsFt, table } = sideBySideOf(flight, numbers);
      const passed = numbers.flatMap((k) =>
        finalOf(flight, k).gateTable.map(({ heightFt }) => heightFt),
      );
      expect(gateHeightsFt).toEqual([...new Set(passed)].sort((a, b) => b - a));
      gateHeightsFt.forEach((_, g) => {
        expect(table.some(({ gates }) => hasFigure(gates[g].figure))).toBe(true);
      });
    }
    // From a circuit nobody comes down through 500 ft on the final; straight in one does.
    expect(picture.gateHeightsFt).not.toContain(500);
    expect(sideBySideOf(home, [0]).gateHeightsFt).toContain(500);
  });

  test('[SB9] are undetermined where none was flown at a strip that is kept', () => {
    const options = { units: makeSettings(0).units, ownRollFactor: null };
    const event = eventDebrief(circuits, 'take-off-0', DEMO_STRIPS, options);
    expect(isUndetermined(sideBySidePicture([event], USUAL_UNITS))).toBe(true);
  });
});

describe('their circuits, small', () => {
  const picture = smallCircuitsOf(circuits, [0, 1, 2]);

  test('[SB10] have the figures of the debriefs, and room for the whole line of each', () => {
    picture.circuits.forEach(({ number, figures, track }, k) => {
      expect(number).toBe(k + 1);
      const { circuits: found } = circuits.circuits;
      const spacing = found[k].downwindSpacingM;
      const said = figures.find(({ label }) => label === 'spacing')?.value ?? '';
      expectNear(parseFloat(said), isUndetermined(spacing) ? NaN : spacing.value, 0.5);
      expect(Math.min(...track.alongM)).toBeGreaterThanOrEqual(picture.extent.alongM[0]);
      expect(Math.max(...track.crossM)).toBeLessThanOrEqual(picture.extent.crossM[1]);
    });
    expect(picture.rows[0].value).toMatch(/^spacing \d+.m \d+\u2013\d+, bank .*, time \d/);
  });

  test('[SB11] are drawn at one scale: the tape under them measures every strip', () => {
    const drawing = smallCircuits(picture, 1216, 2);
    const markup = templateText(drawing.inside);
    const strips = [...markup.matchAll(/class="bar-grass"[^>]*height="([\d.]+)"/g)];
    const tape = /class="tape"[^>]*width="([\d.]+)"/.exec(markup);
    const metres = parseFloat(drawing.labels.at(-1)?.parts[0].text ?? '');
    const { nearEndM, farEndM } = picture.strip;
    expect(strips).toHaveLength(3);
    for (const [, tall] of strips) {
      expectNear((Number(tall) / Number(tape?.[1])) * metres, farEndM - nearEndM, 10);
    }
    expect(markup.match(/class="lane-chosen"/g)).toHaveLength(1);
  });

  test('[SB12] say where no circuit was found, and draw what was flown', () => {
    const straight = circuitOf(home, 0);
    expect(straight.flown).toBeNull();
    const [only] = smallCircuitsOf(home, [0]).circuits;
    expect([only.reason, only.figures]).toEqual(['no circuit found', []]);
    expect(only.track.alongM.length).toBeGreaterThan(10);
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
