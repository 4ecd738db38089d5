/**
 * `<wr-landing-list>`: every landing and pass of the logbook, all strips to one scale.
 *
 * Properties: `picture`, `otherLogs` as in the state. Sorting and filtering are the list's own. Sends `remove` for a whole log.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { BarRow, LandingBarsPicture } from '../../report/pictures/landing-bars-picture.ts';
import { entryId } from '../../logbook/entry.ts';
import { sendAction, type AppState } from '../app-state.ts';
import { PaperController } from '../controllers/paper-controller.ts';
import { WidthController } from '../controllers/width-controller.ts';
import { drawingSvg } from '../drawings/drawing.ts';
import { landingBar } from '../drawings/landing-bar.ts';
import { flightRemovedWords } from '../other-logs.ts';
import { routeHash } from '../route.ts';
import { firstClick } from './first-click.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-landing-list': LandingList;
  }
}

type Column = 'timeS' | 'stripName' | 'rollM' | 'leftM' | 'ratioValue';
const COLUMNS: readonly { readonly by: Column; readonly name: string }[] = [
  { by: 'timeS', name: 'Day' },
  { by: 'stripName', name: 'Strip' },
  { by: 'rollM', name: 'roll' },
  { by: 'leftM', name: 'left' },
  { by: 'ratioValue', name: 'ratio' },
];
/** Rows shown before the pilot asks for all of them. */
const FIRST_ROWS = 24;
/** Narrower lists set their rows in two lines, as the style sheet does, CSS pixels. */
const NARROW_PX = 690;
/** What the columns beside the bar need, CSS pixels. */
const BESIDE_PX = 490;

/** See the file's head. */
export class LandingList extends LitElement {
  static override properties = {
    picture: { attribute: false },
    otherLogs: { attribute: false },
    sortBy: { state: true },
    isRising: { state: true },
    strip: { state: true },
    isAll: { state: true },
  };
  declare picture: LandingBarsPicture | null;
  declare otherLogs: AppState['otherLogs'];
  declare sortBy: Column;
  declare isRising: boolean;
  declare strip: string;
  declare isAll: boolean;
  readonly #width = new WidthController(this);
  readonly #paper = new PaperController(this);

  constructor() {
    super();
    this.picture = null;
    this.otherLogs = new Map();
    this.sortBy = 'timeS';
    this.isRising = false;
    this.strip = '';
    this.isAll = false;
  }

  override createRenderRoot(): this {
    return this;
  }

  override render(): TemplateResult | typeof nothing {
    const { picture } = this;
    if (!picture) return nothing;
    const found = picture.bars.filter(
      ({ stripName }) => this.strip === '' || stripName === this.strip,
    );
    const sorted = found.toSorted((a, b) => this.#compare(a, b));
    // Paper cannot be asked for more.
    const isAll = this.isAll || this.#paper.isOnPaper;
    const rows = isAll ? sorted : sorted.slice(0, FIRST_ROWS);
    return html`
      ${this.#filter(picture.bars)}
      ${this.strip === '' ? nothing : html`<p class="quiet paper-only">${this.strip} alone.</p>`}
      <table role="table" class="landings">
        <caption class="visually-hidden">
          ${picture.spoken}
        </caption>
        <thead role="rowgroup">
          <tr role="row">
            ${COLUMNS.slice(0, 2).map((column) => this.#heading(column))}
            <th role="columnheader" class="bar-cell" scope="col">Touchdown to stop</th>
            ${COLUMNS.slice(2).map((column) => this.#heading(column))}
            <th role="columnheader" scope="col"><span class="visually-hidden">Remove</span></th>
          </tr>
        </thead>
        <tbody role="rowgroup">
          ${rows.map((bar) => this.#row(bar, picture.longestM))}
        </tbody>
      </table>
      ${
        rows.length === sorted.length
          ? nothing
          : html`<button class="button-quiet show-all" @click=${() => (this.isAll = true)}>
              Show all ${sorted.length}
            </button>`
      }
    `;
  }

  #compare(a: BarRow, b: BarRow): number {
    const [x, y] = [a[this.sortBy], b[this.sortBy]];
    // What is not known stands last, whichever way the list runs.
    if (x === null || y === null) return Number(x === null) - Number(y === null);
    const order = typeof x === 'string' ? x.localeCompare(String(y)) : x - Number(y);
    return (this.isRising ? order : -order) || b.timeS - a.timeS;
  }

  #filter(bars: readonly BarRow[]): TemplateResult | typeof nothing {
    const names = [...new Set(bars.map(({ stripName }) => stripName))].sort();
    if (names.length < 2) return nothing;
    return html`<label class="list-filter">
      <span>Strip</span>
      <select
        aria-label="Strip"
        @change=${(event: Event) => (this.strip = (event.target as HTMLSelectElement).value)}
      >
        <option value="" ?selected=${this.strip === ''}>all strips</option>
        ${names.map((name) => html`<option ?selected=${name === this.strip}>${name}</option>`)}
      </select>
    </label>`;
  }

  #heading({ by, name }: (typeof COLUMNS)[number]): TemplateResult {
    const sort = by !== this.sortBy ? 'none' : this.isRising ? 'ascending' : 'descending';
    const isFigure = by === 'rollM' || by === 'leftM' || by === 'ratioValue';
    return html`<th
      role="columnheader"
      scope="col"
      class=${isFigure ? 'figure-cell' : ''}
      aria-sort=${sort}
    >
      ${
        this.#paper.isOnPaper
          ? name
          : html`<button class="sort" @click=${() => this.#sort(by)}>${name}</button>`
      }
    </th>`;
  }

  #sort(by: Column): void {
    this.isRising = this.sortBy === by ? !this.isRising : by === 'stripName';
    this.sortBy = by;
  }

  #row(bar: BarRow, longestM: number): TemplateResult {
    const { logId, flightIndex, key, stripName, designator } = bar;
    const width = this.#width.widthPx;
    const barPx = width < NARROW_PX ? width : Math.min(Math.round(0.4 * width), width - BESIDE_PX);
    return html`<tr role="row">
      <td role="cell" class="day-cell">
        <a href=${routeHash('debrief', logId, flightIndex, key)}
          >${bar.day} <span class="clock">${bar.year} ${bar.clock}</span
          ><span class="visually-hidden"> debrief: ${bar.spoken}</span></a
        >
      </td>
      <td role="cell" class="strip-cell"><i>${stripName}</i> ${designator ?? ''}</td>
      <td role="cell" class="bar-cell">
        ${width === 0 ? nothing : drawingSvg(landingBar(bar, longestM, barPx), bar.spoken)}
      </td>
      ${
        bar.words === null
          ? html`${figureCell('roll', bar.roll, true)} ${figureCell('left', bar.left)}
            ${ratioCell(bar)}`
          : html`<td role="cell" class="words-cell" colspan="3">
              ${bar.isUndetermined ? html`<i class="undetermined">· · · ${bar.words}</i>` : bar.words}
            </td>`
      }
      <td role="cell" class="remove-cell">
        <button
          class="button-quiet"
          aria-label=${`Remove the flight of ${bar.day} ${bar.clock}`}
          @click=${firstClick(() => this.#remove(bar))}
        >
          remove
        </button>
      </td>
    </tr>`;
  }

  #remove({ logId, day, year }: BarRow): void {
    sendAction(this, {
      type: 'remove',
      keys: [{ kind: 'log', id: entryId('log', logId) }],
      words: flightRemovedWords(this, logId, `${day} ${year}`),
    });
  }
}

/** A figure with its name, which a phone shows before it; empty where there is none. */
/** Heads say `ratio`; on a phone each figure has its name, and that of whole distances is its own. */
function ratioCell({ ratio, ratioOf }: BarRow): TemplateResult {
  if (ratio === null || ratioOf === 'roll') return figureCell('ratio', ratio);
  return html`<td role="cell" class="figure-cell" data-label="whole">
    ${ratio} <span class="ratio-of">whole</span>
  </td>`;
}

function figureCell(name: string, figure: string | null, isBold = false): TemplateResult {
  return html`<td role="cell" class="figure-cell" data-label=${figure === null ? nothing : name}>
    ${isBold ? html`<b>${figure}</b>` : figure}
  </td>`;
}

customElements.define('wr-landing-list', LandingList);
