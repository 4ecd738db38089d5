/**
 * What a little less wind, wet grass or a little more mass would change.
 *
 * In: rows. Out: a table; nothing where there are none.
 */
import { html, nothing, type TemplateResult } from 'lit';
import type { PlanChange, SensitivityRow } from '../../report/story/visit-sensitivity.ts';

/** See the file's head. */
export function sensitivityPart(rows: readonly SensitivityRow[]): TemplateResult | typeof nothing {
  if (rows.length === 0) return nothing;
  const cell = (change: PlanChange | null): TemplateResult => {
    if (!change) return html`<td><i class="undetermined">· · ·</i></td>`;
    const { text, isReason } = change;
    return html`<td>
      ${isReason ? html`<i class="undetermined">${text}</i>` : html`<b>${text}</b>`}
    </td>`;
  };
  return html`<h2 class="section-head">
      What it would change <span class="note">planned distance over 50 ft</span>
    </h2>
    <table class="figures">
      <thead>
        <tr>
          <th scope="col">with</th>
          <th scope="col">in</th>
          <th scope="col">out</th>
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          ({ label, landing, takeOff }) =>
            html`<tr>
              <th scope="row">${label}</th>
              ${cell(landing)}${cell(takeOff)}
            </tr>`,
        )}
      </tbody>
    </table>`;
}
