/** What a phone has little room for: far cursors, close ticks of a tape, the name of an area to avoid. */
import { describe, expect, test } from 'vitest';
import { circuitPlan } from '../../src/app/drawings/circuit-plan.ts';
import { layOutPlan, linePoints } from '../../src/app/drawings/plan-layout.ts';
import { heightAndSpeed } from '../../src/app/drawings/height-and-speed.ts';
import { layOutProfiles } from '../../src/app/drawings/profile-layout.ts';
import { linearScale } from '../../src/app/drawings/scale.ts';
import { tape } from '../../src/app/drawings/tape.ts';
import { labelBox } from '../../src/app/drawings/text.ts';
import { USUAL_UNITS } from '../../src/report/figure-text.ts';
import { circuitPicture } from '../../src/report/pictures/circuit-picture.ts';
import { circuitOf, DEMO_STRIPS, determined, finalOf, flightOf } from './demo-pictures.ts';
import { templateText } from './template-text.ts';

const last = await flightOf('2025-09-21-last-dry-day-sedge.gpx');

describe('height and speed', () => {
  const picture = finalOf(last, 1);
  const { along } = layOutProfiles(picture, 358);
  const plumbAt = (at: number): boolean =>
    templateText(heightAndSpeed(picture, 358, { at, readOut: [] }).inside).includes(
      'class="plumb"',
    );

  test('[DN4] the plumb line hangs where it is on the axis, and nowhere farther out', () => {
    for (const at of [along.from, 0, along.to]) expect(plumbAt(at), String(at)).toBe(true);
    for (const at of [along.from - 1, -2000, along.to + 1]) {
      expect(plumbAt(at), String(at)).toBe(false);
    }
  });
});

describe('a lying tape', () => {
  test.each([40, 90, 130, 200, 330, 700])(
    '[DRAW7] 500 m long on %i px: no tick runs through a numeral',
    (widthPx) => {
      const { drawing, labels } = tape({
        scale: linearScale(0, 500, 0, widthPx),
        ...{ unit: 'm' as const, fromM: 0, toM: 500, edge: 0, isUpright: false },
      });
      const markup = templateText(drawing);
      const ticks = [...markup.matchAll(/class="tape-(?:bold|tick)" d="([^"]*)"/g)].flatMap(
        ([, d]) => [...d.matchAll(/M([\d.]+) ([\d.]+)L[\d.]+ ([\d.]+)/g)].map((m) => m.slice(1)),
      );
      expect(ticks.length).toBeGreaterThan(4);
      for (const [x, , foot] of ticks.map((tick) => tick.map(Number))) {
        for (const label of labels) {
          const { left, right, top } = labelBox(label);
          const isThrough = x > left && x < right && foot > top + 2;
          expect(isThrough, `${label.parts[0].text} at ${x}`).toBe(false);
        }
      }
    },
  );
});

describe('the plan', () => {
  test('[PG25] an area to avoid in another part of the world is not drawn, and bends nothing', () => {
    const [near] = DEMO_STRIPS.avoidAreas;
    const moved = ([lonDeg, latDeg]: readonly [number, number]): [number, number] => [
      lonDeg - 3.4,
      latDeg - 3.4,
    ];
    const far = { ...near, name: 'far away', rings: near.rings.map((ring) => ring.map(moved)) };
    const book = { ...DEMO_STRIPS, avoidAreas: [...DEMO_STRIPS.avoidAreas, far] };
    const picture = determined(circuitPicture(last, 1, book, USUAL_UNITS));
    expect(picture).toEqual(circuitOf(last, 1));
    expect(templateText(circuitPlan(picture, 358).inside)).not.toContain('NaN');
    expect(picture.spoken).not.toContain('far away');
  });

  test.each([756, 358, 288])(
    '[PG25] at %i px says that an area which was flown over is to be avoided',
    (widthPx) => {
      const words = circuitPlan(circuitOf(last, 1), widthPx).labels.map(({ parts }) =>
        parts.map(({ text }) => text).join(' '),
      );
      expect(words.join(' ').replaceAll('\u00a0', ' ')).toMatch(/avoid; over it 16 s/);
    },
  );

  test.each([756, 700, 424, 358])(
    '[DRAW8] at %i px no line of the flight runs through the words of an area to avoid',
    (widthPx) => {
      const picture = circuitOf(last, 1);
      const boxes = circuitPlan(picture, widthPx)
        .labels.filter(({ parts }) =>
          parts.some(({ text }) => /Lower|Wrackham|village|avoid|over it|16.s/.test(text)),
        )
        .map(labelBox);
      const layout = layOutPlan(picture, widthPx);
      const lines = [picture.others, picture.track].map((line) => linePoints(line, layout));
      const through = lines.flatMap((points) =>
        points.slice(1).flatMap(([toX, toY], k) => {
          const [fromX, fromY] = points[k];
          return [0, 0.25, 0.5, 0.75, 1]
            .map((share) => [fromX + (toX - fromX) * share, fromY + (toY - fromY) * share])
            .filter(([x, y]) =>
              boxes.some((box) => x > box.left && x < box.right && y > box.top && y < box.bottom),
            );
        }),
      );
      expect(boxes.length).toBeGreaterThan(0);
      expect(through).toEqual([]);
    },
  );
});
