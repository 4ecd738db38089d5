/**
 * `<wr-own-entries>`: what the pilot says of one landing, pass or take-off: whether the wheels touched, how
 * hard it was braked, a touchdown, an end of roll or a lift-off put by hand.
 *
 * Properties: `event`, `state`, `logId`. Sends `save-visit`. What was measured is never lost: a correction stands beside it and is taken back.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { LandingEntry, VisitRecord } from '../../logbook/entry.ts';
import {
  addCorrection,
  correctionInForce,
  landingNear,
  takeBackCorrection,
} from '../../logbook/landing-entries.ts';
import { ALGORITHM_VERSION } from '../../debrief/algorithm-version.ts';
import { FARTHEST_M } from '../../debrief/landing-limits.ts';
import { figureValue } from '../../report/figure-text.ts';
import { clockSecondsText } from '../../report/local-time.ts';
import { timeAtPlace } from '../../report/story/cursor-columns.ts';
import type { EventDebrief } from '../../report/story/event-debrief.ts';
import {
  whyNotThere,
  type LandingEntryPlaces,
  type LandingPlaceEntry,
} from '../../report/story/landing-entry.ts';
import { sendAction, type AppState } from '../app-state.ts';
import { lengthUnit, readQuantity } from '../entry/shown-unit.ts';
import { visitWith } from '../entry/visit-of-log.ts';
import { textField } from './form-field.ts';
import { contactField, effortField } from './landing-fields.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-own-entries': OwnEntries;
  }
}

const LANDING_NOTE =
  'Only where you know it, as from the first mark of a main wheel (not of its brakes) paced from the threshold. It counts as exact';
const TEACHES =
  ', and your landings of other flights in this aeroplane are measured by what a touchdown teaches of how you arrive.';
const TEACHES_NOTHING =
  '. It teaches nothing of how you arrive: where the ends are a guess, or the log does not show the touch, other landings are measured as without it.';
const LIFT_OFF_NOTE =
  'Only where you know it, as from the last mark of a main wheel, paced from the threshold of this direction. It counts as exact.';

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
    const { contact, takesEffort, hasRatio, places } = landing;
    const parts = {
      recordWith: (holds: (landing: LandingEntry) => boolean) =>
        this.#recordWith(landing.aroundS, holds),
      aroundS: landing.aroundS,
      nowS: this.state.nowS,
      save: (changed: VisitRecord): void => this.#save(changed),
    };
    return html`<h2 class="section-head">Your own marks</h2>
      ${contact ? contactField(contact, parts) : nothing}
      ${takesEffort ? effortField(hasRatio, parts) : nothing}
      ${places.length > 0 ? this.#places(landing) : nothing}`;
  }

  #places({ places, teaches }: LandingEntryPlaces): TemplateResult {
    const isAnyPut = places.some(({ byHand }) => byHand);
    const isLiftOff = places.some(({ what }) => what === 'lift-off');
    return html`<details
      class="working"
      ?open=${isAnyPut || this.#isOpen}
      @toggle=${(event: Event) => (this.#isOpen = (event.currentTarget as HTMLDetailsElement).open)}
    >
      <summary>
        Put the ${isLiftOff ? 'lift-off' : 'touchdown or the end of the roll'} by hand
      </summary>
      <p class="form-note">
        ${isLiftOff ? LIFT_OFF_NOTE : LANDING_NOTE + (teaches ? TEACHES : TEACHES_NOTHING)}
      </p>
      ${places.map((place) => this.#place(place))}
    </details>`;
  }

  /** The record in which something of this landing stands, or the one to enter it in. */
  #recordWith(aroundS: number, holds: (landing: LandingEntry) => boolean): VisitRecord {
    return visitWith(this.state, this.logId, (each) => {
      const landing = landingNear(each, aroundS);
      return landing !== null && holds(landing);
    });
  }

  #place(place: LandingPlaceEntry): TemplateResult {
    const { what, label, measuredFigure, byHand, measured, doubt } = place;
    const { units, timeZone } = this.state.settings;
    const aroundS = this.event.landing?.aroundS ?? this.event.timeS;
    const visit = this.#recordWith(aroundS, (landing) => correctionInForce(landing, what) !== null);
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
      const wrong = read.ok ? this.#whyNowhere(place, alongM) : read.message;
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

  /** Why it cannot lie there, metres from the threshold; null: it may. */
  #whyNowhere(place: LandingPlaceEntry, alongM: number | null): string | null {
    if (alongM === null || Math.abs(alongM) > FARTHEST_M) return 'expected a place on this strip';
    return whyNotThere(place, alongM, this.state.settings.units);
  }

  #type(name: string, text: string): void {
    this.typed = { ...this.typed, [name]: text };
    this.messages = {};
  }

  #save(visit: VisitRecord): void {
    sendAction(this, { type: 'save-visit', visit });
  }
}

customElements.define('wr-own-entries', OwnEntries);
