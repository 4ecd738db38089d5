/**
 * `<wr-debrief-sheet>`: one event of a flight on one sheet, with one plumb line through all drawings.
 *
 * Properties: `event` (what is shown), `state`, `logId`, `flight` and `flights` (which of how many in
 * the log), `problems` of the log. Sends `save-visit`; choosing an event changes the address.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { isUndetermined } from '../../result.ts';
import type { Problem } from '../../result.ts';
import type { Picture } from '../../report/pictures/picture.ts';
import { longDay } from '../../report/local-time.ts';
import type { EventDebrief } from '../../report/story/event-debrief.ts';
import type { AppState } from '../app-state.ts';
import { PaperController } from '../controllers/paper-controller.ts';
import { PlumbController } from '../controllers/plumb-controller.ts';
import { bareRoll } from '../drawings/bare-roll.ts';
import { circuitPlan } from '../drawings/circuit-plan.ts';
import type { Drawing } from '../drawings/drawing.ts';
import { flightLine } from '../drawings/flight-line.ts';
import { heightAndSpeed } from '../drawings/height-and-speed.ts';
import { stripRuler } from '../drawings/strip-ruler.ts';
import { pilotUnits } from '../logged-flights.ts';
import { routeHash } from '../route.ts';
import './conditions-panel.ts';
import {
  flightChoice,
  keepOffer,
  measuredTable,
  notesList,
  penLines,
  whyTable,
  workingPart,
} from './debrief-tables.ts';
import { gatesPart } from './gates-part.ts';
import { frozenPart, joinOffer } from './visit-beside.ts';
import './measured-figure.ts';
import './own-entries.ts';
import './own-remarks.ts';
import type { PointListener } from './measured-figure.ts';
import { plumbLine, type PlumbLine } from './plumb-line.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-debrief-sheet': DebriefSheet;
  }
}

/** See the file's head. */
export class DebriefSheet extends LitElement {
  static override properties = {
    event: { attribute: false },
    state: { attribute: false },
    logId: { attribute: false },
    flight: { attribute: false },
    flights: { attribute: false },
    problems: { attribute: false },
  };
  declare event: EventDebrief;
  declare state: AppState;
  declare logId: string;
  declare flight: number;
  declare flights: number;
  declare problems: readonly Problem[];
  readonly #plumbLine = new PlumbController(this);
  readonly #paper = new PaperController(this);

  constructor() {
    super();
    this.flights = 1;
    this.problems = [];
  }

  override createRenderRoot(): this {
    return this;
  }

  override render(): TemplateResult {
    const { event, state } = this;
    const plumb = this.#plumb();
    const { isOnPaper } = this.#paper;
    // The drawings of an approach at its strip fill a page: tables and working stand on the next.
    const isOverleaf = event.place !== null && event.kind === 'approach';
    return html`<article class="page sheet">
      <div class="opening-block">
        <div>
          <p class="kicker">
            ${event.place ?? 'A place not kept yet'},
            ${longDay(event.timeS, state.settings.timeZone)}${
              event.aeroplane === null ? nothing : html`, in ${event.aeroplane}`
            }
          </p>
          <h1 class="sentence">${event.sentence}</h1>
          <p class="meaning">
            ${event.meaning.map(
              ({ text, band }) =>
                html`${text}${band === '' ? nothing : html` <span class="band">${band}</span>.`} `,
            )}
          </p>
        </div>
        <wr-conditions-panel
          .event=${event}
          .state=${state}
          .logId=${this.logId}
        ></wr-conditions-panel>
      </div>
      ${flightChoice(this.logId, this.flight, this.flights)} ${keepOffer(event)}
      ${joinOffer(this, state, this.logId, this.flight)}
      ${this.#figure(event.line, 'The flight', this.#drawLine(plumb), this.#plumbLine.onLine)}
      ${this.#slider(plumb)} ${event.place === null ? this.#atNoStrip(plumb) : this.#atStrip(plumb)}
      <div class="columns even debrief-tables ${isOverleaf ? 'overleaf' : ''}">
        <section>
          ${event.place === null ? nothing : html`${whyTable(event)} ${frozenPart(event, state, this.logId)} ${workingPart(event, state.factorSets, pilotUnits(state), isOnPaper)}`}
          <wr-own-remarks
            .event=${event}
            .state=${state}
            .logId=${this.logId}
            .atS=${this.#plumbLine.atS}
          ></wr-own-remarks>
          <wr-own-entries .event=${event} .state=${state} .logId=${this.logId}></wr-own-entries>
        </section>
        <section>
          ${measuredTable(event)} ${notesList(event, this.problems)}
          ${isOnPaper && isOverleaf ? penLines() : nothing}
        </section>
      </div>
    </article>`;
  }

  /** What only a known strip can show. */
  #atStrip(plumb: PlumbLine | null): TemplateResult {
    const { event } = this;
    return html`${this.#orReason(event.ruler, (ruler) =>
      this.#figure(
        ruler,
        'The strip',
        (widthPx) => stripRuler(ruler, widthPx, plumb?.byPlace ?? null),
        this.#plumbLine.onRuler,
      ),
    )}
    ${event.kind === 'approach' ? this.#profiles(plumb) : nothing}`;
  }

  /** What the log alone carries at a place nobody has kept: its line, the roll, no strip and nothing predicted. */
  #atNoStrip(plumb: PlumbLine | null): TemplateResult | typeof nothing {
    const { event } = this;
    if (event.lineWords === null) return nothing;
    return html`<p class="quiet">${event.lineWords}</p>
      ${this.#orReason(event.bareRoll, (picture) =>
        this.#figure(
          picture,
          'The roll',
          (widthPx) => bareRoll(picture, widthPx, plumb?.byPlace ?? null),
          this.#plumbLine.onBareRoll,
        ),
      )}
      ${event.kind === 'approach' ? this.#profiles(plumb) : nothing}`;
  }

  #profiles(plumb: PlumbLine | null): TemplateResult {
    const { event } = this;
    return html`<div class="columns final-columns">
      <section>
        <h2 class="section-head">Height and speed</h2>
        ${this.#orReason(event.final, (final) =>
          this.#figure(
            final,
            'Height and speed',
            (widthPx) => heightAndSpeed(final, widthPx, plumb?.byPlace ?? null),
            this.#plumbLine.onProfiles,
          ),
        )}
      </section>
      ${isUndetermined(event.final) ? nothing : gatesPart(event.final)}
      <section class="final-circuit">
        <h2 class="section-head">Circuit <span class="note">landing direction up</span></h2>
        ${this.#orReason(event.plan, (plan) =>
          this.#figure(plan, 'Circuit', (widthPx) =>
            circuitPlan(plan, widthPx, plumb?.byTime ?? null),
          ),
        )}
      </section>
    </div>`;
  }

  #plumb(): PlumbLine | null {
    const { event, state } = this;
    const { atS } = this.#plumbLine;
    return atS === null
      ? null
      : plumbLine(event.cursor, atS, pilotUnits(state), event.place !== null);
  }

  #drawLine(plumb: PlumbLine | null): (widthPx: number) => Drawing {
    const { event } = this;
    return (widthPx) =>
      flightLine(event.line, widthPx, {
        chosen: event.key,
        onChoose: (key) => (location.hash = routeHash('debrief', this.logId, this.flight, key)),
        cursor: plumb?.byTime ?? null,
      });
  }

  #figure(
    picture: Picture,
    caption: string,
    draw: (widthPx: number) => Drawing,
    onPoint: PointListener | null = null,
  ): TemplateResult {
    return html`<wr-figure
      .picture=${picture}
      .caption=${caption}
      .draw=${draw}
      .onPoint=${onPoint}
    ></wr-figure>`;
  }

  #orReason<T extends object>(
    part: T,
    show: (part: Exclude<T, { readonly undetermined: string }>) => TemplateResult,
  ): TemplateResult {
    if (isUndetermined(part)) return html`<p class="undetermined">· · · ${part.undetermined}</p>`;
    return show(part as Exclude<T, { readonly undetermined: string }>);
  }

  /** The plumb line by keyboard and by thumb: a native slider over the chosen stretch. */
  #slider(plumb: PlumbLine | null): TemplateResult {
    const { timeS, from, to } = this.event.cursor;
    const startS = timeS[from];
    const endS = timeS[Math.max(from, to - 1)];
    return html`<label class="plumb-slider">
      <span>plumb line</span>
      <input
        type="range"
        min=${startS}
        max=${endS}
        step="0.2"
        .value=${String(this.#plumbLine.atS ?? startS)}
        aria-valuetext=${plumb?.spoken ?? 'not hung'}
        @input=${(event: Event) =>
          this.#plumbLine.hang(Number((event.target as HTMLInputElement).value))}
      />
      <output>${plumb?.spoken ?? ''}</output>
    </label>`;
  }
}

customElements.define('wr-debrief-sheet', DebriefSheet);
