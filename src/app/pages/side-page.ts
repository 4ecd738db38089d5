/**
 * `<wr-side-page>`: approaches of one or more flights laid over each other.
 *
 * Properties: `state`, `args` (the chosen approaches, see approach-refs.ts), `store` (asked for each).
 * Choosing changes the address.
 */
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { inWords } from '../../report/logbook-words.ts';
import {
  sideBySidePicture,
  type SideBySidePicture,
} from '../../report/pictures/side-by-side-picture.ts';
import { smallCircuitsPicture } from '../../report/pictures/small-circuits-picture.ts';
import type { EventDebrief } from '../../report/story/event-debrief.ts';
import { isUndetermined } from '../../result.ts';
import type { AppState } from '../app-state.ts';
import type { AppStore } from '../app-store.ts';
import '../components/measured-figure.ts';
import { approachPicker, gatesTable } from '../components/side-tables.ts';
import { laidOver } from '../drawings/laid-over.ts';
import { smallCircuits } from '../drawings/small-circuits.ts';
import {
  candidatesOf,
  MOST_APPROACHES,
  chosenApproaches,
  placeKey,
  remarksOf,
  type Candidate,
} from '../entry/approach-refs.ts';
import { loggedFlights, pilotUnits } from '../logged-flights.ts';
import { routeHash } from '../route.ts';

/** See the file's head. */
export class SidePage extends LitElement {
  static override properties = {
    state: { attribute: false },
    args: { attribute: false },
    store: { attribute: false },
    events: { state: true },
    standsOut: { state: true },
    isAll: { state: true },
    fault: { state: true },
  };
  declare state: AppState;
  declare args: readonly string[];
  declare store: AppStore | null;
  /** Debriefs of the chosen approaches in order; null while they are asked for. */
  declare events: readonly EventDebrief[] | null;
  /** Number of the line in full ink. */
  declare standsOut: number | null;
  declare isAll: boolean;
  declare fault: string | null;
  #asked = '';

  constructor() {
    super();
    this.args = [];
    this.store = null;
    this.events = null;
    this.standsOut = 1;
    this.isAll = false;
    this.fault = null;
  }

  override createRenderRoot(): this {
    return this;
  }

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('state') || changed.has('args')) void this.#ask();
  }

  override render(): TemplateResult {
    const all = candidatesOf(loggedFlights(this.state));
    const chosen = chosenApproaches(all, this.args);
    if (chosen.length === 0) return NOTHING_YET;
    if (this.fault !== null) {
      return html`<div class="page">
        <h1 class="sentence">These approaches cannot be shown.</h1>
        <p class="meaning">${this.fault}</p>
      </div>`;
    }
    if (!this.events) return html`<p class="opening" role="status">Measuring the approaches</p>`;
    const picture = sideBySidePicture(this.events, pilotUnits(this.state));
    const [first] = chosen;
    return html`<div class="page side-page">
      <div class="opening-block">
        <div>
          <p class="kicker">${first.stripName} ${first.designator}</p>
          <h1 class="sentence">${sentenceOf(this.events.length, picture)}</h1>
        </div>
      </div>
      ${
        isUndetermined(picture)
          ? html`<p class="undetermined">· · · ${picture.undetermined}</p>`
          : this.#sheet(picture, chosen)
      }
      ${approachPicker({
        candidates: all,
        chosen,
        timeZone: this.state.settings.timeZone,
        isAll: this.isAll,
        onAll: () => (this.isAll = true),
        onPlace: (candidate) => go(all.filter((each) => placeKey(each) === placeKey(candidate))),
        onToggle: (candidate) => {
          const others = chosen.filter(({ ref }) => ref !== candidate.ref);
          go(others.length < chosen.length ? others : [...chosen, candidate]);
        },
      })}
    </div>`;
  }

  #sheet(picture: SideBySidePicture, chosen: readonly Candidate[]): TemplateResult {
    const { standsOut } = this;
    const note = standsOut === null ? 'all alike' : `number ${standsOut} in full ink`;
    return html`<h2 class="section-head">Laid over each other <span class="note">${note}</span></h2>
      <wr-figure
        .picture=${picture}
        .caption=${'Approaches laid over each other'}
        .draw=${(widthPx: number) => laidOver(picture, widthPx, standsOut)}
      ></wr-figure>
      <h2 class="section-head">Gates and rolls</h2>
      ${gatesTable(
        picture,
        chosen.map((candidate) => ({
          candidate,
          remarks: remarksOf(candidate, this.state.visits),
        })),
        standsOut,
        (number) => (this.standsOut = number),
      )}
      ${this.#circuits()}`;
  }

  #circuits(): TemplateResult | typeof nothing {
    const picture = smallCircuitsPicture(this.events ?? [], pilotUnits(this.state));
    if (isUndetermined(picture)) return nothing;
    return html`<section>
      <h2 class="section-head">
        Circuits <span class="note">one scale, landing direction up</span>
      </h2>
      <wr-figure
        .picture=${picture}
        .caption=${'Circuits at one scale'}
        .draw=${(widthPx: number) => smallCircuits(picture, widthPx, this.standsOut)}
      ></wr-figure>
    </section>`;
  }

  async #ask(): Promise<void> {
    const { store } = this;
    if (!store) return;
    const chosen = chosenApproaches(candidatesOf(loggedFlights(this.state)), this.args);
    const options = { units: pilotUnits(this.state), ownRollFactor: null };
    const question = JSON.stringify([chosen.map(({ ref, event }) => [ref, event]), options]);
    if (question === this.#asked) return;
    this.#asked = question;
    const events: EventDebrief[] = [];
    for (const { logId, flightIndex, key } of chosen) {
      const answer = await store.event({ logId, flight: flightIndex, key, options });
      // A slow answer to an older question must not overwrite a newer one.
      if (question !== this.#asked) return;
      if (!answer.ok) {
        this.fault = answer.problems[0].message;
        return;
      }
      events.push(answer.value);
    }
    this.fault = null;
    this.events = events;
  }
}

function go(chosen: readonly Candidate[]): void {
  const refs = chosen.slice(0, MOST_APPROACHES).map(({ ref }) => ref);
  location.hash = routeHash('side', ...refs);
}

function sentenceOf(count: number, picture: SideBySidePicture | { undetermined: string }): string {
  const number = inWords(count);
  const approaches = `${number.charAt(0).toUpperCase()}${number.slice(1)} ${count === 1 ? 'approach' : 'approaches'}`;
  const spread = isUndetermined(picture) ? null : picture.spread;
  return spread === null ? `${approaches}.` : `${approaches}: ${spread}.`;
}

const NOTHING_YET = html`<div class="page">
  <h1 class="sentence">No approaches to lay over each other yet.</h1>
  <p class="meaning"><a href=${routeHash('logbook')}>Bring a log in the logbook.</a></p>
</div>`;

customElements.define('wr-side-page', SidePage);
