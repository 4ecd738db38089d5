/**
 * The pilot's own limits for a final, folded away in the form of the conditions.
 *
 * In: what stands in the fields, what is wrong, limits entered earlier for the same aeroplane. Out: a
 * Lit template; changes go to `set`. Nothing is proposed: limits are the pilot's.
 */
import { html, nothing, type TemplateResult } from 'lit';
import type { GateLimits } from '../../weather/gate-limits.ts';
import type { ConditionsFields } from '../entry/conditions-fields.ts';
import {
  fieldsFromLimits,
  limitLabel,
  limitsLine,
  limitUnit,
  LIMITED,
  LIMITS_FROM,
  type Limited,
} from '../entry/gate-limit-fields.ts';
import type { ConditionsContext } from './conditions-parts.ts';
import { choiceField, textField } from './form-field.ts';

/** The fold. */
export function gateLimitsPart(
  context: ConditionsContext,
  earlier: GateLimits | null,
): TemplateResult {
  const { fields, units, set } = context;
  const line = limitsLine(fields, units);
  return html`<details class="fold limits-fold">
    <summary>
      <span class="limits-name">Own limits for the final</span>
      <span class="limits-said">${line === '' ? 'none' : line}</span>
    </summary>
    <p class="form-note">
      As you briefed them: Windrow proposes none. Each gate is then in, out, or cannot tell where
      its error straddles a limit. Enter both ends of a figure, or neither.
    </p>
    ${
      earlier === null
        ? nothing
        : html`<p class="limits-earlier">
            <button
              type="button"
              class="button button-outlined"
              @click=${() => set(fieldsFromLimits(earlier, units))}
            >
              Take the ones last entered for this aeroplane
            </button>
            <span class="form-note">${limitsLine(fieldsFromLimits(earlier, units), units)}</span>
          </p>`
    }
    <div class="limit-pairs">
      ${LIMITED.map((of) => html`<div class="limit-pair">${end(of, 'Least', context)}${end(of, 'Most', context)}</div>`)}
      ${choiceField({
        id: 'conditions-limitsFrom',
        label: 'At every gate from',
        value: fields.limitsFrom,
        options: LIMITS_FROM.map((feet) => ({ value: feet, words: `${feet} ft down` })),
        onChoose: (value) => set({ limitsFrom: value as ConditionsFields['limitsFrom'] }),
      })}
    </div>
  </details>`;
}

function end(
  of: Limited,
  which: 'Least' | 'Most',
  { fields, messages, units, set }: ConditionsContext,
): TemplateResult {
  const name = `${of}${which}` as const;
  return textField({
    id: `conditions-${name}`,
    label: limitLabel(name),
    unit: limitUnit(of, which, units).symbol,
    kind: 'figure',
    value: fields[name],
    message: messages[name],
    onInput: (text) => set({ [name]: text }),
  });
}
