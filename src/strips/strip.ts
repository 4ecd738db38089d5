/**
 * A strip and its directions, as kept and as measured against.
 *
 * End A and end B are the ends of the centreline; a direction begins (for a landing) at one of
 * them. Declared distances carry the meanings of ICAO Annex 14.
 */

/** What the strip is made of. */
export type StripSurface = 'grass' | 'hard' | 'gravel' | 'earth';

/** What a direction may be used for. */
export type DirectionUse = 'both' | 'landing' | 'take-off';

/** One way to use a strip. Distances in metres. */
export interface StripDirection {
  /** Designator as painted or spoken, for example `09` or `27L`. */
  readonly designator: string;
  /** End at which a landing in this direction begins. */
  readonly from: 'A' | 'B';
  readonly use: DirectionUse;
  /** Threshold displacement from the end, metres into the strip. */
  readonly displacedM: number;
  readonly ldaM: number;
  readonly toraM: number;
  readonly todaM: number;
  readonly asdaM: number;
  readonly circuit: 'left' | 'right' | null;
  /** Circuit height over the strip, metres. */
  readonly circuitHeightM: number | null;
  /** Commit point: alongM from the landing threshold after which no go-around is possible (negative: before it). */
  readonly commitM: number | null;
}

/**
 * What a feature holds besides its type, its place and its properties: its `id`, its box, members of
 * the writer's own (RFC 7946, section 6.1). Kept whole for writing back; absent where there is none.
 */
interface Foreign {
  readonly foreign?: Readonly<Record<string, unknown>>;
}

/** Why nothing that counts from the ends of a strip can be told where they are guessed. */
export const ENDS_GUESSED = "the strip's ends are guessed from where wheels were seen";

/** A strip: centreline from end A to end B, with elevations above mean sea level. */
export interface Strip extends Foreign {
  readonly id: string;
  readonly name: string;
  /** Centreline positions from A to B; two or more. WGS 84 degrees. */
  readonly latDeg: readonly number[];
  readonly lonDeg: readonly number[];
  readonly widthM: number;
  readonly surface: StripSurface;
  /** Elevation of end A and of end B, metres above mean sea level, or null where not given. */
  readonly elevationM: readonly [number, number] | null;
  /** Elevation profile: [distance from A along the centreline, elevation above mean sea level], rising in distance. */
  readonly profile: readonly (readonly [number, number])[] | null;
  /** Radius about an entered position within which the true one lies 95 times in 100, metres (place-error.ts). */
  readonly positionErrorM: number;
  /** True where the ends are only where wheels were seen, so that the strip may go on beyond them. */
  readonly endsGuessed: boolean;
  readonly directions: readonly StripDirection[];
  /** The feature's own properties, kept whole for writing back. */
  readonly properties: Readonly<Record<string, unknown>>;
}

/** An obstacle near a strip: one point or a line of points. */
export interface Obstacle extends Foreign {
  readonly strip: string | null;
  readonly name: string;
  readonly latDeg: readonly number[];
  readonly lonDeg: readonly number[];
  /** Exactly one of the three is a number: top above sea level, above the landing threshold of the end it stands nearer to, or above the ground. */
  readonly topMslM: number | null;
  readonly topAboveThresholdM: number | null;
  readonly heightM: number | null;
  readonly properties: Readonly<Record<string, unknown>>;
}

/** An area not to be overflown, below a height or at all. Rings as in GeoJSON (outer first, closed). */
export interface AvoidArea extends Foreign {
  readonly name: string;
  readonly rings: readonly (readonly (readonly [number, number])[])[];
  readonly belowMslM: number | null;
  readonly properties: Readonly<Record<string, unknown>>;
}

/** The path an approach should follow. */
export interface ApproachPath extends Foreign {
  readonly strip: string;
  readonly designator: string;
  readonly latDeg: readonly number[];
  readonly lonDeg: readonly number[];
  readonly properties: Readonly<Record<string, unknown>>;
}

/** Everything a strips file holds. `other` keeps features of unknown kind for the round trip. */
export interface StripBook {
  readonly strips: readonly Strip[];
  readonly obstacles: readonly Obstacle[];
  readonly avoidAreas: readonly AvoidArea[];
  readonly approachPaths: readonly ApproachPath[];
  readonly other: readonly unknown[];
  /** What the file's FeatureCollection holds besides its features. */
  readonly foreign: Readonly<Record<string, unknown>>;
}

/** An empty book, for debriefs without known strips. */
export const EMPTY_STRIP_BOOK: StripBook = {
  strips: [],
  obstacles: [],
  avoidAreas: [],
  approachPaths: [],
  other: [],
  foreign: {},
};
