/**
 * A visit on one sheet: to scale first, then the figures, then the working.
 *
 * In: the story, what the logbook knows of the strip, words for the head. Out: templates. Nothing on it
 * approves of anything: margins are lengths, and what is too long says so.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { CAUTION_LINES } from '../../report/caution.ts';
import type { LastTimeHere } from '../../report/story/last-time-here.ts';
import type { VisitPhase, VisitStory } from '../../report/story/visit-story.ts';
import { isUndetermined, type Undetermined } from '../../result.ts';
import type { VisitLength } from '../entry/visit-length.ts';
import { stripRuler } from '../drawings/strip-ruler.ts';
import { cautionMark } from './caution-mark.ts';
import './measured-figure.ts';
import {
  dayTable,
  figuresTable,
  lastTime,
  workingNotes,
  workingTables,
  type WorkingNotes,
} from './visit-tables.ts';

/** What the sheet needs. */
export interface VisitSheetParts {
  readonly story: VisitStory;
  /** Strip, day, aeroplane; when it was frozen. */
  readonly kicker: string;
  /** Name of the factor set. */
  readonly factors: string;
  readonly last: LastTimeHere | null;
  /** Under the title block: what can be changed. */
  readonly blockFoot: TemplateResult | typeof nothing;
  /** Under the head: the form, or what can be done with the visit. */
  readonly below: TemplateResult | typeof nothing;
  /** What the pilot's own short landings need; null: nothing to say. */
  readonly length: VisitLength | null;
  /** Beside the notes: what a little more wind or mass would change. */
  readonly aside: TemplateResult | typeof nothing;
}

/** Draws it. */
export function visitSheet(parts: VisitSheetParts): TemplateResult {
  const { story, kicker, factors, last, length, blockFoot, below, aside } = parts;
  const { landing, takeOff } = story;
  const phases = [landing, takeOff].flatMap((part) =>
    part === null || isUndetermined(part) ? [] : [part],
  );
  const notes = workingNotes(phases);
  return html`<article class="page visit-sheet">
    <div class="opening-block">
      <div>
        <p class="kicker">${kicker}</p>
        <h1 class="sentence">${story.sentence}</h1>
        <p class="meaning">
          The plan is the longer of the published rules and your own factor, over 50 ft, against LDA
          and TODA. <span class="screen-only">${CAUTION_LINES[1]}</span>
        </p>
      </div>
      <div>${titleBlockPart(story)} ${blockFoot}</div>
    </div>
    ${below} ${picturePart('In', 'rods from 50 ft over the threshold', landing)}
    ${picturePart('Out', 'rods from brakes off to 50 ft', takeOff)}
    <div class="columns even">
      ${figuresPart('In', 'of LDA', landing)} ${figuresPart('Out', 'of TODA and TORA', takeOff)}
    </div>
    ${lengthSection(length)} ${notesPart(story)}
    <div class="columns even visit-day">
      <section>${dayTable(story.day)} ${aside}</section>
      <section>${lastTime(last)}</section>
    </div>
    <div class="columns even">
      ${workingSection('The working, in', 'landing', landing, { factors, notes })}
      ${workingSection('The working, out', 'take-off', takeOff, { factors, notes })}
    </div>
    ${notes.part}
    <p class="quiet">Lengths and what they rest on, not a permission. ${CAUTION_LINES[3]}</p>
  </article>`;
}

function titleBlockPart({ block }: VisitStory): TemplateResult {
  return html`<dl class="title-block">
    ${block.map(
      ({ label, value }) =>
        html`<div>
          <dt>${label}</dt>
          <dd class=${value === null ? 'missing' : ''}>${value ?? 'not entered'}</dd>
        </div>`,
    )}
  </dl>`;
}

/** The ruler of one use, or why there is none. */
function picturePart(
  name: string,
  note: string,
  part: VisitPhase | Undetermined | null,
): TemplateResult {
  if (!part || isUndetermined(part)) {
    const why = part ? `no prediction: ${part.undetermined}` : null;
    return html`<section>
      <h2 class="section-head">${name}</h2>
      ${
        why === null
          ? html`<p class="quiet">No direction was chosen for it.</p>`
          : html`<p class="undetermined">· · · ${why}</p>`
      }
    </section>`;
  }
  const title = `${name}, direction ${part.designator}`;
  return html`<section>
    <h2 class="section-head">${title} <span class="note">${note}</span></h2>
    <wr-figure
      .picture=${part.picture}
      .caption=${title}
      .draw=${(widthPx: number) => stripRuler(part.picture, widthPx)}
    ></wr-figure>
  </section>`;
}

function figuresPart(
  name: string,
  note: string,
  part: VisitPhase | Undetermined | null,
): TemplateResult | typeof nothing {
  if (!part || isUndetermined(part)) return nothing;
  const title = `${name}, needed and left`;
  return html`<section>
    <h2 class="section-head">${title} <span class="note">${note}</span></h2>
    ${figuresTable(part.figures, title)}
    ${part.ahead.map((line) => html`<p class="ahead">${line}</p>`)}
    ${part.ownWords === null ? nothing : html`<p class="quiet">${part.ownWords}</p>`}
  </section>`;
}

function lengthSection(length: VisitLength | null): TemplateResult | typeof nothing {
  if (length === null) return nothing;
  const head = html`<h2 class="section-head">
    By your own short landings <span class="note">threshold to stop, against the LDA</span>
  </h2>`;
  if (length.kind === 'none')
    return html`<section class="short-landings">
      ${head}
      <p class="undetermined">· · · ${length.reason}</p>
    </section>`;
  return html`<section class="short-landings">
    ${head}
    <p class=${length.isShort ? 'meaning is-short' : 'meaning'}>
      ${length.isShort ? cautionMark() : nothing}${length.sentence}
    </p>
    <p class="quiet">${length.restsOn} ${length.caution}</p>
  </section>`;
}

function workingSection(
  title: string,
  what: string,
  part: VisitPhase | Undetermined | null,
  { factors, notes }: { readonly factors: string; readonly notes: WorkingNotes },
): TemplateResult | typeof nothing {
  if (!part || isUndetermined(part)) return nothing;
  return html`<section>
    <h2 class="section-head working-title">${title} <span class="note">${factors}</span></h2>
    ${workingTables(part, what, notes.numberOf)}
  </section>`;
}

function notesPart({ notes }: VisitStory): TemplateResult | typeof nothing {
  if (notes.length === 0) return nothing;
  return html`<section>
    <h2 class="section-head">Notes</h2>
    <ul class="notes">
      ${notes.map((line) => html`<li>${line}</li>`)}
    </ul>
  </section>`;
}

/** What is missing, in place of a prediction. */
export function missingPart(words: string): TemplateResult {
  return html`<div class="caution-block">
    ${cautionMark()}
    <p><strong>No prediction yet.</strong> It needs ${words}.</p>
  </div>`;
}
