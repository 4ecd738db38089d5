/**
 * What is said of a touchdown put by hand, where no picture shows it?
 *
 * In: what was entered about one approach. Out: no note, or the place put and what was measured.
 */
import type { ByHand } from '../debrief/hand-corrections.ts';
import { metres, metresOnly } from './format-quantity.ts';

/** `touchdown put by hand 142 m from the threshold; measured 120 m 98–150`; metres, the band holds 90 %. */
export function handNotes({ marks, measuredAlongM }: ByHand): string[] {
  if (!marks?.touchdown) return [];
  const put = metresOnly(marks.touchdown.alongM);
  return [`touchdown put by hand ${put} from the threshold; measured ${metres(measuredAlongM)}`];
}
