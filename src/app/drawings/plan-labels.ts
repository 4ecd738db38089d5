/**
 * The words of a plan: the strip, its legs, the spacing, what to avoid, how low a pass went.
 *
 * In: the model and where everything stands. Out: labels that lie over no other and, where there is
 * room, over no track.
 */
import type { CircuitPicture } from '../../report/pictures/circuit-picture.ts';
import { keepFitting } from './placing.ts';
import { avoidWays, boundsOf, type DrawnArea } from './plan-avoid.ts';
import { legWays, type Way } from './plan-leg-names.ts';
import { linePoints, type PlanLayout } from './plan-layout.ts';
import type { Point } from './scale.ts';
import {
  figureParts,
  labelBox,
  partsWidth,
  wrapWords,
  type Box,
  type Label,
  type Part,
} from './text.ts';

/** What is drawn there already: half the strip's width, areas as pixels. */
export interface PlanDrawn {
  readonly half: number;
  readonly areas: readonly DrawnArea[];
}

/** All words of the plan, the most needed first. */
export function planWords(picture: CircuitPicture, layout: PlanLayout, drawn: PlanDrawn): Label[] {
  const track = boxesAlong(linePoints(picture.track, layout));
  const { point, box } = layout;
  const [x] = point(0, 0);
  const bed = {
    left: x - drawn.half - 3,
    right: x + drawn.half + 3,
    top: point(picture.ground.farEndM, 0)[1],
    bottom: point(picture.ground.nearEndM, 0)[1],
  };
  const fixed = [bed, ...markBoxes(picture, layout, drawn.half)];
  const areas = drawn.areas.flatMap(({ rings }) =>
    rings.filter(({ length }) => length > 0).map(boundsOf),
  );
  const labels: Label[] = [];
  const place = (ways: readonly Way[], walls: readonly Box[]): boolean => {
    const taken = [...labels.map(labelBox), ...fixed, ...walls];
    const found = ways.find((way) => keepFitting(way, taken, box, 2).length === way.length);
    if (found) labels.push(...found);
    return found !== undefined;
  };
  const { spacing, lowest } = picture;
  if (spacing) place(spacingWays(spacing, layout), track);
  const arrow = spacing ? [arrowBox(spacing, layout)] : [];
  if (lowest) {
    const side = outSide(picture);
    const y = point(lowest.atM, 0)[1];
    const anchor = side > 0 ? 'start' : 'end';
    const parts: Part[] = [{ text: lowest.label, weight: 600 }];
    const at = x + side * (drawn.half + 34);
    const ways = [0, 18, -18].map((dy): Way => [{ x: at, y: y + dy, anchor, parts, halo: true }]);
    place(
      [...ways, [{ x: x + side * (drawn.half + 5), y: y + 20, anchor, parts, halo: true }]],
      [],
    );
  }
  const walls = [...track, ...arrow, ...areas];
  const { designator, name } = picture.ground;
  if (designator !== '') place(designatorWays(picture, layout, drawn.half), walls);
  if (name !== '') place(nameWays(picture, layout, drawn.half), walls);
  if (picture.path && picture.pathWords !== null) place(pathWays(picture, layout), walls);
  if (picture.commitM !== null) {
    const [atX, atY] = point(picture.commitM, 0);
    const reach = drawn.half + 4;
    const ways = [atX + reach, atX - reach].flatMap((edge, k) =>
      besideWays(edge, atY, [{ text: 'commit point' }]).filter((_, way) => way % 2 === k),
    );
    place(ways, [...track, ...arrow]);
  }
  for (const { words, shortWords, alongM, crossM, isBelow } of picture.passed) {
    const ink = isBelow ? 'caution' : 'ink2';
    const [atX, atY] = point(alongM, crossM);
    const ways = [words, shortWords].flatMap((text) => besideWays(atX, atY, [{ text, ink }]));
    place(ways, [...track, ...arrow, ...areas]);
  }
  const others = drawn.areas.length === 0 ? [] : boxesAlong(linePoints(picture.others, layout));
  const clear = [[...track, ...arrow, ...others], [...track, ...arrow], []];
  for (const area of drawn.areas) {
    // What must not be overflown is named, over a line if need be, the rest of the flight before the
    // circuit: its halo keeps it readable. Where there is no room for its name, what to do about it
    // is still said.
    avoidWays(area, box.right).some((ways) => clear.some((walls) => place(ways, walls)));
  }
  for (const ways of legWays(picture, layout)) place(ways, [...track, ...arrow, ...areas]);
  return labels;
}

/** 1 where the circuit lies left of the strip, so that marks stand at its right; else -1. */
function outSide({ side }: CircuitPicture): 1 | -1 {
  return side === 'right' ? -1 : 1;
}

function arrowBox(
  { alongM, crossM }: NonNullable<CircuitPicture['spacing']>,
  { point }: PlanLayout,
): Box {
  const [from, y] = point(alongM, 0);
  const [to] = point(alongM, crossM);
  return { left: Math.min(from, to), right: Math.max(from, to), top: y - 2, bottom: y + 2 };
}

/** The track as small boxes that words keep clear of. */
function boxesAlong(points: readonly Point[]): Box[] {
  const boxes: Box[] = [];
  points.forEach((to, i) => {
    const from = points[Math.max(0, i - 1)];
    const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / 6));
    if (!Number.isFinite(steps)) return;
    for (let k = 1; k <= steps; k++) {
      const x = from[0] + ((to[0] - from[0]) * k) / steps;
      const y = from[1] + ((to[1] - from[1]) * k) / steps;
      boxes.push({ left: x - 1, right: x + 1, top: y - 1, bottom: y + 1 });
    }
  });
  return boxes;
}

function markBoxes(picture: CircuitPicture, { point }: PlanLayout, half: number): Box[] {
  const { touchdownM, stopM, lowest } = picture;
  const [x] = point(0, 0);
  const sign = outSide(picture);
  const at = (alongM: number, from: number, to: number, up: number): Box => {
    const y = point(alongM, 0)[1];
    const ends = [x + sign * (half + from), x + sign * (half + to)];
    return { left: Math.min(...ends), right: Math.max(...ends), top: y - up, bottom: y + 5 };
  };
  return [
    ...(touchdownM === null ? [] : [at(touchdownM, 0, 17, 5)]),
    ...(stopM === null ? [] : [at(stopM, 0, 15, 15)]),
    ...(lowest ? [at(lowest.atM, 5, 28, 10)] : []),
  ];
}

/** The designator by the threshold. */
function designatorWays(picture: CircuitPicture, { point }: PlanLayout, half: number): Way[] {
  const [x, y] = point(0, 0);
  const parts: Part[] = [{ text: picture.ground.designator, size: 14, weight: 650 }];
  const out = outSide(picture);
  return [out, -out].flatMap((sign) =>
    [12, 22, 34, 0, -14].map((dy): Way => [
      {
        x: x + sign * (half + 9),
        y: y + dy,
        anchor: sign > 0 ? 'start' : 'end',
        parts,
        halo: true,
      },
    ]),
  );
}

/** The name by the far end, outside the circuit where there is room; long ones on two lines. */
function nameWays(picture: CircuitPicture, { point }: PlanLayout, half: number): Way[] {
  const [x, top] = point(picture.ground.farEndM, 0);
  const bottom = point(picture.ground.nearEndM, 0)[1];
  const style: Omit<Part, 'text'> = { serif: true, size: 15 };
  const { name } = picture.ground;
  const lines = wrapWords(name, partsWidth([{ text: name, ...style }]) * 0.7, style);
  const out = outSide(picture);
  const ys = [12, 26, -6, 40, 54]
    .map((dy) => top + dy)
    .concat([bottom + 16, bottom + 34, bottom + 52]);
  return [out, -out].flatMap((sign) =>
    [[name], ...(lines.length > 1 ? [lines] : [])].flatMap((form) =>
      ys.map((y): Way =>
        form.map((text, k) => ({
          x: x + sign * (half + 9),
          y: y + 16 * k,
          anchor: sign > 0 ? 'start' : 'end',
          parts: [{ text, ...style }],
          halo: true,
        })),
      ),
    ),
  );
}

/** Beside the preferred path, from its middle outwards; on two lines where one is too long. */
function pathWays({ path, pathWords }: CircuitPicture, layout: PlanLayout): Way[] {
  if (!path || pathWords === null) return [];
  const points = linePoints(path, layout);
  const middles = points
    .slice(1)
    .map(([x, y], k): Point => [(x + points[k][0]) / 2, (y + points[k][1]) / 2]);
  const style: Omit<Part, 'text'> = { serif: true, size: 14, ink: 'ink2' };
  const whole = [pathWords];
  const short = wrapWords(pathWords, 0.6 * partsWidth([{ text: pathWords, ...style }]), style);
  return [whole, short].flatMap((lines) =>
    middles.flatMap(([x, y]) =>
      [1, -1].flatMap((sign) =>
        [5, 22, -14].map((dy): Way =>
          lines.map((text, k) => ({
            x: x + sign * 10,
            y: y + dy + 16 * k,
            anchor: sign > 0 ? 'start' : 'end',
            parts: [{ text, ...style }],
            halo: true,
          })),
        ),
      ),
    ),
  );
}

/** Over the arrow, under it, with the band and without. */
function spacingWays(
  { figure, alongM, crossM }: NonNullable<CircuitPicture['spacing']>,
  { point }: PlanLayout,
): Way[] {
  const [from, y] = point(alongM, 0);
  const [to] = point(alongM, crossM);
  const forms = [true, false].map((withBand) => figureParts(figure, { size: 15, withBand }));
  return forms
    .filter((parts) => partsWidth(parts) + 16 < Math.abs(to - from))
    .flatMap((parts) =>
      [-7, 18].map((dy): Way => [
        { x: (from + to) / 2, y: y + dy, anchor: 'middle', parts, halo: true },
      ]),
    );
}

/** Right of a place, left of it, over and under it. */
function besideWays(x: number, y: number, parts: readonly Part[]): Way[] {
  return [
    [{ x: x + 8, y: y + 5, anchor: 'start', parts, halo: true }],
    [{ x: x - 8, y: y + 5, anchor: 'end', parts, halo: true }],
    [{ x: x + 8, y: y + 20, anchor: 'start', parts, halo: true }],
    [{ x: x - 8, y: y + 20, anchor: 'end', parts, halo: true }],
    [{ x: x + 8, y: y - 10, anchor: 'start', parts, halo: true }],
    [{ x: x - 8, y: y - 10, anchor: 'end', parts, halo: true }],
  ];
}
