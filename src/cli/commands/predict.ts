/** `predict`: how much of a strip will be needed, in and out, with the whole working. */
import { forecastSpread } from '../../calibration/forecast-spread.ts';
import { debriefFile } from '../../debrief/debrief.ts';
import { forecastPairs } from '../../debrief/forecast-pairs.ts';
import { lengthAtStrip } from '../../debrief/length-at-strip.ts';
import { ownFactors, type AeroplaneFactors } from '../../debrief/own-factors.ts';
import { planDirections, type DirectionPlan } from '../../debrief/plan-directions.ts';
import { shortLandings } from '../../debrief/short-lengths.ts';
import { plannedMomentS } from '../../logbook/planned-visit.ts';
import type { Aeroplane } from '../../performance/aeroplane.ts';
import { PUBLISHED_SETS } from '../../performance/factor-sets/published.ts';
import { CAUTION_LINES } from '../../report/caution.ts';
import type { UnreadFile } from '../../report/debrief-json.ts';
import { problemLines } from '../../report/debrief-tables.ts';
import { ownForVisit, type MissingOwn } from '../../report/own-for-visit.ts';
import type { OwnForVisit } from '../../report/pictures/visit-pictures.ts';
import { predictDocument } from '../../report/predict-json.ts';
import { predictLines, type PredictReport } from '../../report/predict-tables.ts';
import { listWords, missingForVisit } from '../../report/story/visit-missing.ts';
import { isUndetermined } from '../../result.ts';
import type { Strip, StripBook } from '../../strips/strip.ts';
import type { Conditions, SurfaceState } from '../../weather/conditions.ts';
import { conditionsFor } from '../../weather/decode-conditions.ts';
import { readArgs, UsageError, type ParsedArgs } from '../args.ts';
import { countReadAloud } from '../count-flights.ts';
import { debriefFiles } from '../debrief-files.ts';
import {
  CONDITION_OPTIONS,
  CONDITION_OPTIONS_HELP,
  joinNegativeNumbers,
  readConditionArgs,
} from '../conditions-args.ts';
import {
  FORECAST_HELP,
  FORECAST_OPTION,
  readFactorSet,
  readForecasts,
  readRecords,
  RECORD_OPTIONS,
} from '../read-records.ts';

/** Shown by `--help`. */
export const PREDICT_HELP = `predict --strips FILE.geojson --strip ID [--direction D] --aeroplane FILE.json
        [--conditions FILE.json [--flight NAME]] [--metar TEXT] [--wind 240/12G20] [--surface grass-dry]
        [--temp C] [--qnh HPA] [--mass KG] [--take-off-mass KG] [--flap LABEL] [--factor-set ID|FILE.json]
        [--own-factor N] [--own-take-off-factor N] [--nearest-edge] [--forecast FILE.json] [--day YYYY-MM-DD] [--json] [TRACK...]

Predicts landing and take-off in one direction, or in all of them side by side, with every step of the
working. Nothing is assumed: calm and dry have to be said. Options win over the METAR, the METAR over the file.
With logs of past landings, compared in the conditions that the file notes for each, the own factors are theirs
and the length that 95 of 100 landings meant to be short would need here stands beside the plan.

  --strip ID         id of the strip in the strips file; --direction D its designator
  --conditions FILE  conditions (JSON); --flight NAME takes those noted for that file
${CONDITION_OPTIONS_HELP}
  --factor-set       ${PUBLISHED_SETS.map(({ id }) => id).join(', ')}, or a set of your own (JSON)
  --own-factor N     your own factor of the whole landing distance; --own-take-off-factor N of the take-off
${FORECAST_HELP}
  --nearest-edge     outside the handbook's table read its nearest edge, marked
  --day              for the magnetic variation; today where it is not given
  --json             one JSON document instead of tables

Exit code: 0 when something was predicted, 2 when nothing could be or a log was not read, 1 for wrong usage.`;

const OPTIONS = {
  ...RECORD_OPTIONS,
  ...CONDITION_OPTIONS,
  ...FORECAST_OPTION,
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
  const { report, unread } = await readReport(given);
  process.stdout.write(
    given.flag('json')
      ? `${JSON.stringify(predictDocument(report), null, 2)}\n`
      : `${[...predictLines(report), ...CAUTION_LINES].join('\n')}\n`,
  );
  for (const { file, problems } of unread) {
    process.stderr.write(`${[file, ...problemLines(problems)].join('\n')}\n`);
  }
  return unread.length === 0 && report.plans.some(isPredicted) ? 0 : 2;
}

async function readReport(
  given: ParsedArgs,
): Promise<{ report: PredictReport; unread: UnreadFile[] }> {
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
  const predictWith = { aeroplane, conditions, factorSet, timeS, edge } as const;
  const plans = planDirections(strip, designator, predictWith);
  const { read, unread } = await debriefFiles(given.rest, (bytes, file) =>
    // Compared with the set of the visit: an own factor multiplies what that set expects.
    debriefFile(bytes, file, { ...records, factorSet }),
  );
  const flights = countReadAloud(read);
  const ofLogs = ownFactors(flights).find((each) => each.aeroplane === aeroplane.id) ?? null;
  const { own, missingOwn } = readOwn(given, ofLogs, conditions.surface, factorSet.id);
  const landings = shortLandings(flights, aeroplane.id);
  const planned = await readForecasts(given);
  const { sdMps } = forecastSpread(planned ? forecastPairs(flights, planned) : []);
  const lengths =
    given.rest.length === 0
      ? null
      : plans.map(({ place }) => lengthAtStrip(place, predictWith, landings, sdMps));
  const report = { book: records.strips, strip, aeroplane, factorSet, conditions, own, plans };
  return { report: { ...report, missingOwn, lengths }, unread };
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

/** Those given, else those of the logs on the ground of the visit. */
function readOwn(
  given: ParsedArgs,
  ofLogs: AeroplaneFactors | null,
  surface: SurfaceState | null,
  factorSetId: string,
): { own: OwnForVisit; missingOwn: MissingOwn } {
  const { own, missing } = ownForVisit(ofLogs, surface, factorSetId);
  const landing = ownFactor(given, 'own-factor');
  const takeOff = ownFactor(given, 'own-take-off-factor');
  return {
    own: {
      ...own,
      landingWhole: landing ?? own.landingWhole,
      takeOffWhole: takeOff ?? own.takeOffWhole,
    },
    missingOwn: {
      landing: landing === null ? missing.landing : null,
      takeOff: takeOff === null ? missing.takeOff : null,
    },
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

/** True where at least one distance of strip could be had; the way through the air alone is none. */
function isPredicted({ prediction }: DirectionPlan): boolean {
  if (isUndetermined(prediction)) return false;
  const { landing, takeOff } = prediction;
  const distances = [
    ...(isUndetermined(landing)
      ? []
      : [landing.expectedRollM, landing.expectedFrom50FtM, landing.plannedFrom50FtM]),
    ...(isUndetermined(takeOff)
      ? []
      : [takeOff.expectedRollM, takeOff.expectedTo50FtM, takeOff.plannedTo50FtM]),
  ];
  return distances.some((figure) => !isUndetermined(figure));
}
