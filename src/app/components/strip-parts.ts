/**
 * How is a strip asked for? The parts of its form: the strip, its ends, its two directions.
 *
 * In: what stands in the fields, what is wrong. Out: Lit templates; changes go to `set`.
 */
import { html, nothing, type TemplateResult } from 'lit';
import type { ShownUnits } from '../../logbook/entry.ts';
import { NBSP } from '../../report/figure-text.ts';
import { idFromName } from '../entry/id-from-name.ts';
import { positionExample, readPosition } from '../entry/position-text.ts';
import { directionDefaults, type DirectionDefaults } from '../entry/strip-defaults.ts';
import { showQuantity } from '../entry/shown-unit.ts';
import { stripUnit, type End, type StripField, type StripFields } from '../entry/strip-fields.ts';
import type { StripMessages } from '../entry/strip-from-fields.ts';
import { typedStrip } from '../entry/typed-strip.ts';
import { smallStrip } from '../drawings/small-strip.ts';
import { CIRCUITS, DIRECTION_LABELS, STRIP_LABELS, SURFACES, USES } from './strip-labels.ts';
import { choiceField, radioField, textField } from './form-field.ts';

/** What the parts need. */
export interface StripContext {
  readonly fields: StripFields;
  readonly messages: StripMessages;
  readonly units: ShownUnits;
  /** True for a strip that is kept: its id is fixed. */
  readonly isKept: boolean;
  readonly otherIds: readonly string[];
  /** Length of a centreline that bends; null: between the ends as typed. */
  readonly lengthM: number | null;
  /** Folds that are open; one that has something to show is added. */
  readonly open: Set<End>;
  readonly set: (change: Partial<StripFields>) => void;
}

/** What the reader of strips files takes where no position error is entered, metres. */
const DRAWN_BY_HAND_M = 5;

/** Fields of an end that stand outside the fold. */
const OUTSIDE = ['lat', 'lon', 'elevation', 'use', 'designator', 'displaced'];

/** Name, id, surface, width, position error. */
export function stripPart(context: StripContext): TemplateResult {
  const { fields, messages, set, units, isKept, otherIds } = context;
  const made = idFromName(fields.name, otherIds);
  const hint = isKept ? 'fixed: flights refer to it' : 'empty: made from the name, then fixed';
  return html`<fieldset class="form-part">
    <legend>The strip</legend>
    <div class="field-row field-row-wide">
      ${text('name', context, { hint: 'for example Long Flat' })}
      ${text('id', context, { hint, placeholder: made, readOnly: isKept })}
      ${radioField({
        id: 'strip-surface',
        label: 'Surface',
        value: fields.surface,
        options: SURFACES,
        message: messages.surface,
        onChoose: (surface) => set({ surface }),
      })}
    </div>
    <div class="field-row">
      ${figure('width', 'Width', context, { hint: 'of what is mown or paved' })}
      ${figure('positionError', 'Position error', context, {
        hint: 'how far off the line may be drawn, 95 times in 100',
        placeholder: showQuantity(DRAWN_BY_HAND_M, stripUnit('positionError', units)),
      })}
    </div>
  </fieldset>`;
}

/** Where one end lies. */
export function endPart(end: End, context: StripContext): TemplateResult {
  const position = (axis: 'latitude' | 'longitude') => {
    const field = `${end}.${axis === 'latitude' ? 'lat' : 'lon'}` as const;
    const read = readPosition(context.fields[field], axis);
    const hint =
      read.kind === 'degrees'
        ? read.words
        : `for example ${positionExample(axis).replace(/(\d) (?!or)/g, `$1${NBSP}`)}`;
    return text(field, context, { hint });
  };
  return html`<fieldset class="form-part">
    <legend>End ${end.toUpperCase()}</legend>
    <div class="field-row field-row-wide">
      ${position('latitude')} ${position('longitude')}
      ${figure(`${end}.elevation`, 'Elevation', context, { hint: 'above mean sea level' })}
    </div>
  </fieldset>`;
}

/** What the two ends make, said and drawn while they are typed. */
export function typedPart({ fields, units, lengthM }: StripContext): TemplateResult {
  const { words, line } = typedStrip(fields, units, lengthM);
  return html`<div class="typed-strip">
    ${line === null ? nothing : smallStrip(line)}
    <output for="strip-a-lat strip-a-lon strip-b-lat strip-b-lon">${words}</output>
  </div>`;
}

/** The direction that begins at an end. */
export function directionPart(end: End, context: StripContext): TemplateResult {
  const { fields, messages, set, units, lengthM } = context;
  const defaults = directionDefaults(fields, end, units, lengthM);
  const choice = (name: 'use' | 'circuit', label: string, options: typeof USES) =>
    choiceField({
      id: idOf(`${end}.${name}`),
      label,
      value: fields[`${end}.${name}`],
      options,
      message: messages[`${end}.${name}`],
      onChoose: (value) => set({ [`${end}.${name}`]: value }),
    });
  // Once open it stays so: a fold must not close over a field that is being emptied.
  if (hasDetails(end, context)) context.open.add(end);
  const details = html`<details class="fold" ?open=${context.open.has(end)}>
    <summary>Declared distances, circuit, commit point</summary>
    <p class="form-note">What is left empty is taken as the grey figure says.</p>
    <div class="field-row">
      ${DIRECTION_LABELS.slice(1, 5).map((each) => directionFigure(each, end, context, defaults))}
      ${choice('circuit', 'Circuit', CIRCUITS)}
      ${DIRECTION_LABELS.slice(5).map((each) => directionFigure(each, end, context, defaults))}
    </div>
  </details>`;
  const isUsed = fields[`${end}.use`] !== 'none';
  const first = html`${text(`${end}.designator`, context, {
    hint: 'as spoken or painted',
    placeholder: defaults.designator,
  })}
  ${directionFigure(DIRECTION_LABELS[0], end, context, defaults)}`;
  return html`<fieldset class="form-part">
    <legend>Direction that lands from end ${end.toUpperCase()}</legend>
    <div class="field-row">
      ${choice('use', 'Landing or take-off', USES)} ${isUsed ? first : nothing}
    </div>
    ${isUsed ? details : nothing}
  </fieldset>`;
}

/** True where something stands in the fold of a direction, or something in it is wrong. */
function hasDetails(end: End, { fields, messages }: StripContext): boolean {
  const names = Object.keys(fields) as StripField[];
  return names
    .filter((name) => name.startsWith(`${end}.`))
    .filter((name) => !OUTSIDE.some((each) => name.endsWith(each)))
    .some((name) => fields[name] !== '' || messages[name] !== undefined);
}

function directionFigure(
  { field, label, hint }: (typeof DIRECTION_LABELS)[number],
  end: End,
  context: StripContext,
  defaults: DirectionDefaults,
): TemplateResult {
  return figure(`${end}.${field}`, label, context, { hint, placeholder: defaults[field] });
}

interface Extras {
  readonly hint?: string;
  readonly placeholder?: string;
  readonly readOnly?: boolean;
}

function text(field: StripField, context: StripContext, extras: Extras): TemplateResult {
  return textField({
    id: idOf(field),
    label: STRIP_LABELS[field.split('.').at(-1) ?? field] ?? field,
    value: context.fields[field],
    message: context.messages[field],
    onInput: (value) => context.set({ [field]: value }),
    ...extras,
  });
}

function figure(
  field: StripField,
  label: string,
  context: StripContext,
  extras: Extras,
): TemplateResult {
  return textField({
    id: idOf(field),
    label,
    unit: stripUnit(field, context.units).symbol,
    kind: field.endsWith('commit') || field.endsWith('elevation') ? 'signed' : 'figure',
    value: context.fields[field],
    message: context.messages[field],
    onInput: (value) => context.set({ [field]: value }),
    ...extras,
  });
}

function idOf(field: StripField): string {
  return `strip-${field.replace('.', '-')}`;
}
