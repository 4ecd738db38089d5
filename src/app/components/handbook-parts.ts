/**
 * The handbook's tables and corrections in the aeroplane's form.
 *
 * In: the texts of the form, its messages, what to call when one changes. Out: templates: for each
 * table its axes and a grid of distances that grows with them.
 */
import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { ShownUnits } from '../../logbook/entry.ts';
import type { HandbookQuantity } from '../../performance/aeroplane.ts';
import {
  aeroplaneUnit,
  axesOf,
  cellName,
  TABLE_AXES,
  type AeroplaneFields,
  type FieldRow,
} from '../entry/aeroplane-fields.ts';
import type { FieldMessages } from '../entry/field-messages.ts';
import { choiceField, textField, type Option } from './form-field.ts';
import type { Pasted, PasteWords } from './paste-field.ts';
import './paste-field.ts';

/** What the parts work with. */
export interface HandbookContext {
  readonly fields: AeroplaneFields;
  readonly messages: FieldMessages;
  readonly units: ShownUnits;
  readonly set: (path: string, text: string) => void;
  /** Takes a table or a correction out, or puts it back. */
  readonly remove: (key: string, isRemoved: boolean) => void;
  /** Reads a pasted table into the fields of one. */
  readonly paste: (key: string, text: string) => Pasted;
}

/** The four distances in words. */
export const HANDBOOK_WORDS: Readonly<Record<HandbookQuantity, string>> = {
  'landing-from-screen': 'Landing, from 50 ft (or 15 m)',
  'landing-roll': 'Landing ground roll',
  'take-off-to-screen': 'Take-off, to 50 ft (or 15 m)',
  'take-off-roll': 'Take-off ground roll',
};

const SURFACES: readonly Option[] = [
  { value: '', words: 'choose' },
  { value: 'hard-dry', words: 'hard, dry' },
  { value: 'grass-dry', words: 'grass, dry' },
];
const SCREENS: readonly Option[] = [
  { value: '', words: 'choose' },
  { value: '15.24', words: '50 ft' },
  { value: '15', words: '15 m' },
];
const AXIS_WORDS = {
  pressureAltitudeFt: 'Pressure altitudes',
  tempC: 'Temperatures',
  massKg: 'Masses',
} as const;
const AXIS_HINTS = {
  pressureAltitudeFt: '0 at sea level; several: 0; 2000',
  tempC: 'several: 0; 15; 30; or the word standard',
  massKg: 'one, or several: 850; 975; 1100',
} as const;

const PASTE_HINT =
  'The first row names the columns with their units, such as "pressure altitude (ft)", "temperature (°C)", then "distance (m)" or one column for each mass: "850 kg". What has no column holds at the value above.';

/** A part that was taken out, in its place, with the way back. */
function removedPart(name: string, { key }: FieldRow, { remove }: HandbookContext): TemplateResult {
  return html`<p class="form-part removed-part" role="status">
    <span>${name}: removed.</span>
    <button type="button" class="button-quiet" @click=${() => remove(key, false)}>
      Undo<span class="visually-hidden">: ${name}</span>
    </button>
  </p>`;
}

/** One table. */
export function tablePart(row: FieldRow, context: HandbookContext): TemplateResult {
  const { key } = row;
  const { fields, messages, units, set, remove, paste } = context;
  const text = (name: string): string => fields.texts[`${key}.${name}`] ?? '';
  const quantity = text('quantity') as HandbookQuantity;
  const name = HANDBOOK_WORDS[quantity];
  const message = (path: string): string | undefined => messages[`${key}.${path}`];
  if (row.isRemoved) return removedPart(name, row, context);
  const pasteWords: PasteWords = {
    summary: 'Paste it from a spreadsheet',
    label: `${name}, pasted`,
    hint: PASTE_HINT,
  };
  return html`<fieldset class="form-part">
    <legend>${name}</legend>
    <div class="field-row">
      ${textField({
        id: `${key}-flap`,
        label: 'Flap',
        value: text('flap'),
        hint: 'as the handbook calls it',
        message: message('flap'),
        onInput: (value) => set(`${key}.flap`, value),
      })}
      ${choiceField({
        id: `${key}-surface`,
        label: 'Flown on',
        value: text('surface'),
        options: SURFACES,
        message: message('surface'),
        onChoose: (value) => set(`${key}.surface`, value),
      })}
      ${
        quantity.includes('screen')
          ? choiceField({
              id: `${key}-screen`,
              label: 'Screen',
              value: text('screenHeightM'),
              options: SCREENS,
              message: message('screenHeightM'),
              onChoose: (value) => set(`${key}.screenHeightM`, value),
            })
          : nothing
      }
    </div>
    <div class="field-row field-row-wide">
      ${TABLE_AXES.map((axis) =>
        textField({
          id: `${key}-${axis}`,
          label: AXIS_WORDS[axis],
          unit: aeroplaneUnit(axis, units).symbol,
          value: text(axis),
          hint: AXIS_HINTS[axis],
          message: message(axis),
          onInput: (value) => set(`${key}.${axis}`, value),
        }),
      )}
    </div>
    <wr-paste-field
      .fieldId=${`${key}-pasted`}
      .words=${pasteWords}
      .read=${(text: string) => paste(key, text)}
    ></wr-paste-field>
    ${distanceGrid(key, name, context)}
    ${[messages[key], message('distanceM'), message('quantity')].map((words) =>
      words === undefined ? nothing : html`<p class="field-message">${words}</p>`,
    )}
    <button type="button" class="button-quiet" @click=${() => remove(key, true)}>
      Remove this table<span class="visually-hidden">: ${name}</span>
    </button>
  </fieldset>`;
}

/** Distances: one block an altitude, a row a temperature, a column a mass. */
function distanceGrid(key: string, name: string, context: HandbookContext): TemplateResult {
  const { fields, messages, units, set } = context;
  const axes = axesOf(fields.texts, key);
  const [altitudes, temps, masses] = axes;
  const unit = aeroplaneUnit('distanceM', units).symbol;
  if (axes.some((axis) => axis.length === 0)) {
    return html`<p class="form-note">
      Enter altitude, temperature and mass of the table, then its distances.
    </p>`;
  }
  const heat = aeroplaneUnit('tempC', units).symbol;
  const weight = aeroplaneUnit('massKg', units).symbol;
  const cell = (place: string, label: string): TemplateResult => {
    const path = `${key}.${cellName(axes, place)}`;
    return html`<td>
      <input
        id=${`${key}-cell-${place}`}
        type="text"
        inputmode="decimal"
        autocomplete="off"
        aria-label=${`${name}, ${label}, ${unit}`}
        aria-invalid=${messages[path] === undefined ? nothing : 'true'}
        title=${messages[path] ?? nothing}
        .value=${live(fields.texts[path] ?? '')}
        @input=${(event: Event) => set(path, (event.target as HTMLInputElement).value)}
      />
      ${messages[path] ? html`<p class="field-message">${messages[path]}</p>` : nothing}
    </td>`;
  };
  return html`<div class="grid-box" role="group" tabindex="0" aria-label=${`Distances: ${name}`}>
    ${altitudes.map(
      (altitude, a) =>
        html`<table class="grid">
          <caption>
            at ${altitude} ft, distances in ${unit}
          </caption>
          <thead>
            <tr>
              <td></td>
              ${masses.map((mass) => html`<th scope="col">${mass} ${weight}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${temps.map(
              (temp, t) =>
                html`<tr>
                  <th scope="row">${temp === 'standard' ? temp : `${temp} ${heat}`}</th>
                  ${masses.map((mass, m) =>
                    cell(`${a}.${t}.${m}`, `${altitude} ft, ${temp}, ${mass} ${weight}`),
                  )}
                </tr>`,
            )}
          </tbody>
        </table>`,
    )}
  </div>`;
}

const PHASES: readonly Option[] = [
  { value: 'landing', words: 'landing' },
  { value: 'take-off', words: 'take-off' },
];
const CONDITIONS: readonly Option[] = [
  { value: 'headwind', words: 'headwind' },
  { value: 'tailwind', words: 'tailwind' },
  { value: 'upslope', words: 'uphill' },
  { value: 'downslope', words: 'downhill' },
  { value: 'temperature-above-standard', words: 'warmer than standard' },
  { value: 'hard-wet', words: 'hard, wet' },
  { value: 'grass-dry', words: 'grass, dry' },
  { value: 'grass-wet', words: 'grass, wet' },
  { value: 'soft', words: 'soft ground' },
];
const SHARES: readonly Option[] = [
  { value: 'distance', words: 'distance' },
  { value: 'ground-roll', words: 'ground roll' },
];

/** One correction of the handbook's own. */
export function correctionPart(row: FieldRow, context: HandbookContext): TemplateResult {
  const { key } = row;
  const { fields, messages, set, remove } = context;
  if (row.isRemoved) return removedPart('Correction', row, context);
  const parts = (name: string, label: string) => ({
    id: `${key}-${name}`,
    label,
    value: fields.texts[`${key}.${name}`] ?? '',
    message: messages[`${key}.${name}`],
  });
  const choose = (name: string, label: string, options: readonly Option[]): TemplateResult =>
    choiceField({
      ...parts(name, label),
      options,
      onChoose: (value) => set(`${key}.${name}`, value),
    });
  const type = (name: string, label: string, hint: string, unit = ''): TemplateResult =>
    textField({
      ...parts(name, label),
      hint,
      unit,
      onInput: (value) => set(`${key}.${name}`, value),
    });
  return html`<div class="field-row">
      ${choose('phase', 'For', PHASES)} ${choose('condition', 'When', CONDITIONS)}
      ${type('percent', 'Changes by', 'longer; a minus shortens', '%')}
      ${type('per', 'For each', 'kt, % of slope or °C; empty for a surface')}
      ${type('upTo', 'Up to', 'empty: no limit')} ${choose('of', 'Of', SHARES)}
    </div>
    <div class="field-row field-row-line">
      ${type('text', 'In words', 'as the handbook says it')}
    </div>
    <button type="button" class="button-quiet" @click=${() => remove(key, true)}>
      Remove this correction
    </button>`;
}
