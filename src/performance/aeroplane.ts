/**
 * What does the handbook of one aeroplane say? Its figures as data, as the handbook prints them.
 *
 * Knots and feet stand here because handbooks print them; the rest of the house is in SI.
 * Any of the four tables may be missing. Many microlight manuals give only whole distances over
 * 15 m; then whole distances are compared and there is no expected ground roll.
 */

/** Which way through the air: the two uses of a strip. */
export type Phase = 'landing' | 'take-off';

/** The four distances a handbook may give. The screen is 50 ft (15.24 m) or 15 m. */
export type HandbookQuantity =
  'landing-roll' | 'landing-from-screen' | 'take-off-roll' | 'take-off-to-screen';

/** Surface on which the handbook's figures were flown. */
export type TableSurface = 'hard-dry' | 'grass-dry';

/** One table of distances over pressure altitude, temperature and mass. */
export interface HandbookTable {
  readonly quantity: HandbookQuantity;
  /** Flap setting, the handbook's own label. */
  readonly flap: string;
  readonly surface: TableSurface;
  /** Screen height, metres: 15.24 (50 ft) or 15; null for a ground roll. */
  readonly screenHeightM: number | null;
  readonly pressureAltitudeFt: readonly number[];
  /** Temperatures, or `standard`: each row at the standard temperature of its altitude. */
  readonly tempC: readonly number[] | 'standard';
  readonly massKg: readonly number[];
  /** distanceM[altitude][temperature][mass]; one temperature row where `tempC` is `standard`. */
  readonly distanceM: readonly (readonly (readonly number[])[])[];
}

/** What a handbook correction answers to. */
export type CorrectionCondition =
  | 'headwind'
  | 'tailwind'
  | 'upslope'
  | 'downslope'
  | 'temperature-above-standard'
  | 'hard-wet'
  | 'grass-dry'
  | 'grass-wet'
  | 'soft';

/** One correction of the handbook's own: `percent` for each `per`, on the distance or on the roll. */
export interface HandbookCorrection {
  readonly phase: Phase;
  readonly condition: CorrectionCondition;
  /** Change, per cent; negative shortens. */
  readonly percent: number;
  /** For each so many knots, per cent of slope, or degrees Celsius; null for a surface. */
  readonly per: number | null;
  /** Up to so many knots, per cent of slope or degrees Celsius; null: the handbook sets no limit. */
  readonly upTo: number | null;
  /** `distance`: the roll and the whole alike; `ground-roll`: a share of the roll, added to both. */
  readonly of: 'distance' | 'ground-roll';
  /** The correction in words, shown beside the figure. */
  readonly text: string;
}

/** Reference speeds, knots indicated at `atMassKg`. A speed the handbook does not give is null. */
export interface ReferenceSpeeds {
  readonly atMassKg: number;
  readonly stallLandingKt: number;
  readonly stallTakeOffKt: number;
  readonly approachKt: number | null;
  readonly touchdownKt: number | null;
  readonly liftOffKt: number | null;
}

/** One aeroplane type or one aeroplane, as entered. */
export interface Aeroplane {
  readonly id: string;
  readonly name: string;
  /** True for the aeroplanes of the demonstration, which do not exist. */
  readonly invented: boolean;
  readonly note: string | null;
  readonly massKg: {
    readonly min: number;
    readonly maxTakeOff: number;
    readonly maxLanding: number;
  };
  readonly gear: 'nose' | 'tail';
  readonly brakes: boolean;
  readonly speeds: ReferenceSpeeds;
  readonly tables: readonly HandbookTable[];
  readonly corrections: readonly HandbookCorrection[];
}
