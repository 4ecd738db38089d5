/**
 * How are the conditions of a flight asked for? The parts of their form, in the order a pilot says them.
 *
 * In: what stands in the fields, what is wrong, the choices. Out: Lit templates; changes go to `set`.
 */
import { html, nothing, type TemplateResult } from 'lit';
import type { AeroplaneRecord, ShownUnits } from '../../logbook/entry.ts';
import type { FactorSet } from '../../performance/factor-sets/factor-set.ts';
import { conditionsUnits, type ConditionsFields } from '../entry/conditions-fields.ts';
import { summaryOf, type FieldMessages } from '../entry/field-messages.ts';
import { LIMIT_FIELDS, limitLabel } from '../entry/gate-limit-fields.ts';
import { aeroplaneName, flapChoices } from '../entry/flap-choices.ts';
import { EFFORT_CHOICES, MARK_COUNTS } from '../entry/effort-choices.ts';
import { surfaceChoices } from '../entry/surface-choices.ts';
import { choiceField, pressButton, radioField, textField, type Option } from './form-field.ts';

/** What the parts of the form need. */
export interface ConditionsContext {
  readonly fields: ConditionsFields;
  readonly messages: FieldMessages<keyof ConditionsFields>;
  readonly units: ShownUnits;
  readonly aeroplanes: readonly AeroplaneRecord[];
  /** Id of the factor set, which knows some surfaces and not others; null: the default. */
  readonly factorSet: string | null;
  /** The pilot's own sets. */
  readonly factorSets: readonly FactorSet[];
  /** True for a flight that is still to come. */
  readonly isForecast: boolean;
  readonly set: (change: Partial<ConditionsFields>) => void;
}

type FigureName = keyof ReturnType<typeof conditionsUnits>;

const LABELS = {
  windFrom: 'Wind from',
  reference: 'Direction counted from',
  windSpeed: 'Wind speed',
  gust: 'Gusting to',
  temperature: 'Temperature',
  qnh: 'QNH',
  landingMass: 'Mass at landing',
  takeOffMass: 'Mass at take-off',
  surface: 'Surface',
  aeroplane: 'Aeroplane',
  flap: 'Flap',
} as const;

const HINTS: Readonly<Partial<Record<FigureName, string>>> = {
  windFrom: '0 to 360, for example 240',
  gust: 'empty where it was steady',
  takeOffMass: 'empty: as at landing',
};

const EXAMPLES: Readonly<Partial<Record<string, string>>> = {
  kt: '8',
  mph: '9',
  'km/h': '15',
  '°C': '19',
  '°F': '66',
  hPa: '1016',
  inHg: '30.00',
  kg: '980',
  lb: '2160',
};

const REFERENCES: readonly Option[] = [
  { value: 'true', words: 'true north', note: 'a forecast, a METAR' },
  { value: 'magnetic', words: 'magnetic north', note: 'a compass, the radio' },
];

/** What needs another look, in one line; empty where nothing does. */
export function conditionsSummary(messages: ConditionsContext['messages']): string {
  const names = Object.keys(LABELS) as (keyof typeof LABELS)[];
  return summaryOf([
    ...names.filter((name) => messages[name]).map((name) => LABELS[name]),
    ...LIMIT_FIELDS.filter((name) => messages[name]).map(limitLabel),
  ]);
}

/** Wind, with calm and variable said by a button each. */
export function windPart(context: ConditionsContext): TemplateResult {
  const { fields, messages, isForecast, set } = context;
  const reference = radioField({
    id: 'conditions-reference',
    label: LABELS.reference,
    value: fields.reference,
    options: REFERENCES,
    message: messages.reference,
    onChoose: (value) => set({ reference: value as ConditionsFields['reference'] }),
  });
  const direction = html`${figure('windFrom', context)} ${reference}`;
  const figures = html`<div class="field-row">
    ${fields.isVariable ? nothing : direction} ${figure('windSpeed', context)}
    ${figure('gust', context)}
  </div>`;
  return html`<fieldset class="form-part">
    <legend>Wind</legend>
    <div class="press-row">
      ${pressButton('Calm', fields.isCalm, (isCalm) => set({ isCalm, isVariable: false }))}
      ${pressButton('Variable', fields.isVariable, (isVariable) =>
        set({ isVariable, isCalm: false }),
      )}
      <span class="form-note"> ${windNote(fields.isCalm, isForecast)} </span>
    </div>
    ${fields.isCalm ? nothing : figures}
    ${
      fields.windReportedAt === ''
        ? nothing
        : html`<p class="form-note reported-note">
            As reported at ${fields.windReportedAt}: true, and not the strip's own wind. Change it
            to what the strip has, where you know that.
          </p>`
    }
  </fieldset>`;
}

function windNote(isCalm: boolean, isForecast: boolean): string {
  if (isForecast) return isCalm ? 'No wind at all, as forecast.' : 'or as forecast for the strip:';
  return isCalm ? 'No wind at all, as you saw it.' : 'or how it blew at the strip:';
}

/** Temperature, pressure and masses. */
export function airPart(context: ConditionsContext): TemplateResult {
  return html`<fieldset class="form-part">
    <legend>Air and mass</legend>
    <div class="field-row">
      ${figure('temperature', context)} ${figure('qnh', context)} ${figure('landingMass', context)}
      ${figure('takeOffMass', context)}
    </div>
  </fieldset>`;
}

/** Surface, aeroplane and flap. */
export function stripPart(context: ConditionsContext): TemplateResult {
  const { fields, aeroplanes, factorSet, factorSets } = context;
  const surfaces = surfaceChoices(factorSet, factorSets);
  const lacking = surfaces.find(({ value }) => value === fields.surface)?.caution ?? '';
  const planes = aeroplanes.map((each) => ({ value: each.id, words: aeroplaneName(each) }));
  const flaps = flapChoices(aeroplanes, fields.aeroplane).map((each) => ({
    value: each.flap,
    words: each.words,
  }));
  const noFlap = fields.aeroplane === '' ? 'the choices come with the aeroplane' : '';
  return html`<fieldset class="form-part">
    <legend>Strip and aeroplane</legend>
    <div class="field-row field-row-wide">
      ${choice(
        'surface',
        context,
        surfaces.map(({ value, words, caution }) => ({ value, words, note: caution })),
        lacking,
      )}
      ${choice(
        'aeroplane',
        context,
        withOther(planes, fields.aeroplane, 'not among your aeroplanes'),
        aeroplanes.length === 0 ? 'none kept yet: type one in the room Aeroplanes, after this' : '',
      )}
      ${choice('flap', context, withOther(flaps, fields.flap, 'not in its tables'), noFlap)}
    </div>
  </fieldset>`;
}

/** How hard it was braked: asked for while no ratio stands on the screen, because only then it counts. */
export function effortPart({ fields, set }: ConditionsContext): TemplateResult {
  return html`<fieldset class="form-part">
    <legend>Braking</legend>
    ${radioField({
      id: 'conditions-effort',
      label: 'Braking of the landings of this flight',
      value: fields.effort,
      options: EFFORT_CHOICES,
      hint: `${MARK_COUNTS} One landing that was different is marked on its own, below its figures.`,
      onChoose: (value) => set({ effort: value as ConditionsFields['effort'] }),
    })}
  </fieldset>`;
}

function figure(name: FigureName, context: ConditionsContext): TemplateResult {
  const { symbol } = conditionsUnits(context.units)[name];
  return textField({
    id: `conditions-${name}`,
    label: LABELS[name],
    unit: symbol,
    kind: name === 'temperature' ? 'signed' : 'figure',
    value: context.fields[name],
    hint: HINTS[name] ?? `for example ${EXAMPLES[symbol] ?? ''}`,
    message: context.messages[name],
    onInput: (text) => context.set({ [name]: text }),
  });
}

function choice(
  name: 'surface' | 'aeroplane' | 'flap',
  { fields, messages, set }: ConditionsContext,
  options: readonly Option[],
  hint = '',
): TemplateResult {
  return choiceField({
    id: `conditions-${name}`,
    label: LABELS[name],
    value: fields[name],
    options: [{ value: '', words: 'not entered' }, ...options],
    hint,
    message: messages[name],
    onChoose: (value) => set({ [name]: value }),
  });
}

/** The options, and what is kept though it is none of them: a list never changes it unasked. */
function withOther(options: readonly Option[], kept: string, why: string): readonly Option[] {
  if (kept === '' || options.some(({ value }) => value === kept)) return options;
  return [...options, { value: kept, words: kept, note: why }];
}
