/**
 * What a reader found in a file, each with its place: said, not hidden.
 *
 * In: the file's name and the problems. Out: a Lit template.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { problemSentence } from '../../report/note-sentence.ts';
import type { Problem } from '../../result.ts';
import { cautionMark } from './caution-mark.ts';

/** More than anybody reads on a page. */
const MOST_SHOWN = 20;

/** See the file's head. */
export function problemList(fileName: string, problems: readonly Problem[]): TemplateResult {
  const errors = problems.filter(({ severity }) => severity === 'error');
  const isTaken = errors.length === 0;
  const shown = (isTaken ? problems : errors).slice(0, MOST_SHOWN);
  const more = (isTaken ? problems : errors).length - shown.length;
  const head = isTaken
    ? `${fileName} was taken in, with a remark:`
    : `${fileName} was not taken in, and nothing was changed:`;
  return html`<div class="caution-block" role="alert">
    ${cautionMark()}
    <div>
      <p><strong>${head}</strong></p>
      <ul class="problem-list">
        ${shown.map((problem) => html`<li>${problemSentence(problem)}</li>`)}
        ${more > 0 ? html`<li>and ${more} more</li>` : nothing}
      </ul>
    </div>
  </div>`;
}
