/**
 * One approach to one direction, measured: outcome, threshold, touchdown, roll, or go-around.
 *
 * In: motion, strip view, an arriving pass and the next departure from the same direction. Out: an
 * Approach without its heights over the threshold: those wait for the flight's ground tie
 * (approach-heights.ts), to which a contact adds its own tie.
 */
import { mixtureQuantile } from '../numeric/posterior.ts';
import { isUndetermined, undetermined, type Measured, type Undetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { COARSE, tooFarApart } from './coarse-log.ts';
import { contactTie } from './contact-tie.ts';
import { examineLowPart, type LowPart } from './contact.ts';
import type { Approach, Outcome, TouchdownPosterior } from './flight-event.ts';
import type { TiedOffset } from './ground-tie.ts';
import {
  describeRollEnd,
  describeTouchdown,
  fullStopRoll,
  hardestBrakingRoll,
  noLongerThan,
  rollTo,
  timeMixture,
} from './landing.ts';
import { emptyApproach, type MeasuredApproach } from './measured-approach.ts';
import type { Pass } from './passes.ts';
import { powerEnd } from './power-end.ts';
import { endWhereFound, findRollEnd, type FoundRollEnd } from './roll-end.ts';
import { saidOfLanding, saidOfPass, type ContactWord } from './said-contact.ts';
import { endsInRoll, sameWayOn, slowPart } from './slow-part.ts';
import { endsUnknown, type StripView } from './strip-view.ts';
import { isToldOnly, toldTouch } from './told-touch.ts';
import { locateTouchdown, type Arriving } from './touchdown.ts';
import { CONTACT, TIE } from './tuning.ts';

/**
 * Measures an arriving pass that ended on the ground; null for one that went on in the air.
 *
 * @param departure the take-off that follows from the same direction, or null.
 * @param word what the pilot says of the contact, or null.
 */
export function measureLanding(
  arriving: Arriving,
  departure: Pass | null,
  word: ContactWord | null,
): MeasuredApproach | null {
  const { motion, view, pass } = arriving;
  const limit = departure?.from ?? motion.length;
  const slow = slowPart(motion, view, pass, limit);
  if (slow === null) return null;
  const continues = departure !== null && sameWayOn(motion, view, pass, departure);
  const lowPart = examineLowPart(motion, view, pass, null);
  const base = { ...emptyApproach(view, pass), saidContact: saidOfLanding(word) };
  return landed(arriving, lowPart, base, slow, limit, continues);
}

/**
 * Measures an arriving pass that went on: touched and took off again, or was broken off.
 *
 * @param offsetAt the tied height offset by contacts elsewhere in the flight.
 * @param word what the pilot says of the contact, or null.
 */
export function measurePass(
  arriving: Arriving,
  offsetAt: (timeS: number) => TiedOffset,
  word: ContactWord | null,
): MeasuredApproach {
  const { motion, view, pass } = arriving;
  const seen = examineLowPart(motion, view, pass, offsetAt);
  const sure = seen.contactProbability;
  const none = tooFarApart(motion, motion.timeS[seen.lowestIndex], 'a touch from a pass');
  // Between the fixes of such a log the wheels may have touched without a sign of it.
  const measured = none && sure < CONTACT.touchAbove ? NaN : sure;
  const saidContact = saidOfPass(word, { motion, view, pass, lowPart: seen, offsetAt }, measured);
  const said = saidContact?.refused === null ? saidContact : null;
  const p = said ? Number(said.touched) : measured;
  const lowPart = { ...seen, contactProbability: said ? p : sure };
  const base = { ...emptyApproach(view, pass), saidContact };
  if (isToldOnly(base)) {
    return toldTouch(motion, view, pass, lowPart, base);
  }
  if (p >= CONTACT.touchAbove) return touched(arriving, lowPart, base);
  const cannotTell =
    none ??
    (p > (hasHoleOverStrip(motion, view, pass) ? CONTACT.holeBelow : CONTACT.passBelow)
      ? undetermined('the data cannot tell a touch from a pass just above the ground')
      : null);
  const outcome = (said ? null : cannotTell) ?? 'go-around';
  return {
    motion,
    view,
    pass,
    lowPart,
    approach: { ...base, outcome, contactProbability: p },
    tie: null,
    powerIndex: null,
  };
}

/** True where fixes over the strip lie too far apart to show a touch between them. */
function hasHoleOverStrip(motion: Motion, view: StripView, pass: Pass): boolean {
  const { beginsAlongM, endsAlongM } = view;
  for (let i = pass.from + 1; i < pass.to; i++) {
    const isOver = view.smoothAlongM[i] > beginsAlongM && view.smoothAlongM[i - 1] < endsAlongM;
    if (isOver && motion.timeS[i] - motion.timeS[i - 1] > COARSE.intervalS) return true;
  }
  return false;
}

function landed(
  arriving: Arriving,
  lowPart: LowPart,
  base: Approach,
  slow: number,
  limit: number,
  continues: boolean,
): MeasuredApproach {
  const { motion, view, pass } = arriving;
  const end = endOfRoll(motion, view, slow, limit, continues);
  const lastIndex = end?.index ?? limit - 1;
  const posterior = pass.begunLate
    ? undetermined('the log begins over the strip: the wheels may have touched before')
    : locateTouchdown(arriving, {
        slowIndex: slow,
        endS: motion.timeS[lastIndex],
        powered: false,
      });
  const outcome: Outcome = !continues
    ? 'full-stop'
    : end?.kind === 'stopped'
      ? 'stop-and-go'
      : 'touch-and-go';
  const notes = outcome === 'touch-and-go' ? mayHaveStood(motion, slow) : [];
  const all = { ...base, outcome, notes: [...base.notes, ...notes] };
  const unclear = end?.kind === 'stopped' ? null : unclearEnd(motion, slow);
  const told = unclear ?? (end && notBeforeTouch(motion, view, posterior, end));
  const approach = withContact(motion, view, all, posterior, told, lastIndex, 1);
  return {
    motion,
    view,
    pass,
    lowPart,
    approach,
    tie: contactTie(motion, view, posterior, motion.timeS[lastIndex] + TIE.afterStopS),
    powerIndex: null,
  };
}

/** A roll's end where it showed, if where its turn began would lie before the touch: a drift that the touch ended. */
function notBeforeTouch(
  motion: Motion,
  view: StripView,
  posterior: TouchdownPosterior | Undetermined,
  end: FoundRollEnd,
): FoundRollEnd {
  if (isUndetermined(posterior)) return end;
  const touchedS = mixtureQuantile(timeMixture(posterior), 0.5);
  return end.timeS < touchedS ? endWhereFound(motion, view, end) : end;
}

/** Why the end of a roll that was no standstill cannot be told; null where the fixes are close enough. */
function unclearEnd(motion: Motion, slow: number): Undetermined | null {
  return tooFarApart(motion, motion.timeS[slow], 'how the roll ended');
}

/** A short stand does not show between fixes far apart. */
function mayHaveStood(motion: Motion, slow: number): string[] {
  const told = tooFarApart(motion, motion.timeS[slow], 'a touch-and-go from a stop-and-go');
  return told ? [told.undetermined] : [];
}

/** The roll's end; where the aircraft took off again the same way without standing still, the slowest fix. */
function endOfRoll(
  motion: Motion,
  view: StripView,
  slow: number,
  limit: number,
  continues: boolean,
): FoundRollEnd | null {
  const found = findRollEnd(motion, view, slow, limit);
  if (!continues || found?.kind === 'stopped') return found;
  let slowest = slow;
  for (let i = slow; i < limit; i++) if (view.forwardMps[i] < view.forwardMps[slowest]) slowest = i;
  return powerEnd(motion, view, slowest);
}

function touched(arriving: Arriving, lowPart: LowPart, base: Approach): MeasuredApproach {
  const { motion, view, pass } = arriving;
  if (endsInRoll(motion, view, pass, lowPart.slowestIndex)) {
    return touchedLast(arriving, lowPart, base);
  }
  const power = lowPart.slowestIndex;
  const posterior = locateTouchdown(arriving, {
    slowIndex: power,
    endS: motion.timeS[power],
    powered: true,
  });
  const end = unclearEnd(motion, power) ?? powerEnd(motion, view, power);
  const outcome: Outcome = 'touch-and-go';
  const p = lowPart.contactProbability;
  const notes = [...base.notes, ...mayHaveStood(motion, power)];
  return {
    motion,
    view,
    pass,
    lowPart,
    approach: withContact(motion, view, { ...base, outcome, notes }, posterior, end, power, p),
    tie: contactTie(motion, view, posterior, motion.timeS[power] + 1),
    powerIndex: power,
  };
}

/** A touch after which the log ends: nobody knows whether it went on. */
function touchedLast(arriving: Arriving, lowPart: LowPart, base: Approach): MeasuredApproach {
  const { motion, view, pass } = arriving;
  const last = motion.length - 1;
  const posterior = locateTouchdown(arriving, {
    slowIndex: last,
    endS: motion.timeS[last],
    powered: false,
  });
  const outcome = undetermined('the log ends in the roll: a full stop or a touch-and-go');
  const p = lowPart.contactProbability;
  return {
    motion,
    view,
    pass,
    lowPart,
    approach: withContact(motion, view, { ...base, outcome }, posterior, null, last, p),
    tie: contactTie(motion, view, posterior, motion.timeS[last]),
    powerIndex: null,
  };
}

function withContact(
  motion: Motion,
  view: StripView,
  base: Approach,
  posterior: ReturnType<typeof locateTouchdown>,
  foundEnd: FoundRollEnd | Undetermined | null,
  lastIndex: number,
  contactProbability: number,
): Approach {
  const end = foundEnd ?? undetermined('the log ends before the roll does');
  const rollEnd = isUndetermined(end) ? end : describeRollEnd(view, end);
  const stripLeftM = stripLeft(view, end);
  if (isUndetermined(posterior)) {
    return {
      ...base,
      contactProbability,
      touchdown: posterior,
      rollEnd,
      groundRollM: posterior,
      fullStopRollM: posterior,
      hardestBrakingRollM: posterior,
      stripLeftM,
    };
  }
  const measured = isUndetermined(end) ? end : rollTo(posterior, end.alongM, end.alongSdM);
  const fullStopRollM =
    !isUndetermined(end) && end.kind === 'stopped'
      ? measured
      : fullStopRoll(motion, view, posterior, lastIndex);
  return {
    ...base,
    contactProbability,
    touchdown: describeTouchdown(motion, view, posterior, motion.timeS[lastIndex]),
    rollEnd,
    groundRollM: measured,
    fullStopRollM,
    hardestBrakingRollM: noLongerThan(
      hardestBrakingRoll(motion, view, posterior, lastIndex),
      fullStopRollM,
    ),
    stripLeftM,
    posterior,
  };
}

/** LDA less the place where the roll ended; negative where the strip was overrun. */
function stripLeft(view: StripView, end: FoundRollEnd | Undetermined): Measured {
  const none = endsUnknown(view);
  if (none) return none;
  if (isUndetermined(end)) return end;
  const roll = describeRollEnd(view, end).alongM;
  if (isUndetermined(roll)) return roll;
  const lda = view.direction.ldaM;
  return { value: lda - roll.value, low: lda - roll.high, high: lda - roll.low };
}
