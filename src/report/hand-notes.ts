/**
 * What is said of a touchdown, a lift-off or a contact told by hand, where no picture shows it?
 *
 * In: what was entered about one approach or take-off. Out: no note, or what was said and what was measured.
 */
import type { ByHand } from '../debrief/hand-corrections.ts';
import type { LiftOffByHand } from '../debrief/hand-lift-offs.ts';
import type { Approach, SaidContact } from '../events/flight-event.ts';
import { metres, metresOnly, percent } from './format-quantity.ts';

/** `touchdown put by hand 142 m from the threshold; measured 120 m 98–150`; metres, the band holds 90 %. */
export function handNotes({ marks, measuredAlongM }: ByHand, { saidContact }: Approach): string[] {
  const said = saidContact ? [contactWords(saidContact)] : [];
  if (!marks?.touchdown) return said;
  const put = metresOnly(marks.touchdown.alongM);
  return [
    ...said,
    `touchdown put by hand ${put} from the threshold; measured ${metres(measuredAlongM)}`,
  ];
}

/** The same of a lift-off. */
export function liftOffNotes({ put, measuredAlongM }: LiftOffByHand): string[] {
  if (!put) return [];
  return [
    `lift-off put by hand ${metresOnly(put.alongM)} from the threshold; measured ${metres(measuredAlongM)}`,
  ];
}

/** `that the wheels touched is said by hand; measured: 12 % likely`, or why it does not count. */
export function contactWords(said: SaidContact): string {
  const what = `that the wheels ${said.touched ? 'touched' : 'did not touch'} is said by hand`;
  if (said.refused !== null) return `${what} and does not count: ${said.refused}`;
  const against = said.againstIt === null ? '' : `; against it: ${said.againstIt}`;
  return `${what}; ${measuredContact(said.measuredProbability)}${against}`;
}

/** What the log alone says of a contact. */
export function measuredContact(probability: number): string {
  return Number.isNaN(probability)
    ? 'the log cannot tell'
    : `by the log a touch was ${percent(probability)} likely`;
}
