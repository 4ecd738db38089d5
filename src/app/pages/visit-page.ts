/**
 * `<wr-visit-page>`: predict one visit, in and out; keep it; look at one that was kept.
 *
 * Properties: `state`, `args` (none: the visit being planned; else the id of a kept one). Sends
 * `draft-visit`, `save-visit` and `remove`.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { entryId, type VisitRecord } from '../../logbook/entry.ts';
import { planVisit, plannedMomentS } from '../../logbook/planned-visit.ts';
import { clockText, isoDay, longDay, zoneWords } from '../../report/local-time.ts';
import type { VisitStory } from '../../report/story/visit-story.ts';
import { lastTimeHere } from '../../report/story/last-time-here.ts';
import { listWords } from '../../report/story/visit-missing.ts';
import { firstClick } from '../components/first-click.ts';
import { sendAction, type AppState, type VisitDraft } from '../app-state.ts';
import { sensitivityPart } from '../components/sensitivity-part.ts';
import { visitList, type VisitLine } from '../components/visit-list.ts';
import '../components/visit-setup.ts';
import { missingPart, visitSheet } from '../components/visit-sheet.ts';
import { aeroplaneName } from '../entry/flap-choices.ts';
import { bookOf, storyOfKept } from '../entry/kept-visit.ts';
import { factorSetName, readFactorSets } from '../entry/own-factor-sets.ts';
import { planFromDraft, type VisitPlan } from '../entry/visit-plan.ts';
import { loggedFlights, pilotUnits } from '../logged-flights.ts';
import { routeHash } from '../route.ts';

/** See the file's head. */
export class VisitPage extends LitElement {
  static override properties = {
    state: { attribute: false },
    args: { attribute: false },
    isOpen: { state: true },
  };
  declare state: AppState;
  declare args: readonly string[];
  /** True where the form is open over a prediction that stands. */
  declare isOpen: boolean;
  /** What was worked out last, and of what: the room is drawn again at every change of the state. */
  #worked: { readonly of: readonly unknown[]; readonly plan: VisitPlan } | null = null;

  constructor() {
    super();
    this.args = [];
    this.isOpen = false;
  }

  override createRenderRoot(): this {
    return this;
  }

  override render(): TemplateResult {
    const id = this.args.at(0);
    if (id === undefined) return this.#plan();
    const visit = this.state.visits.find((each) => each.id === id);
    return visit ? this.#kept(visit) : UNKNOWN;
  }

  #plan(): TemplateResult {
    const draft = this.#draft();
    const plan = this.#planOf(draft);
    const { story, strip } = plan;
    if (!story) {
      return html`<div class="page">
        <p class="kicker">Visit</p>
        <h1 class="sentence">How much of the strip, in and out?</h1>
        <p class="meaning">Nothing is assumed: calm and dry have to be said like anything else.</p>
        ${missingPart(listWords(plan.missing))} ${this.#setup(draft)} ${this.#list()}
      </div>`;
    }
    return html`${visitSheet({
        story,
        kicker: `${strip?.name ?? ''}, ${this.#day(plannedMomentS(draft.day))}, in ${this.#name(draft.aeroplaneId)}`,
        factors: this.#factors(story),
        last: this.#last(draft.stripId, plannedMomentS(draft.day)),
        blockFoot: html`<p class="block-foot">
          <button
            class="link-button"
            aria-expanded=${this.isOpen}
            @click=${() => (this.isOpen = !this.isOpen)}
          >
            ${this.isOpen ? 'Close the form' : 'Change'}
          </button>
        </p>`,
        below: html`${this.isOpen ? this.#setup(draft) : nothing} ${this.#keeping(draft, plan)}`,
        length: plan.length,
        aside: sensitivityPart(plan.sensitivity),
      })}
      <div class="page">${this.#list()}</div>`;
  }

  #planOf(draft: VisitDraft): VisitPlan {
    const { analyses, strips, aeroplanes, visits, factorSets, settings } = this.state;
    const of = [draft, analyses, strips, aeroplanes, visits, factorSets, settings];
    if (this.#worked?.of.every((each, k) => each === of[k])) return this.#worked.plan;
    const plan = planFromDraft(this.state, draft);
    this.#worked = { of, plan };
    return plan;
  }

  #kept(visit: VisitRecord): TemplateResult {
    const story = storyOfKept(this.state, visit);
    const frozen = visit.predictions.at(-1);
    const keptS = frozen?.savedS ?? visit.changedS;
    const { timeZone } = this.state.settings;
    const words = `${this.#place(visit)}, ${this.#visitDay(visit)}`;
    const below = html`<div class="form-buttons toolbar">
      <a href=${routeHash('visit')}>Plan another visit</a>
      ${
        visit.logId === null
          ? nothing
          : html`<a href=${routeHash('debrief', visit.logId)}>Its debrief</a>`
      }
      <button class="button-quiet" @click=${() => this.#remove(visit, words)}>
        Remove this visit
      </button>
    </div>`;
    if (!story) {
      return html`<div class="page">
        <h1 class="sentence">This prediction cannot be shown.</h1>
        <p class="meaning">
          Its strip is not in the logbook any more, or the prediction was damaged.
        </p>
        ${below}
      </div>`;
    }
    return visitSheet({
      story,
      kicker: `${words}, in ${this.#name(visit.aeroplaneId)}, frozen ${longDay(keptS, timeZone)} ${clockText(keptS, timeZone)} ${zoneWords(timeZone)}`,
      factors: this.#factors(story),
      last: this.#last(frozen?.stripId ?? null, visit.plannedForS ?? keptS),
      blockFoot: html`<p class="block-foot">as it stood when it was kept</p>`,
      below,
      length: null,
      aside: nothing,
    });
  }

  #setup(draft: VisitDraft): TemplateResult {
    return html`<wr-visit-setup
      .draft=${draft}
      .strips=${bookOf(this.state, plannedMomentS(draft.day)).strips}
      .state=${this.state}
      @wr-visit-draft=${(event: CustomEvent<VisitDraft>) => {
        // The form closes over a new prediction, and stays while only the strip changes.
        if (event.detail.conditions !== draft.conditions) this.isOpen = false;
        sendAction(this, { type: 'draft-visit', draft: event.detail });
      }}
      @wr-cancel=${() => (this.isOpen = false)}
    ></wr-visit-setup>`;
  }

  #keeping(draft: VisitDraft, plan: VisitPlan): TemplateResult | typeof nothing {
    if (plan.frozen.length === 0 || this.isOpen) return nothing;
    return html`<div class="form-buttons toolbar">
      <button class="button" @click=${firstClick(() => this.#keep(draft, plan))}>
        Keep this prediction
      </button>
      <span class="form-note">
        It is frozen as it stands, and set beside the landing when its log is there.
      </span>
    </div>`;
  }

  #keep(draft: VisitDraft, { frozen }: VisitPlan): void {
    const { nowS } = this.state;
    const [first] = frozen;
    const id = entryId('visit', `planned-${crypto.randomUUID()}`);
    const visit = planVisit(
      id,
      {
        isoDay: draft.day,
        aeroplaneId: first.aeroplaneId,
        conditions: first.conditions,
        predictions: frozen.map((each) => ({ ...each, savedS: nowS })),
      },
      { nowS, demo: false },
    );
    const words = 'The prediction was kept: it stands below.';
    sendAction(this, { type: 'save-visit', visit, words });
  }

  #remove(visit: VisitRecord, words: string): void {
    sendAction(this, { type: 'remove', keys: [{ kind: 'visit', id: visit.id }], words });
    location.hash = routeHash('visit');
  }

  #list(): TemplateResult | typeof nothing {
    const kept = this.state.visits.filter(({ predictions }) => predictions.length > 0);
    const newest = kept.toSorted((a, b) => (b.plannedForS ?? 0) - (a.plannedForS ?? 0));
    return visitList(
      newest.map((visit): VisitLine => ({
        id: visit.id,
        day: this.#visitDay(visit),
        place: this.#place(visit),
        sentence: storyOfKept(this.state, visit)?.sentence ?? 'cannot be shown',
        logId: visit.logId,
      })),
    );
  }

  #draft(): VisitDraft {
    const { visitDraft, nowS, settings } = this.state;
    return visitDraft ?? { ...NOTHING_CHOSEN, day: isoDay(nowS, settings.timeZone) };
  }

  #place({ predictions, plannedForS, changedS }: VisitRecord): string {
    const stripId = predictions.at(-1)?.stripId;
    const { strips } = bookOf(this.state, plannedForS ?? changedS);
    return strips.find(({ id }) => id === stripId)?.name ?? stripId ?? '';
  }

  #visitDay({ plannedForS, changedS }: VisitRecord): string {
    return this.#day(plannedForS ?? changedS);
  }

  /** A planned day is written down at its noon UTC: the same day in words. */
  #day(timeS: number): string {
    return longDay(timeS);
  }

  #name(aeroplaneId: string | null): string {
    const record = this.state.aeroplanes.find(({ id }) => id === aeroplaneId);
    return record ? aeroplaneName(record) : (aeroplaneId ?? '');
  }

  #factors({ factorSet }: VisitStory): string {
    return factorSet === null
      ? ''
      : factorSetName(factorSet, readFactorSets(this.state.factorSets));
  }

  #last(stripId: string | null, beforeS: number) {
    if (stripId === null) return null;
    const { state } = this;
    return lastTimeHere(loggedFlights(state), state.visits, stripId, beforeS, pilotUnits(state));
  }
}

const NOTHING_CHOSEN: Omit<VisitDraft, 'day'> = {
  stripId: null,
  landing: null,
  takeOff: null,
  aeroplaneId: null,
  conditions: null,
  factorSet: null,
};

const UNKNOWN = html`<div class="page">
  <h1 class="sentence">There is no such visit.</h1>
  <p class="meaning">It may have been removed, or the address was cut short.</p>
  <p><a href=${routeHash('visit')}>Plan a visit</a></p>
</div>`;

customElements.define('wr-visit-page', VisitPage);
