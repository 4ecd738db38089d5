/**
 * `<wr-app>`: the frame of the page: head with the rooms, the room, messages, the caution.
 *
 * Owns the store; pages get its state as a property and send one event up, `wr-action`, which is
 * carried out here. Light DOM, so that style sheets, labels and print are those of the page.
 */
import { html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import { CAUTION } from '../../report/caution.ts';
import { unitsLine } from '../../report/units-line.ts';
import type { AppStore } from '../app-store.ts';
import { type ActionEvent, type AppState } from '../app-state.ts';
import { wordMark } from '../drawings/marks.ts';
import './page-notices.ts';
import '../pages/aeroplanes-page.ts';
import '../pages/debrief-page.ts';
import '../pages/factor-page.ts';
import '../pages/logbook-page.ts';
import '../pages/settings-page.ts';
import '../pages/strips-page.ts';
import { parseRoute, ROOMS, routeHash, type RoomId, type Route } from '../route.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-app': AppShell;
  }
}

/** So often the time of the state goes on by itself, ms. */
const MINUTE_MS = 60_000;

/** See the file's head. */
export class AppShell extends LitElement {
  static override properties = { store: { attribute: false }, notice: { attribute: false } };
  declare store: AppStore | null;
  /** Said while the logbook is not open yet. */
  declare notice: string | null;
  #state: AppState | null = null;
  #route: Route = parseRoute(location.hash);
  #unsubscribe: (() => void) | null = null;
  #minutes: ReturnType<typeof setInterval> | undefined;

  constructor() {
    super();
    this.store = null;
    this.notice = null;
    this.addEventListener('wr-action', (event: ActionEvent) => {
      void this.store?.dispatch(event.detail);
    });
  }

  override createRenderRoot(): this {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener('hashchange', this.#onHash);
    // What is entered is written down with the state's time: of a page left open it would be hours old.
    this.#minutes = setInterval(() => this.store?.update({}), MINUTE_MS);
  }

  override disconnectedCallback(): void {
    removeEventListener('hashchange', this.#onHash);
    clearInterval(this.#minutes);
    super.disconnectedCallback();
  }

  override willUpdate(changed: Map<string, unknown>): void {
    if (!changed.has('store') || !this.store) return;
    this.#unsubscribe?.();
    this.#state = this.store.state;
    this.#unsubscribe = this.store.subscribe((state) => {
      this.#state = state;
      this.requestUpdate();
    });
  }

  override updated(): void {
    const theme = this.#state?.settings.theme ?? 'system';
    const root = document.documentElement;
    if (theme === 'system') delete root.dataset.theme;
    else root.dataset.theme = theme;
    const room = ROOMS.find(({ id }) => id === this.#route.room);
    document.title = `${room?.name ?? ''} · Windrow`;
  }

  override render(): TemplateResult {
    const state = this.#state;
    return html`
      <a class="skip" href="#room" @click=${this.#skip}>To the page</a>
      ${this.#head(state)}
      <main id="room" tabindex="-1" class=${`room-${this.#route.room}`}>
        ${state && state.phase !== 'opening' ? this.#room(state) : html`<p class="opening" role="status">${this.notice ?? 'Opening the logbook'}</p>`}
      </main>
      <footer class="caution-line">${CAUTION}</footer>
      <wr-notices
        class="messages"
        .messages=${state?.messages ?? []}
        .room=${this.#route.room}
      ></wr-notices>
    `;
  }

  readonly #onHash = (): void => {
    const before = this.#route.room;
    this.#route = parseRoute(location.hash);
    this.requestUpdate();
    if (before === this.#route.room) return;
    scrollTo(0, 0);
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('#room')?.focus());
  };

  readonly #skip = (event: Event): void => {
    event.preventDefault();
    this.querySelector<HTMLElement>('#room')?.focus();
  };

  #head(state: AppState | null): TemplateResult {
    const rooms = ROOMS.map(
      ({ id, name }) =>
        html`<li>
          <a href=${routeHash(id)} aria-current=${id === this.#route.room ? 'page' : nothing}
            >${name}</a
          >
        </li>`,
    );
    const here = ROOMS.find(({ id }) => id === this.#route.room)?.name ?? '';
    return html`<header class="head">
      <a class="word-mark" href=${routeHash('logbook')} aria-label="Windrow, to the logbook">
        <svg width="30" height="24" viewBox="0 0 30 24" aria-hidden="true">
          ${svg`${wordMark(0, 2)}`}
        </svg>
        Windrow
      </a>
      <nav aria-label="Rooms" class="rooms-wide">
        <ul>
          ${rooms}
        </ul>
      </nav>
      <details class="rooms-narrow">
        <summary><span class="here">${here}</span> Rooms</summary>
        <nav aria-label="Rooms">
          <ul @click=${closeList}>
            ${rooms}
          </ul>
        </nav>
      </details>
      <p class="head-notes">
        ${
          state?.hasDemo
            ? html`<a class="demo-mark" href=${routeHash('settings')}
                >Demo logbook, all invented</a
              >`
            : nothing
        }
        ${
          state
            ? html`<a class="units-mark" href=${routeHash('settings')}
                ><span class="visually-hidden">Units </span>${unitsLine(state.settings)}</a
              >`
            : nothing
        }
      </p>
    </header>`;
  }

  #room(state: AppState): TemplateResult {
    const { room, args } = this.#route;
    const rooms: Readonly<Record<RoomId, () => TemplateResult>> = {
      logbook: () => html`<wr-logbook-page .state=${state}></wr-logbook-page>`,
      debrief: () =>
        html`<wr-debrief-page
          .state=${state}
          .args=${args}
          .store=${this.store}
        ></wr-debrief-page>`,
      side: () => {
        this.#load(import('../pages/side-page.ts'));
        return html`<wr-side-page
          .state=${state}
          .args=${args}
          .store=${this.store}
        ></wr-side-page>`;
      },
      factor: () => html`<wr-factor-page .state=${state} .args=${args}></wr-factor-page>`,
      visit: () => {
        this.#load(import('../pages/visit-page.ts'));
        return html`<wr-visit-page .state=${state} .args=${args}></wr-visit-page>`;
      },
      strips: () => html`<wr-strips-page .state=${state} .args=${args}></wr-strips-page>`,
      aeroplanes: () =>
        html`<wr-aeroplanes-page .state=${state} .args=${args}></wr-aeroplanes-page>`,
      settings: () => html`<wr-settings-page .state=${state}></wr-settings-page>`,
    };
    return rooms[room]();
  }

  /** A room that is loaded when it is first opened; its element takes its properties when it is there. */
  #load(room: Promise<unknown>): void {
    room.catch(() => {
      const text = 'This room could not be loaded: open the page again.';
      this.store?.say(text, null, true);
    });
  }
}

/** A room was chosen from the list on a phone: the list closes. */
function closeList(event: Event): void {
  if (!(event.target instanceof HTMLAnchorElement)) return;
  event.target.closest('details')?.removeAttribute('open');
}

customElements.define('wr-app', AppShell);
