/**
 * Several approaches in one direction, laid over each other.
 *
 * In: debriefs of events at one strip and direction, with their numbers, the pilot's units. Out: lanes
 * of columns along the strip (height, ground speed, how far beside the centreline), rolls, words.
 * Which one is told from which by its number, set into the line.
 */
import {
  figureLine,
  figureValue,
  hasFigure,
  lengthFigure,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { whenText } from '../local-time.ts';
import type { EventDebrief } from '../story/event-debrief.ts';
import { isUndetermined, undetermined, type Undetermined } from '../../result.ts';
import type { FinalPicture } from './final-picture.ts';
import type { GateCell } from './gate-picture.ts';
import type { Passes } from './passes.ts';
import type { Picture } from './picture.ts';
import type { StripGround } from './strip-ground.ts';

/** One approach. Columns have a slot for every point drawn; lengths in metres, speeds in m/s. */
export interface Lane {
  /** 1, 2 ...: its name in the drawing. */
  readonly number: number;
  /** `20 Apr 2024 09:49`. */
  readonly when: string;
  /** Which aeroplane, where they differ; else null. */
  readonly aeroplane: string | null;
  readonly alongM: Float64Array;
  /** Above the threshold; null where the log has no heights. */
  readonly heightM: Float64Array | null;
  readonly speedMps: Float64Array;
  /** Right of the centreline positive. */
  readonly crossM: Float64Array;
  readonly passes: Passes | null;
  /** Lowest point of a pass, alongM. */
  readonly lowestM: number | null;
  /** `touchdown 96 m, roll 183 m`, `went around, lowest 18 ft`. */
  readonly words: string;
  readonly left: FigureText | null;
  /** True where the wheels stopped past the end. */
  readonly isOver: boolean;
}

/** One row of the table: the gates by their height, then the landing. */
export interface LaneRow {
  readonly number: number;
  readonly when: string;
  /** Which aeroplane, where they differ; else null. */
  readonly aeroplane: string | null;
  /** A speed each, in the order of `gateHeightsFt`, against its limits where there are any. */
  readonly gates: readonly GateCell[];
  readonly path: FigureText | NoFigure;
  readonly touchdown: FigureText | NoFigure;
  readonly roll: FigureText | NoFigure;
  readonly left: FigureText | NoFigure;
}

/** All of them. */
export interface SideBySidePicture extends Picture {
  readonly units: PilotUnits;
  readonly ground: StripGround;
  readonly lanes: readonly Lane[];
  readonly table: readonly LaneRow[];
  /** Gates that one of them passed at least, feet, as flown down: an empty column tells nothing. */
  readonly gateHeightsFt: readonly number[];
  /** Which speed stands at the gates: the one that the pilot limited, else the one measured. */
  readonly gateSpeed: 'airspeed' | 'groundSpeed';
  /** `Touchdowns from 88 to 141 m`; null with fewer than two touchdowns. */
  readonly spread: string | null;
}

/** Lays them over each other; undetermined where none of them can be drawn at a strip. */
export function sideBySidePicture(
  events: readonly EventDebrief[],
  units: PilotUnits,
): SideBySidePicture | Undetermined {
  const drawn = drawnEvents(events);
  if (drawn.length === 0) return undetermined('none of these approaches can be drawn at a strip');
  const { ground } = drawn[0].final;
  const lanes = drawn.map((each) => laneOf(each, units));
  const isAirspeedLimited = drawn.some(({ final }) =>
    final.gateTable.some(({ cells }) => cells.airspeed.limit !== null),
  );
  const gateSpeed = isAirspeedLimited ? 'airspeed' : 'groundSpeed';
  const passed = new Set(
    drawn.flatMap(({ final }) => final.gateTable.map(({ heightFt }) => heightFt)),
  );
  const gateHeightsFt = [...passed].sort((a, b) => b - a);
  const table = drawn.map((each) => rowOf(each, { gateSpeed, gateHeightsFt, units }));
  const spread = spreadWords(events, units);
  const rows = lanes.map(({ number, when, aeroplane, words, left }) => ({
    label: aeroplane === null ? `${number}, ${when}` : `${number}, ${when}, ${aeroplane}`,
    value: left ? `${words}, ${figureValue(left)} left` : words,
  }));
  const place = `${ground.name} ${ground.designator}`;
  const heard = rows.map(({ label, value }) => `${label}: ${value}.`).join(' ');
  return {
    ...{ units, ground, lanes, table, gateHeightsFt, gateSpeed, spread, rows },
    spoken: `${lanes.length} approaches at ${place} laid over each other. ${heard}`,
  };
}

/** Those that can be drawn, numbered in the order chosen; with their aeroplanes where there are several. */
function drawnEvents(events: readonly EventDebrief[]): DrawnEvent[] {
  const drawn = events.flatMap((event, k): Omit<DrawnEvent, 'aeroplane'>[] =>
    isUndetermined(event.final) ? [] : [{ event, final: event.final, number: k + 1 }],
  );
  const isOne = new Set(drawn.map(({ event }) => event.aeroplane)).size < 2;
  return drawn.map((each) => ({
    ...each,
    aeroplane: isOne ? null : (each.event.aeroplane ?? 'aeroplane not known'),
  }));
}

function laneOf({ event, final, number, aeroplane }: DrawnEvent, units: PilotUnits): Lane {
  const ruler = isUndetermined(event.ruler) ? null : event.ruler;
  return {
    number,
    when: whenText(event.timeS, units.timeZone),
    aeroplane,
    alongM: final.speed.alongM,
    heightM: final.height?.value ?? null,
    speedMps: final.speed.value,
    crossM: final.crossM,
    // Where a roll was not seen to its end the debrief draws the rest; here only what was rolled.
    passes: ruler?.passes ? { ...ruler.passes, extrapolatedToM: null } : null,
    lowestM: final.lowest?.atM ?? null,
    words: wordsOf(event, final, units),
    left: ruler?.left?.figure ?? null,
    isOver: ruler?.left?.isOver ?? false,
  };
}

function wordsOf(event: EventDebrief, final: FinalPicture, units: PilotUnits): string {
  const { touchdown, roll } = landingFigures(event, units);
  if (hasFigure(touchdown)) {
    const rolled = hasFigure(roll) ? `, roll ${figureValue(roll)}` : '';
    return `touchdown ${figureValue(touchdown)}${rolled}`;
  }
  if (final.lowest) return `no touchdown, lowest ${figureValue(final.lowest.figure)}`;
  return 'no touchdown found';
}

function landingFigures(
  { ruler, lengths }: EventDebrief,
  units: PilotUnits,
): Pick<LaneRow, 'touchdown' | 'roll' | 'left'> {
  const none = { reason: isUndetermined(ruler) ? ruler.undetermined : 'no touchdown' };
  const mark = isUndetermined(ruler) ? null : ruler.places.find(({ kind }) => kind === 'touchdown');
  return {
    touchdown: mark?.figure ?? none,
    roll: lengths && mark ? lengthFigure(lengths.rollM, units) : none,
    left: isUndetermined(ruler) || !ruler.left ? none : ruler.left.figure,
  };
}

/** An approach that can be drawn at a strip. */
interface DrawnEvent {
  readonly event: EventDebrief;
  readonly final: FinalPicture;
  readonly number: number;
  readonly aeroplane: string | null;
}

function rowOf(
  { event, final, number, aeroplane }: DrawnEvent,
  {
    gateSpeed,
    gateHeightsFt,
    units,
  }: Pick<SideBySidePicture, 'gateSpeed' | 'gateHeightsFt' | 'units'>,
): LaneRow {
  const notPassed = { reason: 'not passed on this final' };
  return {
    number,
    when: whenText(event.timeS, units.timeZone),
    aeroplane,
    gates: gateHeightsFt.map(
      (heightFt) =>
        final.gateTable.find((gate) => gate.heightFt === heightFt)?.cells[gateSpeed] ?? {
          figure: notPassed,
          limit: null,
        },
    ),
    path: final.path ?? notPassed,
    ...landingFigures(event, units),
  };
}

function spreadWords(events: readonly EventDebrief[], units: PilotUnits): string | null {
  const touchdowns = events
    .flatMap(({ ruler }) => (isUndetermined(ruler) ? [] : ruler.places))
    .flatMap(({ kind, atM }) => (kind === 'touchdown' ? [atM] : []));
  if (touchdowns.length < 2) return null;
  const text = (metres: number): string => figureLine(lengthFigure(metres, units));
  return `touchdowns from ${text(Math.min(...touchdowns))} to ${text(Math.max(...touchdowns))}`;
}
