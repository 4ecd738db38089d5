/**
 * How do files and entries become records?
 *
 * In: bytes or texts, the time, and whether they belong to the demonstration. Out: records ready to be
 * written, or what is wrong with the text as its own reader says it.
 */

import { ALGORITHM_VERSION } from '../debrief/algorithm-version.ts';
import { decodeAeroplane } from '../performance/decode-aeroplane.ts';
import { decodeFactorSet } from '../performance/factor-sets/decode-factor-set.ts';
import { failure, problem, success, type Result } from '../result.ts';
import { decodeStrips } from '../strips/decode-strips.ts';
import { parseJson } from '../units/json-text.ts';
import {
  entryId,
  SETTINGS_ID,
  type AeroplaneRecord,
  type FactorSetRecord,
  type Feature,
  type Json,
  type LogRecord,
  type LogSummary,
  type ResultRecord,
  type SettingsRecord,
  type StripRecord,
  type VisitId,
  type VisitRecord,
} from './entry.ts';
import { MOST_LOG_BYTES, packGzip, sha256Hex } from './log-bytes.ts';
import { canonicalText } from './plain-json.ts';

/** When a record is made, and for what. */
export interface Making {
  readonly nowS: number;
  readonly demo: boolean;
}

/**
 * A track file as a record. Any file is kept, readable as a track or not.
 *
 * Fails: `logbook-too-large`.
 */
export async function makeLog(
  fileName: string,
  bytes: Uint8Array<ArrayBuffer>,
  { nowS, demo }: Making,
): Promise<Result<LogRecord>> {
  if (bytes.length > MOST_LOG_BYTES) {
    const message = `found ${bytes.length} bytes, expected at most ${MOST_LOG_BYTES}`;
    return failure([problem('logbook-too-large', 'error', fileName, message)]);
  }
  const sha256 = await sha256Hex(bytes);
  return success({
    kind: 'log',
    id: entryId('log', sha256),
    changedS: nowS,
    demo,
    fileName: fileName.slice(Math.max(fileName.lastIndexOf('/'), fileName.lastIndexOf('\\')) + 1),
    sha256,
    sizeBytes: bytes.length,
    addedS: nowS,
    gzip: await packGzip(bytes),
  });
}

/** A visit about which nothing was entered yet. The id is the caller's: chance is not for this floor. */
export function makeVisit(
  id: VisitId,
  log: LogSummary | null,
  { nowS, demo }: Making,
): VisitRecord {
  return {
    kind: 'visit',
    id,
    changedS: nowS,
    demo,
    logId: log?.id ?? null,
    enteredS: null,
    plannedForS: null,
    aeroplaneId: null,
    conditions: null,
    landings: [],
    remarks: [],
    removedRemarks: [],
    predictions: [],
  };
}

/**
 * Every feature of a strips file as a record, whole and in the file's order, in force at all times.
 *
 * Fails: as the reader of strips files does; its warnings come along.
 */
export async function makeStrips(text: string, making: Making): Promise<Result<StripRecord[]>> {
  const decoded = decodeStrips(text);
  if (!decoded.ok) return decoded;
  const { features } = parseJson(text) as { features: Feature[] };
  const byId = new Map<string, StripRecord>();
  for (const feature of features) {
    const id = await featureId(feature);
    const versions = [{ fromS: null, feature }];
    const { nowS: changedS, demo } = making;
    byId.set(id, { kind: 'strip', id: entryId('strip', id), changedS, demo, versions });
  }
  return success([...byId.values()], decoded.problems);
}

/** A strip's own id; for any other feature one made of its content, so that the same is kept once. */
async function featureId(feature: Feature): Promise<string> {
  const properties = (feature.properties ?? {}) as { kind?: unknown; id?: unknown };
  const { kind, id } = properties;
  if (kind === 'strip' && typeof id === 'string') return id.trim();
  const digest = await sha256Hex(new TextEncoder().encode(canonicalText(feature)));
  return `feature-${digest.slice(0, 32)}`;
}

/** An aeroplane document as a record. Fails: as the reader of aeroplane documents does. */
export function makeAeroplane(text: string, { nowS, demo }: Making): Result<AeroplaneRecord> {
  const decoded = decodeAeroplane(text);
  if (!decoded.ok) return decoded;
  const record: AeroplaneRecord = {
    kind: 'aeroplane',
    id: entryId('aeroplane', decoded.value.id),
    changedS: nowS,
    demo,
    document: parseJson(text) as AeroplaneRecord['document'],
  };
  return success(record, decoded.problems);
}

/** A factor set of the pilot's own as a record. Fails: as the reader of factor sets does. */
export function makeFactorSet(text: string, { nowS, demo }: Making): Result<FactorSetRecord> {
  const decoded = decodeFactorSet(text);
  if (!decoded.ok) return decoded;
  const record: FactorSetRecord = {
    kind: 'factor-set',
    id: entryId('factor-set', decoded.value.id),
    changedS: nowS,
    demo,
    document: parseJson(text) as FactorSetRecord['document'],
  };
  return success(record, decoded.problems);
}

/** The analysis of a log as a record, beside the version that made it. */
export function makeResult(
  log: LogSummary,
  data: Json,
  inputsSha256: string,
  nowS: number,
): ResultRecord {
  return {
    kind: 'result',
    id: entryId('result', log.id),
    changedS: nowS,
    demo: log.demo,
    logId: log.id,
    algorithmVersion: ALGORITHM_VERSION,
    inputsSha256,
    data,
  };
}

/** True where a kept result still stands; otherwise the log is measured anew from its bytes. */
export function isCurrent(result: ResultRecord, inputsSha256: string): boolean {
  return result.algorithmVersion === ALGORITHM_VERSION && result.inputsSha256 === inputsSha256;
}

/** Settings nobody has touched: metres and knots, UTC, no limits. */
export function makeSettings(nowS: number): SettingsRecord {
  return {
    kind: 'settings',
    id: SETTINGS_ID,
    changedS: nowS,
    demo: false,
    units: {
      length: 'm',
      height: 'ft',
      distance: 'NM',
      speed: 'kt',
      verticalSpeed: 'ft/min',
      mass: 'kg',
      pressure: 'hPa',
      temperature: 'C',
    },
    factorSet: null,
    timeZone: 'UTC',
    theme: 'system',
    currency: { landingsIn90Days: null, daysSinceStripLanding: null },
  };
}
