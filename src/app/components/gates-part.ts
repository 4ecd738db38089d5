/**
 * The gates of a final in a table: every figure with its error, and against the pilot's own limits.
 *
 * In: the model of the profiles. Out: a template; nothing where no gate was passed. Posts stand at
 * the limits, the dot where the aircraft was; the verdict stands beside it in words.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { airspeedWindWords } from '../../report/airspeed-wind-words.ts';
import { airspeedCaution } from '../../report/caution.ts';
import { figureValue, hasFigure } from '../../report/figure-text.ts';
import type { FinalPicture } from '../../report/pictures/final-picture.ts';
import {
  GATE_FIGURES,
  GATE_WORDS,
  type GateCell,
  type GateFigure,
  type GateLimit,
} from '../../report/pictures/gate-picture.ts';
import { gate } from '../drawings/marks.ts';
import { figureCell } from './debrief-tables.ts';

/** The section. */
export function gatesPart(final: FinalPicture): TemplateResult | typeof nothing {
  const { gateTable } = final;
  if (gateTable.length === 0) return nothing;
  const limits = new Map<GateFigure, string>();
  for (const { cells } of gateTable) {
    for (const name of GATE_FIGURES) {
      const { limit } = cells[name];
      if (limit) limits.set(name, limit.words);
    }
  }
  const note =
    limits.size === 0
      ? 'no limits entered'
      : 'posts stand at your limits, the dot is where you were';
  return html`<section class="final-gates">
    <h2 class="section-head">Gates <span class="note">${note}</span></h2>
    ${limitsLine(limits)}
    <table class=${limits.size === 0 ? 'figures gate-table' : 'figures gate-table is-limited'}>
      <thead>
        <tr>
          <th scope="col">gate</th>
          ${GATE_FIGURES.map(
            (name) =>
              html`<th scope="col">
                ${GATE_WORDS[name]}
                ${limits.has(name) ? html`<small>limits ${limits.get(name)}</small>` : nothing}
              </th>`,
          )}
        </tr>
      </thead>
      <tbody>
        ${gateTable.map(
          ({ label, cells }) =>
            html`<tr>
              <th scope="row">${label}</th>
              ${GATE_FIGURES.map(
                (name) =>
                  html`<td data-label=${GATE_WORDS[name]}>
                    <span class="gate-figure">${gateFigure(cells[name])}</span>
                    ${cells[name].limit ? verdict(cells[name].limit) : nothing}
                  </td>`,
              )}
            </tr>`,
        )}
      </tbody>
    </table>
    <p class="quiet">${airspeedNote(final)}</p>
  </section>`;
}

/** The limits in a line: on a phone the table has no heading to hold them. */
function limitsLine(limits: ReadonlyMap<GateFigure, string>): TemplateResult | typeof nothing {
  if (limits.size === 0) return nothing;
  return html`<p class="quiet narrow-only" aria-hidden="true">
    Limits:
    ${[...limits].map(([name, limit], k) => html`${k === 0 ? '' : '; '}${GATE_WORDS[name]} <span>${limit}</span>`)}.
  </p>`;
}

/** A reason would fill the row: it stands once, under the table. */
function gateFigure({ figure }: GateCell): TemplateResult {
  if (hasFigure(figure)) return figureCell(figure);
  return html`<span class="visually-hidden">${figureValue(figure)}</span
    ><span aria-hidden="true">· · ·</span>`;
}

function verdict(limit: GateLimit): TemplateResult {
  const { verdict, words } = limit;
  return html`<span class="gate-verdict">
    ${gateMark(limit)}<span class=${verdict === 'out' ? 'is-out' : ''}>${verdict}</span
    ><span class="visually-hidden"> against ${words}</span>
  </span>`;
}

/** The mark of one figure against its limits, for a line of text; nothing where it is undetermined. */
export function gateMark({ verdict, at }: GateLimit): TemplateResult | typeof nothing {
  if (at === null) return nothing;
  return html`<svg
    class="drawing gate-mark"
    xmlns="http://www.w3.org/2000/svg"
    width="40"
    height="18"
    viewBox="-20 -9 40 18"
    aria-hidden="true"
  >
    ${gate(0, 0, verdict, at)}
  </svg>`;
}

function airspeedNote({ airspeedWind, gateTable, units }: FinalPicture): string {
  if (airspeedWind === null) {
    const { figure } = gateTable[0].cells.airspeed;
    return `No airspeed: ${figureValue(figure)}.`;
  }
  return `Airspeeds are estimated by ${airspeedWindWords(airspeedWind)}, ${airspeedCaution(units)}.`;
}
