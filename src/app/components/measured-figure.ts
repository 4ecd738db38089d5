/**
 * `<wr-figure>`: a drawing laid out for the width it has, read out as a sentence, with its table.
 *
 * Properties: `picture` (what it shows), `draw` (lays it out for a width), `caption`, and `onPoint`
 * (called with a place on the drawing in CSS pixels, its width and whether the pointer left).
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { Picture } from '../../report/pictures/picture.ts';
import { WidthController } from '../controllers/width-controller.ts';
import { drawingFigure, type Drawing } from '../drawings/drawing.ts';

/** Where on a drawing the pointer is, CSS pixels; null when it has left. */
export type PointListener = (
  at: { readonly x: number; readonly y: number; readonly widthPx: number } | null,
) => void;

declare global {
  interface HTMLElementTagNameMap {
    'wr-figure': MeasuredFigure;
  }
}

/** See the file's head. */
export class MeasuredFigure extends LitElement {
  static override properties = {
    picture: { attribute: false },
    draw: { attribute: false },
    caption: { attribute: false },
    onPoint: { attribute: false },
  };
  declare picture: Picture | null;
  declare draw: ((widthPx: number) => Drawing) | null;
  declare caption: string;
  declare onPoint: PointListener | null;
  readonly #width = new WidthController(this);

  constructor() {
    super();
    this.picture = null;
    this.draw = null;
    this.caption = '';
    this.onPoint = null;
    this.addEventListener('pointermove', this.#point);
    this.addEventListener('pointerdown', this.#point);
    this.addEventListener('pointerleave', (event) => {
      // A finger that is lifted leaves the line where it is.
      if (event.pointerType === 'mouse') this.onPoint?.(null);
    });
  }

  override createRenderRoot(): this {
    return this;
  }

  override render(): TemplateResult | typeof nothing {
    const { picture, draw, caption } = this;
    const { widthPx } = this.#width;
    if (!picture || !draw || widthPx === 0) return nothing;
    return html`${drawingFigure(draw(widthPx), picture, caption)}`;
  }

  readonly #point = (event: PointerEvent): void => {
    const drawing = this.querySelector('svg');
    if (!this.onPoint || !drawing) return;
    const box = drawing.getBoundingClientRect();
    this.onPoint({
      x: event.clientX - box.left,
      y: event.clientY - box.top,
      widthPx: this.#width.widthPx,
    });
  };
}

customElements.define('wr-figure', MeasuredFigure);
