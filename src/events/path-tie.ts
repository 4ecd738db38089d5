/**
 * What does the straight path of a descent say about the recorded heights?
 *
 * A pilot flies the descent at a place on the strip, so its straight continuation meets the ground
 * there: at 3 degrees a hundred metres of doubt about that place are 5 m of height, far less than
 * the doubt about what a log's heights count from. In: motion, strip view, the pass and its lowest
 * fix, the offset known so far. Out: the offset, sharpened, and what it cannot exceed: at the lowest
 * fix the wheels were not below the ground. Only where nothing ties the heights: a contact elsewhere
 * in the flight is as good, and simulated flights gained nothing from both.
 *
 * Source: Bayes' rule for normal mixtures; that approaches are flown at an aiming point is common
 * practice, no source; numbers in untied-tuning.ts.
 */
import { tiltMixture, type Mixture } from '../numeric/posterior.ts';
import { fitLinear } from '../numeric/regression.ts';
import { isUndetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter } from './arrival-data.ts';
import { correlation, offsetOf, type TiedOffset } from './ground-tie.ts';
import { initiation } from './initiation.ts';
import type { StripView } from './strip-view.ts';
import { TIE } from './tuning.ts';
import { UNTIED } from './untied-tuning.ts';

/** The part of a pass that matters: its first fix and its lowest. */
interface Descent {
  readonly from: number;
  readonly lowest: number;
}

/**
 * The offset of a pass's heights, sharpened by its path and by how low passes mostly are.
 *
 * Units: UTC seconds to metres. Tied by a contact, or without a known strip: unchanged.
 */
export function offsetByPath(
  motion: Motion,
  view: StripView,
  descent: Descent,
  offsetAt: (timeS: number) => TiedOffset,
): (timeS: number) => TiedOffset {
  if (!motion.hasHeight || view.stripId === null) return offsetAt;
  const lowestM = view.smoothAboveM[descent.lowest];
  const lowestS = motion.timeS[descent.lowest];
  const path = straightPath(motion, view, descent);
  return (timeS) => {
    const before = offsetAt(timeS);
    if (before.tied) return before;
    const sharpened = path ? timesPath(before.offset, path) : before.offset;
    const driftedSdM = TIE.driftSdM * Math.sqrt(2 * (1 - correlation(timeS - lowestS)));
    const ceiling = { atMostM: lowestM, sdM: driftedSdM };
    return offsetOf(lowerLikelier(sharpened, lowestM), false, ceiling);
  };
}

/** The recorded height over the surface that the path has at the usual aiming point, and its doubt, metres. */
interface PathLevel {
  readonly levelM: number;
  readonly sdM: number;
}

/** Where the straight descent leads; null where there is none. */
function straightPath(
  motion: Motion,
  view: StripView,
  { from, lowest }: Descent,
): PathLevel | null {
  const brokenS = initiation(motion, lowest);
  const first = Math.max(from, firstAtOrAfter(motion.timeS, brokenS - UNTIED.pathS));
  const end = firstAtOrAfter(motion.timeS, brokenS);
  if (end - first < 4) return null;
  const spanS = motion.timeS[end - 1] - motion.timeS[first];
  const droppedM = view.smoothAboveM[first] - view.smoothAboveM[end - 1];
  if (spanS < UNTIED.pathLeastS || !(droppedM > UNTIED.pathDropM)) return null;
  const toAimM = view.smoothAlongM.slice(first, end).map((along) => along - UNTIED.aimAlongM);
  const fit = fitLinear(
    [new Float64Array(end - first).fill(1), toAimM],
    view.smoothAboveM.slice(first, end),
  );
  if (isUndetermined(fit)) return null;
  const [levelM, gradient] = fit.coefficients;
  const speedMps = (toAimM[toAimM.length - 1] - toAimM[0]) / spanS;
  const aheadS = Math.max(0, -toAimM[toAimM.length - 1]) / speedMps;
  return {
    levelM,
    sdM: Math.hypot(gradient * UNTIED.aimSdM, UNTIED.pathWanderMps * (aheadS + spanS / 2)),
  };
}

/** An offset multiplied by what the path says of it: aimed at the usual place, or at none. */
function timesPath(offset: Mixture, { levelM, sdM }: PathLevel): Mixture {
  const weight: number[] = [];
  const mean: number[] = [];
  const sd: number[] = [];
  for (const [share, aimSd] of [
    [1 - UNTIED.aimMissShare, sdM],
    [UNTIED.aimMissShare, Math.hypot(sdM, UNTIED.aimMissSdM)],
  ]) {
    offset.weight.forEach((w, i) => {
      const own = offset.sd[i] ** 2;
      const both = own + aimSd ** 2;
      const gap = levelM - offset.mean[i];
      weight.push((w * share * Math.exp((-gap * gap) / (2 * both))) / Math.sqrt(both));
      mean.push(offset.mean[i] + (own / both) * gap);
      sd.push(Math.sqrt((own * aimSd ** 2) / both));
    });
  }
  return {
    weight: Float64Array.from(weight),
    mean: Float64Array.from(mean),
    sd: Float64Array.from(sd),
  };
}

/**
 * An offset multiplied by how high passes are at their lowest: most are broken off low and thin out
 * upward, some are overflights at any height.
 */
function lowerLikelier(offset: Mixture, lowestM: number): Mixture {
  const above = { ...offset, mean: offset.mean.map((mean) => lowestM - mean) };
  const share = (1 - UNTIED.overflightShare) / UNTIED.lowScalesM.length;
  const high = weighted(offset, UNTIED.overflightShare / UNTIED.overflightSpanM);
  return UNTIED.lowScalesM.reduce((sum, scaleM) => {
    const low = weighted(tiltMixture(above, scaleM), share / scaleM);
    return joined(sum, { ...low, mean: low.mean.map((mean) => lowestM - mean) });
  }, high);
}

function weighted(mixture: Mixture, factor: number): Mixture {
  return { ...mixture, weight: mixture.weight.map((weight) => weight * factor) };
}

function joined(a: Mixture, b: Mixture): Mixture {
  return {
    weight: Float64Array.of(...a.weight, ...b.weight),
    mean: Float64Array.of(...a.mean, ...b.mean),
    sd: Float64Array.of(...a.sd, ...b.sd),
  };
}
