/**
 * `<wr-own-remarks>`: remarks on a visit, pinned to a moment or to the whole of it.
 *
 * Properties: `event`, `state`, `logId`, `atS` (where the plumb line hangs, or null: then a remark is
 * pinned to the event). Sends `save-visit`.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { Remark, VisitRecord } from '../../logbook/entry.ts';
import { addRemark, removeRemark } from '../../logbook/remarks.ts';
import { clockSecondsText } from '../../report/local-time.ts';
import type { EventDebrief } from '../../report/story/event-debrief.ts';
import { sendAction, type AppState } from '../app-state.ts';
import { visitOfLog, visitsOfLogs } from '../entry/visit-of-log.ts';
import { equalLogs } from '../other-logs.ts';
import { firstClick } from './first-click.ts';
import { textField } from './form-field.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-own-remarks': OwnRemarks;
  }
}

/** See the file's head. */
export class OwnRemarks extends LitElement {
  static override properties = {
    event: { attribute: false },
    state: { attribute: false },
    logId: { attribute: false },
    atS: { attribute: false },
    text: { state: true },
    isPinned: { state: true },
  };
  declare event: EventDebrief;
  declare state: AppState;
  declare logId: string;
  declare atS: number | null;
  declare text: string;
  declare isPinned: boolean;

  constructor() {
    super();
    this.atS = null;
    this.text = '';
    this.isPinned = true;
  }

  override createRenderRoot(): this {
    return this;
  }

  override render(): TemplateResult {
    const visit = visitOfLog(this.state, this.logId);
    return html`<h2 class="section-head">Your remarks</h2>
      ${this.#remarks(visit)}`;
  }

  #remarks(visit: VisitRecord): TemplateResult {
    const { timeZone } = this.state.settings;
    const pinS = this.atS ?? this.event.timeS;
    const { text } = this;
    return html`<ul class="plain-list remarks">
        ${this.#written().map(
          ({ visit: of, id, timeS, text: said }) =>
            html`<li>
              ${timeS === null ? nothing : html`<span>${clockSecondsText(timeS, timeZone)}</span>`}
              <i>${said}</i>
              <button
                class="button-quiet"
                aria-label=${`Remove the remark: ${said}`}
                @click=${firstClick(() => this.#save(removeRemark(of, id, this.state.nowS)))}
              >
                Remove
              </button>
            </li>`,
        )}
      </ul>
      <div class="remark-entry">
        ${textField({
          id: 'own-remark',
          label: 'Write a remark',
          value: text,
          onInput: (typed) => (this.text = typed),
        })}
        <label class="radio">
          <input
            type="checkbox"
            .checked=${this.isPinned}
            @change=${() => (this.isPinned = !this.isPinned)}
          />
          <span>pinned to ${clockSecondsText(pinS, timeZone)}</span>
        </label>
        <button
          class="button"
          ?disabled=${text.trim() === ''}
          @click=${() => this.#write(visit, pinS)}
        >
          Keep the remark
        </button>
      </div>`;
  }

  /** Remarks of every record about this flight, each with its record. */
  #written(): (Remark & { readonly visit: VisitRecord })[] {
    const logIds = [this.logId, ...equalLogs(this.state, this.logId)];
    return visitsOfLogs(this.state, logIds)
      .flatMap((visit) => visit.remarks.map((remark) => ({ ...remark, visit })))
      .sort((a, b) => (a.timeS ?? -1) - (b.timeS ?? -1) || a.writtenS - b.writtenS);
  }

  #write(visit: VisitRecord, pinS: number): void {
    const remark = {
      id: crypto.randomUUID(),
      timeS: this.isPinned ? pinS : null,
      text: this.text.trim(),
      writtenS: this.state.nowS,
    };
    this.#save(addRemark(visit, remark));
    this.text = '';
  }

  #save(visit: VisitRecord): void {
    sendAction(this, { type: 'save-visit', visit });
  }
}

customElements.define('wr-own-remarks', OwnRemarks);
