/**
 * What speaks for wheels on the ground in a pass, and how likely does it make a contact?
 *
 * In: motion, strip view, a pass, its lowest and slowest fix, the height offset. Out: the signs, each
 * a plain number, and from them a probability: that of a roll of some seconds, and where there was
 * none that of a skim, of which only the height can speak.
 *
 * The numbers that weigh the signs (tuning.ts) were fitted to simulated passes by maximum likelihood
 * (tests/synthetic/pass-population.ts) and held back where a go-around from a metre and a half would
 * no longer be one (docs/decisions/0059); how well they hold is in docs/accuracy.md.
 */
import { mixtureCdf, type Mixture } from '../numeric/posterior.ts';
import { fitLinear } from '../numeric/regression.ts';
import { isUndetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter, valueAt } from './arrival-data.ts';
import { hasElevation, type TiedOffset } from './ground-tie.ts';
import { percentile, type Pass } from './passes.ts';
import type { StripView } from './strip-view.ts';
import { CONTACT } from './tuning.ts';

/** What speaks for a contact. */
export interface ContactSigns {
  /**
   * How clearly the speed shows a roll: it loses speed from final to the slowest fix, it slows and
   * power speeds it up again. The lesser of the two, each over what the speed on final wandered by,
   * because a gust loses speed too and a climb loses it for good. About 1 for a roll, 0 for none.
   */
  readonly rollInSpeed: number;
  /** Seconds near the lowest height; NaN without heights. */
  readonly lowTimeS: number;
  /** Log of how much likelier the lowest height is on the ground than anywhere in the metres above it; 0 where nothing is known of it. */
  readonly groundLogRatio: number;
}

/** Probability of a contact, 0 to 1. */
export function contactProbability({
  rollInSpeed,
  lowTimeS,
  groundLogRatio,
}: ContactSigns): number {
  const hasHeight = !Number.isNaN(lowTimeS);
  const { roll, skim } = hasHeight ? CONTACT.withHeight : CONTACT.withoutHeight;
  const lowS = hasHeight ? Math.min(lowTimeS, CONTACT.lowTimeMostS) : 0;
  const rolled = logistic(
    roll.even + roll.inSpeed * rollInSpeed + roll.lowTime * lowS + roll.ground * groundLogRatio,
  );
  const skimmed = logistic(skim.even + skim.ground * groundLogRatio);
  return rolled + (1 - rolled) * skimmed;
}

function logistic(logOdds: number): number {
  return 1 / (1 + Math.exp(-logOdds));
}

/**
 * How clearly the speed shows a roll: `rollInSpeed` of `ContactSigns`.
 *
 * @param anchor the fix from which the seconds of final are counted back: an approach that was
 *   slowing down all the way must not look like a touch.
 * @param isLow true for fixes near the lowest one: speed gained in the climb is no power on the ground.
 */
export function speedSign(
  motion: Motion,
  view: StripView,
  pass: Pass,
  { anchor, slowest }: { readonly anchor: number; readonly slowest: number },
  isLow: (i: number) => boolean,
): number {
  const final = speedOnFinal(motion, view, pass, anchor);
  const ratio = view.forwardMps[slowest] / final.speedMps;
  const lossLeast =
    CONTACT.lossWanders * Math.hypot(CONTACT.wanderLeast, final.wanderMps / final.speedMps);
  const notchLeast = Math.hypot(CONTACT.notchMps2, final.wanderMps / CONTACT.notchWanderS);
  const loss = (1 - ratio) / lossLeast;
  const notch = speedNotchMps2(motion, view, slowest, isLow) / notchLeast;
  const slowS = Math.min(CONTACT.flattenedMostS, Math.max(0, motion.medianIntervalS - 1));
  const flattened = 1 + CONTACT.flattenedPerS * slowS;
  return Math.max(-1, flattened * Math.min(loss, notch));
}

/** Speed on final, and how much it wandered there about a straight line, m/s. */
interface FinalSpeed {
  readonly speedMps: number;
  readonly wanderMps: number;
}

function speedOnFinal(motion: Motion, view: StripView, pass: Pass, anchor: number): FinalSpeed {
  let from = anchor;
  let to = anchor + 1;
  while (from > pass.from && motion.timeS[anchor] - motion.timeS[from - 1] <= CONTACT.finalFromS) {
    from--;
  }
  while (to > from && motion.timeS[anchor] - motion.timeS[to - 1] < CONTACT.finalToS) to--;
  // Into a strong wind an aircraft gains ground speed in the last seconds, where the wind is weaker.
  const lateMps = lateSpeed(motion, view, pass, anchor);
  const reference = Math.max(lateMps, pass.referenceMps);
  const unknown = { speedMps: reference, wanderMps: CONTACT.wanderUnknown * reference };
  if (to - from < LEAST_FINAL_FIXES) return unknown;
  const speeds = view.forwardMps.slice(from, to);
  const timeS = motion.timeS.slice(from, to).map((t) => t - motion.timeS[anchor]);
  const line = fitLinear([new Float64Array(to - from).fill(1), timeS], speeds);
  if (isUndetermined(line)) return unknown;
  const square = line.residuals.reduce((sum, each) => sum + each * each, 0);
  return {
    speedMps: motion.hasHeight ? Math.max(lateMps, percentile(speeds, 0.5)) : reference,
    wanderMps: Math.sqrt(square / (to - from)),
  };
}

const LEAST_FINAL_FIXES = 3;

/** Median speed of the last seconds before the anchor. */
function lateSpeed(motion: Motion, view: StripView, pass: Pass, anchor: number): number {
  let from = anchor;
  while (from > pass.from && motion.timeS[anchor] - motion.timeS[from - 1] <= CONTACT.lateS) from--;
  return percentile(view.forwardMps.slice(from, anchor + 1), 0.5);
}

/**
 * The lesser of the steepest slowing before the slowest part and half the steepest speeding up after
 * it, m/s2: an idle aeroplane slows by about half of what full power gives it. Where the log ends
 * before it can speed up, the slowing alone.
 */
function speedNotchMps2(
  motion: Motion,
  view: StripView,
  slowest: number,
  isLow: (i: number) => boolean,
): number {
  const { timeS } = motion;
  // A roll at an even speed is slow for long: its slowing lies before all of it, its power behind.
  const isSlowest = (i: number): boolean =>
    isLow(i) &&
    view.forwardMps[i] < CONTACT.evenShare * view.forwardMps[slowest] &&
    !(Math.abs(view.smoothAboveM[i] - view.smoothAboveM[slowest]) > CONTACT.nearM);
  let first = slowest;
  let last = slowest;
  while (first > 0 && isSlowest(first - 1)) first--;
  while (last < timeS.length - 1 && isSlowest(last + 1)) last++;
  const slowestS = timeS[first];
  const powerS = timeS[last];
  const { notchS, notchBeforeS, notchAfterS, notchStepS, notchMostMps2 } = CONTACT;
  const gain = (fromS: number): number =>
    (valueAt(timeS, view.forwardMps, fromS + notchS) - valueAt(timeS, view.forwardMps, fromS)) /
    notchS;
  let slowing = -Infinity;
  for (let s = 0; s <= notchBeforeS; s += notchStepS) {
    slowing = Math.max(slowing, -gain(slowestS - notchS - s));
  }
  slowing = Math.min(slowing, notchMostMps2);
  if (timeS[timeS.length - 1] < powerS + notchS) return slowing;
  let speeding = gain(powerS);
  for (let s: number = notchStepS; s <= notchAfterS; s += notchStepS) {
    const at = firstAtOrAfter(timeS, powerS + s);
    if (!isLow(at)) break;
    // Power long after the slowest fix is that of a roll only as long as it still is one.
    const isLate = powerS + s > timeS[slowest] + notchAfterS;
    if (isLate && view.smoothAboveM[at] > view.smoothAboveM[slowest] + CONTACT.lowAfterM) break;
    speeding = Math.max(speeding, gain(powerS + s));
  }
  return Math.max(-notchMostMps2, Math.min(slowing, speeding / 2));
}

/**
 * Log of how much likelier the lowest height is on the ground than anywhere in the first metres above it.
 *
 * @param offset null where the height should not be used.
 */
export function groundLogRatio(
  motion: Motion,
  view: StripView,
  lowestIndex: number,
  offset: TiedOffset | null,
): number {
  if (!motion.hasHeight || offset === null) return 0;
  const elevationKnown = hasElevation(view.strip);
  if (!offset.tied && (view.stripId === null || !elevationKnown)) return 0;
  const above = heightAbove(view.smoothAboveM[lowestIndex], offset, motion.noise.verticalSdM / 2);
  const inAir = (mixtureCdf(above, CONTACT.passSpanM) - mixtureCdf(above, 0)) / CONTACT.passSpanM;
  const ratio = Math.log(densityAtGround(above) + LEAST_DENSITY) - Math.log(inAir + LEAST_DENSITY);
  return Math.max(-CONTACT.groundMost, Math.min(CONTACT.groundMost, ratio));
}

/** Height of the wheels as a mixture; a tie is no proof, because some receivers stray within a flight. */
function heightAbove(recordedM: number, { offset, tied }: TiedOffset, noiseSdM: number): Mixture {
  const above = {
    weight: offset.weight,
    mean: offset.mean.map((mean) => recordedM - mean),
    sd: offset.sd.map((sd) => Math.hypot(sd, noiseSdM)),
  };
  if (!tied) return above;
  const { strayShare, straySdM } = CONTACT;
  return {
    weight: Float64Array.of(1 - strayShare, strayShare),
    mean: Float64Array.of(above.mean[0], above.mean[0]),
    sd: Float64Array.of(above.sd[0], straySdM),
  };
}

function densityAtGround({ weight, mean, sd }: Mixture): number {
  let total = 0;
  let sum = 0;
  for (let i = 0; i < weight.length; i++) {
    total += weight[i];
    sum += (weight[i] * Math.exp(-((mean[i] / sd[i]) ** 2) / 2)) / (sd[i] * Math.sqrt(2 * Math.PI));
  }
  return sum / total;
}

/** So that a height far from everything has a logarithm. */
const LEAST_DENSITY = 1e-9;
