/**
 * Visits that were kept, newest first: what was predicted, and which flight it became.
 *
 * In: the visits with their words. Out: a template.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { routeHash } from '../route.ts';

/** One line of the list. */
export interface VisitLine {
  readonly id: string;
  /** `Saturday 14 June 2025`. */
  readonly day: string;
  readonly place: string;
  readonly sentence: string;
  /** The log it became; null while it is still to be flown. */
  readonly logId: string | null;
}

/** See the file's head. */
export function visitList(lines: readonly VisitLine[]): TemplateResult | typeof nothing {
  if (lines.length === 0) return nothing;
  return html`<h2 class="section-head">Visits you kept <span class="note">newest first</span></h2>
    <ul class="plain-list">
      ${lines.map(
        ({ id, day, place, sentence, logId }) =>
          html`<li>
            <a href=${routeHash('visit', id)}>${day}, ${place}</a>
            <i>${sentence}</i>
            ${
              logId === null
                ? html`<span class="quiet">not flown yet</span>`
                : html`<a href=${routeHash('debrief', logId)}>its debrief</a>`
            }
          </li>`,
      )}
    </ul>`;
}
