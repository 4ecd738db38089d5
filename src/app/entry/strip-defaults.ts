/**
 * What is taken where a field of a strip stays empty?
 *
 * In: the texts of the form, also half typed. Out: texts in the pilot's units, empty where they cannot
 * be worked out yet. The rules are those of the reader of strips files.
 */
import { shortLine } from '../../geo/local-frame.ts';
import type { ShownUnits } from '../../logbook/entry.ts';
import { completeDirections } from '../../strips/declared-distances.ts';
import { numberIn, type JsonRecord } from './feature-parts.ts';
import { readPosition } from './position-text.ts';
import { readQuantity, showQuantity } from './shown-unit.ts';
import {
  DIRECTION_FIGURES,
  stripUnit,
  type DirectionFigure,
  type End,
  type StripFields,
} from './strip-fields.ts';

/** Defaults of one direction, as texts. */
export type DirectionDefaults = Readonly<Record<'designator' | DirectionFigure, string>>;

const NO_DEFAULTS: DirectionDefaults = {
  designator: '',
  displaced: '0',
  lda: '',
  tora: '',
  toda: '',
  asda: '',
  circuitHeight: '',
  commit: '',
};

/** Length and bearing between the ends of the form, where both are typed. */
export function typedLine(fields: StripFields): { lengthM: number; bearingDeg: number } | null {
  const ends = (['a', 'b'] as const).flatMap((end) => {
    const lat = readPosition(fields[`${end}.lat`], 'latitude');
    const lon = readPosition(fields[`${end}.lon`], 'longitude');
    return lat.kind === 'degrees' && lon.kind === 'degrees' ? [lat.deg, lon.deg] : [];
  });
  if (ends.length < 4) return null;
  const line = shortLine(ends[0], ends[1], ends[2], ends[3]);
  return line.lengthM > 0 ? line : null;
}

/** The defaults of the direction that begins at an end. */
export function directionDefaults(
  fields: StripFields,
  end: End,
  units: ShownUnits,
  lengthM: number | null,
): DirectionDefaults {
  const line = typedLine(fields);
  if (!line) return NO_DEFAULTS;
  const typed = (field: DirectionFigure): number | null => {
    const name = `${end}.${field}` as const;
    const read = readQuantity(fields[name], stripUnit(name, units), null);
    return read.ok ? read.value : null;
  };
  const bare = completeDirections(null, lengthM ?? line.lengthM, line.bearingDeg);
  const { designator, from } = bare[end === 'a' ? 0 : 1];
  const given = {
    designator,
    from,
    use: null,
    displacedM: typed('displaced'),
    ldaM: null,
    toraM: typed('tora'),
    todaM: null,
    asdaM: null,
    circuit: null,
    circuitHeightM: null,
    commitM: null,
  };
  const [withTora] = completeDirections([given], lengthM ?? line.lengthM, line.bearingDeg);
  const [without] = completeDirections(
    [{ ...given, toraM: null }],
    lengthM ?? line.lengthM,
    line.bearingDeg,
  );
  const show = (field: DirectionFigure, { [DIRECTION_FIGURES[field]]: value }: typeof withTora) =>
    value === null
      ? ''
      : showQuantity(Math.round(value), { ...stripUnit(`${end}.${field}`, units), decimals: 0 });
  return {
    ...NO_DEFAULTS,
    designator,
    lda: show('lda', without),
    tora: show('tora', without),
    toda: show('toda', withTora),
    asda: show('asda', withTora),
  };
}

/** The designators that the bearing of a line makes; empty where it has no bearing. */
export function defaultDesignators(geometry: JsonRecord): Readonly<Record<End, string>> {
  const ends = positions(geometry);
  if (ends === null) return { a: '', b: '' };
  const { bearingDeg } = shortLine(ends[0][1], ends[0][0], ends[1][1], ends[1][0]);
  const [a, b] = completeDirections(null, 1, bearingDeg);
  return { a: a.designator, b: b.designator };
}

function positions({ coordinates }: JsonRecord): readonly (readonly [number, number])[] | null {
  if (!Array.isArray(coordinates)) return null;
  const line = coordinates as readonly (readonly (number | null)[])[];
  const ends = [line[0], line[line.length - 1]].map((each) => [
    numberIn(each[0]),
    numberIn(each[1]),
  ]);
  return ends.flat().every((each) => each !== null) ? (ends as [number, number][]) : null;
}
