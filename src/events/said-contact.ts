/**
 * What does the pilot say of a pass: did the wheels touch? And may it count?
 *
 * In: words about moments, passes, what the log shows of their lowest part. Out: which pass each word
 * is about, and for a pass its word with what was measured. A word goes before the signs of a touch,
 * which are weighed; it does not go before what the log excludes.
 */
import { isUndetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import type { LowPart } from './contact.ts';
import type { SaidContact } from './flight-event.ts';
import type { TiedOffset } from './ground-tie.ts';
import type { Pass } from './passes.ts';
import { offsetByPath } from './path-tie.ts';
import { slowPart } from './slow-part.ts';
import type { StripView } from './strip-view.ts';
import { TiedHeights } from './tied-heights.ts';
import { CONTACT, PASS, SAID } from './tuning.ts';

/** A word about the approach flown at a moment, UTC seconds. */
export interface ContactWord {
  readonly aroundS: number;
  readonly touched: boolean;
}

/**
 * For each pass, in order, the word that is about it; null: none. A word is about one arriving pass:
 * the one flown at its moment, or the nearest within `SAID.withinS`. Of two about one pass the last counts.
 */
export function wordsOfPasses(
  passes: readonly Pass[],
  motion: Motion,
  words: readonly ContactWord[],
): (ContactWord | null)[] {
  const found: (ContactWord | null)[] = passes.map(() => null);
  for (const word of words) {
    const away = passes.map(({ kind, from, to }) =>
      kind === 'arrival'
        ? Math.max(motion.timeS[from] - word.aroundS, word.aroundS - motion.timeS[to - 1], 0)
        : Infinity,
    );
    const nearest = Math.min(...away);
    if (nearest <= SAID.withinS) found[away.indexOf(nearest)] = word;
  }
  return found;
}

/** A word about a pass that slowed down to a taxi: of that nobody can say that it did not touch. */
export function saidOfLanding(word: ContactWord | null): SaidContact | null {
  if (!word) return null;
  const refused = word.touched ? null : 'the aircraft slowed down to a taxi on the strip';
  return { ...word, measuredProbability: 1, refused, againstIt: null };
}

/** Where and how a pass that went on was flown. */
interface FlownPass {
  readonly motion: Motion;
  readonly view: StripView;
  readonly pass: Pass;
  readonly lowPart: LowPart;
  readonly offsetAt: (timeS: number) => TiedOffset;
}

/**
 * A word about a pass that went on in the air, as far as the log allows it.
 *
 * @param measured the probability of contact as measured; NaN where the fixes are too far apart for one.
 */
export function saidOfPass(
  word: ContactWord | null,
  flown: FlownPass,
  measured: number,
): SaidContact | null {
  if (!word) return null;
  const refused = word.touched ? highWords(flown, SAID.tooHighM) : whyNoPass(flown);
  const againstIt = (refused ?? !word.touched) ? null : highWords(flown, SAID.notedM);
  return { ...word, measuredProbability: measured, refused, againstIt };
}

/**
 * The lowest fix of a pass over its strip or little beside its ends, where wheels touch; at an unknown
 * place, and without heights, the lowest of all. Null: the pass did not come over the strip.
 */
export function lowestOverStrip(
  motion: Motion,
  view: StripView,
  pass: Pass,
  lowPart: LowPart,
): number | null {
  if (!motion.hasHeight || view.stripId === null) return lowPart.lowestIndex;
  const { beginsAlongM, endsAlongM } = view;
  let best: number | null = null;
  for (let i = pass.from; i < pass.to; i++) {
    const along = view.smoothAlongM[i];
    if (along < beginsAlongM - CONTACT.offStripM || along > endsAlongM + CONTACT.offStripM) {
      continue;
    }
    if (best === null || view.smoothAboveM[i] < view.smoothAboveM[best]) best = i;
  }
  return best;
}

/** What the log says where it surely has the pass higher than so many metres over the strip; else null. */
function highWords(
  { motion, view, pass, lowPart, offsetAt }: FlownPass,
  limitM: number,
): string | null {
  const lowest = lowestOverStrip(motion, view, pass, lowPart);
  if (lowest === null) return 'the aircraft did not come over the strip';
  const descent = { from: pass.from, lowest: lowPart.lowestIndex };
  const heights = new TiedHeights(motion, view, offsetByPath(motion, view, descent, offsetAt));
  const above = heights.aboveAt(heights.momentOf(motion.timeS[lowest]));
  if (isUndetermined(above)) return null;
  // Between two fixes it may have come down further and climbed again.
  const unseenM = (SAID.betweenFixesMps * longestStepS(motion, lowest)) / 2;
  const leastM = above.low - unseenM;
  if (leastM <= limitM) return null;
  return `the log has the aircraft ${Math.floor(leastM)} m or more above the strip at its lowest`;
}

/** The longer of the steps beside a fix, seconds. */
function longestStepS({ timeS, length }: Motion, i: number): number {
  const before = i > 0 ? timeS[i] - timeS[i - 1] : 0;
  const after = i + 1 < length ? timeS[i + 1] - timeS[i] : 0;
  return Math.max(before, after);
}

/** Why the wheels must have touched; null: they may not have. */
function whyNoPass({ motion, view, pass, lowPart }: FlownPass): string | null {
  const slowestMps = view.forwardMps[lowPart.slowestIndex];
  const isTaxi =
    slowestMps < PASS.taxiShare * pass.referenceMps ||
    slowPart(motion, view, pass, motion.length) !== null;
  return isTaxi ? 'the aircraft was as slow over the strip as in a taxi' : null;
}
