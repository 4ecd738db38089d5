/**
 * A touch that the pilot tells of and the log does not show: where may it have been?
 *
 * In: an arriving pass that went on, its low part. Out: the approach as a touch-and-go. No roll shows in
 * the speed, so nothing but the heights says when the wheels touched: while the aircraft was about as
 * low as it got. How long they stayed down nobody knows: roll and lift-off are undetermined. Where the
 * log speaks against the touch, it says nothing of its place either, and ties no heights.
 */
import { normaliseLogWeights } from '../numeric/posterior.ts';
import { isUndetermined, undetermined, type Undetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import type { MeasuredApproach } from './measured-approach.ts';
import { firstAtOrAfter, stepAt, valueAt } from './arrival-data.ts';
import { tooFarApart } from './coarse-log.ts';
import { tieBetween } from './contact-tie.ts';
import type { LowPart } from './contact.ts';
import type { Approach, TakeOff, TouchdownPosterior } from './flight-event.ts';
import { latenessOf } from './height-lags.ts';
import { describeTouchdown } from './landing.ts';
import type { Tie } from './ground-tie.ts';
import type { Pass } from './passes.ts';
import { lowestOverStrip } from './said-contact.ts';
import { endsInRoll } from './slow-part.ts';
import type { StripView } from './strip-view.ts';
import { TAKE_OFF } from './take-off-tuning.ts';
import { ALONG, CONTACT, ROLL, SAID, TOUCHDOWN } from './tuning.ts';

/** True where the wheels touched by the pilot's word alone. */
export function isToldOnly({ saidContact }: Approach): boolean {
  if (!saidContact?.touched || saidContact.refused !== null) return false;
  return !(saidContact.measuredProbability >= CONTACT.touchAbove);
}

/** The pass as measured; `base` has the pilot's word. */
export function toldTouch(
  motion: Motion,
  view: StripView,
  pass: Pass,
  lowPart: LowPart,
  base: Approach,
): MeasuredApproach {
  const ends = endsInRoll(motion, view, pass, lowPart.slowestIndex);
  const outcome = ends ? undetermined(LOG_ENDS) : 'touch-and-go';
  const rollEnd = undetermined(NO_ROLL);
  // A word is refused where the pass did not come over the strip.
  const lowestIndex = lowestOverStrip(motion, view, pass, lowPart) ?? lowPart.lowestIndex;
  const isAgainst = typeof base.saidContact?.againstIt === 'string';
  const posterior = isAgainst ? undetermined(AGAINST) : whereLow(motion, view, pass, lowestIndex);
  const common = {
    ...base,
    outcome,
    contactProbability: 1,
    rollEnd,
    groundRollM: rollEnd,
    fullStopRollM: rollEnd,
    hardestBrakingRollM: rollEnd,
    stripLeftM: rollEnd,
  } as const;
  const lowestS = motion.timeS[lowestIndex];
  const approach: Approach = isUndetermined(posterior)
    ? { ...common, touchdown: posterior }
    : {
        ...common,
        touchdown: {
          ...describeTouchdown(motion, view, posterior, lowestS),
          bounces: rollEnd,
          // Of a moment known to some seconds only: it is none of the places whose scatter is drawn.
          crossM: rollEnd,
          // The log that does not show the touch cannot show it short of the threshold.
          shortProbability: 0,
        },
        posterior,
      };
  return {
    motion,
    view,
    pass,
    lowPart: { ...lowPart, lowestIndex },
    approach,
    tie: isUndetermined(posterior) ? null : tieAt(motion, view, lowestS),
    powerIndex: ends ? null : lowestIndex,
  };
}

const NO_ROLL = 'the log does not show the touch that was told of by hand';
const AGAINST = 'the log speaks against the touch that was told of by hand';
const LOWER_OFF =
  'the log has the aircraft lower off the strip, where no wheels touch, than over it';
/** With less of the chance than this where wheels touch, the edge of that would place the touch, not the log. */
const LEAST_ON_STRIP = 0.5;
const LOG_ENDS = 'the log ends after the touch: a full stop or a touch-and-go';

/** Every moment weighed by how near to the lowest height of the pass its height is. */
function whereLow(
  motion: Motion,
  view: StripView,
  pass: Pass,
  lowestIndex: number,
): TouchdownPosterior | Undetermined {
  const { timeS } = motion;
  const none = tooFarApart(motion, timeS[lowestIndex], 'where the wheels touched');
  if (none) return none;
  if (!motion.hasHeight) {
    return undetermined('without heights the log does not show where the wheels touched');
  }
  const late = latenessOf(motion);
  const lowestM = view.smoothAboveM[lowestIndex];
  const firstS = timeS[pass.from];
  const count = Math.floor((timeS[pass.to - 1] - firstS) / TOUCHDOWN.stepS) + 1;
  const recordedS = Float64Array.from({ length: count }, (_, k) => firstS + k * TOUCHDOWN.stepS);
  // A delay that is not known, and the step between fixes, blur the height by the climb in them.
  const weight = recordedS.map((t) => {
    const climbMps = Math.abs(valueAt(timeS, motion.verticalSpeedMps, t));
    const blurS = Math.hypot(late.sdS, stepAt(timeS, t) * SAID.stepShare);
    const sd = Math.hypot(SAID.lowSdM, motion.noise.verticalSdM / 2, climbMps * blurS);
    // Beside the strip it may be lower than anywhere over it.
    const gap = Math.max(valueAt(timeS, view.smoothAboveM, t) - lowestM, 0) / sd;
    return -(gap * gap) / 2;
  });
  normaliseLogWeights(weight);
  const onStrip = weight.map((of, k) =>
    isBeside(view, valueAt(timeS, view.smoothAlongM, recordedS[k])) ? 0 : of,
  );
  const share = onStrip.reduce((sum, of) => sum + of, 0);
  if (share < LEAST_ON_STRIP) return undetermined(LOWER_OFF);
  const momentS = recordedS.map((t) => Math.max(t - late.meanS, timeS[0]));
  const alongM = momentS.map((t) => valueAt(timeS, view.smoothAlongM, t));
  return {
    timeS: momentS,
    weight: onStrip.map((of) => of / share),
    alongM,
    alongSdM: alongM.map(() => ALONG.driftSdM),
    speedMps: momentS.map((t) => valueAt(timeS, view.forwardMps, t)),
    speedSdMps: momentS.map((t) =>
      Math.hypot(valueAt(timeS, motion.speedSdMps, t), ROLL.speedDoubtMps),
    ),
    arrival: null,
  };
}

/**
 * The take-off that such a touch went on to: between the touch and the height at which the aircraft was
 * surely in the air; nothing shows where.
 */
export function toldLiftOff(
  motion: Motion,
  { view, approach, lowPart, pass }: MeasuredApproach,
  takeOff: TakeOff,
): TakeOff {
  const none = undetermined(NO_ROLL);
  const { touchdown } = approach;
  const lowestS = motion.timeS[lowPart.lowestIndex];
  const low =
    isUndetermined(touchdown) || isUndetermined(touchdown.timeS)
      ? motion.timeS[pass.from]
      : touchdown.timeS.low;
  const airborneM = view.smoothAboveM[lowPart.lowestIndex] + TAKE_OFF.screenM;
  let i = lowPart.lowestIndex;
  while (i < pass.to - 1 && !(view.smoothAboveM[i] > airborneM)) i++;
  const high = motion.timeS[i];
  const timeS = { value: Math.max(low, Math.min(lowestS, high)), low, high };
  return {
    ...takeOff,
    liftOff: { timeS, alongM: none, groundSpeedMps: none },
    screen: none,
    stripLeftM: none,
  };
}

/** True further from a known strip than wheels touch. */
function isBeside({ stripId, beginsAlongM, endsAlongM }: StripView, alongM: number): boolean {
  if (stripId === null) return false;
  return alongM < beginsAlongM - CONTACT.offStripM || alongM > endsAlongM + CONTACT.offStripM;
}

/** The heights around the lowest moment, at which the wheels were down for a moment at least. */
function tieAt(motion: Motion, view: StripView, lowestS: number): Tie | null {
  const i = firstAtOrAfter(motion.timeS, lowestS);
  const aboutS = Math.max(1, stepAt(motion.timeS, motion.timeS[i]));
  return tieBetween(motion, view, lowestS - aboutS, lowestS + aboutS);
}
