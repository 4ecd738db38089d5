import { html, LitElement, type TemplateResult } from 'lit';
import type { AppState } from '../app-state.ts';

/** `<wr-aeroplanes-page>` */
export class AeroplanesPage extends LitElement {
  static override properties = { state: { attribute: false }, args: { attribute: false } };
  declare state: AppState;
  declare args: readonly string[];

  protected override createRenderRoot(): this {
    return this;
  }

  protected override render(): TemplateResult {
    return html`<div class="page"><h1 class="sentence">Aeroplanes</h1></div>`;
  }
}

customElements.define('wr-aeroplanes-page', AeroplanesPage);

declare global {
  interface HTMLElementTagNameMap {
    'wr-aeroplanes-page': AeroplanesPage;
  }
}
