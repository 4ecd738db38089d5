/**
 * The table under approaches laid over each other, and the list to choose them from.
 *
 * In: the model, the remarks, the candidates. Out: templates.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { airspeedCaution } from '../../report/caution.ts';
import { hasFigure, NBSP, type FigureText, type NoFigure } from '../../report/figure-text.ts';
import { clockText, dayText, yearOf } from '../../report/local-time.ts';
import { OUTCOME_WORDS } from '../../report/outcome-words.ts';
import type { GateCell } from '../../report/pictures/gate-picture.ts';
import type { SideBySidePicture } from '../../report/pictures/side-by-side-picture.ts';
import { isUndetermined } from '../../result.ts';
import { MOST_APPROACHES, type Candidate } from '../entry/approach-refs.ts';
import { routeHash } from '../route.ts';
import { gateMark } from './gates-part.ts';

/** One row of the table: what the page knows beside the model. */
export interface SideRow {
  readonly candidate: Candidate;
  readonly remarks: readonly string[];
}

/**
 * Gates, touchdown, roll, left; a row leads to its debrief, its number lets its line stand out. On a
 * phone each row is a block of figures under their names, so that none stands off the screen.
 */
export function gatesTable(
  { table, units, gateSpeed, gateHeightsFt }: SideBySidePicture,
  rows: readonly SideRow[],
  chosen: number | null,
  onChoose: (number: number | null) => void,
): TemplateResult {
  const gateNames = gateHeightsFt.map((feet) => `${feet}${NBSP}ft`);
  return html`<div class="wide-table" role="region" aria-label="Gates and rolls" tabindex="0">
    <table role="table" class="figures gates">
      <thead role="rowgroup">
        <tr role="row">
          <th role="columnheader" scope="col">approach</th>
          ${[...gateNames, ...LANDING_NAMES].map((name) => html`<th role="columnheader" scope="col">${name}</th>`)}
        </tr>
      </thead>
      <tbody role="rowgroup">
        ${table.map((row) => {
          const isChosen = row.number === chosen;
          const side = rows.at(row.number - 1);
          const address = side?.candidate;
          return html`<tr role="row" class=${isChosen ? 'is-chosen' : ''}>
            <th role="rowheader" scope="row">
              <button
                class="press press-number"
                aria-pressed=${isChosen ? 'true' : 'false'}
                aria-label=${`Let approach ${row.number} stand out`}
                @click=${() => onChoose(isChosen ? null : row.number)}
              >
                ${row.number}
              </button>
              <b class="paper-only" aria-hidden="true">${row.number}</b>
              ${
                address
                  ? html`<a
                      href=${routeHash('debrief', address.logId, address.flightIndex, address.key)}
                      >${row.when}</a
                    >`
                  : row.when
              }
              ${row.aeroplane === null ? nothing : html`<small class="side-aeroplane">${row.aeroplane}</small>`}
              ${side?.remarks.map((text) => html`<small class="remark-text">${text}</small>`)}
            </th>
            ${row.gates.map((gate, k) => gateCell(gateNames[k], gate))}
            ${LANDING_NAMES.map((name) => plainCell(name, row[name]))}
          </tr>`;
        })}
      </tbody>
    </table>
    <p class="quiet">
      ${
        gateNames.length === 0
          ? 'None of them passed a gate.'
          : gateSpeed === 'airspeed'
            ? `Airspeed at each gate in ${units.speed}. Airspeeds are estimated, ${airspeedCaution(units)}.`
            : `Ground speed at each gate in ${units.speed}.`
      }
      Bands stand in the
      debriefs.${
        table.some(({ gates }) => gates.some(({ limit }) => limit !== null))
          ? ' Posts stand at your limits, the dot is where you were; an open one cannot tell.'
          : nothing
      }
    </p>
  </div>`;
}

/** Columns after the gates. */
const LANDING_NAMES = ['path', 'touchdown', 'roll', 'left'] as const;

/** A speed, before it how it lies against the limits; what is out says so. */
function gateCell(name: string, { figure, limit }: GateCell): TemplateResult {
  if (!limit || !hasFigure(figure)) return plainCell(name, figure);
  const { verdict, words } = limit;
  const isOut = verdict === 'out';
  return html`<td role="cell" data-label=${name}>
    <span class="side-gate"
      >${gateMark(limit)}<b>${figure.value}</b>
      ${isOut ? html`<i class="is-out">out</i>` : html`<span class="visually-hidden">${verdict}</span>`}
      <span class="visually-hidden">against ${words}</span></span
    >
  </td>`;
}

/** A figure without its band; a gate that was not passed is said to who listens, and shown by dots. */
function plainCell(name: string, figure: FigureText | NoFigure): TemplateResult {
  if (!hasFigure(figure)) {
    return html`<td role="cell" data-label=${name}>
      <span class="visually-hidden">${figure.reason}</span><span aria-hidden="true">· · ·</span>
    </td>`;
  }
  const unit = figure.unit === 'kt' || figure.unit === 'mph' || figure.unit === 'km/h';
  const gap = figure.unit === '°' || unit ? '' : NBSP;
  return html`<td role="cell" data-label=${name}>
    <b>${figure.value}</b>${gap}${unit ? '' : figure.unit}
  </td>`;
}

function outcomeWords({ event: { outcome } }: Candidate): string {
  return isUndetermined(outcome) ? 'undetermined' : OUTCOME_WORDS[outcome];
}

/** How it ended, and in what where not all were flown in one aeroplane. */
function choiceNote(candidate: Candidate, here: readonly Candidate[]): string {
  const words = outcomeWords(candidate);
  const isOne = here.every(({ aeroplane }) => aeroplane === candidate.aeroplane);
  return isOne ? words : `${words}, ${candidate.aeroplane ?? 'aeroplane not known'}`;
}

/** What the list of candidates needs. */
export interface PickerParts {
  readonly candidates: readonly Candidate[];
  readonly chosen: readonly Candidate[];
  readonly timeZone: string;
  readonly isAll: boolean;
  readonly onAll: () => void;
  readonly onPlace: (candidate: Candidate) => void;
  readonly onToggle: (candidate: Candidate) => void;
}

/** Candidates shown before the pilot asks for all. */
const FIRST = 12;

/** The list to choose from: one strip and direction at a time. */
export function approachPicker(parts: PickerParts): TemplateResult | typeof nothing {
  const { candidates, chosen, timeZone, isAll } = parts;
  const [first] = chosen as (Candidate | undefined)[];
  if (!first) return nothing;
  const places = new Map<string, Candidate>(
    candidates.map((each) => [`${each.stripName} ${each.designator}`, each]),
  );
  const here = candidates.filter(
    ({ stripId, designator }) => stripId === first.stripId && designator === first.designator,
  );
  const shown = isAll ? here : here.slice(0, FIRST);
  const isFull = chosen.length >= MOST_APPROACHES;
  return html`<section class="picker">
    <h2 class="section-head">
      Choose approaches <span class="note">${MOST_APPROACHES} at most, one direction</span>
    </h2>
    <label class="list-filter">
      <span>Strip and direction</span>
      <select
        @change=${(event: Event) => {
          const found = places.get((event.target as HTMLSelectElement).value);
          if (found) parts.onPlace(found);
        }}
      >
        ${[...places.keys()].map(
          (name) =>
            html`<option
              value=${name}
              ?selected=${name === `${first.stripName} ${first.designator}`}
            >
              ${name}
            </option>`,
        )}
      </select>
    </label>
    <ul class="picks">
      ${shown.map((each) => {
        const isChosen = chosen.some(({ ref }) => ref === each.ref);
        return html`<li>
          <label class="radio">
            <input
              type="checkbox"
              .checked=${isChosen}
              ?disabled=${isChosen ? chosen.length === 1 : isFull}
              @change=${() => parts.onToggle(each)}
            />
            <span
              >${dayText(each.timeS, timeZone)} ${yearOf(each.timeS, timeZone)}
              ${clockText(each.timeS, timeZone)}
              <span class="radio-note">${choiceNote(each, here)}</span></span
            >
          </label>
        </li>`;
      })}
    </ul>
    ${
      shown.length === here.length
        ? nothing
        : html`<button class="button-quiet" @click=${parts.onAll}>Show all ${here.length}</button>`
    }
  </section>`;
}
