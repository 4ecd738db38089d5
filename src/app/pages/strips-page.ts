/**
 * The room of strips: all of them at one scale, or one to look at and change.
 *
 * Properties: `state`, `args` (none: the list; `new`: a blank form, or with two ends `lat,lon` one that
 * begins there; else the id of a strip). Events:
 * `wr-action` only.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { sendAction, type AppState } from '../app-state.ts';
import { fileButton } from '../components/file-button.ts';
import { problemList } from '../components/problem-list.ts';
import { stripRow } from '../components/strip-row.ts';
import '../components/strip-form.ts';
import '../components/surround-list.ts';
import {
  listStrips,
  namedStrip,
  stripsSentence,
  type StripList,
  type StripRow,
} from '../entry/strip-list.ts';
import {
  aroundWords,
  directionWords,
  groundWords,
  lengthWords,
  stripSentence,
} from '../entry/strip-words.ts';
import { draftFromEnds } from '../entry/strip-draft.ts';
import { featuresOf, MOST_FILE_BYTES, stripsFileText, tooLarge } from '../entry/strips-file.ts';
import type { RefusedFile } from '../document-file.ts';
import { routeHash } from '../route.ts';

/** `<wr-strips-page>` */
export class StripsPage extends LitElement {
  static override properties = {
    state: { attribute: false },
    args: { attribute: false },
    refused: { state: true },
  };
  declare state: AppState;
  declare args: readonly string[];
  declare refused: RefusedFile | null;

  constructor() {
    super();
    this.args = [];
    this.refused = null;
  }

  protected override createRenderRoot(): this {
    return this;
  }

  protected override render(): TemplateResult {
    const list = listStrips(this.state.strips, this.state.nowS);
    const id = this.args.at(0);
    if (id === undefined) return this.#list(list);
    const row = list.strips.find((each) => each.id === id) ?? null;
    if (id !== 'new' && row === null) return this.#unknown(id);
    return this.#one(row, list);
  }

  #list(list: StripList): TemplateResult {
    const { units } = this.state.settings;
    const empty = html`<p class="meaning">
      Bring a GeoJSON file, enter one by hand, or keep the place of a landing from its debrief.
    </p>`;
    return html`<div class="page">
      <p class="kicker">Strips</p>
      <h1 class="sentence">${stripsSentence(list, (metres) => lengthWords(metres, units))}</h1>
      ${list.strips.length === 0 ? empty : nothing}
      <div class="form-buttons toolbar">
        <a class="button" href=${routeHash('strips', 'new')}>Enter a strip</a>
        ${fileButton({
          words: 'Take in a strips file',
          accept: '.geojson,.json,application/geo+json,application/json',
          onFile: (file) => void this.#import(file),
        })}
        ${
          this.state.strips.length === 0
            ? nothing
            : html`<button type="button" class="button-quiet" @click=${this.#export}>
                Save all as a GeoJSON file
              </button>`
        }
      </div>
      ${this.refused ? problemList(this.refused.fileName, this.refused.problems) : nothing}
      ${
        list.strips.length === 0
          ? nothing
          : html`<h2 class="section-head">Shortest first <span class="note">one scale</span></h2>
              <ul class="rows">
                ${list.strips.map((row) => stripRow(row, list.longestM, units))}
              </ul>`
      }
      ${
        list.others.length === 0
          ? nothing
          : html`<h2 class="section-head">
                Far from any strip
                <span class="note">kept, and used where a flight comes near</span>
              </h2>
              <wr-surround-list .rows=${list.others} .units=${units}></wr-surround-list>`
      }
    </div>`;
  }

  #one(row: StripRow | null, list: StripList): TemplateResult {
    const { units, timeZone } = this.state.settings;
    const otherIds = list.strips.map(({ id }) => id).filter((id) => id !== row?.id);
    return html`<div class="page" @wr-saved=${this.#saved}>
      <p class="kicker"><a href="#/strips">Strips</a></p>
      <h1 class="sentence">${stripSentence(row, units)}</h1>
      ${
        row?.strip
          ? html`<p class="meaning">
              ${directionWords(row.strip)}; ${groundWords(row.strip, units)}.
              ${
                row.record.versions.length > 1
                  ? `It lay elsewhere before: ${row.record.versions.length} lines are kept.`
                  : nothing
              }
            </p>`
          : nothing
      }
      ${row && row.fault !== '' ? html`<p class="row-caution">cannot be used: ${row.fault}</p>` : nothing}
      <wr-strip-form
        .version=${row?.version ?? null}
        .draft=${row ? null : draftFromEnds(this.args.slice(1))}
        .otherIds=${otherIds}
        .units=${units}
        .timeZone=${timeZone}
        .lengthM=${row?.lengthM ?? null}
      ></wr-strip-form>
      ${row ? this.#around(row) : nothing}
    </div>`;
  }

  #around(row: StripRow): TemplateResult {
    const own = row.around.filter((each) => namedStrip(each) === row.id);
    const more = own.length === 0 ? '' : ` with ${aroundWords(own)}`;
    return html`<h2 class="section-head">
        Around it <span class="note">obstacles, areas to avoid, paths</span>
      </h2>
      <wr-surround-list .rows=${row.around} .units=${this.state.settings.units}></wr-surround-list>
      <div class="form-buttons toolbar">
        <button
          type="button"
          class="button button-outlined"
          @click=${() => {
            const records = [row.record, ...own.map(({ record }) => record)];
            const keys = records.map(({ kind, id }) => ({ kind, id }));
            sendAction(this, { type: 'remove', keys, words: row.name + more });
            location.hash = routeHash('strips');
          }}
        >
          Remove ${row.name}${more}
        </button>
      </div>`;
  }

  #unknown(id: string): TemplateResult {
    return html`<div class="page">
      <p class="kicker"><a href="#/strips">Strips</a></p>
      <h1 class="sentence">There is no strip called ${id}.</h1>
      <p class="meaning">It may have been removed, or the address was cut short.</p>
    </div>`;
  }

  async #import(file: File): Promise<void> {
    this.refused = null;
    const read = file.size > MOST_FILE_BYTES ? tooLarge(file.size) : featuresOf(await file.text());
    if (!read.ok) {
      this.refused = { fileName: file.name, problems: read.problems };
      return;
    }
    const features = read.value.map((feature) => ({ feature, recordId: null }));
    sendAction(this, { type: 'save-features', features, fromS: null, words: file.name });
    if (read.problems.length > 0) this.refused = { fileName: file.name, problems: read.problems };
  }

  readonly #export = (): void => {
    sendAction(this, {
      type: 'download',
      fileName: 'strips.geojson',
      mediaType: 'application/geo+json',
      text: stripsFileText(this.state.strips, this.state.nowS),
    });
  };

  readonly #saved = (event: CustomEvent<string>): void => {
    if ((event.target as HTMLElement).localName !== 'wr-strip-form') return;
    // A place kept from a landing: back to that landing, which is now measured at a strip.
    if (this.args.length > 1) history.back();
    else location.hash = routeHash('strips');
  };
}

customElements.define('wr-strips-page', StripsPage);

declare global {
  interface HTMLElementTagNameMap {
    'wr-strips-page': StripsPage;
  }
}
