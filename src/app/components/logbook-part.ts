/**
 * The logbook as a whole: saved as a file, taken in, the demonstration; and what is kept where.
 *
 * In: the element that sends the actions, whether the demonstration is there. Out: Lit templates.
 */
import { html, type TemplateResult } from 'lit';
import { sendAction, type AppAction } from '../app-state.ts';
import { fileButton } from './file-button.ts';

/** Buttons for the whole logbook. */
export function logbookPart(from: EventTarget, hasDemo: boolean): TemplateResult {
  const button = (words: string, action: AppAction, kind: string) =>
    html`<button type="button" class=${kind} @click=${() => sendAction(from, action)}>
      ${words}
    </button>`;
  const outlined = 'button button-outlined';
  return html`<div class="form-buttons">
      ${button('Save the logbook as a file', { type: 'export-logbook' }, 'button')}
      ${fileButton({
        words: 'Take in a logbook file',
        accept: '.windrow,.json,.gz,application/json',
        onFile: (file) => sendAction(from, { type: 'import-logbook', file }),
      })}
      ${
        hasDemo
          ? button('Take the demonstration away', { type: 'remove-demo' }, outlined)
          : button('Load the demonstration', { type: 'load-demo' }, outlined)
      }
    </div>
    <p class="form-note">
      A file that is taken in is merged: nothing is kept twice. Remarks and entries of two people
      about one flight stay both; where two say different things the later stands, and what was not
      taken is listed. The demonstration is invented, and goes without a trace.
    </p>`;
}

/** Plain words about where everything is. */
export function keptWhere(): TemplateResult {
  return html`<div class="plain-text">
    <p>
      Everything stays in this browser on this machine: logs, strips, aeroplanes, remarks, settings.
      There is no account and no server; nothing leaves unless you save a file and hand it on.
    </p>
    <p>
      Another browser, another machine or a private window has a logbook of its own. Clearing the
      browser's data for this page clears the logbook, and a browser short of room may do so
      unasked: save the logbook as a file now and then.
    </p>
  </div>`;
}
