/**
 * A button that takes files from the machine.
 *
 * In: its words, which files it takes. Out: a Lit template; the files go to `onFiles`. The field of
 * the browser lies over the button, so that keyboard and screen reader meet the real one.
 */
import { html, type TemplateResult } from 'lit';

/** What the button needs. */
export interface FileButtonParts {
  readonly words: string;
  /** Endings and media types, as the browser's field takes them. */
  readonly accept: string;
  readonly onFile: (file: File) => void;
}

/** See the file's head. */
export function fileButton({ words, accept, onFile }: FileButtonParts): TemplateResult {
  return html`<label class="button button-outlined file-button">
    ${words}
    <input
      type="file"
      accept=${accept}
      @change=${(event: Event) => {
        const input = event.target as HTMLInputElement;
        const file = input.files?.[0];
        // Emptied first: the same file chosen again is a new choice.
        if (file) onFile(file);
        input.value = '';
      }}
    />
  </label>`;
}
