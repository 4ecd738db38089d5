/**
 * `<wr-season-chart>`: landings month by month, as plain columns.
 *
 * Property `months`. The chart's library is loaded only when this is on show. Behind the picture
 * stands the table that says the same.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { MonthCount } from '../../report/season-counts.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-season-chart': SeasonChart;
  }
}

/** See the file's head. */
export class SeasonChart extends LitElement {
  static override properties = { months: { attribute: false } };
  declare months: readonly MonthCount[];
  #chart: { destroy(): void; resize(): void } | null = null;
  /** Counts drawings: one that is overtaken while the library loads is dropped. */
  #turn = 0;
  readonly #scheme = matchMedia('(prefers-color-scheme: dark)');
  readonly #redraw = (): void => void this.#draw();
  /** Paper has another width, and the chart asks for its own only when the screen's changes. */
  readonly #resize = (): void => this.#chart?.resize();

  constructor() {
    super();
    this.months = [];
  }

  override createRenderRoot(): this {
    return this;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#scheme.addEventListener('change', this.#redraw);
    addEventListener('beforeprint', this.#resize);
    addEventListener('afterprint', this.#resize);
  }

  override disconnectedCallback(): void {
    this.#scheme.removeEventListener('change', this.#redraw);
    removeEventListener('beforeprint', this.#resize);
    removeEventListener('afterprint', this.#resize);
    this.#chart?.destroy();
    this.#chart = null;
    super.disconnectedCallback();
  }

  override render(): TemplateResult | typeof nothing {
    if (this.months.length === 0) return nothing;
    const flown = this.months.filter(({ landings }) => landings > 0);
    const most = Math.max(...this.months.map(({ landings }) => landings));
    return html`<figure class="drawing-figure">
      <div class="season">
        <canvas
          role="img"
          aria-label=${`Landings month by month over two years, at most ${most} in a month`}
        ></canvas>
      </div>
      <div class="twin">
        <table>
          <caption>
            Landings month by month
          </caption>
          <tbody>
            ${flown.map(
              ({ name, landings }) =>
                html`<tr>
                  <th scope="row">${name}</th>
                  <td>${landings}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
    </figure>`;
  }

  override updated(): void {
    void this.#draw();
  }

  async #draw(): Promise<void> {
    const turn = ++this.#turn;
    const { makeSeasonChart } = await import('../drawings/season-columns.ts');
    const canvas = this.querySelector('canvas');
    if (turn !== this.#turn || !canvas) return;
    this.#chart?.destroy();
    this.#chart = makeSeasonChart(canvas, this.months);
  }
}

customElements.define('wr-season-chart', SeasonChart);
