/**
 * `<wr-factor-page>`: the own factor of one aeroplane and one distance.
 *
 * Properties: `state`, `args` (aeroplane, distance). Choosing changes the address.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { OwnFactor, TooFew } from '../../calibration/calibrate.ts';
import { COMPARED_QUANTITIES, factorOn, type AeroplaneFactors } from '../../debrief/own-factors.ts';
import type { SurfaceClass } from '../../calibration/surface-class.ts';
import {
  factorBasis,
  factorCaution,
  factorLeansOn,
  factorMeaning,
  factorRestsOn,
  factorRows,
  factorSentence,
  LEANING_CAUTION,
  SURFACE_WORDS,
  QUANTITY_WORDS,
} from '../../report/factor-words.ts';
import { ownFactorsOf } from '../../report/logged-factors.ts';
import { factorEntries, otherGroups } from '../../report/pictures/factor-entries.ts';
import { factorPicture, type FactorEntry } from '../../report/pictures/factor-picture.ts';
import { individualsPicture } from '../../report/pictures/individuals-picture.ts';
import { isUndetermined } from '../../result.ts';
import type { AppState } from '../app-state.ts';
import { cautionMark } from '../components/caution-mark.ts';
import { figureCell } from '../components/debrief-tables.ts';
import { lengthPart, touchdownPart } from '../components/factor-places.ts';
import '../components/measured-figure.ts';
import { PaperController } from '../controllers/paper-controller.ts';
import { individualsChart } from '../drawings/individuals-chart.ts';
import { ratioTape } from '../drawings/ratio-tape.ts';
import { loggedFlights } from '../logged-flights.ts';
import { routeHash } from '../route.ts';

/** See the file's head. */
export class FactorPage extends LitElement {
  static override properties = { state: { attribute: false }, args: { attribute: false } };
  declare state: AppState;
  declare args: readonly string[];
  readonly #paper = new PaperController(this);
  #isOpen = false;

  constructor() {
    super();
    this.args = [];
  }

  override createRenderRoot(): this {
    return this;
  }

  override render(): TemplateResult {
    const flights = loggedFlights(this.state);
    const all = ownFactorsOf(flights);
    const own = all.find(({ aeroplane }) => aeroplane === this.args[0]) ?? mostCounted(all);
    if (!own) return NOTHING_YET;
    const result = chosenFactor(own, this.args);
    const { quantity, surface } = result;
    const picture = factorPicture(
      factorEntries(flights, own.aeroplane, quantity, surface),
      result,
      this.state.settings.timeZone,
      otherGroups(flights, own.aeroplane, quantity, surface),
    );
    const inTheOrderFlown = factorEntries(flights, own.aeroplane, quantity);
    const caution = factorCaution(result);
    const basis = factorBasis(result.quantity);
    return html`<div class="page">
      <div class="opening-block">
        <div>
          <p class="kicker">
            ${own.name}, ${QUANTITY_WORDS[quantity]}, ${SURFACE_WORDS[surface]}, all strips
          </p>
          <h1 class="sentence">${factorSentence(result)}</h1>
          <p class="meaning">${factorMeaning(result)}</p>
        </div>
        ${choices(all, own, result)}
      </div>
      <div class="columns">
        <section>
          <h2 class="section-head">
            ${picture.title} <span class="note">log scale, bars hold 90 % of the error</span>
          </h2>
          <wr-figure
            .picture=${picture}
            .caption=${picture.title}
            .draw=${(widthPx: number) => ratioTape(picture, widthPx)}
          ></wr-figure>
        </section>
        <section>
          <div class="caution-block">
            ${cautionMark()}
            <p><strong>${caution.head}</strong> ${caution.text}</p>
          </div>
          ${basis === null ? nothing : html`<p class="quiet">${basis}</p>`}
          <h2 class="section-head">All four distances</h2>
          ${fourDistances(own, surface)} ${this.#howFound(result, own)}
        </section>
      </div>
      ${quantity.startsWith('landing') ? html`${touchdownPart(this.state, own.aeroplane)} ${lengthPart(this.state, own.aeroplane)}` : nothing}
      ${inOrder(inTheOrderFlown, this.state.settings.timeZone)}
    </div>`;
  }

  /** What speaks statistics: a press away, after the picture; open on paper, which cannot be pressed. */
  #howFound(result: OwnFactor | TooFew, own: AeroplaneFactors): TemplateResult {
    const restsOn = factorRestsOn(result);
    const leansOn = factorLeansOn(result);
    return html`<details
      class="fold bound-found"
      ?open=${this.#isOpen || this.#paper.isOnPaper}
      @toggle=${(event: Event) => {
        if (!this.#paper.isOnPaper) this.#isOpen = (event.currentTarget as HTMLDetailsElement).open;
      }}
    >
      <summary>How the bound was found${leansOn === null ? '' : ', and what it leans on'}</summary>
      ${restsOn === null ? nothing : html`<p>${restsOn}</p>`}
      ${leansOn === null ? nothing : html`<p>${leansOn} ${LEANING_CAUTION}</p>`}
      <p class="quiet">Every flight in this logbook counts as one pilot's.</p>
      ${rowsTable(result, own)}
    </details>`;
  }
}

/** That of the address: distance, then ground; without a ground the one where most count. */
function chosenFactor(own: AeroplaneFactors, args: readonly string[]): OwnFactor | TooFew {
  const quantity = COMPARED_QUANTITIES.find((each) => each === args[1]) ?? COMPARED_QUANTITIES[0];
  const surface = own.factors.find((each) => each.surface === args[2])?.surface ?? null;
  return factorOn(own, quantity, surface);
}

/** The aeroplane with the most landings that count. */
function mostCounted(all: readonly AeroplaneFactors[]): AeroplaneFactors | null {
  const counted = ({ factors }: AeroplaneFactors): number =>
    factors.reduce((sum, { counts }) => sum + counts.counted, 0);
  return all.reduce<AeroplaneFactors | null>(
    (best, each) => (best && counted(best) >= counted(each) ? best : each),
    null,
  );
}

function choices(
  all: readonly AeroplaneFactors[],
  own: AeroplaneFactors,
  { quantity, surface }: OwnFactor | TooFew,
): TemplateResult {
  const go = (aeroplane: string, which: string, ...ground: string[]): void => {
    location.hash = routeHash('factor', aeroplane, which, ...ground);
  };
  const grounds = [...new Set(own.factors.map((each) => each.surface))];
  const chosen = (event: Event): string => (event.target as HTMLSelectElement).value;
  return html`<div class="choices">
    <label
      ><span>Aeroplane</span>
      <select @change=${(event: Event) => go(chosen(event), quantity)}>
        ${all.map(
          ({ aeroplane, name }) =>
            html`<option value=${aeroplane} ?selected=${aeroplane === own.aeroplane}>
              ${name}
            </option>`,
        )}
      </select>
    </label>
    <label
      ><span>Distance</span>
      <select @change=${(event: Event) => go(own.aeroplane, chosen(event), surface)}>
        ${COMPARED_QUANTITIES.map(
          (each) =>
            html`<option value=${each} ?selected=${each === quantity}>
              ${QUANTITY_WORDS[each]}
            </option>`,
        )}
      </select>
    </label>
    ${
      grounds.length < 2
        ? nothing
        : html`<label
            ><span>Ground</span>
            <select @change=${(event: Event) => go(own.aeroplane, quantity, chosen(event))}>
              ${grounds.map(
                (each) =>
                  html`<option value=${each} ?selected=${each === surface}>
                    ${SURFACE_WORDS[each]}
                  </option>`,
              )}
            </select>
          </label>`
    }
  </div>`;
}

function fourDistances(own: AeroplaneFactors, surface: SurfaceClass): TemplateResult {
  return html`<table class="figures">
    <thead>
      <tr>
        <th scope="col">distance</th>
        <th scope="col">count</th>
        <th scope="col">own factor</th>
      </tr>
    </thead>
    <tbody>
      ${own.factors
        .filter((each) => each.surface === surface)
        .map(
          (each) =>
            html`<tr>
              <th scope="row">
                <a href=${routeHash('factor', own.aeroplane, each.quantity, surface)}
                  >${QUANTITY_WORDS[each.quantity]}</a
                >
              </th>
              <td>${each.counts.counted}</td>
              <td>
                ${
                  each.kind === 'own-factor'
                    ? html`<b>${each.factor.toFixed(2)}</b>`
                    : html`<i class="undetermined">· · · too few</i>`
                }
              </td>
            </tr>`,
        )}
    </tbody>
  </table>`;
}

function rowsTable(result: OwnFactor | TooFew, { goArounds }: AeroplaneFactors): TemplateResult {
  return html`<table class="figures">
    <tbody>
      ${factorRows(result, goArounds).map(
        ({ label, figure }) =>
          html`<tr>
            <th scope="row">${label}</th>
            <td>${figureCell(figure)}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
}

function inOrder(entries: readonly FactorEntry[], timeZone: string): TemplateResult {
  const picture = individualsPicture(entries, timeZone);
  if (isUndetermined(picture)) {
    return html`<h2 class="section-head">
        In the order flown <span class="note">all ground</span>
      </h2>
      <p class="undetermined">· · · ${picture.undetermined}</p>`;
  }
  return html`<h2 class="section-head">
      In the order flown <span class="note">ratios on all ground, newest right</span>
    </h2>
    <p class="meaning">${capital(picture.verdict)}.</p>
    <wr-figure
      .picture=${picture}
      .caption=${'In the order flown'}
      .draw=${(widthPx: number) => individualsChart(picture, widthPx)}
    ></wr-figure>`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const NOTHING_YET = html`<div class="page">
  <h1 class="sentence">No factor of your own yet.</h1>
  <p class="meaning">
    It needs landings with an aeroplane and the day's conditions:
    <a href=${routeHash('logbook')}>bring logs</a>, then enter wind, mass and surface in their
    debriefs.
  </p>
</div>`;

customElements.define('wr-factor-page', FactorPage);
