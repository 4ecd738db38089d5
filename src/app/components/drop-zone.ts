/**
 * `<wr-drop-zone>`: where logs come in: dropped, or chosen.
 *
 * Property `imports`: files on their way. Sends `import-files`, `cancel-imports`, `clear-imports`.
 */
import { html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import { problemSentence } from '../../report/note-sentence.ts';
import { sendAction, type ImportJob } from '../app-state.ts';
import { wordMark } from '../drawings/marks.ts';
import { importGroups } from '../entry/import-groups.ts';
import { routeHash } from '../route.ts';

declare global {
  interface HTMLElementTagNameMap {
    'wr-drop-zone': DropZone;
  }
}

const STAGES: Readonly<Record<ImportJob['stage'], string>> = {
  waiting: 'waiting',
  reading: 'reading',
  measuring: 'measuring',
  done: 'in the logbook',
  failed: 'not taken in',
  cancelled: 'cancelled',
};

/** See the file's head. */
export class DropZone extends LitElement {
  static override properties = { imports: { attribute: false } };
  declare imports: readonly ImportJob[];

  constructor() {
    super();
    this.imports = [];
  }

  override createRenderRoot(): this {
    return this;
  }

  override render(): TemplateResult {
    return html`<div
        class="drop-zone"
        @dragover=${this.#dragOver}
        @dragleave=${this.#dragLeave}
        @drop=${this.#drop}
      >
        <svg width="60" height="46" viewBox="0 0 30 24" aria-hidden="true">
          ${svg`${wordMark(0, 2)}`}
        </svg>
        <p><strong>Bring a log.</strong> Drop GPX or IGC files here. They stay on this machine.</p>
        <label class="button">
          Choose files
          <input
            class="file-input"
            type="file"
            multiple
            accept=".gpx,.igc,.gz,.geojson,.json,.windrow"
            @change=${this.#choose}
          />
        </label>
      </div>
      ${this.imports.length === 0 ? nothing : this.#list()}`;
  }

  #list(): TemplateResult {
    const isBusy = this.imports.some(({ stage }) => !ENDED.has(stage));
    const done = this.imports.filter(({ stage }) => ENDED.has(stage)).length;
    const total = this.imports.length;
    const { open, folded } = importGroups(this.imports);
    return html`<section class="imports" aria-label="Files on their way">
      <div class="imports-head">
        <p role="status">${isBusy ? `${done} of ${total} files taken in` : lookedAt(total)}</p>
        ${isBusy ? html`<progress max=${total} .value=${done} aria-label="Files taken in"></progress>` : nothing}
        <button
          class="button-quiet"
          @click=${() => sendAction(this, { type: isBusy ? 'cancel-imports' : 'clear-imports' })}
        >
          ${isBusy ? 'Cancel' : 'Close this list'}
        </button>
      </div>
      ${open.length === 0 ? nothing : jobList(open)}
      ${folded.map(
        ({ words, jobs }) =>
          html`<details class="fold">
            <summary>${words}</summary>
            ${jobList(jobs)}
          </details>`,
      )}
    </section>`;
  }

  readonly #dragOver = (event: DragEvent): void => {
    event.preventDefault();
    this.querySelector('.drop-zone')?.classList.add('is-over');
  };

  readonly #dragLeave = (): void => {
    this.querySelector('.drop-zone')?.classList.remove('is-over');
  };

  readonly #drop = (event: DragEvent): void => {
    event.preventDefault();
    this.#dragLeave();
    this.#send(event.dataTransfer?.files);
  };

  readonly #choose = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    this.#send(input.files);
    // The same file may be chosen again.
    input.value = '';
  };

  #send(files: FileList | null | undefined): void {
    if (!files || files.length === 0) return;
    sendAction(this, { type: 'import-files', files: [...files] });
  }
}

const ENDED: ReadonlySet<ImportJob['stage']> = new Set(['done', 'failed', 'cancelled']);
/** Lines of problems shown of one file. */
const MOST_LINES = 6;
/** And of one that went through. */
const FEW_LINES = 2;

function lookedAt(total: number): string {
  return total === 1 ? '1 file looked at' : `${total} files looked at`;
}

function jobList(jobs: readonly ImportJob[]): TemplateResult {
  return html`<ul>
    ${jobs.map(
      (job) =>
        html`<li class=${`import-${job.stage}`}>
          <span class="import-name">${job.fileName}</span>
          <span class="import-stage">
            ${
              job.stage === 'done' && job.logId !== null
                ? html`<a href=${routeHash('debrief', job.logId)}>see the debrief</a>`
                : STAGES[job.stage]
            }
          </span>
          ${job.problems.length === 0 ? nothing : problemLines(job)}
        </li>`,
    )}
  </ul>`;
}

function problemLines({ problems, stage }: ImportJob): TemplateResult {
  const shown = problems.slice(0, stage === 'failed' ? MOST_LINES : FEW_LINES);
  const more = problems.length - shown.length;
  return html`<ul class="import-problems">
    ${shown.map((problem) => html`<li>${problemSentence(problem)}</li>`)}
    ${more > 0 ? html`<li>and ${more} more${stage === 'failed' ? '' : ' in the debrief'}</li>` : nothing}
  </ul>`;
}

customElements.define('wr-drop-zone', DropZone);
