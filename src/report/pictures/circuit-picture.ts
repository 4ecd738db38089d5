/**
 * The plan of a circuit with the strip upright and the landing direction up.
 *
 * In: a flight, which of its approaches, the strips file, the pilot's units. Out: tracks as columns
 * along and across, legs with names, avoid areas, wind and north as seen from above.
 */
import type { Circuit } from '../../events/circuit-figures.ts';
import type { AreaTime } from '../../events/area-time.ts';
import type { Flight } from '../../debrief/debrief.ts';
import type { StripView } from '../../events/strip-view.ts';
import { isUndetermined, type Measured, type Undetermined } from '../../result.ts';
import type { StripBook } from '../../strips/strip.ts';
import {
  angleFigure,
  figureValue,
  hasFigure,
  heightFigure,
  lengthFigure,
  secondsFigure,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { PATH_WORDS } from '../final-words.ts';
import { clockText } from '../local-time.ts';
import { passedObstacles, passedRows, type PassedObstacle } from './passed-obstacles.ts';
import { placeName, twinRow, type Picture } from './picture.ts';
import { enteredWind, type PlanWind } from './plan-wind.ts';
import { bareGround, stripGround, type StripGround } from './strip-ground.ts';
import { lineWords, seenApproach } from './unkept-line.ts';

/** A line on the plan; metres along and across, NaN where it is broken. */
export interface PlanLine {
  readonly alongM: Float64Array;
  readonly crossM: Float64Array;
}

/** The model of the plan. */
export interface CircuitPicture extends Picture, PlanWind {
  readonly ground: StripGround;
  /** The circuit chosen, from its start to the stop or the end of the pass. */
  readonly track: PlanLine;
  /** UTC seconds of the track's points: where the plumb line stands. */
  readonly trackTimeS: Float64Array;
  /** The rest of the flight near by. */
  readonly others: PlanLine;
  readonly legs: readonly { readonly name: string; readonly from: number; readonly to: number }[];
  readonly avoid: readonly {
    readonly name: string;
    readonly rings: readonly PlanLine[];
    /** `avoid`, and for how long the flight was over it. */
    readonly words: string;
    readonly isFlownOver: boolean;
  }[];
  readonly passed: readonly PassedObstacle[];
  /** The preferred path of the direction, and whether it was kept to: `preferred path kept to`. */
  readonly path: PlanLine | null;
  readonly pathWords: string | null;
  /** The recorded commit point, alongM. */
  readonly commitM: number | null;
  readonly side: 'left' | 'right' | null;
  readonly spacing: {
    readonly figure: FigureText;
    readonly crossM: number;
    readonly alongM: number;
  } | null;
  readonly touchdownM: number | null;
  /** Where the roll ended, alongM. */
  readonly stopM: number | null;
  readonly lowest: { readonly atM: number; readonly label: string } | null;
  readonly lengthUnit: 'm' | 'ft';
  /** Null where no circuit was found. */
  readonly flown: {
    readonly spacing: FigureText | NoFigure;
    readonly bank: FigureText | NoFigure;
    /** From its start to the next threshold crossing, seconds. */
    readonly durationS: number;
  } | null;
}

/** The rest of the flight is drawn out to this far from the threshold, metres. */
const REACH_M = 4000;
/** Without a circuit found, so much of the flight before the pass is taken for it, seconds. */
const BEFORE_S = 150;
const MOST_POINTS = 400;
/** Areas to avoid further away are those of other strips, metres. */
const SIGHT_M = 30_000;

/** The plan of one approach, at a place nobody has kept along the line of its roll; undetermined where none is known. */
export function circuitPicture(
  flight: Flight,
  index: number,
  book: StripBook,
  units: PilotUnits,
): CircuitPicture | Undetermined {
  const { motion } = flight;
  const seen = seenApproach(flight, index);
  if (isUndetermined(seen)) return seen;
  const { approach, view, isKept } = seen;
  const circuit = circuitOf(flight, index);
  const fromS = circuit?.startTimeS ?? motion.timeS[approach.from] - BEFORE_S;
  const endS = endTime(flight, index);
  const chosen = fixesBetween(view, motion.timeS, (timeS) => timeS >= fromS && timeS <= endS);
  // Joined to the chosen stretch at both of its ends.
  const [firstS, lastS] = [motion.timeS[chosen[0] ?? 0], motion.timeS[chosen.at(-1) ?? 0]];
  const rest = fixesBetween(view, motion.timeS, (timeS) => timeS <= firstS || timeS >= lastS);
  const trackTimeS = Float64Array.from(chosen, (i) => (i < 0 ? NaN : motion.timeS[i]));
  const windOf = enteredWind(flight, view, units);
  const { touchdown, rollEnd, goAround } = approach;
  const { preferredPath } = flight.finals[index];
  const model = {
    ground: isKept
      ? stripGround(view, book, units)
      : bareGround(view, placeOf(approach.groundRollM)),
    track: lineOf(view, chosen),
    trackTimeS,
    others: lineOf(view, rest),
    legs: legsOf(circuit, trackTimeS),
    avoid: book.avoidAreas
      .map(({ name, rings }) => ({
        name,
        rings: rings.map((ring) => degreesLine(view, ring)),
        ...overArea(flight.surroundings.areas, name),
      }))
      .filter(({ rings, isFlownOver }) => isFlownOver || rings.some(isInSight)),
    passed: isKept ? passedObstacles(flight, index, view, book, units) : [],
    path: approachPath(view, book),
    pathWords: preferredPath ? `preferred path ${PATH_WORDS[preferredPath.found]}` : null,
    commitM: view.stripId === null ? null : view.direction.commitM,
    ...windOf,
    side: circuit?.side ?? null,
    spacing: spacingOf(view, circuit, motion.timeS, units),
    touchdownM: isUndetermined(touchdown) ? null : placeOf(touchdown.alongM),
    stopM: isUndetermined(rollEnd) ? null : placeOf(rollEnd.alongM),
    lowest: goAround ? lowestOf(goAround, units) : null,
    lengthUnit: units.length,
    flown: circuit && {
      spacing: lengthFigure(circuit.downwindSpacingM, units),
      bank: angleFigure(circuit.steepestBankDeg),
      durationS: circuit.endTimeS - circuit.startTimeS,
    },
  };
  const rows = [
    isKept
      ? { label: 'strip', value: placeName(view) }
      : { label: 'line', value: lineWords(approach) },
    ...(circuit ? circuitRows(circuit, units) : [{ label: 'circuit', value: 'none found' }]),
    { label: 'wind', value: windOf.wind?.label ?? windOf.noWind ?? 'not entered' },
    ...(model.pathWords === null ? [] : [{ label: 'final', value: model.pathWords }]),
    ...model.avoid.map(({ name, words }) => ({ label: 'area', value: `${name}: ${words}` })),
    ...passedRows(flight.surroundings.approaches[index], units),
  ];
  const heard = rows.map(({ label, value }) => `${label} ${value}`).join('; ');
  return { ...model, rows, spoken: `Plan of the circuit, landing direction up: ${heard}.` };
}

/** What is said at an area: for how long the whole flight was over it. */
function overArea(
  areas: readonly AreaTime[],
  name: string,
): Pick<CircuitPicture['avoid'][number], 'words' | 'isFlownOver'> {
  const found = areas.find(({ area }) => area === name);
  if (!found) return { words: 'avoid', isFlownOver: false };
  const time = secondsFigure(found.insideS);
  if (found.firstTimeS === null) return { words: 'avoid; perhaps touched', isFlownOver: true };
  const long = hasFigure(time) ? ` ${figureValue(time)}` : '';
  return { words: `avoid; over it${long}`, isFlownOver: true };
}

/** The circuit that ended with this approach: the last one here that began before its pass ended. */
function circuitOf({ circuits, events, motion }: Flight, index: number): Circuit | null {
  const approach = events.approaches[index];
  const endS = motion.timeS[approach.to - 1];
  const found = circuits.circuits.findLast(
    ({ strip, startTimeS, endTimeS }) =>
      strip === approach.strip &&
      startTimeS < endS &&
      endTimeS <= endS + 1 &&
      endTimeS >= motion.timeS[approach.from],
  );
  return found ?? null;
}

function endTime({ events, motion }: Flight, index: number): number {
  const { rollEnd, to } = events.approaches[index];
  if (isUndetermined(rollEnd) || isUndetermined(rollEnd.timeS)) return motion.timeS[to - 1];
  return rollEnd.timeS.value;
}

/** Fixes kept of a stretch, thinned; -1 breaks the line. */
function fixesBetween(
  { smoothAlongM, smoothCrossM }: StripView,
  timeS: Float64Array,
  keep: (timeS: number) => boolean,
): number[] {
  const isNear = (i: number): boolean => Math.hypot(smoothAlongM[i], smoothCrossM[i]) < REACH_M;
  const all: number[] = [];
  for (let i = 0; i < timeS.length; i++) if (isNear(i) && keep(timeS[i])) all.push(i);
  const stride = Math.max(1, Math.ceil(all.length / MOST_POINTS));
  const found: number[] = [];
  all.forEach((i, k) => {
    const begins = k > 0 && i !== all[k - 1] + 1;
    const ends = k === all.length - 1 || all[k + 1] !== i + 1;
    if (begins) found.push(-1);
    // Both ends of every stretch stay, or it would not meet what it is joined to.
    if (begins || ends || k % stride === 0) found.push(i);
  });
  return found;
}

function lineOf(view: StripView, fixes: readonly number[]): PlanLine {
  const at = (column: Float64Array): Float64Array =>
    Float64Array.from(fixes, (i) => (i < 0 ? NaN : column[i]));
  return { alongM: at(view.smoothAlongM), crossM: at(view.smoothCrossM) };
}

function degreesLine({ frame }: StripView, ring: readonly (readonly [number, number])[]): PlanLine {
  const lat = Float64Array.from(ring, ([, latDeg]) => latDeg);
  return frame.toAlongCross(
    lat,
    Float64Array.from(ring, ([lonDeg]) => lonDeg),
  );
}

/** Whether a line comes near enough to matter on a plan; places in another part of the world are no numbers there. */
function isInSight({ alongM, crossM }: PlanLine): boolean {
  return alongM.some((along, i) => Math.hypot(along, crossM[i]) < SIGHT_M);
}

function approachPath({ frame, strip, direction }: StripView, book: StripBook): PlanLine | null {
  const path = book.approachPaths.find(
    (each) => each.strip === strip.id && each.designator === direction.designator,
  );
  if (!path) return null;
  return frame.toAlongCross(Float64Array.from(path.latDeg), Float64Array.from(path.lonDeg));
}

function legsOf(circuit: Circuit | null, timeS: Float64Array): CircuitPicture['legs'] {
  if (!circuit) return [];
  const indexAt = (atS: number): number => {
    const found = timeS.findIndex((each) => each >= atS);
    return found < 0 ? timeS.length - 1 : found;
  };
  return circuit.legs.map(({ leg, startTimeS, endTimeS }) => ({
    name: leg.replace('-', ' '),
    from: indexAt(startTimeS),
    to: indexAt(endTimeS),
  }));
}

function spacingOf(
  view: StripView,
  circuit: Circuit | null,
  timeS: Float64Array,
  units: PilotUnits,
): CircuitPicture['spacing'] {
  const downwind = circuit?.legs.find(({ leg }) => leg === 'downwind');
  if (!circuit || !downwind || isUndetermined(circuit.downwindSpacingM)) return null;
  const figure = lengthFigure(circuit.downwindSpacingM, units);
  if (!hasFigure(figure)) return null;
  const middleM = view.frame.farEndAlongM / 2;
  // Abeam the strip's middle on the downwind leg, or as near to it as the leg came.
  let best = -1;
  timeS.forEach((atS, i) => {
    if (atS < downwind.startTimeS || atS > downwind.endTimeS) return;
    const isNearer =
      best < 0 ||
      Math.abs(view.smoothAlongM[i] - middleM) < Math.abs(view.smoothAlongM[best] - middleM);
    if (isNearer) best = i;
  });
  if (best < 0) return null;
  return { figure, crossM: view.smoothCrossM[best], alongM: view.smoothAlongM[best] };
}

function placeOf(alongM: Measured): number | null {
  return isUndetermined(alongM) ? null : alongM.value;
}

function lowestOf(
  goAround: { readonly lowestAboveM: Measured; readonly lowestAlongM: Measured },
  units: PilotUnits,
): CircuitPicture['lowest'] {
  const atM = placeOf(goAround.lowestAlongM);
  const height = heightFigure(goAround.lowestAboveM, units);
  return atM === null || !hasFigure(height) ? null : { atM, label: figureValue(height) };
}

function circuitRows(circuit: Circuit, units: PilotUnits): { label: string; value: string }[] {
  return [
    {
      label: 'circuit',
      value: `${circuit.side}-hand from ${clockText(circuit.startTimeS, units.timeZone)}`,
    },
    twinRow('downwind spacing', lengthFigure(circuit.downwindSpacingM, units)),
    twinRow('base turn past the threshold', lengthFigure(circuit.baseTurnPastThresholdM, units)),
    twinRow('final', lengthFigure(circuit.finalLengthM, units)),
    twinRow('steepest bank', angleFigure(circuit.steepestBankDeg)),
  ];
}
