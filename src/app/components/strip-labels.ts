/** What the fields of a strip's form are called, and what stands under them. */
import type { DirectionFigure } from '../entry/strip-fields.ts';
import type { StripWarning } from '../entry/strip-from-fields.ts';

/** Labels of the fields of a direction, and what an empty one means. */
export const DIRECTION_LABELS: readonly { field: DirectionFigure; label: string; hint: string }[] =
  [
    { field: 'displaced', label: 'Displaced by', hint: 'threshold, from the end' },
    { field: 'lda', label: 'LDA', hint: 'landing distance available' },
    { field: 'tora', label: 'TORA', hint: 'take-off run available' },
    { field: 'toda', label: 'TODA', hint: 'take-off distance available' },
    { field: 'asda', label: 'ASDA', hint: 'accelerate-stop distance available' },
    { field: 'circuitHeight', label: 'Circuit height', hint: 'above the strip' },
    {
      field: 'commit',
      label: 'Commit point',
      hint: 'from the threshold, negative before it; past it there is no going around',
    },
  ];

/** The label of a field, for the summary. */
export function stripLabel(field: string): string {
  const [end, name = ''] = field.split('.');
  if (name === '') return STRIP_LABELS[field] ?? field;
  const figure = DIRECTION_LABELS.find((each) => each.field === name);
  return `${figure?.label ?? STRIP_LABELS[name] ?? name}, end ${end.toUpperCase()}`;
}

/** Doubts in front of the fields, each with the label it is about. */
export function warningWords(warnings: readonly StripWarning[]): string {
  const words = warnings.map(({ field, text }) =>
    field === null ? text : `${stripLabel(field)}: ${text}`,
  );
  return words.length === 0 ? '' : `Look again. ${words.join('; ')}.`;
}

/** Labels of the other fields, by their last word. */
export const STRIP_LABELS: Readonly<Partial<Record<string, string>>> = {
  form: 'the whole',
  name: 'Name',
  id: 'Id',
  surface: 'Surface',
  width: 'Width',
  positionError: 'Position error',
  ends: 'Where it ends',
  lat: 'Latitude',
  lon: 'Longitude',
  elevation: 'Elevation',
  designator: 'Designator',
  use: 'Landing or take-off',
  circuit: 'Circuit',
};

/** What a strip is made of. */
export const SURFACES = [
  { value: 'grass', words: 'grass' },
  { value: 'hard', words: 'hard' },
  { value: 'gravel', words: 'gravel' },
  { value: 'earth', words: 'earth' },
];

/** What a direction is used for. */
export const USES = [
  { value: 'both', words: 'both' },
  { value: 'landing', words: 'landing only' },
  { value: 'take-off', words: 'take-off only' },
  { value: 'none', words: 'not used' },
];

/** Sides of a circuit. */
export const CIRCUITS = [
  { value: '', words: 'not entered' },
  { value: 'left', words: 'left' },
  { value: 'right', words: 'right' },
];
