/** Invented aeroplanes and strips for the tests of the predictor: round figures, easy by hand. */

import type { Aeroplane, HandbookTable } from '../../src/performance/aeroplane.ts';
import type { FactorSet } from '../../src/performance/factor-sets/factor-set.ts';
import { UK_LEAFLET } from '../../src/performance/factor-sets/uk-leaflet.ts';
import { predict, type PredictedDirection } from '../../src/performance/predict.ts';
import type {
  Figure,
  LandingPrediction,
  Prediction,
  TakeOffPrediction,
} from '../../src/performance/prediction.ts';
import { isUndetermined } from '../../src/result.ts';
import type { Conditions } from '../../src/weather/conditions.ts';

/** A one-row table at 0 ft, 15 degrees, 1000 kg. */
export function oneRow(
  quantity: HandbookTable['quantity'],
  distanceM: number,
  changes: Partial<HandbookTable> = {},
): HandbookTable {
  return {
    quantity,
    flap: 'full',
    surface: 'hard-dry',
    screenHeightM: quantity.endsWith('screen') ? 15.24 : null,
    pressureAltitudeFt: [0],
    tempC: [15],
    massKg: [1000],
    distanceM: [[[distanceM]]],
    ...changes,
  };
}

/** 450 m from 50 ft, of which 200 m is roll; 500 m to 50 ft, of which 300 m is roll; 50 kt at contact. */
export const PLAIN_AEROPLANE: Aeroplane = {
  id: 'plain',
  name: 'Plain',
  invented: true,
  note: null,
  massKg: { min: 600, maxTakeOff: 1200, maxLanding: 1200 },
  gear: 'nose',
  brakes: true,
  speeds: {
    atMassKg: 1000,
    stallLandingKt: 45,
    stallTakeOffKt: 48,
    approachKt: null,
    touchdownKt: 50,
    liftOffKt: 50,
  },
  tables: [
    oneRow('landing-from-screen', 450),
    oneRow('landing-roll', 200),
    oneRow('take-off-to-screen', 500),
    oneRow('take-off-roll', 300),
  ],
  corrections: [],
};

/** A level grass strip at sea level, bearing 090. */
export const LEVEL_GRASS: PredictedDirection = {
  use: 'both',
  trueBearingDeg: 90,
  elevationMslM: 0,
  slopeRatio: 0,
  surface: 'grass',
  ldaM: 500,
  toraM: 500,
  todaM: 520,
  endsGuessed: false,
};

/** Calm, 15 degrees, 1013.25 hPa, 1000 kg, dry grass: everything entered. */
export const STILL_DAY: Conditions = {
  wind: { fromDeg: null, reference: 'true', speedKt: 0, gustKt: null },
  tempC: 15,
  qnhHpa: 1013.25,
  massKg: 1000,
  takeOffMassKg: null,
  surface: 'grass-dry',
  flap: null,
  aeroplane: null,
  factorSet: null,
  effort: null,
};

/** What a test changes. */
export interface Changes {
  readonly aeroplane?: Partial<Aeroplane>;
  readonly direction?: Partial<PredictedDirection>;
  readonly conditions?: Partial<Conditions>;
  readonly set?: FactorSet;
  readonly variationDeg?: number | null;
  readonly edge?: 'refuse' | 'nearest';
}

/** Predicts for the plain aeroplane on the still day, with changes. */
export function ask(changes: Changes = {}): ReturnType<typeof predict> {
  return predict({
    aeroplane: { ...PLAIN_AEROPLANE, ...changes.aeroplane },
    direction: { ...LEVEL_GRASS, ...changes.direction },
    conditions: { ...STILL_DAY, ...changes.conditions },
    variationDeg: changes.variationDeg ?? null,
    factorSet: changes.set ?? UK_LEAFLET,
    ...(changes.edge === undefined ? {} : { edge: changes.edge }),
  });
}

/** The prediction; fails loudly where there is none. */
export function predicted(changes: Changes = {}): Prediction {
  return given(ask(changes));
}

/** The landing; fails loudly where there is none. */
export function landing(changes: Changes = {}): LandingPrediction {
  return given(predicted(changes).landing);
}

/** The take-off; fails loudly where there is none. */
export function takeOff(changes: Changes = {}): TakeOffPrediction {
  return given(predicted(changes).takeOff);
}

/** The number; fails loudly where it is undetermined. */
export function metres(figure: Figure): number {
  if (isUndetermined(figure)) throw new Error(`undetermined: ${figure.undetermined}`);
  return figure;
}

/** The reason; fails loudly where there is a value. */
export function reasonOf(value: unknown): string {
  if (!isUndetermined(value)) throw new Error(`not undetermined: ${JSON.stringify(value)}`);
  return value.undetermined;
}

function given<T>(value: T): Exclude<T, { undetermined: string }> {
  if (isUndetermined(value)) throw new Error(`undetermined: ${value.undetermined}`);
  return value as Exclude<T, { undetermined: string }>;
}
