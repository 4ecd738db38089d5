/**
 * `<wr-logbook-page>`: the logbook: bring a log, every landing to one scale, the mown field.
 *
 * Property `state`. Sends actions.
 */
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { entryId, type LogSummary } from '../../logbook/entry.ts';
import { RECENT_DAYS } from '../../calibration/currency.ts';
import { currencyOf, daysUsedThisYear, logbookSentence } from '../../report/logbook-words.ts';
import type { LoggedFlight } from '../../report/logged-flight.ts';
import {
  landingBarsPicture,
  type LandingBarsPicture,
} from '../../report/pictures/landing-bars-picture.ts';
import { dayText, yearOf } from '../../report/local-time.ts';
import type { Problem } from '../../result.ts';
import { monthCounts, type MonthCount } from '../../report/season-counts.ts';
import { firstClick } from '../components/first-click.ts';
import { sendAction, type AppState } from '../app-state.ts';
import '../components/drop-zone.ts';
import { notTakenList } from '../components/not-taken.ts';
import '../components/landing-list.ts';
import '../components/season-chart.ts';
import '../components/strip-field.ts';
import { loggedFlights, pilotUnits, recordedTwiceNotes } from '../logged-flights.ts';
import { routeHash } from '../route.ts';

/** See the file's head. */
export class LogbookPage extends LitElement {
  static override properties = { state: { attribute: false } };
  declare state: AppState;
  #flights: readonly LoggedFlight[] = [];
  #picture: LandingBarsPicture | null = null;
  #months: readonly MonthCount[] = [];

  override createRenderRoot(): this {
    return this;
  }

  override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get('state');
    const { analyses, logs, settings } = this.state;
    if (before?.analyses === analyses && before.logs === logs && before.settings === settings)
      return;
    this.#flights = loggedFlights(this.state);
    this.#months = monthCounts(this.#flights, this.state.nowS, settings.timeZone);
    this.#picture = landingBarsPicture(this.#flights, pilotUnits(this.state));
  }

  override render(): TemplateResult {
    const { hasDemo, nowS, imports, toMeasure } = this.state;
    const bars = this.#picture?.bars ?? [];
    return html`<div class="page">
      <div class="opening-block">
        <div>
          <p class="kicker">
            ${
              hasDemo
                ? html`The demo logbook.
                    <button
                      class="link-button"
                      @click=${() => sendAction(this, { type: 'remove-demo' })}
                    >
                      Take it away
                    </button>`
                : html`Your logbook.
                    <button
                      class="link-button"
                      @click=${() => sendAction(this, { type: 'load-demo' })}
                    >
                      Bring the demo
                    </button>`
            }
          </p>
          <h1 class="sentence">
            ${logbookSentence(this.#flights, nowS, this.state.settings.timeZone)}
          </h1>
          ${
            toMeasure > 0
              ? html`<p class="meaning" role="status">Measuring ${toMeasure} logs</p>`
              : nothing
          }
        </div>
        ${bars.length === 0 ? nothing : this.#block()}
      </div>
      <wr-drop-zone .imports=${imports}></wr-drop-zone>
      ${notTakenList(this, this.state)} ${bars.length === 0 ? this.#empty() : this.#landings()}
      ${this.#unlisted()}
    </div>`;
  }

  #block(): TemplateResult {
    const { nowS, settings } = this.state;
    const { landingsIn90Days, daysSinceStripLanding } = settings.currency;
    const current = currencyOf(this.#flights, nowS, settings.timeZone);
    const recent = current.landingsIn90Days;
    const wanted = landingsIn90Days === null ? '' : `, your limit ${landingsIn90Days} or more`;
    const last = current.lastStripLanding;
    const most = daysSinceStripLanding === null ? '' : `, your limit ${daysSinceStripLanding}`;
    const latest = this.#picture?.bars.find(({ stripId }) => stripId !== null);
    return html`<dl class="title-block">
      <div>
        <dt>Last ${RECENT_DAYS} days</dt>
        <dd>${recent} ${recent === 1 ? 'landing' : 'landings'}${wanted}</dd>
      </div>
      ${
        last === null
          ? nothing
          : html`<div>
              <dt>Since a strip landing</dt>
              <dd>${last.daysAgo} ${last.daysAgo === 1 ? 'day' : 'days'}${most}</dd>
            </div>`
      }
      ${
        latest?.stripId
          ? html`<div>
              <dt>${latest.stripName}, days used this year</dt>
              <dd>${daysUsedThisYear(this.#flights, latest.stripId, nowS, settings.timeZone)}</dd>
            </div>`
          : nothing
      }
    </dl>`;
  }

  #landings(): TemplateResult {
    return html`<div class="columns logbook-columns">
      <section>
        <h2 class="section-head">Landings <span class="note">all strips to one scale</span></h2>
        <wr-landing-list
          .picture=${this.#picture}
          .otherLogs=${this.state.otherLogs}
        ></wr-landing-list>
      </section>
      <section>
        <wr-strip-field
          .bars=${this.#picture?.bars ?? []}
          .units=${pilotUnits(this.state)}
        ></wr-strip-field>
        <h2 class="section-head">
          Landings month by month <span class="note">two years to the last one</span>
        </h2>
        <wr-season-chart .months=${this.#months}></wr-season-chart>
      </section>
    </div>`;
  }

  #empty(): TemplateResult {
    return html`<section class="first-steps">
      <h2 class="section-head">How to begin</h2>
      <ol>
        <li>Bring the track of a flight: a GPX or an IGC file from your tablet or recorder.</li>
        <li>
          A landing at a place Windrow does not know yet is found all the same: keep the place as a
          strip, put its ends right, and give its name, surface, width and elevation.
        </li>
        <li>
          Enter wind, mass and surface of the day and your aeroplane's handbook figures: then the
          measured roll stands beside the expected one.
        </li>
        <li>After five landings on three days Windrow works out a factor of your own.</li>
      </ol>
    </section>`;
  }

  /** Logs of which nothing stands in the list: they must not be lost from sight. */
  #unlisted(): TemplateResult {
    const { logs, analyses, otherLogs } = this.state;
    const listed = new Set(this.#picture?.bars.map(({ logId }) => logId) ?? []);
    const unlisted = logs.filter(({ id }) => analyses.has(id) && !listed.has(id));
    const second = unlisted.filter(({ id }) => otherLogs.has(id));
    const without = unlisted.filter(({ id }) => !otherLogs.has(id));
    return html`${this.#logs('Second logs of a flight', second, ({ id }) =>
      recordedTwiceNotes(this.state, id).at(0),
    )}
    ${this.#logs('Logs without a landing', without, ({ id }) =>
      analyses.get(id)?.problems.find(({ code }) => code === 'no-flight'),
    )}`;
  }

  #logs(
    head: string,
    logs: readonly LogSummary[],
    whyOf: (log: LogSummary) => Problem | undefined,
  ): TemplateResult | typeof nothing {
    if (logs.length === 0) return nothing;
    const { analyses, settings } = this.state;
    const { timeZone } = settings;
    return html`<section>
      <h2 class="section-head">${head}</h2>
      <ul class="plain-list">
        ${logs.map((log) => {
          const atS = analyses.get(log.id)?.flights.at(0)?.startS ?? log.addedS;
          const why = whyOf(log)?.message;
          return html`<li>
            <span>${dayText(atS, timeZone)} ${yearOf(atS, timeZone)}</span>
            <a href=${routeHash('debrief', log.id)}>${log.fileName}</a>
            <i class="undetermined">${why ?? 'no landing was found'}</i>
            <button
              class="button-quiet"
              aria-label=${`Remove ${log.fileName}`}
              @click=${firstClick(() =>
                sendAction(this, {
                  type: 'remove',
                  keys: [{ kind: 'log', id: entryId('log', log.id) }],
                  words: log.fileName,
                }),
              )}
            >
              remove
            </button>
          </li>`;
        })}
      </ul>
    </section>`;
  }
}

customElements.define('wr-logbook-page', LogbookPage);
