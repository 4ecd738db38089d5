/**
 * The room of aeroplanes: all of them, or one to look at and change.
 *
 * Properties: `state`, `args` (none: the list; `new`: a blank form; else an id). Events: `wr-action`.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { AeroplaneRecord, ShownUnits } from '../../logbook/entry.ts';
import type { Aeroplane, HandbookQuantity } from '../../performance/aeroplane.ts';
import { decodeAeroplane } from '../../performance/decode-aeroplane.ts';
import { sendAction, type AppState } from '../app-state.ts';
import { readDocumentFile, type RefusedFile } from '../document-file.ts';
import '../components/aeroplane-form.ts';
import { cautionMark } from '../components/caution-mark.ts';
import { fileButton } from '../components/file-button.ts';
import { HANDBOOK_WORDS } from '../components/handbook-parts.ts';
import { problemList } from '../components/problem-list.ts';
import { massUnit, showQuantity, speedUnit } from '../entry/shown-unit.ts';
import { routeHash } from '../route.ts';

/** `<wr-aeroplanes-page>` */
export class AeroplanesPage extends LitElement {
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
    const id = this.args.at(0);
    if (id === undefined) return this.#list();
    const record = this.state.aeroplanes.find((each) => each.id === id) ?? null;
    if (id !== 'new' && record === null) {
      return html`<div class="page">
        <p class="kicker"><a href="#/aeroplanes">Aeroplanes</a></p>
        <h1 class="sentence">There is no aeroplane called ${id}.</h1>
        <p class="meaning">It may have been removed, or the address was cut short.</p>
      </div>`;
    }
    return this.#one(record);
  }

  #list(): TemplateResult {
    const { aeroplanes, settings } = this.state;
    return html`<div class="page">
      <p class="kicker">Aeroplanes</p>
      <h1 class="sentence">${sentenceOf(aeroplanes.length)}</h1>
      ${aeroplanes.length === 0 ? html`<p class="meaning">Enter one from its handbook: without it nothing is expected or planned.</p>` : nothing}
      <div class="form-buttons toolbar">
        <a class="button" href=${routeHash('aeroplanes', 'new')}>Enter an aeroplane</a>
        ${fileButton({
          words: 'Take in an aeroplane file',
          accept: '.json,application/json',
          onFile: (file) => void this.#import(file),
        })}
      </div>
      ${this.refused ? problemList(this.refused.fileName, this.refused.problems) : nothing}
      <ul class="rows">
        ${aeroplanes.map((record) => this.#row(record, settings.units))}
      </ul>
      ${CAUTION}
    </div>`;
  }

  #row(record: AeroplaneRecord, units: ShownUnits): TemplateResult {
    const read = decodeAeroplane(JSON.stringify(record.document));
    const name = read.ok ? read.value.name : record.id;
    return html`<li class="plane-row">
      <a class="row-name" href=${routeHash('aeroplanes', record.id)}>${name}</a>
      ${
        read.ok
          ? html`<span class="row-note">${planeWords(read.value, units)}</span>
              <span class="row-note">${tableWords(read.value)}</span>`
          : html`<span class="row-caution">cannot be used: ${read.problems[0].message}</span>`
      }
    </li>`;
  }

  #one(record: AeroplaneRecord | null): TemplateResult {
    const { aeroplanes, settings } = this.state;
    const read = record ? decodeAeroplane(JSON.stringify(record.document)) : null;
    const name = read?.ok ? read.value.name : (record?.id ?? '');
    const otherIds = aeroplanes.map(({ id }) => id as string).filter((id) => id !== record?.id);
    return html`<div class="page" @wr-saved=${() => (location.hash = routeHash('aeroplanes'))}>
      <p class="kicker"><a href="#/aeroplanes">Aeroplanes</a></p>
      <h1 class="sentence">${record ? `${name}.` : 'A new aeroplane.'}</h1>
      ${read?.ok && read.value.invented ? html`<p class="meaning">Invented for the demonstration: no such aeroplane exists.</p>` : nothing}
      ${CAUTION}
      <wr-aeroplane-form
        .document=${record?.document ?? null}
        .otherIds=${otherIds}
        .units=${settings.units}
      ></wr-aeroplane-form>
      ${record ? this.#recordButtons(record, name) : nothing}
    </div>`;
  }

  #recordButtons(record: AeroplaneRecord, name: string): TemplateResult {
    const { kind, id, document } = record;
    return html`<div class="form-buttons toolbar">
      <button
        type="button"
        class="button-quiet"
        @click=${() =>
          sendAction(this, {
            type: 'download',
            fileName: `${id}.json`,
            mediaType: 'application/json',
            text: `${JSON.stringify(document, null, 2)}\n`,
          })}
      >
        Save as a file
      </button>
      <button
        type="button"
        class="button-quiet"
        @click=${() => {
          sendAction(this, { type: 'remove', keys: [{ kind, id }], words: name });
          location.hash = routeHash('aeroplanes');
        }}
      >
        Remove ${name}
      </button>
    </div>`;
  }

  async #import(file: File): Promise<void> {
    const { document, refused } = await readDocumentFile<AeroplaneRecord['document']>(
      file,
      'aeroplane-file',
      decodeAeroplane,
    );
    this.refused = refused;
    if (document) sendAction(this, { type: 'save-aeroplane', document });
  }
}

const CAUTION = html`<div class="caution-block">
  ${cautionMark()}
  <p>
    <strong>The approved flight manual decides.</strong> Type its figures, not those of another
    aeroplane of the type. Windrow checks no figure against it.
  </p>
</div>`;

function sentenceOf(count: number): string {
  if (count === 0) return 'No aeroplanes yet.';
  return count === 1 ? 'One aeroplane.' : `${count} aeroplanes.`;
}

function planeWords({ massKg, speeds, gear, brakes }: Aeroplane, units: ShownUnits): string {
  const mass = massUnit(units);
  const speed = speedUnit(units);
  const round = (kept: number, unit: typeof mass): string =>
    showQuantity(kept, { ...unit, decimals: 0 });
  return [
    `${round(massKg.min, mass)} to ${round(massKg.maxTakeOff, mass)} ${mass.symbol}`,
    `landing at ${round(massKg.maxLanding, mass)} ${mass.symbol} or less`,
    `stall ${round(speeds.stallLandingKt, speed)} to ${round(speeds.stallTakeOffKt, speed)} ${speed.symbol}`,
    `${gear} wheel`,
    brakes ? 'brakes' : 'no brakes',
  ].join(', ');
}

function tableWords({ tables }: Aeroplane): string {
  const has = (quantity: HandbookQuantity): boolean =>
    tables.some((table) => table.quantity === quantity);
  const all = Object.keys(HANDBOOK_WORDS) as HandbookQuantity[];
  const missing = all.filter((quantity) => !has(quantity));
  if (missing.length === 0) return 'all four distances of the handbook';
  return `not in its handbook: ${missing.map((quantity) => HANDBOOK_WORDS[quantity].toLowerCase()).join('; ')}`;
}

customElements.define('wr-aeroplanes-page', AeroplanesPage);

declare global {
  interface HTMLElementTagNameMap {
    'wr-aeroplanes-page': AeroplanesPage;
  }
}
