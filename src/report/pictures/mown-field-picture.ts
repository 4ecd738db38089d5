/**
 * The mown field: all landings at one strip side by side, oldest left.
 *
 * In: the logbook's landings, which direction of which strip, a latest touchdown point. Out: a
 * column for each landing that has a roll. A drift is seen as a slanting edge.
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
import type { Picture } from './picture.ts';
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
  readonly firstDay: string;
  readonly lastDay: string;
}

/** The field of one direction; null where no landing there has a roll. */
export function mownFieldPicture(
  bars: readonly BarRow[],
  place: { readonly stripId: string; readonly designator: string },
  rope: Pick<Rope, 'of' | 'atM'> | null,
  units: PilotUnits,
): MownFieldPicture | null {
  const here = bars
    .filter((bar) => bar.stripId === place.stripId && bar.designator === place.designator)
    .toSorted((a, b) => a.timeS - b.timeS)
    .flatMap(({ passes, ldaM, ...bar }) =>
      passes && ldaM !== null ? [{ ...bar, passes, ldaM }] : [],
    );
  if (here.length === 0) return null;
  const [first] = here;
  const last = here[here.length - 1];
  const touchdowns = here.map(({ passes }) => middlePass(passes.fromM));
  const lda = lengthFigure(first.ldaM, units);
  if (!hasFigure(lda)) return null;
  const past = rope ? touchdowns.filter((at) => at > rope.atM).length : 0;
  const typical = lengthFigure(median(touchdowns.slice(-10)), units);
  const recent = `touchdown, middle of the last ${Math.min(10, here.length)}`;
  const pastText = `${past} of ${here.length}`;
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
    rope: ropeOf(rope, units),
    firstDay: dayAndYear(first.timeS, units),
    lastDay: dayAndYear(last.timeS, units),
    spoken: [
      `${here.length} landings at ${first.stripName} ${place.designator} side by side, oldest left, ${dayAndYear(first.timeS, units)} to ${dayAndYear(last.timeS, units)}.`,
      ...(hasFigure(typical) ? [`${recent}: ${typical.spoken}.`] : []),
      ...(rope ? [`${pastText} touched past the latest touchdown point.`] : []),
    ].join(' '),
    rows: [
      ...(hasFigure(typical) ? [{ label: recent, value: figureValue(typical) }] : []),
      ...(rope ? [{ label: 'past the latest touchdown point', value: pastText }] : []),
      ...here.map(({ timeS, passes }) => ({
        label: dayAndYear(timeS, units),
        value: `touchdown ${inUnits(middlePass(passes.fromM), units)}, end of roll ${inUnits(middlePass(passes.toM), units)}`,
      })),
    ],
  };
}

function ropeOf(rope: Pick<Rope, 'of' | 'atM'> | null, units: PilotUnits): Rope | null {
  const figure = rope ? lengthFigure(rope.atM, units) : null;
  if (!rope || !figure || !hasFigure(figure)) return null;
  return { ...rope, label: 'latest touchdown point', figure };
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
