/**
 * Where everything stands on the plan of a circuit.
 *
 * In: the model and a width in CSS pixels. Out: one scale for both directions, the box that holds
 * the ground, and where a place along and across lies on it.
 */
import type { CircuitPicture, PlanLine } from '../../report/pictures/circuit-picture.ts';
import type { Point } from './scale.ts';
import type { Box } from './text.ts';

/** The plan's places. */
export interface PlanLayout {
  readonly width: number;
  readonly height: number;
  /** Ground is drawn inside it; above stand north and wind, below the tape. */
  readonly box: Box;
  readonly pxPerM: number;
  /** alongM and crossM to a point: landing direction up, right of the centreline right. */
  readonly point: (alongM: number, crossM: number) => Point;
}

/** Room above the ground for north and wind, and below it for the tape, pixels. */
const HEAD = 62;
const FOOT = 28;
/** Room about the track for the names of the legs, pixels. */
const ABOUT = { side: 42, end: 24 };
/** An area to avoid within this share of the circuit's size about it counts as close by. */
const NEAR = 0.6;
/** The ground's height against its width, and at most, pixels. */
const TALL = { least: 0.62, most: 0.9, highest: 380 };

/** Lays out the plan so that the chosen track and the strip fill it. */
export function layOutPlan(
  { track, ground, spacing, avoid }: CircuitPicture,
  width: number,
): PlanLayout {
  const flown = {
    along: range([...track.alongM, ground.nearEndM, ground.farEndM]),
    across: range([...track.crossM, 0, spacing?.crossM ?? 0]),
  };
  const { along, across } = withAreas(flown, avoid);
  const long = Math.max(along.to - along.from, 200);
  const wide = Math.max(across.to - across.from, 200);
  const room = width - 2 * ABOUT.side;
  const wanted = (long * room) / wide + 2 * ABOUT.end;
  const tallest = Math.min(TALL.most * width, TALL.highest);
  const tall = Math.round(
    Math.min(Math.max(wanted, Math.min(TALL.least * width, tallest)), tallest),
  );
  const pxPerM = Math.min(room / wide, (tall - 2 * ABOUT.end) / long);
  const box = { left: 0, top: HEAD, right: width, bottom: HEAD + tall };
  const middle: Point = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const [alongMiddle, acrossMiddle] = [(along.from + along.to) / 2, (across.from + across.to) / 2];
  return {
    width,
    height: HEAD + tall + FOOT,
    box,
    pxPerM,
    point: (alongM, crossM) => [
      middle[0] + (crossM - acrossMiddle) * pxPerM,
      middle[1] - (alongM - alongMiddle) * pxPerM,
    ],
  };
}

interface Extent {
  readonly along: Range;
  readonly across: Range;
}

/** An area to avoid that lies close by is shown whole. */
function withAreas(flown: Extent, avoid: CircuitPicture['avoid']): Extent {
  const reach = NEAR * Math.max(sizeOf(flown.along), sizeOf(flown.across));
  let { along, across } = flown;
  for (const { alongM, crossM } of avoid.flatMap(({ rings }) => rings)) {
    const area = { along: range(alongM), across: range(crossM) };
    const isNear =
      area.along.from > flown.along.from - reach &&
      area.along.to < flown.along.to + reach &&
      area.across.from > flown.across.from - reach &&
      area.across.to < flown.across.to + reach;
    if (!isNear) continue;
    along = range([along.from, along.to, area.along.from, area.along.to]);
    across = range([across.from, across.to, area.across.from, area.across.to]);
  }
  return { along, across };
}

function sizeOf({ from, to }: Range): number {
  return to - from;
}

interface Range {
  readonly from: number;
  readonly to: number;
}

function range(values: Iterable<number>): Range {
  let from = Infinity;
  let to = -Infinity;
  for (const value of values) {
    if (value < from) from = value;
    if (value > to) to = value;
  }
  return { from, to };
}

/** A line of the model as points; NaN where it is broken. */
export function linePoints({ alongM, crossM }: PlanLine, { point }: PlanLayout): Point[] {
  return Array.from(alongM, (along, i) => point(along, crossM[i]));
}
