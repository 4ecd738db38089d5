/**
 * A planned visit in the debrief: offered where a flight may have been it; once joined, its frozen
 * prediction beside the recomputed one.
 *
 * In: the state, the log and its flight, the event on show. Out: templates; sends `join-visit`.
 */
import { html, nothing, type TemplateResult } from 'lit';
import type { VisitRecord } from '../../logbook/entry.ts';
import { readFrozen } from '../../logbook/frozen-prediction.ts';
import { clockText, longDay } from '../../report/local-time.ts';
import { beforeAndAfter, plannedLengths } from '../../report/story/before-and-after.ts';
import type { EventDebrief } from '../../report/story/event-debrief.ts';
import { plannedVisitsFor } from '../../report/story/visit-offer.ts';
import { windText } from '../../report/story/title-block.ts';
import { sendAction, type AppState } from '../app-state.ts';
import { pilotUnits } from '../logged-flights.ts';
import { routeHash } from '../route.ts';

/** Visits that this flight may have been. */
export function joinOffer(
  from: EventTarget,
  state: AppState,
  logId: string,
  flight: number,
): TemplateResult | typeof nothing {
  const summary = state.analyses.get(logId)?.flights.at(flight);
  if (!summary) return nothing;
  const planned = plannedVisitsFor(state.visits, summary, state.settings.timeZone);
  if (planned.length === 0) return nothing;
  return html`${planned.map((visit) => oneOffer(from, logId, visit))}`;
}

function oneOffer(from: EventTarget, logId: string, visit: VisitRecord): TemplateResult {
  const join = (asPlanned: boolean) => () =>
    sendAction(from, { type: 'join-visit', visitId: visit.id, logId, asPlanned });
  return html`<div class="offer join-offer">
    <p>
      A <a href=${routeHash('visit', visit.id)}>visit was planned</a> for this day and strip. Was
      this flight it?
    </p>
    <button class="button" @click=${join(true)}>Yes, in the weather as planned</button>
    <button class="button-quiet" @click=${join(false)}>Yes, but the weather was another</button>
  </div>`;
}

/** The frozen prediction for the direction on show, beside the recomputed one; nothing without one. */
export function frozenPart(
  event: EventDebrief,
  state: AppState,
  logId: string,
): TemplateResult | typeof nothing {
  const { at, lengths, kind } = event;
  if (!at || !lengths || kind === 'none') return nothing;
  const use = kind === 'approach' ? 'landing' : 'take-off';
  const frozen = state.visits
    .filter((visit) => visit.logId === logId)
    .flatMap(({ predictions }) => predictions)
    .findLast(({ stripId, designator }) => stripId === at.stripId && designator === at.designator);
  const document = frozen && readFrozen(frozen);
  if (!frozen || !document?.uses.includes(use)) return nothing;
  const units = pilotUnits(state);
  const { wind } = frozen.conditions;
  const saved = `${longDay(frozen.savedS, units.timeZone)} ${clockText(frozen.savedS, units.timeZone)}`;
  const rows = beforeAndAfter(plannedLengths(document.prediction, use), lengths, use, units);
  const cell = (text: string | null): TemplateResult =>
    html`<td>${text === null ? '' : html`<b>${text}</b>`}</td>`;
  return html`<h2 class="section-head">
      Predicted before the flight <span class="note">frozen ${saved}</span>
    </h2>
    <table class="figures">
      <thead>
        <tr>
          <th scope="col">${wind ? `wind then ${windText(wind, units)}` : 'length'}</th>
          <th scope="col">frozen</th>
          <th scope="col">for the landing</th>
          <th scope="col">measured</th>
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          ({ label, frozen: before, recomputed, measured }) =>
            html`<tr>
              <th scope="row">${label}</th>
              ${cell(before)}${cell(recomputed)}${cell(measured)}
            </tr>`,
        )}
      </tbody>
    </table>`;
}
