/**
 * Did an aircraft touch before the strip began, by the log alone?
 *
 * Landings well before a strip are rare, so the touchdown's posterior holds one against its odds
 * (TD9). In: the posterior of a touchdown, where the strip begins. Out: how likely the log alone has it
 * well before there. Where it does, either the aircraft touched short or the end is drawn too far in:
 * which of the two nobody but the pilot can say, so it is a note.
 *
 * Source: Bayes' rule, the prior of the place divided out again; the share is so high that of 84
 * independent landings on the strip none to two have the note.
 */
import { normalCdf } from '../numeric/posterior.ts';
import { problem, type Problem } from '../result.ts';
import type { StripFrame } from '../strips/strip-frame.ts';
import type { Approach, TouchdownPosterior } from './flight-event.ts';
import { knowsEnds, type StripView } from './strip-view.ts';
import { isToldOnly } from './told-touch.ts';
import { placeLogPrior } from './touchdown-posterior.ts';

/** So far before the strip, metres: three times what its place may be off by and a landing in the verge. */
const WELL_SHORT_M = 15;
/** A note from this probability on. */
const NOTE_FROM = 0.9;

/** Probability, 0 to 1, that the touchdown lay 15 m and more before the strip's beginning, by the log alone. Never fails. */
export function wellShortProbability(
  { weight, alongM, alongSdM }: TouchdownPosterior,
  frame: StripFrame,
): number {
  const limitM = frame.nearEndAlongM - WELL_SHORT_M;
  let [short, total] = [0, 0];
  for (let c = 0; c < weight.length; c++) {
    const alone = weight[c] * Math.exp(-placeLogPrior(alongM[c], frame));
    total += alone;
    short += alone * normalCdf((limitM - alongM[c]) / Math.max(alongSdM[c], 0.1));
  }
  return total > 0 ? short / total : 0;
}

/** A note for each direction of a strip before which the log alone has landings well short. */
export function shortLandingNotes(
  landings: readonly { readonly approach: Approach; readonly view: StripView }[],
): Problem[] {
  const counts = new Map<string, number>();
  for (const { approach, view } of landings) {
    const { strip, direction, posterior } = approach;
    // Of a touch that the log does not show it says nothing.
    if (!knowsEnds(view) || posterior === null || isToldOnly(approach)) continue;
    if (wellShortProbability(posterior, view.frame) < NOTE_FROM) continue;
    const where = `strip ${strip}${direction === null ? '' : `, ${direction}`}`;
    counts.set(where, (counts.get(where) ?? 0) + 1);
  }
  return [...counts].map(([where, count]) =>
    problem(
      'touched-short',
      'note',
      where,
      `by the log alone the wheels touched before the strip as entered begins${count > 1 ? `, in ${count} landings` : ''}; expected a touchdown on it. If they did not, this end is drawn too far in`,
    ),
  );
}
