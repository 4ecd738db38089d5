/**
 * What the landings of one aeroplane say of strips: where the wheels touched, and what length such
 * landings need.
 *
 * In: the state, the aeroplane. Out: templates for the room of the own factor.
 */
import { html, type TemplateResult } from 'lit';
import { LENGTH_CAUTION, lengthRestsOn, lengthTooFew } from '../../report/factor-length.ts';
import { lengthFigure } from '../../report/figure-text.ts';
import { loggedLengths, type LoggedLength } from '../../report/logged-lengths.ts';
import { dispersionPictures } from '../../report/pictures/dispersion-picture.ts';
import type { AppState } from '../app-state.ts';
import { touchdownScatter } from '../drawings/touchdown-scatter.ts';
import { bookOf } from '../entry/kept-visit.ts';
import { loggedFlights, pilotUnits } from '../logged-flights.ts';
import { cautionMark } from './caution-mark.ts';
import { figureCell } from './debrief-tables.ts';
import './measured-figure.ts';

/** More directions than this make the room a list. */
const MOST_DRAWN = 4;

/** Every touchdown in its direction, most first. */
export function touchdownPart(state: AppState, aeroplaneId: string): TemplateResult {
  const widthsM = new Map(bookOf(state, state.nowS).strips.map(({ id, widthM }) => [id, widthM]));
  const pictures = dispersionPictures(
    loggedFlights(state),
    aeroplaneId,
    pilotUnits(state),
    widthsM,
  );
  const head = html`<h2 class="section-head">
    Where the wheels touched <span class="note">line: nine of ten next ones inside</span>
  </h2>`;
  if (pictures.length === 0) {
    return html`${head}
      <p class="undetermined">· · · fewer than five touchdowns in every direction</p>`;
  }
  return html`${head}
    <div class="columns even">
      ${pictures.slice(0, MOST_DRAWN).map((picture) => {
        const title = `${picture.name} ${picture.designator}, ${picture.points.length} touchdowns`;
        return html`<section>
          <h3 class="working-head">${title}</h3>
          <wr-figure
            .picture=${picture}
            .caption=${title}
            .draw=${(widthPx: number) => touchdownScatter(picture, widthPx)}
          ></wr-figure>
          <p class="quiet">${picture.alongWords}<br />${picture.crossWords}</p>
        </section>`;
      })}
    </div>`;
}

/** What 95 of 100 landings meant to be short need, in every direction landed in. */
export function lengthPart(state: AppState, aeroplaneId: string): TemplateResult {
  const lengths = lengthsOf(state, aeroplaneId);
  const head = html`<h2 class="section-head">
    Length that 95 of 100 short landings need
    <span class="note">as on the day of the last landing there</span>
  </h2>`;
  if (lengths.length === 0) {
    return html`${head}
      <p class="undetermined">· · · no landing at a kept strip has an expected roll yet</p>`;
  }
  const [{ needed }] = lengths;
  if (needed.kind === 'too-few') {
    return html`${head}
      <p class="undetermined">· · · ${lengthTooFew(needed)}</p>`;
  }
  return html`${head} ${lengthsTable(lengths, state)}
    <p class="quiet">${lengthRestsOn(needed)}</p>
    <div class="caution-block">
      ${cautionMark()}
      <p>${LENGTH_CAUTION} 1 in 20 would need more.</p>
    </div>`;
}

/** Worked out once for the same analyses: the room is drawn again at every change of the state. */
function lengthsOf(state: AppState, aeroplaneId: string): LoggedLength[] {
  const { analyses, settings } = state;
  const known = worked.get(analyses) ?? new Map<string, LoggedLength[]>();
  worked.set(analyses, known);
  const key = `${settings.timeZone} ${aeroplaneId}`;
  const lengths =
    known.get(key) ?? loggedLengths(loggedFlights(state), aeroplaneId, settings.timeZone);
  known.set(key, lengths);
  return lengths;
}

const worked = new WeakMap<AppState['analyses'], Map<string, LoggedLength[]>>();

function lengthsTable(lengths: readonly LoggedLength[], state: AppState): TemplateResult {
  const units = pilotUnits(state);
  return html`<table class="figures">
    <thead>
      <tr>
        <th scope="col">strip</th>
        <th scope="col">needed</th>
        <th scope="col">LDA</th>
        <th scope="col">left</th>
      </tr>
    </thead>
    <tbody>
      ${lengths.map(({ stripName, designator, day, needed: each }) =>
        each.kind === 'too-few'
          ? html``
          : html`<tr>
              <th scope="row">${stripName} ${designator} <small>as on ${day}</small></th>
              <td>${figureCell(lengthFigure(each.lengthM, units))}</td>
              <td>${figureCell(lengthFigure(each.today.ldaM, units))}</td>
              <td class=${each.leftM.value < 0 ? 'is-short' : ''}>
                ${figureCell(lengthFigure(each.leftM, units))}
              </td>
            </tr>`,
      )}
    </tbody>
  </table>`;
}
