/**
 * `<wr-notices>`: what the page says at its foot: the newest notice, the others one press away.
 *
 * Properties: `messages`, `room`. Sends `undo` and `dismiss`. When the room is changed what stood there
 * folds to a small Undo; nothing is taken away by time. Every text is put into the status region when
 * it is said, the older ones for those who listen only, so that of several said at once none is missed;
 * buttons that only fold stand outside it and are not read out.
 */
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { sendAction, type PageMessage } from '../app-state.ts';
import { firstClick } from './first-click.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-notices': PageNotices;
  }
}

/** A notice that came up so shortly before the room was changed came with the change, ms. */
const WITH_THE_CHANGE_MS = 1000;

/** See the file's head. */
export class PageNotices extends LitElement {
  static override properties = {
    messages: { attribute: false },
    room: { attribute: false },
    isOpen: { state: true },
  };
  declare messages: readonly PageMessage[];
  declare room: string;
  /** True while all notices are shown. */
  declare isOpen: boolean;
  /** Number of the last notice that was folded away. */
  #foldedTo = 0;
  /** When each number was first shown, ms. */
  readonly #since = new Map<number, number>();

  constructor() {
    super();
    this.messages = [];
    this.room = '';
    this.isOpen = false;
  }

  override createRenderRoot(): this {
    return this;
  }

  override willUpdate(changed: PropertyValues<this>): void {
    const nowMs = performance.now();
    for (const { number } of this.messages) {
      if (!this.#since.has(number)) this.#since.set(number, nowMs);
    }
    if (this.messages.length === 0) this.isOpen = false;
    const before = changed.get('room');
    if (before === undefined || before === '' || before === this.room) return;
    this.isOpen = false;
    const old = this.messages.filter(
      ({ number }) => nowMs - (this.#since.get(number) ?? nowMs) > WITH_THE_CHANGE_MS,
    );
    this.#foldedTo = old.at(-1)?.number ?? this.#foldedTo;
  }

  override render(): TemplateResult {
    const { messages, isOpen } = this;
    const newest = messages.at(-1) ?? null;
    const isFolded = newest !== null && newest.number <= this.#foldedTo && !isOpen;
    const said = isOpen ? messages : messages.filter(({ number }) => number > this.#foldedTo);
    return html`<div role="status" aria-atomic="false" aria-relevant="additions">
        ${repeat(
          said,
          ({ number }) => number,
          (message) =>
            isOpen || message === newest
              ? this.#notice(message)
              : html`<p class="visually-hidden">${message.text}</p>`,
        )}
      </div>
      ${newest === null ? nothing : this.#foot(newest, isFolded)}`;
  }

  #notice(message: PageMessage): TemplateResult {
    const { text, isCaution, deletion } = message;
    return html`<p class=${isCaution ? 'message caution' : 'message'}>
      <span>${text}</span>
      ${deletion === null ? nothing : this.#undo(message)} ${this.#close(message)}
    </p>`;
  }

  /** What folds and unfolds; folded, with the Undo of the newest notice that has one. */
  #foot(newest: PageMessage, isFolded: boolean): TemplateResult | typeof nothing {
    const { messages, isOpen } = this;
    const undoable = isFolded ? messages.findLast(({ deletion }) => deletion !== null) : undefined;
    const others = messages.filter((each) => each !== newest && each !== undoable).length;
    // The folded one is opened by the same button, also where it is the only one.
    const hidden = isFolded && !undoable ? others + 1 : others;
    if (hidden === 0 && !undoable) return nothing;
    const count = `${hidden} more ${hidden === 1 ? 'notice' : 'notices'}`;
    const words = isOpen ? 'Show fewer' : isFolded && !undoable ? plain(hidden) : `and ${count}`;
    return html`<p class=${isFolded ? 'messages-foot folded' : 'messages-foot'}>
      ${undoable ? html`${this.#undo(undoable)} ${this.#close(undoable)}` : nothing}
      ${
        hidden === 0
          ? nothing
          : html`<button
              class="button-quiet"
              aria-expanded=${isOpen}
              @click=${() => (this.isOpen = !isOpen)}
            >
              ${words}
            </button>`
      }
    </p>`;
  }

  #close({ text, number }: PageMessage): TemplateResult {
    return html`<button
      class="button-quiet"
      aria-label=${`Close: ${text}`}
      @click=${firstClick(() => sendAction(this, { type: 'dismiss', number }))}
    >
      Close
    </button>`;
  }

  #undo({ text, deletion }: PageMessage): TemplateResult {
    return html`<button
      class="button-quiet"
      aria-label=${`Undo: ${text}`}
      title=${text}
      @click=${firstClick(() => {
        if (deletion !== null) sendAction(this, { type: 'undo', deletion });
      })}
    >
      Undo
    </button>`;
  }
}

function plain(count: number): string {
  return `${count} ${count === 1 ? 'notice' : 'notices'}`;
}

customElements.define('wr-notices', PageNotices);
