/**
 * Reads the settings that commands share: strips, aeroplanes, conditions.
 *
 * In: names of files as given. Out: decoded records. A wrong file is wrong usage, told with all its
 * problems; warnings about a good one go to stderr.
 */
import { readFile } from 'node:fs/promises';
import type { DebriefContext } from '../debrief/debrief.ts';
import { decodeAeroplane } from '../performance/decode-aeroplane.ts';
import { decodeFactorSet } from '../performance/factor-sets/decode-factor-set.ts';
import type { FactorSet } from '../performance/factor-sets/factor-set.ts';
import { findFactorSet, PUBLISHED_SETS } from '../performance/factor-sets/published.ts';
import { problemLines } from '../report/debrief-tables.ts';
import { isUndetermined, type Result } from '../result.ts';
import { decodeStrips } from '../strips/decode-strips.ts';
import { EMPTY_STRIP_BOOK } from '../strips/strip.ts';
import type { ConditionsBook } from '../weather/conditions.ts';
import { decodeConditions } from '../weather/decode-conditions.ts';
import { UsageError, type OptionSpec, type ParsedArgs } from './args.ts';
import { whyUnread } from './debrief-files.ts';

/** The options that name settings files. */
export const RECORD_OPTIONS: OptionSpec = {
  strips: { type: 'string' },
  aeroplane: { type: 'string', multiple: true },
  conditions: { type: 'string' },
};

/** Their help. */
export const RECORD_OPTIONS_HELP = `  --strips FILE      strips, obstacles and areas (GeoJSON)
  --aeroplane FILE   an aeroplane's handbook distances (JSON); may be given more than once
  --conditions FILE  wind, surface, temperature, mass, for all flights or by file name (JSON)`;

/** The option of a factor set, and its help. */
export const FACTOR_SET_OPTION: OptionSpec = { 'factor-set': { type: 'string' } };
export const FACTOR_SET_HELP = `  --factor-set SET   ${PUBLISHED_SETS.map(({ id }) => id).join(', ')}, or a set of your own (JSON file); goes before the conditions' own`;

/** Reads a factor set by its id or from a file. Fails: throws a UsageError that names what is known. */
export async function readFactorSet(named: string | null): Promise<FactorSet> {
  const published = findFactorSet(named);
  if (!isUndetermined(published)) return published;
  if (named === null || !named.endsWith('.json')) {
    throw new UsageError(`--factor-set: ${published.undetermined}, or a .json file`);
  }
  return (await readAll([named], decodeFactorSet))[0];
}

/** Reads what RECORD_OPTIONS and FACTOR_SET_OPTION named. Fails: as both. */
export async function readRecordsAndFactorSet(given: ParsedArgs): Promise<DebriefContext> {
  const records = await readRecords(given);
  const named = given.texts('factor-set').at(-1);
  return named === undefined ? records : { ...records, factorSet: await readFactorSet(named) };
}

/** Reads what RECORD_OPTIONS named. Fails: throws a UsageError that names the file and its problems. */
export async function readRecords(given: ParsedArgs): Promise<DebriefContext> {
  const strips = await readAll(given.texts('strips'), decodeStrips);
  const conditions = await readAll(given.texts('conditions'), decodeConditions);
  return {
    strips: strips.at(0) ?? EMPTY_STRIP_BOOK,
    aeroplanes: await readAll(given.texts('aeroplane'), decodeAeroplane),
    conditions: conditions.at(0) ?? null,
  };
}

/** The option of earlier forecasts, and its help. */
export const FORECAST_OPTION: OptionSpec = { forecast: { type: 'string' } };
export const FORECAST_HELP = `  --forecast FILE    conditions that the flights were planned with, by file name (JSON, as --conditions): how far
                     the wind along the strip was off`;

/** Reads what FORECAST_OPTION named; null: nothing. Fails: throws a UsageError that names the file and its problems. */
export async function readForecasts(given: ParsedArgs): Promise<ConditionsBook | null> {
  return (await readAll(given.texts('forecast'), decodeConditions)).at(-1) ?? null;
}

/** Reads and decodes settings files; a wrong one is wrong usage, told with all its problems. */
export async function readAll<T>(
  files: readonly string[],
  decode: (text: string) => Result<T>,
): Promise<T[]> {
  const values: T[] = [];
  for (const file of files) {
    let text: string;
    try {
      text = await readFile(file, 'utf8');
    } catch (error) {
      throw new UsageError(`${file}: ${whyUnread(error)}`);
    }
    const decoded = decode(text);
    if (!decoded.ok) throw new UsageError([file, ...problemLines(decoded.problems)].join('\n'));
    if (decoded.problems.length > 0) {
      process.stderr.write(`${[file, ...problemLines(decoded.problems)].join('\n')}\n`);
    }
    values.push(decoded.value);
  }
  return values;
}
