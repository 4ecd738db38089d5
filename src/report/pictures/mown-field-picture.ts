/**
 * The mown field: all landings at one strip side by side, oldest left.
 *
 * In: the logbook's landings, which direction of which strip. Out: a column for each landing that has a
 * roll, and the latest touchdown point of the newest one across them. A drift is seen as a slanting edge.
 * Each landing is held against the point that was planned for itself: aeroplane, mass, wind and grass of
 * another day say nothing about it.
 */
import {
  figureValue,
  hasFigure,
  lengthFigure,
  NBSP,
  numberText,
  type FigureText,
  type PilotUnits,
} from '../figure-text.ts';
import type { EventAddress } from '../logged-flight.ts';
import type { BarRow } from './landing-bars-picture.ts';
import { middlePass, type Passes } from './passes.ts';
import { dayText, yearOf } from '../local-time.ts';
import type { Picture, TwinRow } from './picture.ts';
import type { Rope } from './strip-picture.ts';

/** One landing. */
export interface MownColumn extends EventAddress {
  readonly day: string;
  readonly year: number;
  readonly passes: Passes;
  readonly isTouchAndGo: boolean;
}

/** The field's model. */
export interface MownFieldPicture extends Picture {
  readonly name: string;
  readonly designator: string;
  readonly ldaM: number;
  readonly lengthUnit: 'm' | 'ft';
  readonly columns: readonly MownColumn[];
  readonly lda: FigureText;
  readonly rope: Rope | null;
  /** The rows that stand below the picture; `rows` has one more for each landing. */
  readonly below: readonly TwinRow[];
  readonly firstDay: string;
  readonly lastDay: string;
}

/** The field of one direction; null where no landing there has a roll. */
export function mownFieldPicture(
  bars: readonly BarRow[],
  place: { readonly stripId: string; readonly designator: string },
  units: PilotUnits,
): MownFieldPicture | null {
  const here = bars
    .filter((bar) => bar.stripId === place.stripId && bar.designator === place.designator)
    .toSorted((a, b) => a.timeS - b.timeS)
    .flatMap(({ passes, ldaM, touchdownM, ...bar }) =>
      passes && ldaM !== null && touchdownM !== null ? [{ ...bar, passes, ldaM, touchdownM }] : [],
    );
  if (here.length === 0) return null;
  const [first] = here;
  const last = here[here.length - 1];
  const lda = lengthFigure(first.ldaM, units);
  if (!hasFigure(lda)) return null;
  const typical = lengthFigure(median(here.slice(-10).map(({ touchdownM }) => touchdownM)), units);
  const recent = `touchdown, middle of the last ${Math.min(10, here.length)}`;
  const planned = here.flatMap(({ latestTouchdownM, ...landing }) =>
    latestTouchdownM === null ? [] : [{ ...landing, latestTouchdownM }],
  );
  const past = planned.filter(({ touchdownM, latestTouchdownM }) => touchdownM > latestTouchdownM);
  const newest = planned.at(-1);
  const below = [
    ...(hasFigure(typical) ? [{ label: recent, value: figureValue(typical) }] : []),
    ...(newest ? [latestRow(newest, units)] : []),
    ...(newest
      ? [{ label: PAST_OWN, value: `${past.length}${NBSP}of${NBSP}${planned.length}` }]
      : []),
  ];
  return {
    name: first.stripName,
    designator: place.designator,
    ldaM: first.ldaM,
    lengthUnit: units.length,
    columns: here.map(({ logId, flightIndex, key, day, timeS, passes, isTouchAndGo }) => ({
      logId,
      flightIndex,
      key,
      day,
      year: yearOf(timeS, units.timeZone),
      passes,
      isTouchAndGo,
    })),
    lda,
    rope: newest ? ropeOf(newest.latestTouchdownM, units) : null,
    below,
    firstDay: dayAndYear(first.timeS, units),
    lastDay: dayAndYear(last.timeS, units),
    spoken: [
      `${here.length} landings at ${first.stripName} ${place.designator} side by side, oldest left, ${dayAndYear(first.timeS, units)} to ${dayAndYear(last.timeS, units)}.`,
      ...below.map(({ label, value }) => `${label}: ${value}.`),
    ].join(' '),
    rows: [
      ...below,
      ...here.map(({ timeS, passes, touchdownM }) => ({
        label: dayAndYear(timeS, units),
        value: `touchdown ${inUnits(touchdownM, units)}, end of roll ${inUnits(middlePass(passes.toM), units)}`,
      })),
    ],
  };
}

const PAST_OWN = 'touched past the latest touchdown point of that landing';

/** The point as planned for the newest landing, with whose it is. */
function latestRow(
  {
    timeS,
    aeroplane,
    latestTouchdownM,
  }: { timeS: number; aeroplane: string | null; latestTouchdownM: number },
  units: PilotUnits,
): TwinRow {
  const of = [dayAndYear(timeS, units), ...(aeroplane === null ? [] : [aeroplane])].join(', ');
  const lengthM = inUnits(Math.abs(latestTouchdownM), units);
  return {
    label: `latest touchdown point, as planned for ${of}`,
    value:
      latestTouchdownM < 0 ? `none: the planned roll is ${lengthM} longer than the LDA` : lengthM,
  };
}

/** None where no touchdown on the strip leaves the planned roll. */
function ropeOf(atM: number, units: PilotUnits): Rope | null {
  const figure = lengthFigure(atM, units);
  if (atM < 0 || !hasFigure(figure)) return null;
  return { of: 'planned', atM, label: 'latest touchdown point', figure };
}

function inUnits(metres: number, units: PilotUnits): string {
  const figure = lengthFigure(metres, units);
  return hasFigure(figure) ? figureValue(figure) : `${numberText(metres, 0)}${NBSP}m`;
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

function dayAndYear(timeS: number, { timeZone }: PilotUnits): string {
  return `${dayText(timeS, timeZone)} ${yearOf(timeS, timeZone)}`;
}
