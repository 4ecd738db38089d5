/**
 * The tables of a visit: figures against what is declared, the working, the day, last time here.
 *
 * In: parts of a visit's story. Out: templates. Bars of the working repeat the figure beside them, so
 * they are hidden from who listens.
 */
import { html, nothing, svg, type TemplateResult } from 'lit';
import { hasFigure } from '../../report/figure-text.ts';
import type { LastTimeHere } from '../../report/story/last-time-here.ts';
import type { DayRow } from '../../report/story/visit-day.ts';
import type { VisitFigure } from '../../report/story/visit-figures.ts';
import type { VisitPhase } from '../../report/story/visit-story.ts';
import type { WorkingLine } from '../../report/story/visit-working.ts';
import { routeHash } from '../route.ts';
import { cautionMark } from './caution-mark.ts';
import { figureCell } from './debrief-tables.ts';

/** Distances, what is declared, what is left; no column for what is left where that is told nowhere. */
export function figuresTable(rows: readonly VisitFigure[], caption: string): TemplateResult {
  const hasLeft = rows.some(({ left }) => left !== null);
  return html`<table class="figures visit-figures">
    <caption class="visually-hidden">
      ${caption}
    </caption>
    <thead>
      <tr>
        <th scope="col">distance</th>
        <th scope="col">needed</th>
        <th scope="col">of</th>
        ${hasLeft ? html`<th scope="col">left</th>` : nothing}
      </tr>
    </thead>
    <tbody>
      ${rows.map((row) => figuresRow(row, hasLeft))}
    </tbody>
  </table>`;
}

/** A reason in place of the figure is a sentence, and has the whole row. */
function figuresRow(
  { kind, label, figure, of, left, isShort }: VisitFigure,
  hasLeft: boolean,
): TemplateResult {
  const cells = hasFigure(figure)
    ? html`<td>${figureCell(figure)}</td>
        <td>${of ?? ''}</td>
        ${
          hasLeft
            ? html`<td class=${isShort ? 'is-short' : 'left'}>
                ${isShort ? cautionMark() : nothing}${left ? figureCell(left) : nothing}
                ${isShort ? html`<small>too long</small>` : nothing}
              </td>`
            : nothing
        }`
    : html`<td colspan=${hasLeft ? 3 : 2}>${figureCell(figure)}</td>`;
  return html`<tr class=${`plan-${kind}`}>
    <th scope="row">${label}</th>
    ${cells}
  </tr>`;
}

/**
 * Both chains of one phase, line by line; on paper each line has the number of its note.
 *
 * @param numberOf see `workingNotes`
 */
export function workingTables(
  { working }: VisitPhase,
  what: string,
  numberOf: WorkingNotes['numberOf'],
): TemplateResult {
  const table = (title: string, note: string, lines: readonly WorkingLine[]): TemplateResult =>
    workingTable(`${title}, ${what}`, { note, lines, numberOf });
  return html`${table('Expected', 'no safety factor', working.expected)}
  ${table('Planned', 'by the published rules', working.planned)}`;
}

/** What stands behind the lines of all workings, each once: a sheet of paper has no room for more. */
export interface WorkingNotes {
  readonly numberOf: (line: WorkingLine) => number;
  readonly part: TemplateResult | typeof nothing;
}

/** Notes in the order of the lines, and the sources they name. */
export function workingNotes(phases: readonly VisitPhase[]): WorkingNotes {
  const lines = phases.flatMap(({ working }) => [...working.expected, ...working.planned]);
  const textOf = ({ actsOn, why }: WorkingLine): string => `on the ${actsOn}. ${why}`;
  const keyOf = (line: WorkingLine): string => JSON.stringify([textOf(line), line.source]);
  const keys = [...new Set(lines.map(keyOf))];
  const numberOf = (line: WorkingLine): number => keys.indexOf(keyOf(line)) + 1;
  if (keys.length === 0) return { numberOf, part: nothing };
  const notes = keys.map((key) => JSON.parse(key) as [text: string, source: string]);
  const sources = [...new Set(notes.map(([, source]) => source))];
  const letter = (source: string): string => String.fromCharCode(97 + sources.indexOf(source));
  const part = html`<section class="paper-notes">
    <ol>
      ${notes.map(([text, source]) => html`<li>${text} <i>${letter(source)}</i></li>`)}
    </ol>
    <p>
      Sources: ${sources.map((source) => html`<span><i>${letter(source)}</i> ${source}</span> `)}
    </p>
  </section>`;
  return { numberOf, part };
}

function workingTable(
  title: string,
  {
    note,
    lines,
    numberOf,
  }: {
    readonly note: string;
    readonly lines: readonly WorkingLine[];
    readonly numberOf: WorkingNotes['numberOf'];
  },
): TemplateResult {
  return html`<h3 class="working-head">${title} <span class="note">${note}</span></h3>
    <table role="table" class="figures pencil">
      <caption class="visually-hidden">
        ${title}
      </caption>
      <thead role="rowgroup" class="visually-hidden">
        <tr role="row">
          <th role="columnheader" scope="col">step</th>
          <th role="columnheader" scope="col">by</th>
          <th role="columnheader" scope="col">gives</th>
        </tr>
      </thead>
      <tbody role="rowgroup">
        ${lines.map(
          (line) =>
            html`<tr role="row" class=${line.isNewPart ? 'new-part' : ''}>
                <th role="rowheader" scope="row">
                  ${line.name} <small class="note-number">${numberOf(line)}</small>
                </th>
                <td role="cell">${line.by}</td>
                <td role="cell"><b>${line.running}</b></td>
              </tr>
              <tr role="row" class="why-row">
                <td role="cell" colspan="2">
                  <small>on the ${line.actsOn}. ${line.why} <i>${line.source}</i></small>
                </td>
                <td role="cell">${runningBar(line.share)}</td>
              </tr>`,
        )}
      </tbody>
    </table>`;
}

/** The running distance as a bar, all of one phase at one scale. */
function runningBar(share: number): TemplateResult {
  const wide = `${(100 * share).toFixed(1)}%`;
  return html`<svg class="running-bar" height="10" aria-hidden="true">
    ${svg`<rect class="running" x="0" y="3" width=${wide} height="4" />
      <line class="running-end" x1=${wide} x2=${wide} y1="0" y2="10" transform="translate(-1)" />`}
  </svg>`;
}

/** Wind along the strip, air, speeds. */
export function dayTable(rows: readonly DayRow[]): TemplateResult | typeof nothing {
  if (rows.length === 0) return nothing;
  return html`<h2 class="section-head">
      The day at the strip <span class="note">speeds indicated, at the landing mass</span>
    </h2>
    <table class="figures">
      <tbody>
        ${rows.map(
          ({ label, value, isReason }) =>
            html`<tr>
              <th scope="row">${label}</th>
              <td>
                ${isReason ? html`<i class="undetermined">· · · ${value}</i>` : html`<b>${value}</b>`}
              </td>
            </tr>`,
        )}
      </tbody>
    </table>`;
}

/** What the logbook knows of the strip. */
export function lastTime(last: LastTimeHere | null): TemplateResult {
  if (!last) {
    return html`<h2 class="section-head">Last time here</h2>
      <p class="quiet">No landing at this strip in the logbook yet.</p>`;
  }
  const { logId, flightIndex, key } = last.address;
  const count = `${last.landings} here, ${last.landingsThisYear} this year`;
  return html`<h2 class="section-head">
      Last time here <span class="note">${last.day}, landings: ${count}</span>
    </h2>
    <table class="figures">
      <tbody>
        <tr>
          <th scope="row">
            <a href=${routeHash('debrief', logId, flightIndex, key)}>direction ${last.direction}</a
            >, wind then
          </th>
          <td>
            ${last.wind === null ? html`<i class="undetermined">· · · not entered</i>` : html`<b>${last.wind}</b>`}
          </td>
        </tr>
        ${last.rows.map(
          ({ label, figure }) =>
            html`<tr>
              <th scope="row">${label}</th>
              <td>${figureCell(figure)}</td>
            </tr>`,
        )}
      </tbody>
    </table>
    ${last.remarks.map((text) => html`<p class="remark-text">${text}</p>`)}`;
}
