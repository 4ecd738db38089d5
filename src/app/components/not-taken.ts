/**
 * What of logbook files was not taken, a sentence each, until the pilot closes the list.
 *
 * In: the element that sends the actions, the state. Out: a Lit template. The sentences are made anew
 * with each state: a flight has its place as soon as its log is measured.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { notTakenLines, type MergeLookups } from '../../report/merge-words.ts';
import { sendAction, type AppState } from '../app-state.ts';
import { factorSetName, readFactorSets } from '../entry/own-factor-sets.ts';
import { pilotUnits } from '../logged-flights.ts';

/** More than anybody reads on a page; the file that can be saved has all. */
const MOST_SHOWN = 40;

/** See the file's head. */
export function notTakenList(from: EventTarget, state: AppState): TemplateResult | typeof nothing {
  if (state.notTaken.length === 0) return nothing;
  const lookups = lookupsOf(state);
  const files = state.notTaken.map(({ fileName, conflicts }) => ({
    head: `Not taken when ${fileName} came in:`,
    lines: conflicts.flatMap((conflict) => notTakenLines(conflict, lookups)),
  }));
  const text = files.map(({ head, lines }) => `${[head, ...lines].join('\n')}\n`).join('\n');
  return html`<section class="caution-block not-taken" aria-label="What was not taken">
    <div>
      ${files.map(({ head, lines }) => {
        const more = lines.length - MOST_SHOWN;
        return html`<p><strong>${head}</strong></p>
          <ul class="problem-list">
            ${lines.slice(0, MOST_SHOWN).map((line) => html`<li>${line}</li>`)}
            ${more > 0 ? html`<li>and ${more} more in the list that can be saved</li>` : nothing}
          </ul>`;
      })}
      <p>
        <button
          type="button"
          class="button-quiet"
          @click=${() =>
            sendAction(from, {
              type: 'download',
              fileName: 'windrow-not-taken.txt',
              mediaType: 'text/plain',
              text,
            })}
        >
          Save this list
        </button>
        <button
          type="button"
          class="button-quiet"
          @click=${() => sendAction(from, { type: 'clear-not-taken' })}
        >
          Close this list
        </button>
      </p>
    </div>
  </section>`;
}

function lookupsOf(state: AppState): MergeLookups {
  const { logs, strips, aeroplanes, analyses, factorSets } = state;
  const own = readFactorSets(factorSets);
  return {
    ...{ logs, strips, aeroplanes },
    flightsOf: (logId) => analyses.get(logId)?.flights ?? [],
    factorSetName: (id) => factorSetName(id, own),
    units: pilotUnits(state),
  };
}
