/**
 * `<wr-own-entries>`: what the pilot says of one landing: how hard it was braked, a touchdown or an end
 * of roll put by hand.
 *
 * Properties: `event`, `state`, `logId`. Sends `save-visit`. What was measured is never lost: a correction stands beside it and is taken back.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { EffortMark, VisitRecord } from '../../logbook/entry.ts';
import {
  addCorrection,
  correctionInForce,
  landingNear,
  markEffort,
  takeBackCorrection,
} from '../../logbook/landing-entries.ts';
import { ALGORITHM_VERSION } from '../../debrief/algorithm-version.ts';
import { FARTHEST_M } from '../../debrief/landing-limits.ts';
import { figureValue, lengthFigure } from '../../report/figure-text.ts';
import { clockSecondsText } from '../../report/local-time.ts';
import { timeAtPlace } from '../../report/story/cursor-columns.ts';
import type { EventDebrief } from '../../report/story/event-debrief.ts';
import type { LandingEntryPlaces, LandingPlaceEntry } from '../../report/story/landing-entry.ts';
import { sendAction, type AppState } from '../app-state.ts';
import { EFFORT_CHOICES, MARK_COUNTS } from '../entry/effort-choices.ts';
import { lengthUnit, readQuantity } from '../entry/shown-unit.ts';
import { visitWith } from '../entry/visit-of-log.ts';
import { radioField, textField, type Option } from './form-field.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-own-entries': OwnEntries;
  }
}

/** See the file's head. */
export class OwnEntries extends LitElement {
  static override properties = {
    event: { attribute: false },
    state: { attribute: false },
    logId: { attribute: false },
    typed: { state: true },
    messages: { state: true },
  };
  declare event: EventDebrief;
  declare state: AppState;
  declare logId: string;
  /** What stands in the fields, by their names. */
  declare typed: Readonly<Record<string, string>>;
  declare messages: Readonly<Record<string, string>>;
  #key: string | null = null;
  /** Opened by the pilot: what is undone is mostly put again. */
  #isOpen = false;

  constructor() {
    super();
    this.typed = {};
    this.messages = {};
  }

  override createRenderRoot(): this {
    return this;
  }

  override willUpdate(): void {
    // What was typed about one landing is not said of another.
    const key = `${this.logId} ${this.event.key ?? ''}`;
    if (key === this.#key) return;
    this.#key = key;
    this.#isOpen = false;
    this.typed = {};
    this.messages = {};
  }

  override render(): TemplateResult | typeof nothing {
    const { landing } = this.event;
    if (!landing) return nothing;
    const isAnyPut = landing.places.some(({ byHand }) => byHand);
    return html`<h2 class="section-head">Your own marks</h2>
      ${this.#effort(landing)}
      <details
        class="working"
        ?open=${isAnyPut || this.#isOpen}
        @toggle=${(event: Event) => (this.#isOpen = (event.currentTarget as HTMLDetailsElement).open)}
      >
        <summary>Put the touchdown or the end of the roll by hand</summary>
        <p class="form-note">
          Only where you know it, as from the first mark of a main wheel (not of its brakes) paced
          from the threshold. It counts as exact, and your landings of other flights in this
          aeroplane are measured by what a touchdown teaches of how you arrive.
        </p>
        ${landing.places.map((place) => this.#place(place))}
      </details>`;
  }

  #effort({ aroundS, hasRatio }: LandingEntryPlaces): TemplateResult {
    const visit = visitWith(
      this.state,
      this.logId,
      (each) => (landingNear(each, aroundS)?.effort ?? null) !== null,
    );
    const effort = landingNear(visit, aroundS)?.effort ?? null;
    const hint = hasRatio
      ? 'The ratio stands on the screen: a mark made now leaves no landing out of your own factor.'
      : MARK_COUNTS;
    const ofFlight = visit.conditions?.effort ?? null;
    return radioField({
      id: 'own-effort',
      label: 'Braking of this landing',
      value: effort?.mark ?? '',
      options: ofFlight === null ? EFFORT_CHOICES : withFlights(ofFlight),
      hint,
      onChoose: (value) => {
        const { nowS } = this.state;
        const mark: EffortMark | null =
          value === ''
            ? null
            : { mark: value as EffortMark['mark'], markedS: nowS, ratioShown: hasRatio };
        this.#save(markEffort(visit, aroundS, mark, nowS));
      },
    });
  }

  #place(place: LandingPlaceEntry): TemplateResult {
    const { what, label, measuredFigure, byHand, measured, doubt } = place;
    const { units, timeZone } = this.state.settings;
    const aroundS = this.event.landing?.aroundS ?? this.event.timeS;
    const visit = visitWith(this.state, this.logId, (each) => {
      const landing = landingNear(each, aroundS);
      return landing !== null && correctionInForce(landing, what) !== null;
    });
    if (byHand) {
      return html`<p class="by-hand">
          ${label} <s>${figureValue(measuredFigure)}</s>
          <b class="hand-value">${figureValue(byHand)}</b> by hand
          <button
            class="link-button"
            @click=${() => this.#save(takeBackCorrection(visit, aroundS, what, this.state.nowS))}
          >
            undo
          </button>
        </p>
        ${doubt === null ? nothing : html`<p class="form-note">${doubt}</p>`}`;
    }
    const unit = lengthUnit(units);
    const put = (): void => {
      const read = readQuantity(this.typed[what] ?? '', unit, null);
      const alongM = read.ok ? read.value : null;
      const wrong = read.ok ? this.#whyNowhere(what, alongM) : read.message;
      if (alongM === null || wrong !== null) {
        this.messages = { ...this.messages, [what]: wrong ?? 'expected a place' };
        return;
      }
      const timeS = timeAtPlace(this.event.cursor, alongM);
      const madeS = this.state.nowS;
      const corrected = { timeS, alongM };
      const algorithmVersion = ALGORITHM_VERSION;
      this.#save(
        addCorrection(visit, aroundS, { what, measured, algorithmVersion, corrected, madeS }),
      );
    };
    return html`<div class="place-entry">
      ${textField({
        id: `own-${what}`,
        label: `${label}, from the threshold`,
        unit: unit.symbol,
        kind: 'signed',
        value: this.typed[what] ?? '',
        hint: `measured ${figureValue(measuredFigure)} at ${clockSecondsText(measured.timeS, timeZone)}`,
        message: this.messages[what],
        onInput: (typed) => this.#type(what, typed),
      })}
      <button class="button button-outlined" @click=${put}>Put it there by hand</button>
    </div>`;
  }

  /** Why neither a touchdown nor an end of roll lies there, metres from the threshold; null: it may. */
  #whyNowhere(what: LandingPlaceEntry['what'], alongM: number | null): string | null {
    const rollEndM = this.event.landing?.rollEndM ?? null;
    if (alongM === null || Math.abs(alongM) > FARTHEST_M) return 'expected a place on this strip';
    if (what === 'roll-end' || rollEndM === null || alongM <= rollEndM) return null;
    const end = figureValue(lengthFigure(rollEndM, this.state.settings.units));
    return `expected a place before the end of the roll, at ${end}`;
  }

  #type(name: string, text: string): void {
    this.typed = { ...this.typed, [name]: text };
    this.messages = {};
  }

  #save(visit: VisitRecord): void {
    sendAction(this, { type: 'save-visit', visit });
  }
}

/** A landing that is not marked on its own has the mark that was entered with the conditions. */
function withFlights(ofFlight: string): readonly Option[] {
  const [none, ...marks] = EFFORT_CHOICES;
  return [{ ...none, note: `as entered with the conditions: ${ofFlight}` }, ...marks];
}

customElements.define('wr-own-entries', OwnEntries);
