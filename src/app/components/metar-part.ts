/**
 * What is said of a METAR that was pasted into the form of conditions.
 *
 * In: what it made of the fields. Out: a Lit template, group by group.
 */
import { html, nothing } from 'lit';
import type { MetarEntered } from '../entry/metar-fields.ts';
import { notTaken, type Pasted, type PasteWords } from './paste-field.ts';

/** The field's words. */
export const METAR_WORDS: PasteWords = {
  summary: 'Paste a METAR',
  label: 'METAR, as reported',
  hint: 'Its wind is a mean over minutes, counted from true north, at the place that reports it. It is not the wind of the strip.',
};

/** See the file's head. */
export function metarPasted(entered: MetarEntered): Pasted {
  if (!entered.ok) return notTaken(entered.problems);
  const from = entered.from === '' ? '' : ` from ${entered.from}`;
  const said = html`<p class="form-note">Read${from}, and put into the fields below:</p>
    <dl class="metar-read">
      ${entered.groups.map(
        ({ name, words, isOwnKept }) =>
          html`<div>
            <dt>${name}</dt>
            <dd>
              ${words}${isOwnKept ? html`<span class="row-note"> not taken: yours stays</span>` : nothing}
            </dd>
          </div>`,
      )}
    </dl>
    ${entered.notes.map(({ message }) => html`<p class="form-note">${message}</p>`)}`;
  return { isTaken: true, said };
}
