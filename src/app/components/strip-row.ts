/**
 * One strip in the list of all: name, bar at the list's scale, length, what it is.
 *
 * In: the row, the longest strip's length, units. Out: a Lit template of a list item.
 */
import { html, nothing, type TemplateResult } from 'lit';
import type { ShownUnits } from '../../logbook/entry.ts';
import type { StripRow } from '../entry/strip-list.ts';
import { aroundWords, directionWords, groundWords, lengthWords } from '../entry/strip-words.ts';
import { routeHash } from '../route.ts';
import { stripBar } from './strip-bar.ts';

/** See the file's head. */
export function stripRow(row: StripRow, longestM: number, units: ShownUnits): TemplateResult {
  const { strip, lengthM } = row;
  const around = aroundWords(row.around);
  const words = strip
    ? html`<span class="row-note">
        <strong>${directionWords(strip)}</strong>, ${groundWords(strip, units)}
        ${around === '' ? nothing : html`<br />${around}`}
      </span>`
    : html`<span class="row-caution">cannot be used: ${row.fault}</span>`;
  return html`<li class="strip-row">
    <a class="row-name" href=${routeHash('strips', row.id)}>${row.name}</a>
    ${lengthM === null ? html`<span></span>` : stripBar(lengthM, longestM)}
    <span class="row-figure">${lengthM === null ? nothing : lengthWords(lengthM, units)}</span>
    ${words}
  </li>`;
}
