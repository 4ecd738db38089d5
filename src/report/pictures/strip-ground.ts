/**
 * What lies on the ground: the strip of one direction with its ends, slope and obstacles.
 *
 * In: a strip view and the strips file. Out: plain lengths in metres along and across from the
 * landing threshold, heights in metres above it. Beyond the strip the ground counts as level.
 */
import type { StripPlace } from '../../debrief/strip-place.ts';
import { nearerThresholdM, standsAlongM } from '../../strips/nearer-threshold.ts';
import type { Obstacle, StripBook } from '../../strips/strip.ts';
import { heightFigure, figureValue, numberText, NBSP, type PilotUnits } from '../figure-text.ts';

/** An obstacle near the strip: one place (a tree, a mast) or a row (a hedge). */
export interface ObstaclePicture {
  readonly isRow: boolean;
  readonly alongM: Float64Array;
  readonly crossM: Float64Array;
  /** Top above the threshold, and above the ground there; NaN where no elevation is known. */
  readonly topM: number;
  readonly heightM: number;
  readonly name: string;
  /** `Osier row 9 m`. */
  readonly label: string;
}

/** The strip in one direction. */
export interface StripGround {
  /** False where nobody has kept the place: neither grass nor ends are drawn, only the line of the roll. */
  readonly isKept: boolean;
  readonly name: string;
  readonly designator: string;
  readonly trueBearingDeg: number;
  /** Ends of the strip, alongM: the near end is 0, or negative behind a displaced threshold. */
  readonly nearEndM: number;
  readonly farEndM: number;
  readonly widthM: number;
  readonly ldaM: number;
  readonly toraM: number;
  /** True where its ends are guessed, so that nothing is held against its lengths. */
  readonly endsGuessed: boolean;
  /** The surface above the threshold, metres, along the strip; null where no elevation is known. */
  readonly surface: { readonly alongM: Float64Array; readonly riseM: Float64Array } | null;
  /** `uphill 1.9 %`; null where no elevation is known. */
  readonly slopeText: string | null;
  readonly obstacles: readonly ObstaclePicture[];
}

/** Obstacles farther than this before the threshold, past the end or beside the centreline are left to the plan, metres. */
const NEAR = { alongM: 600, crossM: 60 };
/** Step at which the surface is drawn, metres. */
const SURFACE_STEP_M = 10;

/** The ground of one view. */
export function stripGround(view: StripPlace, book: StripBook, units: PilotUnits): StripGround {
  const { strip, direction, frame } = view;
  return {
    isKept: true,
    name: strip.name,
    designator: direction.designator,
    trueBearingDeg: frame.trueBearingDeg,
    nearEndM: frame.nearEndAlongM,
    farEndM: frame.farEndAlongM,
    widthM: strip.widthM,
    ldaM: direction.ldaM,
    toraM: direction.toraM,
    endsGuessed: strip.endsGuessed,
    surface: surfaceOf(view),
    slopeText: slopeText(frame.slopeRatio),
    obstacles: book.obstacles.flatMap((obstacle) => obstaclePicture(view, obstacle, units)),
  };
}

/** So much of the line is shown where no roll says how far it goes, metres. */
const BARE_LINE_M = 150;

/** The line of a roll where nobody has kept a strip: no ends, no slope, no obstacles. */
export function bareGround({ frame, strip }: StripPlace, rollM: number | null): StripGround {
  const lengthM = rollM ?? BARE_LINE_M;
  return {
    isKept: false,
    name: rollM === null ? '' : 'the roll',
    designator: '',
    trueBearingDeg: frame.trueBearingDeg,
    nearEndM: 0,
    farEndM: lengthM,
    widthM: strip.widthM,
    ldaM: lengthM,
    toraM: lengthM,
    endsGuessed: false,
    surface: null,
    slopeText: null,
    obstacles: [],
  };
}

function surfaceOf({ frame }: StripPlace): StripGround['surface'] {
  const threshold = frame.elevationMslM(0);
  if (Number.isNaN(threshold)) return null;
  const steps = Math.max(1, Math.ceil(frame.lengthM / SURFACE_STEP_M));
  const alongM = Float64Array.from(
    { length: steps + 1 },
    (_, i) => frame.nearEndAlongM + (i / steps) * frame.lengthM,
  );
  return { alongM, riseM: alongM.map((along) => frame.elevationMslM(along) - threshold) };
}

function slopeText(slopeRatio: number): string | null {
  if (Number.isNaN(slopeRatio)) return null;
  const percent = numberText(Math.abs(100 * slopeRatio), 1);
  if (percent === '0.0') return 'level';
  return `${slopeRatio > 0 ? 'uphill' : 'downhill'} ${percent}${NBSP}%`;
}

function obstaclePicture(
  view: StripPlace,
  obstacle: Obstacle,
  units: PilotUnits,
): ObstaclePicture[] {
  const { frame, strip } = view;
  if (obstacle.strip !== null && obstacle.strip !== strip.id) return [];
  const lat = Float64Array.from(obstacle.latDeg);
  const { alongM, crossM } = frame.toAlongCross(lat, Float64Array.from(obstacle.lonDeg));
  const isNear = alongM.some(
    (along, i) =>
      along > frame.nearEndAlongM - NEAR.alongM &&
      along < frame.farEndAlongM + NEAR.alongM &&
      Math.abs(crossM[i]) < NEAR.crossM,
  );
  if (!isNear) return [];
  const middleM = standsAlongM(frame, obstacle);
  const groundM = frame.elevationMslM(middleM) - frame.elevationMslM(0);
  const topM = topAboveThreshold(obstacle, groundM, view, middleM);
  const heightM = obstacle.heightM ?? topM - groundM;
  const tall = Number.isFinite(heightM) ? ` ${figureValue(heightFigure(heightM, units))}` : '';
  return [
    {
      isRow: alongM.length > 1,
      alongM,
      crossM,
      topM,
      heightM,
      name: obstacle.name,
      label: obstacle.name + tall,
    },
  ];
}

/** Top of an obstacle over the threshold of the direction looked from, metres. */
function topAboveThreshold(
  obstacle: Obstacle,
  groundM: number,
  view: StripPlace,
  alongM: number,
): number {
  const thresholdMslM = view.frame.elevationMslM(0);
  if (obstacle.topMslM !== null) return obstacle.topMslM - thresholdMslM;
  if (obstacle.topAboveThresholdM === null) return groundM + (obstacle.heightM ?? NaN);
  const riseM = view.frame.elevationMslM(nearerThresholdM(view, alongM)) - thresholdMslM;
  return obstacle.topAboveThresholdM + (Number.isNaN(riseM) ? 0 : riseM);
}
