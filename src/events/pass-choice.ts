/**
 * Which view of a pass is the right one?
 *
 * In: passes seen from several strips and directions. Out: one for each stretch of time, the best
 * aligned, in order of time: parallel and crossing strips are settled here.
 */
import type { Pass } from './passes.ts';
import type { StripView } from './strip-view.ts';

/** A pass with the view it was found in. */
export interface ViewedPass {
  readonly view: StripView;
  readonly pass: Pass;
}

/** Keeps the best of overlapping passes; a known strip before an unknown place. */
export function keepBestAligned(passes: readonly ViewedPass[]): ViewedPass[] {
  const ranked = passes
    .map((viewed) => ({ viewed, missM: missDistance(viewed) }))
    .sort((a, b) => a.missM - b.missM);
  const kept: ViewedPass[] = [];
  for (const { viewed } of ranked) {
    if (!kept.some((other) => overlap(other.pass, viewed.pass))) kept.push(viewed);
  }
  return kept.sort((a, b) => a.pass.from - b.pass.from);
}

/** True where two passes share more than a third of the shorter one. */
function overlap(a: Pass, b: Pass): boolean {
  const shared = Math.min(a.to, b.to) - Math.max(a.from, b.from);
  return shared > Math.min(a.to - a.from, b.to - b.from) / 3;
}

/** Mean distance from the centreline over the strip or nearest to it, metres, with a handicap for unknown places and unlisted directions. */
function missDistance({ view, pass }: ViewedPass): number {
  let sum = 0;
  let count = 0;
  let nearest = Infinity;
  let nearestMiss = Infinity;
  for (let i = pass.from; i < pass.to; i++) {
    const along = view.smoothAlongM[i];
    const outside = Math.max(view.frame.nearEndAlongM - along, along - view.frame.farEndAlongM, 0);
    const miss = Math.abs(view.smoothCrossM[i]);
    if (outside === 0) {
      sum += miss;
      count++;
    }
    if (outside < nearest) {
      nearest = outside;
      nearestMiss = miss;
    }
  }
  const miss = count > 0 ? sum / count : nearestMiss + nearest / 10;
  return miss + (view.stripId === null ? 30 : 0) + (view.listed ? 0 : 5);
}
