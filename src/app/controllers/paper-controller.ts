/**
 * Is the page laid out for paper? So that a component prints what the screen keeps back.
 *
 * Asks its component to update before the page is printed, and again after.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Watches the browser's print. */
export class PaperController implements ReactiveController {
  isOnPaper = false;
  readonly #host: ReactiveControllerHost;

  constructor(host: ReactiveControllerHost) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {
    addEventListener('beforeprint', this.#toPaper);
    addEventListener('afterprint', this.#toScreen);
  }

  hostDisconnected(): void {
    removeEventListener('beforeprint', this.#toPaper);
    removeEventListener('afterprint', this.#toScreen);
  }

  readonly #toPaper = (): void => this.#set(true);
  readonly #toScreen = (): void => this.#set(false);

  #set(isOnPaper: boolean): void {
    this.isOnPaper = isOnPaper;
    this.#host.requestUpdate();
  }
}
