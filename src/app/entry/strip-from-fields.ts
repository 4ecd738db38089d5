/**
 * Which feature do the fields of a strip's form make, and what is wrong with them?
 *
 * In: the texts of the fields, the feature that filled them, the ids in use. Out: the feature as the
 * reader of strips files takes it, its warnings and whether the line on the ground moved; or a message
 * for each wrong field.
 */
import type { Feature, Json, ShownUnits } from '../../logbook/entry.ts';
import { decodeStrips } from '../../strips/decode-strips.ts';
import { foreignAround } from '../../strips/foreign-members.ts';
import type { Strip } from '../../strips/strip.ts';
import {
  listIn,
  numberIn,
  propertiesOf,
  withValue,
  withValues,
  type JsonRecord,
} from './feature-parts.ts';
import type { FieldMessages } from './field-messages.ts';
import { idFromName } from './id-from-name.ts';
import { readPosition, showDegrees } from './position-text.ts';
import { inTypedUnit, readQuantity } from './shown-unit.ts';
import { defaultDesignators } from './strip-defaults.ts';
import {
  DIRECTION_FIGURES,
  hasDirections,
  keptDirection,
  keptElevation,
  keptEnd,
  keptLine,
  stripUnit,
  type DirectionFigure,
  type End,
  type StripField,
  type StripFields,
} from './strip-fields.ts';

/** Messages beside the fields; `form` is about the whole. */
export type StripMessages = FieldMessages<StripField | 'form'>;

/** A doubt of the reader; `field` is null where it is about the whole. */
export interface StripWarning {
  readonly field: StripField | null;
  readonly text: string;
}

/** What the fields say. */
export type EnteredStrip =
  | {
      readonly ok: true;
      readonly feature: Feature;
      readonly strip: Strip;
      /** What looks odd and may be right, each with the field it is about. */
      readonly warnings: readonly StripWarning[];
      /** True where the line or a threshold lies elsewhere than before. */
      readonly isMoved: boolean;
    }
  | { readonly ok: false; readonly messages: StripMessages };

/** What the fields are read against. */
export interface StripBefore {
  /** The kept feature; null for a new strip. */
  readonly feature: Feature | null;
  /** Ids of the other strips. */
  readonly otherIds: readonly string[];
}

/** Reads the form. Fails: a message for each wrong field, what was found and what was expected. */
export function stripFromFields(
  fields: StripFields,
  units: ShownUnits,
  { feature: before, otherIds }: StripBefore,
): EnteredStrip {
  const messages: StripMessages = {};
  const reader = new FieldReader(fields, units, before, messages);
  const id = before ? fields.id : fields.id.trim() || idFromName(fields.name, otherIds);
  if (otherIds.includes(id)) {
    messages.id = `found "${id}", which another strip has, expected one of its own`;
  }
  if (fields.name.trim() === '') messages.name = 'found nothing, expected a name';
  if (fields.surface === '') messages.surface = 'found nothing, expected what it is made of';
  if (fields.width.trim() === '') messages.width = 'found nothing, expected the width';
  const kept = propertiesOf(before);
  const properties = withValues(
    { ...kept, kind: 'strip', id },
    {
      name: fields.name.trim() === (kept.name ?? id) ? (kept.name ?? null) : fields.name.trim(),
      surface: fields.surface,
      widthM: reader.figure('width', numberIn(kept.widthM)),
      positionErrorM: reader.figure('positionError', numberIn(kept.positionErrorM)),
      elevationM: reader.elevations(),
      endsGuessed: fields.ends === 'guessed' ? true : keptAs(kept.endsGuessed, false),
    },
  );
  const geometry = reader.line();
  const directions = reader.directions(geometry);
  const feature: Feature = {
    type: 'Feature',
    ...foreignAround(before ?? {}, geometry),
    properties: directions === null ? properties : withValue(properties, 'directions', directions),
    geometry,
  };
  const judged = decodeStrips(JSON.stringify({ type: 'FeatureCollection', features: [feature] }));
  if (Object.keys(messages).length === 0 && !judged.ok) {
    for (const { message } of judged.problems) reader.place(message, directions);
  }
  if (!judged.ok || Object.keys(messages).length > 0) return { ok: false, messages };
  const warnings = judged.problems.filter(({ severity }) => severity === 'warning');
  return {
    ok: true,
    feature,
    strip: judged.value.strips[0],
    warnings: warnings.map(({ message }) => reader.warning(message, directions)),
    isMoved: placeOf(feature) !== placeOf(before),
  };
}

/** A value that is only written where the record had one. */
function keptAs(before: Json | undefined, value: Json): Json {
  return before === undefined || before === null ? null : value;
}

/** Reads fields against what filled them and collects what is wrong. */
class FieldReader {
  readonly #fields: StripFields;
  readonly #units: ShownUnits;
  readonly #before: Feature | null;
  readonly #messages: StripMessages;

  constructor(
    fields: StripFields,
    units: ShownUnits,
    before: Feature | null,
    messages: StripMessages,
  ) {
    this.#fields = fields;
    this.#units = units;
    this.#before = before;
    this.#messages = messages;
  }

  figure(field: StripField, kept: number | null): number | null {
    const read = readQuantity(this.#fields[field], stripUnit(field, this.#units), kept);
    if (!read.ok) this.#messages[field] = read.message;
    return read.ok ? read.value : null;
  }

  elevations(): Json {
    const both = (['a', 'b'] as const).map((end) =>
      this.figure(`${end}.elevation`, keptElevation(this.#before, end)),
    );
    for (const [index, end] of (['a', 'b'] as const).entries()) {
      const field = `${end}.elevation` as const;
      if (both[index] !== null || both[1 - index] === null) continue;
      this.#messages[field] ??= 'found nothing, expected both elevations or none';
    }
    return both.every((each) => each === null) ? null : both;
  }

  /** The centreline with both ends as entered and whatever lay between them. */
  line(): JsonRecord {
    const kept = keptLine(this.#before);
    const end = (which: End, position: readonly Json[]): Json => {
      const [lonDeg, latDeg] = this.#end(which);
      return [lonDeg, latDeg, ...position.slice(2)];
    };
    const coordinates = [
      end('a', kept[0] ?? []),
      ...kept.slice(1, -1),
      end('b', kept.at(-1) ?? []),
    ];
    return { type: 'LineString', coordinates };
  }

  #end(end: End): readonly [number | null, number | null] {
    const [lon, lat] = keptEnd(this.#before, end);
    return [this.#degrees(`${end}.lon`, lon), this.#degrees(`${end}.lat`, lat)];
  }

  #degrees(field: `${End}.${'lat' | 'lon'}`, kept: number | null): number | null {
    const text = this.#fields[field].trim();
    if (kept !== null && text === showDegrees(kept)) return kept;
    const axis = field.endsWith('lat') ? 'latitude' : 'longitude';
    const read = readPosition(text, axis);
    if (read.kind === 'degrees') return read.deg;
    this.#messages[field] =
      read.kind === 'wrong' ? read.message : `found nothing, expected the ${axis}`;
    return null;
  }

  /** The list of directions; null where none is needed, because both are as the bearing makes them. */
  directions(geometry: JsonRecord): Json[] | null {
    const made = { a: this.#direction('a', geometry), b: this.#direction('b', geometry) };
    const ends = (['a', 'b'] as const).filter((end) => this.#fields[`${end}.use`] !== 'none');
    if (ends.length === 0) {
      this.#messages['a.use'] = 'found neither direction in use, expected one or both';
      return [];
    }
    const isPlain = ends.length === 2 && ends.every((end) => Object.keys(made[end]).length <= 2);
    const isUnnamed = ends.every((end) => this.#fields[`${end}.designator`].trim() === '');
    if (!hasDirections(this.#before) && isPlain && isUnnamed) return null;
    const order = listIn(propertiesOf(this.#before).directions).map(({ from }) => from);
    const place = (end: End) => (order.indexOf(end.toUpperCase()) + 3) % 3;
    return ends.sort((one, other) => place(one) - place(other)).map((end) => made[end] as Json);
  }

  #direction(end: End, geometry: JsonRecord): JsonRecord {
    const kept = keptDirection(this.#before, end) ?? {};
    const text = (field: 'designator' | 'use' | 'circuit') =>
      this.#fields[`${end}.${field}`].trim();
    const use = text('use');
    const figures = Object.entries(DIRECTION_FIGURES).map(([field, property]) => [
      property,
      this.figure(`${end}.${field as DirectionFigure}`, numberIn(kept[property])),
    ]);
    return withValues(
      { ...kept, from: end.toUpperCase() },
      {
        designator: text('designator') || defaultDesignators(geometry)[end],
        use: use === 'both' && (kept.use ?? null) === null ? null : use,
        circuit: text('circuit') || null,
        ...(Object.fromEntries(figures) as Record<string, number | null>),
      },
    );
  }

  /** Sets a problem of the reader beside the field that its path names. */
  place(message: string, directions: readonly Json[] | null): void {
    const { path, text } = withoutPath(message);
    const field = this.#fieldOf(path, directions);
    if (field === null) {
      this.#messages.form = [this.#messages.form, text].filter(Boolean).join('; ');
      return;
    }
    this.#messages[field] ??= inTypedUnit(text, this.#fields[field], stripUnit(field, this.#units));
  }

  warning(message: string, directions: readonly Json[] | null): StripWarning {
    const { path, text } = withoutPath(message);
    return { field: this.#fieldOf(path, directions), text };
  }

  #fieldOf(path: string, directions: readonly Json[] | null): StripField | null {
    const own = OWN_FIELD[path];
    if (own !== undefined) return own;
    const match = /^directions\[(\d)\]\.?(\w*)/.exec(path);
    if (!match) return null;
    const [, index, property] = match;
    const end: End = listIn(directions ?? undefined)[Number(index)].from === 'B' ? 'b' : 'a';
    const figure = Object.entries(DIRECTION_FIGURES).find(([, each]) => each === property);
    if (figure) return `${end}.${figure[0] as DirectionFigure}`;
    return property === 'use' || property === 'circuit'
      ? `${end}.${property}`
      : `${end}.designator`;
  }
}

const OWN_FIELD: Readonly<Partial<Record<string, StripField>>> = {
  id: 'id',
  name: 'name',
  widthM: 'width',
  surface: 'surface',
  positionErrorM: 'positionError',
  elevationM: 'a.elevation',
  'elevationM[0]': 'a.elevation',
  'elevationM[1]': 'b.elevation',
  'geometry.coordinates': 'b.lat',
};

/** `directions[0].ldaM: found ...` as its path and its text. */
function withoutPath(message: string): { path: string; text: string } {
  const match = /^([A-Za-z][\w.[\]]*): (.+)$/s.exec(message);
  return match ? { path: match[1], text: match[2] } : { path: '', text: message };
}

/** Where the line lies and its landing thresholds. */
function placeOf(feature: Feature | null): string {
  const displaced = (end: End) => numberIn(keptDirection(feature, end)?.displacedM) ?? 0;
  return JSON.stringify([keptLine(feature), displaced('a'), displaced('b')]);
}
