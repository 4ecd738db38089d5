/**
 * Height and speed on one distance axis: the approach, the flare and the roll.
 *
 * In: a flight, which of its approaches, the strips file, the pilot's units and gate limits. Out:
 * columns along the strip with their bands of 90 %, gates, obstacles, ground.
 *
 * Heights are metres above the threshold (not above the ground below), so that the ground draws with
 * its slope; they are tied to the ground as the events were.
 */
import type { Flight } from '../../debrief/debrief.ts';
import type { Final } from '../../debrief/finals.ts';
import { firstAtOrAfter } from '../../events/arrival-data.ts';
import { offsetAtView } from '../../events/ground-tie.ts';
import type { Approach, Gate } from '../../events/flight-event.ts';
import { offsetByPath } from '../../events/path-tie.ts';
import type { StripView } from '../../events/strip-view.ts';
import { TiedHeights } from '../../events/tied-heights.ts';
import {
  isUndetermined,
  undetermined,
  Z90,
  type Measured,
  type Undetermined,
} from '../../result.ts';
import type { StripBook } from '../../strips/strip.ts';
import {
  angleFigure,
  hasFigure,
  heightFigure,
  speedFigure,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../figure-text.ts';
import {
  commitPicture,
  floatPicture,
  markRows,
  type CommitPicture,
  type FloatPicture,
} from './final-marks.ts';
import {
  gatePictures,
  gateRows,
  gateTwin,
  type GatePicture,
  type GateRow,
} from './gate-picture.ts';
import { expectedBraking, speedGuide, type SpeedCurve, type SpeedGuide } from './expected-speed.ts';
import { passedObstacles, passedRows, type PassedObstacle } from './passed-obstacles.ts';
import { placeName, twinRow, type Picture, type TwinRow } from './picture.ts';
import { bareGround, stripGround, type StripGround } from './strip-ground.ts';
import { lineWords, seenApproach, type SeenApproach } from './unkept-line.ts';

/** A column with its band of 90 %, slot by slot with `alongM`. */
export interface BandColumns {
  readonly alongM: Float64Array;
  readonly value: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** The model of both profiles. */
export interface FinalPicture extends Picture {
  readonly units: PilotUnits;
  readonly ground: StripGround;
  /** Above the threshold, metres; null where the log has no heights, and why. */
  readonly height: BandColumns | null;
  readonly noHeight: string | null;
  readonly speed: BandColumns;
  /** Right of the centreline positive, metres, slot by slot with the speeds. */
  readonly crossM: Float64Array;
  readonly gates: readonly GatePicture[];
  /** Every gate that was passed, also those too far out to be drawn. */
  readonly gateTable: readonly GateRow[];
  /** Which wind the airspeeds rest on; null where there are none. */
  readonly airspeedWind: Final['airspeedWind'];
  readonly float: FloatPicture | null;
  readonly commit: CommitPicture | null;
  readonly touchdown: {
    readonly atM: number;
    readonly speedMps: number;
    readonly speed: FigureText | null;
  } | null;
  readonly stopM: number | null;
  /** Obstacles passed, and how high over them. */
  readonly passed: readonly PassedObstacle[];
  /** Lowest point of a pass: where, and its height above the threshold. */
  readonly lowest: {
    readonly atM: number;
    readonly heightM: number;
    readonly figure: FigureText;
  } | null;
  readonly overThreshold: FigureText | null;
  readonly path: FigureText | null;
  readonly expected: SpeedCurve | null;
  readonly guide: SpeedGuide | null;
}

/** Metres before the threshold at which the picture begins, at most. */
const FROM_M = -700;
/** Points drawn at most: a long final is thinned to it. */
const MOST_POINTS = 160;

/** The profiles of one approach, at a place nobody has kept along the line of its roll; undetermined where none is known. */
export function finalPicture(
  flight: Flight,
  index: number,
  book: StripBook,
  units: PilotUnits,
): FinalPicture | Undetermined {
  const seen = seenApproach(flight, index);
  if (isUndetermined(seen)) return seen;
  const { approach, view, isKept } = seen;
  const final = flight.finals[index];
  const fixes = fixesOf(flight, approach, view);
  if (fixes.length < 2) return undetermined('the log has too few fixes on this final');
  const tied = heightsOf(flight, seen);
  const heights = isUndetermined(tied) ? null : tied;
  const gates = heights ? approach.gates : [];
  const { thresholdCrossing, touchdown, rollEnd } = approach;
  const over: FigureText | NoFigure = isUndetermined(thresholdCrossing)
    ? { reason: thresholdCrossing.undetermined }
    : heightFigure(thresholdCrossing.aboveM, units);
  const path = pathFigure(gates);
  const { prediction } = flight.compared.approaches[index];
  const gateTable = gateRows(gates, final, units);
  const model = {
    units,
    ground: isKept
      ? stripGround(view, book, units)
      : bareGround(view, placeOf(approach.groundRollM)),
    height: heights ? heightColumns(flight, view, fixes, heights) : null,
    noHeight: isUndetermined(tied) ? tied.undetermined : null,
    speed: speedColumns(flight, view, fixes),
    crossM: Float64Array.from(fixes, (i) => view.smoothCrossM[i]),
    gateTable,
    gates: gatePictures(gates, final, {
      fromM: FROM_M,
      riseAt: (alongM) => riseAt(view, alongM),
      units,
    }),
    airspeedWind: final.airspeedWind,
    float: floatPicture(approach, final, units),
    commit: commitPicture(view, final, units),
    touchdown: isUndetermined(touchdown) ? null : touchdownPoint(touchdown, units),
    stopM: isUndetermined(rollEnd) || isUndetermined(touchdown) ? null : placeOf(rollEnd.alongM),
    passed: heights && isKept ? passedObstacles(flight, index, view, book, units) : [],
    lowest: lowestPoint(approach, view, units),
    overThreshold: hasFigure(over) ? over : null,
    path: hasFigure(path) ? path : null,
    expected: expectedBraking(approach, prediction),
    guide: speedGuide(prediction, units),
  };
  const rows: TwinRow[] = [
    ...(isKept
      ? [
          { label: 'strip', value: placeName(view) },
          twinRow('height over the threshold', over),
          twinRow('approach path', path),
        ]
      : [{ label: 'line', value: lineWords(approach) }]),
    ...gateTable.map((row, k) => gateTwin(gates[k], row, units)),
    ...markRows(final, model.commit, units),
    ...(model.touchdown?.speed
      ? [twinRow('ground speed at touchdown', model.touchdown.speed)]
      : []),
    ...passedRows(flight.surroundings.approaches[index], units),
    ...(model.guide ? [{ label: 'speed to hold', value: model.guide.label }] : []),
    ...(model.noHeight === null ? [] : [{ label: 'heights', value: model.noHeight }]),
  ];
  const heard = rows.map(({ label, value }) => `${label} ${value}`);
  return { ...model, rows, spoken: `Height and speed on final: ${heard.join('; ')}.` };
}

/** Fixes from the picture's beginning to the end of the roll or the climb away over the strip. */
function fixesOf(flight: Flight, approach: Approach, view: StripView): number[] {
  const { motion } = flight;
  const { touchdown, rollEnd } = approach;
  const stopS =
    isUndetermined(rollEnd) || isUndetermined(rollEnd.timeS) ? NaN : rollEnd.timeS.value;
  const isLanding = !isUndetermined(touchdown);
  const found: number[] = [];
  for (let i = approach.from; i < motion.length; i++) {
    if (i >= approach.to && !(isLanding && motion.timeS[i] <= stopS)) break;
    if (isLanding && motion.timeS[i] > stopS) break;
    const along = view.smoothAlongM[i];
    if (along < FROM_M || along > view.frame.farEndAlongM + 150) continue;
    found.push(i);
  }
  const stride = Math.ceil(found.length / MOST_POINTS);
  return found.filter((_, k) => k % stride === 0 || k === found.length - 1);
}

/** The heights as the events tied them, or why there are none. */
function heightsOf(
  { motion }: Flight,
  { approach, view, ties, isKept }: SeenApproach,
): TiedHeights | Undetermined {
  if (!motion.hasHeight) return undetermined('the log has no heights');
  const offsetAt = offsetAtView(view, ties, motion.heightDatum);
  // Nobody knows how high the place lies: only wheels on it tell.
  if (!isKept && !offsetAt(motion.timeS[approach.to - 1]).tied) {
    return undetermined('no wheels on the ground here tell how high the place lies');
  }
  const { goAround, from } = approach;
  if (!goAround || isUndetermined(goAround.lowestTimeS)) {
    return new TiedHeights(motion, view, offsetAt);
  }
  const lowest = firstAtOrAfter(motion.timeS, goAround.lowestTimeS.value);
  return new TiedHeights(motion, view, offsetByPath(motion, view, { from, lowest }, offsetAt));
}

function heightColumns(
  flight: Flight,
  view: StripView,
  fixes: readonly number[],
  heights: TiedHeights,
): BandColumns {
  const above = fixes.map((i) => heights.aboveAt(flight.motion.timeS[i]));
  const riseM = fixes.map((i) => riseAt(view, view.smoothAlongM[i]));
  const column = (pick: 'value' | 'low' | 'high'): Float64Array =>
    Float64Array.from(above, (each, k) => (isUndetermined(each) ? NaN : each[pick] + riseM[k]));
  return {
    alongM: Float64Array.from(fixes, (i) => view.smoothAlongM[i]),
    value: column('value'),
    low: column('low'),
    high: column('high'),
  };
}

/** The strip's surface above the threshold; level where no elevation is known. */
function riseAt({ frame }: StripView, alongM: number): number {
  const rise = frame.elevationMslM(alongM) - frame.elevationMslM(0);
  return Number.isNaN(rise) ? 0 : rise;
}

function speedColumns({ motion }: Flight, view: StripView, fixes: readonly number[]): BandColumns {
  const at = (shift: number): Float64Array =>
    Float64Array.from(fixes, (i) =>
      Math.max(0, view.forwardMps[i] + shift * Z90 * motion.speedSdMps[i]),
    );
  const alongM = Float64Array.from(fixes, (i) => view.smoothAlongM[i]);
  return { alongM, value: at(0), low: at(-1), high: at(1) };
}

function placeOf(alongM: Measured): number | null {
  return isUndetermined(alongM) ? null : alongM.value;
}

function touchdownPoint(
  touchdown: Exclude<Approach['touchdown'], Undetermined>,
  units: PilotUnits,
): FinalPicture['touchdown'] {
  const { alongM, groundSpeedMps } = touchdown;
  if (isUndetermined(alongM) || isUndetermined(groundSpeedMps)) return null;
  const speed = speedFigure(groundSpeedMps, units);
  const speedMps = groundSpeedMps.value;
  return { atM: alongM.value, speedMps, speed: hasFigure(speed) ? speed : null };
}

function lowestPoint(
  approach: Approach,
  view: StripView,
  units: PilotUnits,
): FinalPicture['lowest'] {
  const { goAround } = approach;
  if (!goAround) return null;
  const { lowestAboveM, lowestAlongM } = goAround;
  const figure = heightFigure(lowestAboveM, units);
  if (isUndetermined(lowestAboveM) || isUndetermined(lowestAlongM) || !hasFigure(figure))
    return null;
  const atM = lowestAlongM.value;
  return { atM, heightM: lowestAboveM.value + riseAt(view, atM), figure };
}

/** The path at the gate of 200 ft, or the nearest to it that was passed. */
function pathFigure(gates: readonly Gate[]): FigureText | NoFigure {
  const nearest = gates.toSorted(
    (a, b) => Math.abs(a.heightFt - 200) - Math.abs(b.heightFt - 200),
  )[0] as Gate | undefined;
  return nearest ? angleFigure(nearest.pathDeg) : { reason: 'no gate was passed on this final' };
}
