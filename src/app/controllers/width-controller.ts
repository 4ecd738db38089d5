/**
 * How wide is the component? Measured in CSS pixels, so that drawings are laid out for it.
 *
 * Asks its component to update when the width changes by a pixel or more.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Watches one element: the component's own. */
export class WidthController implements ReactiveController {
  /** Width in CSS pixels; 0 before the first measurement. */
  widthPx = 0;
  readonly #host: ReactiveControllerHost & Element;
  #observer: ResizeObserver | null = null;

  constructor(host: ReactiveControllerHost & Element) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {
    this.#observer = new ResizeObserver(([entry]) => {
      const widthPx = Math.floor(entry.contentRect.width);
      if (widthPx === this.widthPx) return;
      this.widthPx = widthPx;
      this.#host.requestUpdate();
    });
    this.#observer.observe(this.#host);
    addEventListener('beforeprint', this.#measureNow);
    addEventListener('afterprint', this.#measureNow);
  }

  hostDisconnected(): void {
    removeEventListener('beforeprint', this.#measureNow);
    removeEventListener('afterprint', this.#measureNow);
    this.#observer?.disconnect();
    this.#observer = null;
  }

  /** Paper has another width, and no observer is asked before the page is printed. */
  readonly #measureNow = (): void => {
    const widthPx = Math.floor(this.#host.getBoundingClientRect().width);
    if (widthPx === this.widthPx || widthPx === 0) return;
    this.widthPx = widthPx;
    this.#host.requestUpdate();
  };
}
