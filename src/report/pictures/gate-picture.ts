/**
 * The gates of a final: what was measured at each, and how it lies against the pilot's own limits.
 *
 * In: an approach, its further figures, where its heights stand, the pilot's units. Out: the gates to
 * be drawn, and every gate with every figure for a table. A verdict is in, out or cannot tell; it
 * says nothing else and has no colour of its own.
 */
import type { Final, GateFigures } from '../../debrief/finals.ts';
import type { Gate } from '../../events/flight-event.ts';
import type { LimitCheck, LimitedFigure } from '../../events/gate-check.ts';
import { isUndetermined, type Estimate, type Measured } from '../../result.ts';
import {
  angleFigure,
  descentFigure,
  figureLine,
  figureValue,
  hasFigure,
  lengthFigure,
  NBSP,
  speedFigure,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../figure-text.ts';
import type { TwinRow } from './picture.ts';

/** Against the pilot's own limits. */
export type Verdict = 'in' | 'out' | 'cannot tell';

/** Figures of a gate, in the order of the table. */
export const GATE_FIGURES = ['airspeed', 'groundSpeed', 'descent', 'path', 'centreline'] as const;
export type GateFigure = (typeof GATE_FIGURES)[number];

/** One figure against its limits. */
export interface GateLimit {
  readonly verdict: Verdict;
  /** Least and most, in the unit of the figure: `50–62 kt`. */
  readonly words: string;
  /** Where the figure lies between them, -1 at the least, 1 at the most; null where it is undetermined. */
  readonly at: number | null;
}

/** One figure of a gate; no limit where the pilot set none. */
export interface GateCell {
  readonly figure: FigureText | NoFigure;
  readonly limit: GateLimit | null;
}

/** One gate with all its figures. */
export interface GateRow {
  readonly heightFt: number;
  /** `100 ft`: gates are heights in feet whatever the pilot's units. */
  readonly label: string;
  readonly cells: Readonly<Record<GateFigure, GateCell>>;
}

/** A gate as drawn. */
export interface GatePicture {
  readonly alongM: number;
  /** Above the threshold, metres. */
  readonly heightM: number;
  readonly label: string;
  /** Over the ground, m/s. */
  readonly groundSpeedMps: number;
  /** Estimated, m/s with its band; null where no wind is known. */
  readonly airspeed: Estimate | null;
  /** `58 kt`, for the drawing. */
  readonly airspeedWords: FigureText | null;
  /** Limits of the airspeed, else of the ground speed, m/s. */
  readonly paceLimit: {
    readonly of: 'airspeed' | 'groundSpeed';
    readonly leastMps: number;
    readonly mostMps: number;
    readonly verdict: Verdict;
  } | null;
  /** Against the limits of the path, else of the descent: what the side view shows. */
  readonly slope: { readonly name: 'path' | 'descent'; readonly limit: GateLimit } | null;
}

const FIELD_OF: Readonly<Record<GateFigure, LimitedFigure>> = {
  airspeed: 'estimatedAirspeedMps',
  groundSpeed: 'groundSpeedMps',
  descent: 'descentRateMps',
  path: 'pathDeg',
  centreline: 'crossM',
};

/** What each figure is called in a table and read out. */
export const GATE_WORDS: Readonly<Record<GateFigure, string>> = {
  airspeed: 'airspeed, estimated',
  groundSpeed: 'ground speed',
  descent: 'descent',
  path: 'path',
  centreline: 'right of the centreline',
};

/** Every gate passed, as flown. */
export function gateRows(gates: readonly Gate[], final: Final, units: PilotUnits): GateRow[] {
  return gates.map((gate, k) => ({
    heightFt: gate.heightFt,
    label: `${gate.heightFt}${NBSP}ft`,
    cells: cellsOf(gate, final.gates[k], units),
  }));
}

/**
 * The gates that can be drawn from `fromM` on.
 *
 * @param riseAt the strip's surface above the threshold at a place, metres
 */
export function gatePictures(
  gates: readonly Gate[],
  final: Final,
  { fromM, riseAt, units }: GateDrawing,
): GatePicture[] {
  return gates.flatMap((gate, k): GatePicture[] => {
    const { alongM, groundSpeedMps } = gate;
    if (isUndetermined(alongM) || isUndetermined(groundSpeedMps) || alongM.value < fromM) return [];
    const figures = final.gates[k];
    const { estimatedAirspeedMps } = figures;
    const airspeed = isUndetermined(estimatedAirspeedMps) ? null : estimatedAirspeedMps;
    const words = speedFigure(estimatedAirspeedMps, units);
    const cells = cellsOf(gate, figures, units);
    return [
      {
        alongM: alongM.value,
        heightM: gate.heightFt * 0.3048 + riseAt(alongM.value),
        label: `${gate.heightFt}${NBSP}ft`,
        groundSpeedMps: groundSpeedMps.value,
        airspeed,
        airspeedWords: hasFigure(words) ? words : null,
        paceLimit: paceLimit(figures, airspeed !== null),
        slope: slopeOf(cells),
      },
    ];
  });
}

/** Where the gates stand. */
export interface GateDrawing {
  readonly fromM: number;
  readonly riseAt: (alongM: number) => number;
  readonly units: PilotUnits;
}

/** A gate for who does not see it. */
export function gateTwin({ alongM }: Gate, { label, cells }: GateRow, units: PilotUnits): TwinRow {
  const place = figureLine(lengthFigure(alongM, units));
  const said = GATE_FIGURES.flatMap((name): string[] => {
    const { figure, limit } = cells[name];
    if (name === 'groundSpeed' || limit) {
      const against = limit ? `, ${limit.verdict} against ${limit.words}` : '';
      return [`${GATE_WORDS[name]} ${figureLine(figure)}${against}`];
    }
    return name === 'airspeed' && hasFigure(figure)
      ? [`${GATE_WORDS[name]} ${figureLine(figure)}`]
      : [];
  });
  return { label: `${label} gate`, value: `${said.join('; ')}; at ${place}` };
}

function cellsOf(gate: Gate, figures: GateFigures, units: PilotUnits): GateRow['cells'] {
  const cell = (
    name: GateFigure,
    measured: Measured,
    show: (of: Measured | number) => FigureText | NoFigure,
  ): GateCell => {
    const check = figures.limits.find(({ of }) => of === FIELD_OF[name]);
    return { figure: show(measured), limit: check ? limitOf(check, measured, show) : null };
  };
  const speed = (of: Measured | number) => speedFigure(of, units);
  return {
    airspeed: cell('airspeed', figures.estimatedAirspeedMps, speed),
    groundSpeed: cell('groundSpeed', gate.groundSpeedMps, speed),
    descent: cell('descent', gate.descentRateMps, (of) => descentFigure(of, units)),
    path: cell('path', gate.pathDeg, angleFigure),
    centreline: cell('centreline', gate.crossM, (of) => lengthFigure(of, units)),
  };
}

function limitOf(
  { least, most, found }: LimitCheck,
  measured: Measured,
  show: (of: number) => FigureText | NoFigure,
): GateLimit {
  const [from, to] = [show(least), show(most)];
  const low = hasFigure(from) ? from.value : '';
  const dash = low.startsWith('\u2212') ? ' to ' : '\u2013';
  const span = most - least;
  return {
    verdict: found === 'cannot-tell' ? 'cannot tell' : found,
    words: `${low}${dash}${figureValue(to)}`,
    at: isUndetermined(measured)
      ? null
      : span === 0
        ? 0
        : (2 * (measured.value - least)) / span - 1,
  };
}

/** The limits that stand in the panel of speeds: of the airspeed where it is known and limited. */
function paceLimit({ limits }: GateFigures, hasAirspeed: boolean): GatePicture['paceLimit'] {
  for (const of of ['airspeed', 'groundSpeed'] as const) {
    const check = limits.find((each) => each.of === FIELD_OF[of]);
    if (!check || (of === 'airspeed' && !hasAirspeed)) continue;
    const verdict = check.found === 'cannot-tell' ? 'cannot tell' : check.found;
    return { of, leastMps: check.least, mostMps: check.most, verdict };
  }
  return null;
}

function slopeOf(cells: GateRow['cells']): GatePicture['slope'] {
  for (const name of ['path', 'descent'] as const) {
    const { limit } = cells[name];
    if (limit) return { name, limit };
  }
  return null;
}
