/**
 * What exactly is kept of a prediction that was saved for a visit, and can it be believed?
 *
 * In: a prediction with what it was made for. Out: plain JSON data; and back again, where its shape
 * is that of a prediction: a logbook may come from a file of anybody's.
 */
import * as v from 'valibot';
import type { Prediction } from '../performance/prediction.ts';
import type { FrozenPrediction, Json } from './entry.ts';

/** How the direction was to be used. */
export type PlannedUse = 'landing' | 'take-off';

/** What is frozen. Factors are plain ratios, null where there were too few landings. */
export interface FrozenDocument {
  readonly schema: 1;
  readonly uses: readonly PlannedUse[];
  readonly own: {
    readonly landingWhole: number | null;
    readonly landingRoll: number | null;
    readonly takeOffWhole: number | null;
  };
  readonly prediction: Prediction;
}

/** The document as plain JSON data. */
export function freeze(document: FrozenDocument): Json {
  return JSON.parse(JSON.stringify(document)) as Json;
}

/** The document of a frozen prediction; null where it has another shape. */
export function readFrozen({
  prediction,
}: Pick<FrozenPrediction, 'prediction'>): FrozenDocument | null {
  const parsed = v.safeParse(frozenDocument, prediction);
  return parsed.success ? parsed.output : null;
}

const number = v.pipe(v.number(), v.finite());
const text = v.string();
const unknown = v.object({ undetermined: text });
const figure = v.union([number, unknown]);
const step = v.object({
  name: text,
  factor: v.nullable(number),
  addM: v.nullable(number),
  actsOn: v.picklist(['whole distance', 'air part', 'ground roll']),
  source: text,
  why: text,
  runningM: number,
});
const chain = v.object({ expected: v.array(step), planned: v.array(step) });
const landing = v.object({
  expectedRollM: figure,
  plannedRollM: figure,
  expectedFrom50FtM: figure,
  plannedFrom50FtM: figure,
  expectedAirM: figure,
  marginM: figure,
  latestTouchdownAlongM: figure,
  chain,
});
const takeOff = v.object({
  expectedRollM: figure,
  plannedRollM: figure,
  expectedTo50FtM: figure,
  plannedTo50FtM: figure,
  marginM: figure,
  heldAgainst: v.exactOptional(v.picklist(['TORA', 'TODA'])),
  screenHeightM: v.exactOptional(number),
  chain,
});
const prediction = v.object({
  factorSet: text,
  day: v.object({
    headwindMps: figure,
    crosswindMps: figure,
    pressureAltitudeM: number,
    densityAltitudeM: number,
    densityRatio: number,
  }),
  speeds: v.union([
    v.object({
      stallMps: number,
      approachMps: number,
      gustAdditionMps: number,
      touchdownMps: number,
    }),
    unknown,
  ]),
  landing: v.union([landing, unknown]),
  takeOff: v.union([takeOff, unknown]),
  notes: v.array(
    v.object({
      code: text,
      text,
      phase: v.exactOptional(v.picklist(['landing', 'take-off'])),
    }),
  ),
});
const frozenDocument = v.object({
  schema: v.literal(1),
  uses: v.array(v.picklist(['landing', 'take-off'])),
  own: v.object({
    landingWhole: v.nullable(number),
    landingRoll: v.nullable(number),
    takeOffWhole: v.nullable(number),
  }),
  prediction,
});
