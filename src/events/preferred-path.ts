/**
 * Was the preferred approach path followed?
 *
 * In: the view of the direction, an approach, the path as kept with the strip. Out: how far
 * the track passed from the path, part by part, with bands, and whether all of it was followed.
 *
 * Every place on the path is held against the nearest place of the track that goes its way: so a
 * corner cut counts, and flying past the path the other way does not.
 */
import { normalEstimate, undetermined, Z90, type Measured } from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { ApproachPath } from '../strips/strip.ts';
import { PATH } from './circuit-tuning.ts';
import type { StripView } from './strip-view.ts';
import { ALONG } from './tuning.ts';

/** One straight part of the path, counted from where it begins. Distances in metres. */
export interface PathPart {
  readonly greatestOffM: Measured;
  readonly meanOffM: Measured;
}

/** An approach against the preferred path of its direction. */
export interface PathFollowed {
  /** Followed: all of it within `withinM`; left: some of it surely not. */
  readonly found: 'followed' | 'left' | 'cannot-tell';
  readonly withinM: number;
  readonly greatestOffM: Measured;
  readonly meanOffM: Measured;
  readonly parts: readonly PathPart[];
}

/** Fixes of an approach from which it may have been on the path, half open; 0: from the log's beginning. */
export interface FlownTowards {
  readonly from: number;
  readonly to: number;
}

/**
 * Holds a track against a path. Never fails; how far off a part that no track goes along was passed
 * is undetermined, and it was left unless the log began too late.
 */
export function pathFollowed(
  view: StripView,
  { from, to }: FlownTowards,
  path: ApproachPath,
): PathFollowed {
  const line = pathLine(view, path);
  const sd = Math.hypot(ALONG.driftSdM, placeSdM(view.strip), PATH.drawnSdM);
  const offs = line.slice(1).map((end, k) => offsAlong(view, { from, to }, line[k], end));
  const all = offs.flat();
  const [greatestOffM, meanOffM] = figures(all, sd);
  return {
    found: judge(all, sd, from === 0),
    withinM: PATH.withinM,
    greatestOffM,
    meanOffM,
    parts: offs.map((part) => {
      const [greatest, mean] = figures(part, sd);
      return { greatestOffM: greatest, meanOffM: mean };
    }),
  };
}

interface Place {
  readonly alongM: number;
  readonly crossM: number;
}

/** The path's corners in the order flown: it ends at the end that is nearer to the threshold. */
function pathLine(view: StripView, path: ApproachPath): Place[] {
  const { alongM, crossM } = view.frame.toAlongCross(
    Float64Array.from(path.latDeg),
    Float64Array.from(path.lonDeg),
  );
  const line = Array.from(alongM, (along, k) => ({ alongM: along, crossM: crossM[k] }));
  const away = ({ alongM: a, crossM: c }: Place): number => Math.hypot(a, c);
  return away(line[0]) < away(line[line.length - 1]) ? line.toReversed() : line;
}

/** Distances from places along one part to the track; Infinity where no track goes its way. */
function offsAlong(view: StripView, flown: FlownTowards, a: Place, b: Place): number[] {
  const lengthM = Math.hypot(b.alongM - a.alongM, b.crossM - a.crossM);
  if (lengthM === 0) return [];
  const count = Math.max(1, Math.round(lengthM / PATH.stepM));
  const unit = { alongM: (b.alongM - a.alongM) / lengthM, crossM: (b.crossM - a.crossM) / lengthM };
  return Array.from({ length: count }, (_, k) => {
    const share = (k + 0.5) / count;
    const place = {
      alongM: a.alongM + share * (b.alongM - a.alongM),
      crossM: a.crossM + share * (b.crossM - a.crossM),
    };
    return distanceToTrack(view, flown, place, unit);
  });
}

const LEAST_COSINE = Math.cos((PATH.goesItsWayDeg * Math.PI) / 180);

function distanceToTrack(
  { smoothAlongM, smoothCrossM }: StripView,
  { from, to }: FlownTowards,
  place: Place,
  unit: Place,
): number {
  let least = Infinity;
  for (let i = Math.max(from, 1); i < to; i++) {
    const x = smoothAlongM[i - 1];
    const y = smoothCrossM[i - 1];
    const dx = smoothAlongM[i] - x;
    const dy = smoothCrossM[i] - y;
    if (dx * unit.alongM + dy * unit.crossM <= LEAST_COSINE * Math.hypot(dx, dy)) continue;
    const share = ((place.alongM - x) * dx + (place.crossM - y) * dy) / (dx * dx + dy * dy);
    const t = Math.min(1, Math.max(0, share));
    least = Math.min(least, Math.hypot(place.alongM - x - t * dx, place.crossM - y - t * dy));
  }
  return least;
}

/** Greatest and mean; a distance is never negative. */
function figures(offs: readonly number[], sd: number): [Measured, Measured] {
  const greatest = Math.max(...offs);
  if (!Number.isFinite(greatest)) {
    const none = undetermined('the log has no track along this part of the path');
    return [none, none];
  }
  const mean = offs.reduce((sum, off) => sum + off, 0) / offs.length;
  return [notNegative(normalEstimate(greatest, sd)), notNegative(normalEstimate(mean, sd))];
}

function notNegative(estimate: { value: number; low: number; high: number }): Measured {
  return { ...estimate, low: Math.max(0, estimate.low) };
}

function judge(offs: readonly number[], sd: number, fromStart: boolean): PathFollowed['found'] {
  const greatest = Math.max(...offs);
  if (offs.length === 0 || (greatest === Infinity && fromStart)) return 'cannot-tell';
  if (greatest + Z90 * sd <= PATH.withinM) return 'followed';
  return greatest - Z90 * sd > PATH.withinM ? 'left' : 'cannot-tell';
}
