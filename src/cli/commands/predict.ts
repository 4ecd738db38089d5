/** `predict`: how much of a strip will be needed, in and out, with the whole working. */
import { planDirections, type DirectionPlan } from '../../debrief/plan-directions.ts';
import { plannedMomentS } from '../../logbook/planned-visit.ts';
import type { Aeroplane } from '../../performance/aeroplane.ts';
import { PUBLISHED_SETS } from '../../performance/factor-sets/published.ts';
import { CAUTION_LINES } from '../../report/caution.ts';
import type { OwnForVisit } from '../../report/pictures/visit-pictures.ts';
import { predictDocument } from '../../report/predict-json.ts';
import { predictLines, type PredictReport } from '../../report/predict-tables.ts';
import { listWords, missingForVisit } from '../../report/story/visit-missing.ts';
import { isUndetermined } from '../../result.ts';
import type { Strip, StripBook } from '../../strips/strip.ts';
import type { Conditions } from '../../weather/conditions.ts';
import { conditionsFor } from '../../weather/decode-conditions.ts';
import { readArgs, UsageError, type ParsedArgs } from '../args.ts';
import {
  CONDITION_OPTIONS,
  CONDITION_OPTIONS_HELP,
  joinNegativeNumbers,
  readConditionArgs,
} from '../conditions-args.ts';
import { readFactorSet, readRecords, RECORD_OPTIONS } from '../read-records.ts';

/** Shown by `--help`. */
export const PREDICT_HELP = `predict --strips FILE.geojson --strip ID [--direction D] --aeroplane FILE.json
        [--conditions FILE.json [--flight NAME]] [--metar TEXT] [--wind 240/12G20] [--surface grass-dry]
        [--temp C] [--qnh HPA] [--mass KG] [--take-off-mass KG] [--flap LABEL] [--factor-set ID|FILE.json]
        [--own-factor N] [--own-take-off-factor N] [--nearest-edge] [--day YYYY-MM-DD] [--json]

Predicts landing and take-off in one direction, or in all of them side by side, with every step of the
working. Nothing is assumed: calm and dry have to be said. Options win over the METAR, the METAR over the file.

  --strip ID         id of the strip in the strips file; --direction D its designator
  --conditions FILE  conditions (JSON); --flight NAME takes those noted for that file
${CONDITION_OPTIONS_HELP}
  --factor-set       ${PUBLISHED_SETS.map(({ id }) => id).join(', ')}, or a set of your own (JSON)
  --own-factor N     your own factor of the whole landing distance; --own-take-off-factor N of the take-off
  --nearest-edge     outside the handbook's table read its nearest edge, marked
  --day              for the magnetic variation; today where it is not given
  --json             one JSON document instead of tables

Exit code: 0 when something was predicted, 2 when nothing could be, 1 for wrong usage.`;

const OPTIONS = {
  ...RECORD_OPTIONS,
  ...CONDITION_OPTIONS,
  strip: { type: 'string' },
  direction: { type: 'string' },
  flight: { type: 'string' },
  'factor-set': { type: 'string' },
  'own-factor': { type: 'string' },
  'own-take-off-factor': { type: 'string' },
  'nearest-edge': { type: 'boolean' },
  day: { type: 'string' },
  json: { type: 'boolean' },
} as const;

/** Own factors beyond these are slips, not factors (ours). */
const OWN_FACTOR_RANGE = [0.3, 5] as const;

/** Runs the command; returns the exit code. Writes the prediction to stdout. */
export async function runPredict(args: readonly string[]): Promise<number> {
  const given = readArgs(joinNegativeNumbers(args), OPTIONS);
  if (given.flag('help')) {
    process.stdout.write(`${PREDICT_HELP}\n`);
    return 0;
  }
  if (given.rest.length > 0) {
    throw new UsageError(`'${given.rest[0]}' is no option of predict; it takes no tracks`);
  }
  const report = await readReport(given);
  process.stdout.write(
    given.flag('json')
      ? `${JSON.stringify(predictDocument(report), null, 2)}\n`
      : `${[...predictLines(report), ...CAUTION_LINES].join('\n')}\n`,
  );
  return report.plans.some(isPredicted) ? 0 : 2;
}

async function readReport(given: ParsedArgs): Promise<PredictReport> {
  const records = await readRecords(given);
  const strip = findStrip(records.strips, given.texts('strip').at(-1));
  const designator = findDirection(strip, given.texts('direction').at(-1));
  const flight = given.texts('flight').at(-1);
  const conditions = conditionsOf(records.conditions, flight, readConditionArgs(given));
  const aeroplane = findAeroplane(records.aeroplanes, conditions.aeroplane);
  const factorSet = await readFactorSet(given.texts('factor-set').at(-1) ?? conditions.factorSet);
  refuseMissing(conditions, strip, aeroplane);
  const day = given.texts('day').at(-1) ?? new Date().toISOString().slice(0, 10);
  const timeS = plannedMomentS(day);
  if (!Number.isFinite(timeS)) throw new UsageError(`--day: found "${day}", expected YYYY-MM-DD`);
  const edge = given.flag('nearest-edge') ? 'nearest' : 'refuse';
  const plans = planDirections(strip, designator, {
    aeroplane,
    conditions,
    factorSet,
    timeS,
    edge,
  });
  const own = readOwn(given);
  return { book: records.strips, strip, aeroplane, factorSet, conditions, own, plans };
}

function findStrip({ strips }: StripBook, id: string | undefined): Strip {
  const found = strips.find((strip) => strip.id === id);
  if (found) return found;
  const known = strips.map((strip) => strip.id).join(', ');
  const expected = known === '' ? 'a strips file with strips' : `one of ${known}`;
  throw new UsageError(
    id === undefined
      ? `no strip was given; expected --strip with ${expected}`
      : `--strip: found "${id}", expected ${expected}`,
  );
}

function findDirection({ directions }: Strip, designator: string | undefined): string | null {
  if (designator === undefined) return null;
  if (directions.some((direction) => direction.designator === designator)) return designator;
  const known = directions.map((direction) => direction.designator).join(', ');
  throw new UsageError(`--direction: found "${designator}", expected one of ${known}`);
}

/** Those of the options, else of the file for the flight, else for all flights. */
function conditionsOf(
  book: Parameters<typeof conditionsFor>[0] | null,
  flight: string | undefined,
  options: Conditions,
): Conditions {
  if (flight !== undefined && !book?.byFile.has(flight)) {
    throw new UsageError(`--flight: the conditions file notes nothing for "${flight}"`);
  }
  const all = book && conditionsFor(book, flight ?? '');
  return conditionsFor({ all, byFile: new Map([['', options]]) }, '') ?? options;
}

function findAeroplane(aeroplanes: readonly Aeroplane[], named: string | null): Aeroplane {
  if (aeroplanes.length === 0) throw new UsageError('no aeroplane was given; expected --aeroplane');
  const found = aeroplanes.find(({ id }) => id === named);
  if (found) return found;
  if (aeroplanes.length === 1 && named === null) return aeroplanes[0];
  const known = aeroplanes.map(({ id }) => id).join(', ');
  throw new UsageError(
    named === null
      ? `several aeroplanes were given (${known}) and the conditions name none; expected one`
      : `the conditions are for the aeroplane "${named}"; given: ${known}`,
  );
}

function refuseMissing(conditions: Conditions, strip: Strip, aeroplane: Aeroplane): void {
  const missing = missingForVisit({
    stripId: strip.id,
    landing: strip.directions[0].designator,
    takeOff: null,
    aeroplaneId: aeroplane.id,
    conditions,
  });
  if (missing.length === 0) return;
  throw new UsageError(`no prediction without ${listWords(missing)}; nothing is assumed`);
}

function readOwn(given: ParsedArgs): OwnForVisit {
  return {
    landingWhole: ownFactor(given, 'own-factor'),
    landingRoll: null,
    takeOffWhole: ownFactor(given, 'own-take-off-factor'),
  };
}

function ownFactor(given: ParsedArgs, option: string): number | null {
  const text = given.texts(option).at(-1);
  if (text === undefined) return null;
  const [low, high] = OWN_FACTOR_RANGE;
  const value = /^\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
  if (value >= low && value <= high) return value;
  throw new UsageError(`--${option}: found "${text}", expected a number from ${low} to ${high}`);
}

/** True where at least one distance could be had. */
function isPredicted({ prediction }: DirectionPlan): boolean {
  if (isUndetermined(prediction)) return false;
  return [prediction.landing, prediction.takeOff].some(
    (use) =>
      !isUndetermined(use) && Object.values(use).some((figure) => typeof figure === 'number'),
  );
}
