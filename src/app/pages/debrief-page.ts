/**
 * `<wr-debrief-page>`: one flight: sentence, flight line, ruler, profiles, circuit, why, measured.
 *
 * Properties: `state`, `args` (log, flight, event), `store` (asked for the pictures of an event).
 */
import { html, LitElement, type PropertyValues, type TemplateResult } from 'lit';
import { surfaceClass } from '../../calibration/surface-class.ts';
import { factorOn } from '../../debrief/own-factors.ts';
import { PUBLISHED_SETS } from '../../performance/factor-sets/published.ts';
import { isUndetermined } from '../../result.ts';
import { ownFactorsOf } from '../../report/logged-factors.ts';
import { problemSentence } from '../../report/note-sentence.ts';
import { factorWith } from '../../report/own-for-visit.ts';
import type { EventDebrief } from '../../report/story/event-debrief.ts';
import type { Problem } from '../../result.ts';
import type { AppStore } from '../app-store.ts';
import type { AppState } from '../app-state.ts';
import '../components/debrief-sheet.ts';
import { loggedFlights, pilotUnits, recordedTwiceNotes } from '../logged-flights.ts';
import { routeHash } from '../route.ts';

/** Which event: log, flight, key; a null key is the usual one. */
interface Chosen {
  readonly logId: string;
  readonly flight: number;
  readonly key: string | null;
}

/** See the file's head. */
export class DebriefPage extends LitElement {
  static override properties = {
    state: { attribute: false },
    args: { attribute: false },
    store: { attribute: false },
    event: { state: true },
    problems: { state: true },
  };
  declare state: AppState;
  declare args: readonly string[];
  declare store: AppStore | null;
  declare event: EventDebrief | null;
  declare problems: readonly Problem[];
  /** What the shown event was asked with: the same question is not asked twice. */
  #asked = '';

  constructor() {
    super();
    this.event = null;
    this.problems = [];
    this.store = null;
  }

  override createRenderRoot(): this {
    return this;
  }

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('state') || changed.has('args')) void this.#ask();
  }

  override render(): TemplateResult {
    const chosen = this.#chosen();
    if (!chosen) return NOTHING_YET;
    const analysis = this.state.analyses.get(chosen.logId);
    if (!this.state.logs.some(({ id }) => id === chosen.logId)) return NO_SUCH;
    if (this.problems.length > 0) return this.#failed();
    if (analysis && analysis.flights.length === 0) {
      return html`<div class="page">
        <h1 class="sentence">No flight in this log.</h1>
        ${analysis.problems.map((each) => html`<p class="meaning">${problemSentence(each)}</p>`)}
      </div>`;
    }
    if (!this.event) return html`<p class="opening" role="status">Measuring the flight</p>`;
    return html`<wr-debrief-sheet
      .event=${this.event}
      .state=${this.state}
      .logId=${chosen.logId}
      .flight=${chosen.flight}
      .flights=${analysis?.flights.length ?? 1}
      .problems=${[...recordedTwiceNotes(this.state, chosen.logId), ...(analysis?.problems ?? [])]}
    ></wr-debrief-sheet>`;
  }

  #failed(): TemplateResult {
    return html`<div class="page">
      <h1 class="sentence">This flight cannot be shown.</h1>
      ${this.problems.map((each) => html`<p class="meaning">${problemSentence(each)}</p>`)}
      <p><a href=${routeHash('logbook')}>To the logbook</a></p>
    </div>`;
  }

  /** The event of the address; without one, the newest flight. */
  #chosen(): Chosen | null {
    const [logId, flight, key] = [0, 1, 2].map((place) => this.args.at(place));
    if (logId !== undefined) {
      const index = Number(flight ?? 0);
      return { logId, flight: Number.isInteger(index) && index >= 0 ? index : 0, key: key ?? null };
    }
    const flights = loggedFlights(this.state).filter(({ summary }) => summary.events.length > 0);
    const newest = flights.reduce<(typeof flights)[number] | null>(
      (best, each) => (best && best.summary.startS >= each.summary.startS ? best : each),
      null,
    );
    return newest ? { logId: newest.id, flight: newest.flightIndex, key: null } : null;
  }

  async #ask(): Promise<void> {
    const chosen = this.#chosen();
    if (!chosen || !this.store) return;
    const analysis = this.state.analyses.get(chosen.logId);
    if (!analysis || analysis.flights.length === 0) return;
    const units = pilotUnits(this.state);
    const ownRollFactor = this.#ownRollFactor(chosen);
    // The analysis itself is part of the question: a changed strip or wind makes a new one.
    const question = JSON.stringify([chosen, units, ownRollFactor, versionOf(analysis)]);
    if (question === this.#asked) return;
    this.#asked = question;
    const answer = await this.store.event({ ...chosen, options: { units, ownRollFactor } });
    // A slow answer to an older question must not overwrite a newer one.
    if (question !== this.#asked) return;
    this.event = answer.ok ? answer.value : null;
    this.problems = answer.ok ? [] : answer.problems;
  }

  /** The own factor of the roll in the aeroplane flown, on the ground of that day; null: too few, or not known which. */
  #ownRollFactor({ logId, flight }: Chosen): number | null {
    const summary = this.state.analyses.get(logId)?.flights[flight];
    if (!summary || isUndetermined(summary.aeroplane)) return null;
    const { id } = summary.aeroplane;
    const own = ownFactorsOf(loggedFlights(this.state)).find(({ aeroplane }) => aeroplane === id);
    const roll = own && factorOn(own, 'landing-roll', surfaceClass(summary.surface));
    // All events of a flight are expected with one set.
    const set = summary.events.at(0)?.roll.factorSet?.id ?? PUBLISHED_SETS[0].id;
    return roll ? factorWith(roll, set) : null;
  }
}

/** A number that differs for every analysis of a log. */
const versions = new WeakMap<object, number>();
let lastVersion = 0;
function versionOf(analysis: object): number {
  const known = versions.get(analysis);
  if (known !== undefined) return known;
  versions.set(analysis, ++lastVersion);
  return lastVersion;
}

const NOTHING_YET = html`<div class="page">
  <h1 class="sentence">No flight to debrief yet.</h1>
  <p class="meaning"><a href=${routeHash('logbook')}>Bring a log in the logbook.</a></p>
</div>`;

const NO_SUCH = html`<div class="page">
  <h1 class="sentence">There is no such flight.</h1>
  <p class="meaning">It may have been removed, or the address was cut short.</p>
  <p><a href=${routeHash('logbook')}>To the logbook</a></p>
</div>`;

customElements.define('wr-debrief-page', DebriefPage);
