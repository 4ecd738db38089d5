/**
 * The tables of the debrief: why it differed, what was measured and how, the working, the notes.
 *
 * In: an event. Out: templates; figures keep their bands beside them.
 */
import { html, nothing, type TemplateResult } from 'lit';
import type { FactorSetRecord } from '../../logbook/entry.ts';
import { isUndetermined, type Problem } from '../../result.ts';
import {
  hasFigure,
  NBSP,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../../report/figure-text.ts';
import { problemSentence } from '../../report/note-sentence.ts';
import type { EventDebrief } from '../../report/story/event-debrief.ts';
import { workingLines, type WorkingLine } from '../../report/story/visit-working.ts';
import { chanceHeap } from '../drawings/chance-heap.ts';
import { factorSetName, readFactorSets } from '../entry/own-factor-sets.ts';
import { routeHash } from '../route.ts';

/** A figure with its unit lighter and its band smaller; or the reason why there is none. */
export function figureCell(figure: FigureText | NoFigure): TemplateResult {
  if (!hasFigure(figure)) return html`<i class="undetermined">· · · ${figure.reason}</i>`;
  const { value, unit, band, spoken } = figure;
  const gap = unit === '' || unit === '°' ? '' : NBSP;
  return html`<span class="visually-hidden">${spoken}</span
    ><span aria-hidden="true"
      ><b>${value}</b>${gap}${unit}
      ${band === '' ? nothing : html`<span class="band">${band}</span>`}</span
    >`;
}

/** Flights of one log to choose from, where there are several. */
export function flightChoice(
  logId: string,
  chosen: number,
  count: number,
): TemplateResult | typeof nothing {
  if (count < 2) return nothing;
  return html`<nav class="flight-choice" aria-label="Flights in this log">
    ${Array.from(
      { length: count },
      (_, k) =>
        html`<a
          href=${routeHash('debrief', logId, k)}
          aria-current=${k === chosen ? 'true' : nothing}
          >flight ${k + 1}</a
        >`,
    )}
  </nav>`;
}

/** A place that nobody has kept: the way to keep it. */
export function keepOffer({ offer }: EventDebrief): TemplateResult | typeof nothing {
  if (!offer) return nothing;
  const ends = [
    [offer.latDegA, offer.lonDegA],
    [offer.latDegB, offer.lonDegB],
  ].map(([lat, lon]) => `${lat.toFixed(6)},${lon.toFixed(6)}`);
  return html`<p class="offer">
    Nobody has kept this place as a strip, so there is no threshold to count from. The roll shows
    where it lies.
    <a class="button" href=${routeHash('strips', 'new', ...ends)}>Keep as a strip</a>
  </p>`;
}

/** Why the roll differed from the expected one. */
export function whyTable({ why, kind }: EventDebrief): TemplateResult | typeof nothing {
  if (kind !== 'approach') return nothing;
  if (isUndetermined(why)) {
    return html`<div class="why-part">
      <h2 class="section-head">Why it differed</h2>
      <p class="undetermined">· · · ${why.undetermined}</p>
    </div>`;
  }
  return html`<div class="why-part">
    <h2 class="section-head">${why.heading}</h2>
    <table class="figures">
      <tbody>
        ${why.rows.map(
          ({ label, figure }) =>
            html`<tr>
              <th scope="row">${label}</th>
              <td>${figureCell(figure)}</td>
            </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}

/** Every measured figure; each opens how it was found. */
export function measuredTable({ measured, chance }: EventDebrief): TemplateResult | typeof nothing {
  if (measured.length === 0) return nothing;
  return html`<div class="measured-part">
    <h2 class="section-head">Measured <span class="note">each opens: how was this found</span></h2>
    <div class="found-list">
      ${measured.map(
        ({ label, figure, beside, how }) =>
          html`<details class="found">
            <summary>
              <span class="found-label">${label}</span>
              <span class="found-figure">${figureCell(figure)} ${beside}</span>
            </summary>
            <p>${how}</p>
            ${
              label === 'touchdown' && !isUndetermined(chance)
                ? html`<wr-figure
                    .picture=${chance}
                    .caption=${'Chance of the touchdown place'}
                    .draw=${(widthPx: number) => chanceHeap(chance, widthPx)}
                  ></wr-figure>`
                : nothing
            }
          </details>`,
      )}
    </div>
  </div>`;
}

/**
 * The working of the expected and the planned figure, to be checked with a pencil: folded on the
 * screen, on paper both beside each other, each step with what it acts on.
 */
export function workingPart(
  { working }: EventDebrief,
  factorSets: readonly FactorSetRecord[],
  units: PilotUnits,
  isOnPaper: boolean,
): TemplateResult {
  if (isUndetermined(working)) {
    return html`<div class="working-part">
      <h2 class="section-head">The working</h2>
      <p class="undetermined">· · · ${working.undetermined}</p>
    </div>`;
  }
  const chains = [
    { title: 'Expected, no safety factor', steps: working.expected },
    { title: 'Planned, by the published rules', steps: working.planned },
  ].map(({ title, steps }) => ({ title, lines: workingLines(steps, 0, units) }));
  const set = factorSetName(working.factorSet, readFactorSets(factorSets));
  return html`<div class="working-part">
    <h2 class="section-head">The working <span class="note working-set">${set}</span></h2>
    ${chains.map(({ title, lines }) => chain(title, lines))}
    ${isOnPaper ? html`<div class="paper-chains">${chains.map(({ title, lines }) => paperChain(title, lines))}</div>` : nothing}
  </div>`;
}

function paperChain(title: string, lines: readonly WorkingLine[]): TemplateResult {
  return html`<table class="figures">
    <caption>
      ${title}
    </caption>
    <tbody>
      ${lines.map(
        ({ name, actsOn, by, running }) =>
          html`<tr>
            <th scope="row">${name} <small>on the ${actsOn}</small></th>
            <td>${by}</td>
            <td><b>${running}</b></td>
          </tr>`,
      )}
    </tbody>
  </table>`;
}

/** Ruled lines for a pen, on paper where the tables have a page of their own. */
export function penLines(): TemplateResult {
  return html`<div class="pen-part">
    <h2 class="section-head">By pen</h2>
    ${Array.from({ length: PEN_LINES }, () => html`<div class="pen-line"></div>`)}
  </div>`;
}

const PEN_LINES = 5;

function chain(title: string, lines: readonly WorkingLine[]): TemplateResult {
  return html`<details class="working">
    <summary>${title}</summary>
    <table class="figures">
      <thead>
        <tr>
          <th scope="col">step</th>
          <th scope="col">by</th>
          <th scope="col">gives</th>
        </tr>
      </thead>
      <tbody>
        ${lines.map(
          ({ name, actsOn, why, source, by, running }) =>
            html`<tr>
              <th scope="row">
                ${name}
                <small>on the ${actsOn}. ${why} <i>${source}</i></small>
              </th>
              <td>${by}</td>
              <td><b>${running}</b></td>
            </tr>`,
        )}
      </tbody>
    </table>
  </details>`;
}

/** Notes of the flight, the wind that the track suggests, and what the decoder left out. */
export function notesList(
  { notes, windFromTrack }: EventDebrief,
  problems: readonly Problem[],
): TemplateResult {
  const lines = [windFromTrack, ...notes, ...problems.map(problemSentence)];
  return html`<div class="notes-part">
    <h2 class="section-head">Notes</h2>
    <ul class="notes">
      ${lines.map((line) => html`<li>${line}</li>`)}
    </ul>
  </div>`;
}
