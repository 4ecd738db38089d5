/**
 * `<wr-factor-sets>`: the factor sets to choose from, and the pilot's own ones taken in and away.
 *
 * Properties: `state`. Events: `wr-action` to choose, keep, save or remove a set. Every figure of an
 * own set stands with its source, and with how it came there.
 */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { FactorSetRecord } from '../../logbook/entry.ts';
import { decodeFactorSet } from '../../performance/factor-sets/decode-factor-set.ts';
import { sendAction, type AppState } from '../app-state.ts';
import { readDocumentFile, type RefusedFile } from '../document-file.ts';
import { factorFigures, factorSetToBeginWith, readFactorSets } from '../entry/own-factor-sets.ts';
import { factorSetChoices, keptFactorSet, shownFactorSet } from '../entry/settings-fields.ts';
import { fileButton } from './file-button.ts';
import { radioField } from './form-field.ts';
import { problemList } from './problem-list.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-factor-sets': FactorSets;
  }
}

/** See the file's head. */
export class FactorSets extends LitElement {
  static override properties = {
    state: { attribute: false },
    refused: { state: true },
  };
  declare state: AppState;
  declare refused: RefusedFile | null;

  constructor() {
    super();
    this.refused = null;
  }

  protected override createRenderRoot(): this {
    return this;
  }

  protected override render(): TemplateResult {
    const { settings, factorSets } = this.state;
    const choices = factorSetChoices(readFactorSets(factorSets));
    const chosen = shownFactorSet(settings.factorSet);
    const isGone = choices.every(({ value }) => value !== chosen);
    return html`${radioField({
        id: 'settings-factor-set',
        label: 'Factor set',
        value: chosen,
        options: choices,
        hint: 'It holds for visits and debriefs; conditions of a single flight may name another one.',
        message: isGone
          ? `"${chosen}" was chosen and is not here any more: nothing is predicted until another one is`
          : undefined,
        onChoose: (id) =>
          sendAction(this, {
            type: 'save-settings',
            settings: { ...settings, factorSet: keptFactorSet(id) },
          }),
      })}
      <div class="form-buttons">
        ${fileButton({
          words: 'Take in a factor set of your own',
          accept: '.json,application/json',
          onFile: (file) => void this.#import(file),
        })}
        <button type="button" class="button-quiet" @click=${this.#begin}>
          Save the default set as a file to begin with
        </button>
      </div>
      <p class="form-note">
        An own set is no published one: its figures count as yours, each with the source it names.
      </p>
      ${this.refused ? problemList(this.refused.fileName, this.refused.problems) : nothing}
      ${factorSets.map((record) => this.#ownSet(record))}`;
  }

  #ownSet(record: FactorSetRecord): TemplateResult {
    const { kind, id, document } = record;
    const read = decodeFactorSet(JSON.stringify(document));
    const name = read.ok ? read.value.name : id;
    return html`<div class="own-set">
      ${
        read.ok
          ? html`<details class="fold">
              <summary>${name}: every figure and its source</summary>
              <table class="figures">
                <thead>
                  <tr>
                    <th scope="col">figure</th>
                    <th scope="col">times</th>
                  </tr>
                </thead>
                <tbody>
                  ${factorFigures(read.value).map(
                    ({ what, factor, source, why }) =>
                      html`<tr>
                        <th scope="row">
                          ${what} <small>${why} <i>${source}</i></small>
                        </th>
                        <td><b>${factor}</b></td>
                      </tr>`,
                  )}
                </tbody>
              </table>
            </details>`
          : html`<p class="row-caution">${name} cannot be used: ${read.problems[0].message}</p>`
      }
      <button
        type="button"
        class="button-quiet"
        @click=${() => sendAction(this, { type: 'remove', keys: [{ kind, id }], words: name })}
      >
        Remove ${name}
      </button>
    </div>`;
  }

  readonly #begin = (): void => {
    sendAction(this, {
      type: 'download',
      fileName: 'my-factors.json',
      mediaType: 'application/json',
      text: factorSetToBeginWith(),
    });
  };

  async #import(file: File): Promise<void> {
    const { document, refused } = await readDocumentFile<FactorSetRecord['document']>(
      file,
      'factor-set-file',
      decodeFactorSet,
    );
    this.refused = refused;
    if (document) sendAction(this, { type: 'save-factor-set', document });
  }
}

customElements.define('wr-factor-sets', FactorSets);
