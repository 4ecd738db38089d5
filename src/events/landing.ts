/**
 * The measured landing: touchdown, roll and what is left, from the posterior and the roll's end.
 *
 * In: motion, strip view, pass, the touchdown posterior and the end of the roll. Out: quantities
 * with 90 % bands. Receiver drift and the strip's own error go into places, never into rolls.
 *
 * Source: definitions in docs/spec/measuring.md; hardest braking as an equivalent constant
 * deceleration, the approach recommended in DOT/FAA/AR-09/46.
 */
import {
  mixtureCdf,
  mixtureEstimate,
  mixtureQuantile,
  type Mixture,
} from '../numeric/posterior.ts';
import {
  cutBelow,
  isUndetermined,
  normalEstimate,
  undetermined,
  type Estimate,
  type Measured,
} from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Motion } from '../track/motion.ts';
import { firstAtOrAfter, valueAt } from './arrival-data.ts';
import { measureBounces } from './bounce.ts';
import type { RollEnd, Touchdown, TouchdownPosterior } from './flight-event.ts';
import { slope, type FoundRollEnd } from './roll-end.ts';
import { knowsEnds, type StripView } from './strip-view.ts';
import { ALONG, ROLL, TOUCHDOWN } from './tuning.ts';

const NO_STRIP = 'no strip is known here';

/** Touchdown quantities from the posterior; `rollEndS` is when the roll, or the log, ended. */
export function describeTouchdown(
  motion: Motion,
  view: StripView,
  posterior: TouchdownPosterior,
  rollEndS: number,
): Touchdown {
  const known = view.stripId !== null;
  const timeS = mixtureEstimate(timeMixture(posterior));
  const place: Mixture = {
    weight: posterior.weight,
    mean: posterior.alongM,
    sd: posterior.alongSdM.map((sd) => Math.hypot(sd, placeSdM(view.strip))),
  };
  return {
    timeS,
    alongM: known ? mixtureEstimate(place) : undetermined(NO_STRIP),
    crossM: known ? crossAt(motion, view, timeS.value) : undetermined(NO_STRIP),
    groundSpeedMps: mixtureEstimate(speedMixture(posterior)),
    shortProbability: knowsEnds(view) ? mixtureCdf(place, 0) : 0,
    bounces: measureBounces(motion, view, timeS, rollEndS),
  };
}

/** Right of the centreline at a time, metres, with the errors of receiver and strip. */
export function crossAt(motion: Motion, view: StripView, timeS: number): Estimate {
  const cross = valueAt(motion.timeS, view.smoothCrossM, timeS);
  return normalEstimate(cross, Math.hypot(ALONG.driftSdM, placeSdM(view.strip)));
}

/** Speed along the strip at a time, m/s, as smoothed. */
export function forwardSpeedAt(motion: Motion, view: StripView, timeS: number): Estimate {
  const speedMps = valueAt(motion.timeS, view.forwardMps, timeS);
  const doubt = valueAt(motion.timeS, motion.speedSdMps, timeS);
  return normalEstimate(speedMps, Math.hypot(doubt, ROLL.speedDoubtMps));
}

/** The end of the roll with its bands. */
export function describeRollEnd(view: StripView, end: FoundRollEnd): RollEnd {
  const placeSd = Math.hypot(end.alongSdM, ALONG.driftSdM, placeSdM(view.strip));
  return {
    kind: end.kind,
    timeS: normalEstimate(end.timeS, end.timeSdS),
    alongM: view.stripId === null ? undetermined(NO_STRIP) : normalEstimate(end.alongM, placeSd),
    groundSpeedMps: cutBelow(normalEstimate(end.speedMps, end.speedSdMps), 0),
  };
}

/** Touchdown to a place further along, drift cancelled; never negative. */
export function rollTo(posterior: TouchdownPosterior, alongM: number, sdM: number): Estimate {
  return cutBelow(mixtureEstimate(rollMixture(posterior, alongM, sdM)), 0);
}

function rollMixture(posterior: TouchdownPosterior, alongM: number, sdM: number): Mixture {
  return {
    weight: posterior.weight,
    mean: posterior.alongM.map((x) => alongM - x),
    sd: posterior.alongSdM.map((sd) =>
      Math.hypot(Math.sqrt(Math.max(sd * sd - ALONG.driftSdM ** 2, LEAST_VAR)), sdM),
    ),
  };
}

const LEAST_VAR = 0.09;

/**
 * The roll to a standstill that the braking so far implies, where the roll ended otherwise.
 *
 * From the speed at the last fix of the roll and the mean deceleration of the four seconds before it,
 * or of eight where the roll slowed evenly in them.
 */
export function fullStopRoll(
  motion: Motion,
  view: StripView,
  posterior: TouchdownPosterior,
  lastIndex: number,
): Measured {
  const speed = view.forwardMps[lastIndex];
  const touchdownS = mixtureQuantile(timeMixture(posterior), 0.5);
  const rolledS = motion.timeS[lastIndex] - touchdownS;
  if (speed < ROLL.stoppedMps * 2) {
    return rollTo(posterior, view.smoothAlongM[lastIndex], ROLL.creepSdM * 2);
  }
  const lately = slowingOver(motion, view, lastIndex, Math.min(EXTRAPOLATE_FROM_S, rolledS));
  const longer = slowingOver(motion, view, lastIndex, Math.min(2 * EXTRAPOLATE_FROM_S, rolledS));
  // A roll that slowed evenly for longer, within about one error, says more than its last seconds;
  // slow logs have nothing else.
  const even =
    longer !== null &&
    (lately === null ||
      Math.abs(longer.mps2 - lately.mps2) < Math.hypot(longer.sdMps2, lately.sdMps2));
  const chosen = even ? longer : lately;
  if (chosen === null) return undetermined('the roll in the log is too short to extrapolate');
  const { mps2: deceleration, sdMps2 } = chosen;
  const sd = Math.hypot(sdMps2, EXTRAPOLATION_SHARE * Math.max(deceleration, 0));
  if (deceleration < Math.max(0.15, 1.7 * sd)) {
    return undetermined('the roll had hardly slowed where the log or the roll ended');
  }
  const remaining = (speed * speed) / (2 * Math.max(deceleration, LEAST_SLOWING_MPS2));
  // The remaining length is skewed: bands from the deceleration's own bands.
  const least = Math.max(deceleration - 1.645 * sd, LEAST_SLOWING_MPS2);
  const far = (speed * speed) / (2 * least);
  const near = (speed * speed) / (2 * Math.max(deceleration + 1.645 * sd, LEAST_SLOWING_MPS2));
  const spreadSd = (far - near) / (2 * 1.645);
  const rolled = rollTo(posterior, view.smoothAlongM[lastIndex], 0.5);
  const roll = rollTo(posterior, view.smoothAlongM[lastIndex] + remaining, 0.5);
  const behind = Math.hypot(roll.value - roll.low, 1.645 * spreadSd);
  const ahead = Math.hypot(roll.high - roll.value, far - remaining, 0.5 * spreadSd);
  const whole = { value: roll.value, low: roll.value - behind, high: roll.value + ahead };
  // What was surely rolled in the log is rolled, however little the braking tells of the rest.
  return cutBelow(whole, rolled.low);
}

/** Mean deceleration over the last seconds up to a fix, m/s2, with its error; null where fewer than three fixes are in them. */
function slowingOver(
  motion: Motion,
  view: StripView,
  lastIndex: number,
  spanS: number,
): { readonly mps2: number; readonly sdMps2: number } | null {
  const from = firstAtOrAfter(motion.timeS, motion.timeS[lastIndex] - spanS);
  const n = lastIndex - from + 1;
  if (n < 3) return null;
  return {
    mps2: -slope(motion.timeS, view.forwardMps, from, lastIndex + 1),
    sdMps2: motion.speedSdMps[lastIndex] / (spanS * Math.sqrt(n / 12)),
  };
}

const EXTRAPOLATE_FROM_S = 4;
/** What an aeroplane rolling on grass without power slows down by at least: rolling friction of 0.03 g, a little less downhill; common practice, no source. */
const LEAST_SLOWING_MPS2 = 0.25;
/** Braking eases or tightens before the standstill: share of the deceleration, one sd. */
const EXTRAPOLATION_SHARE = 0.2;

/** v2/2a from touchdown with the largest deceleration kept up for 2 s: a lower limit. */
export function hardestBrakingRoll(
  motion: Motion,
  view: StripView,
  posterior: TouchdownPosterior,
  lastIndex: number,
): Measured {
  const touchdownS = mixtureQuantile(timeMixture(posterior), 0.5);
  const from = firstAtOrAfter(motion.timeS, touchdownS);
  let hardest = 0;
  let doubt = 0;
  for (let i = from; i < lastIndex; i++) {
    const to = firstAtOrAfter(motion.timeS, motion.timeS[i] + SUSTAINED_S);
    if (to > lastIndex) break;
    const span = motion.timeS[to] - motion.timeS[i];
    const deceleration = (view.forwardMps[i] - view.forwardMps[to]) / span;
    if (deceleration > hardest) {
      hardest = deceleration;
      doubt = (1.2 * motion.speedSdMps[i]) / span;
    }
  }
  if (hardest < 0.3) return undetermined('no deceleration was kept up for 2 s in the roll');
  const speed = mixtureEstimate(speedMixture(posterior));
  const value = speed.value ** 2 / (2 * hardest);
  const relative = Math.hypot((speed.high - speed.low) / speed.value, (1.645 * doubt) / hardest);
  return { value, low: value * Math.exp(-relative), high: value * Math.exp(relative) };
}

const SUSTAINED_S = 2;

/** A lower limit of a roll is no longer than the roll itself: value and band are cut there. */
export function noLongerThan(least: Measured, roll: Measured): Measured {
  if (isUndetermined(least) || isUndetermined(roll)) return least;
  return {
    value: Math.min(least.value, roll.value),
    low: Math.min(least.low, roll.low),
    high: Math.min(least.high, roll.high),
  };
}

/** The posterior of the touchdown time as a mixture; each candidate stands for its step. */
export function timeMixture(posterior: TouchdownPosterior): Mixture {
  const sd = new Float64Array(posterior.weight.length).fill(TOUCHDOWN.stepS / Math.sqrt(12));
  return { weight: posterior.weight, mean: posterior.timeS, sd };
}

/** The posterior of the ground speed at touchdown as a mixture. */
export function speedMixture(posterior: TouchdownPosterior): Mixture {
  return { weight: posterior.weight, mean: posterior.speedMps, sd: posterior.speedSdMps };
}
