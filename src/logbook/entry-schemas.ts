/**
 * Which fields may a record of each kind carry, in which ranges?
 *
 * Every message says what was found and what was expected. A field that is not listed is refused,
 * not dropped: what the logbook takes in it gives back. Handbook documents, strip features and
 * results are kept whole; here only their frame is checked, their own readers check the rest.
 *
 * The ranges are ours: they bound the work and catch slips of unit, they judge no entry.
 */

import * as v from 'valibot';
import { expecting, numberBetween, oneOf, shortText } from '../units/entered-field.ts';
import { decodeConditions } from '../weather/decode-conditions.ts';
import { MOST_LOG_BYTES } from './log-bytes.ts';
import { whyNotPlain } from './plain-json.ts';

/** The year 5138: beyond it a time is a slip of milliseconds for seconds. */
const LATEST_S = 1e11;
const MOST_IN_LIST = 2000;

const timeS = numberBetween(0, LATEST_S, 'seconds since 1970');
const id = shortText(200);
const flag = v.boolean(expecting('true or false'));
const version = v.pipe(numberBetween(1, 1e6, '(a version)'), v.integer(expecting('an integer')));
const sha256 = v.pipe(
  v.string(expecting('64 hexadecimal digits')),
  v.regex(/^[0-9a-f]{64}$/, expecting('64 hexadecimal digits in lower case')),
);

const listOf = <S extends v.GenericSchema>(schema: S, what: string) =>
  v.pipe(
    v.array(schema, expecting(`a list of ${what}`)),
    v.maxLength(MOST_IN_LIST, expecting(`at most ${MOST_IN_LIST} ${what}`)),
  );

const record = <E extends v.ObjectEntries>(entries: E) =>
  v.strictObject(
    entries,
    expecting(`an object with the fields ${Object.keys(entries).join(', ')}`),
  );

const plainJson = v.pipe(
  v.unknown(),
  v.check(
    (value) => whyNotPlain(value) === null,
    (issue) => `${whyNotPlain(issue.input) ?? ''}, expected plain JSON`,
  ),
);

const jsonObject = v.pipe(
  plainJson,
  v.check(
    (value) => typeof value === 'object' && value !== null && !Array.isArray(value),
    expecting('an object'),
  ),
);

/** Conditions as their own reader takes them; a field it does not know is refused here. */
const conditions = v.pipe(
  plainJson,
  v.rawTransform<unknown, unknown>(({ dataset, addIssue, NEVER }) => {
    const text = JSON.stringify({ schema: 1, kind: 'conditions', all: dataset.value });
    const decoded = decodeConditions(text);
    for (const { where, message } of decoded.problems) {
      addIssue({ message: `${where.replace(/^all\.?/, '')}: ${message}` });
    }
    if (!decoded.ok || decoded.problems.length > 0) return NEVER;
    const lost = lostField(dataset.value, decoded.value.all);
    if (lost) addIssue({ message: `${lost}: this field is not used, expected none of that name` });
    return decoded.value.all;
  }),
);

/** The path of the first field that a reader passed over without a word, or null. */
function lostField(given: unknown, taken: unknown): string | null {
  if (typeof given !== 'object' || given === null) return null;
  const read = taken as Readonly<Record<string, unknown>>;
  for (const [key, inner] of Object.entries(given)) {
    if (!Object.hasOwn(read, key)) return key;
    const lost = lostField(inner, read[key]);
    if (lost) return `${key}.${lost}`;
  }
  return null;
}

const moment = record({
  timeS,
  alongM: v.nullable(numberBetween(-1e5, 1e5, 'm')),
});

const correctionMade = {
  algorithmVersion: version,
  madeS: timeS,
  takenBackS: v.nullable(timeS),
};

const correction = v.variant(
  'what',
  [
    record({
      what: v.picklist(['touchdown', 'roll-end', 'lift-off']),
      measured: moment,
      corrected: moment,
      ...correctionMade,
    }),
    record({
      what: v.literal('contact'),
      measured: v.nullable(numberBetween(0, 1, '(a probability)')),
      corrected: oneOf(['touched', 'not-touched']),
      ...correctionMade,
    }),
  ],
  expecting('a correction of "touchdown", "roll-end", "lift-off" or "contact"'),
);

const landing = record({
  aroundS: timeS,
  conditions: v.nullable(conditions),
  effort: v.nullable(
    record({ mark: oneOf(['full', 'normal', 'coasted']), markedS: timeS, ratioShown: flag }),
  ),
  unmarkedS: v.nullable(timeS),
  corrections: listOf(correction, 'corrections'),
});

const remark = record({
  id,
  timeS: v.nullable(timeS),
  text: shortText(20_000),
  writtenS: timeS,
});

const frozenPrediction = record({
  savedS: timeS,
  stripId: id,
  designator: shortText(12),
  aeroplaneId: id,
  conditions,
  algorithmVersion: version,
  prediction: plainJson,
});

const base = <K extends string>(kind: K) => ({
  kind: v.literal(kind, expecting(`"${kind}"`)),
  id,
  changedS: timeS,
  demo: flag,
});

const logSummary = {
  ...base('log'),
  fileName: shortText(500),
  sha256,
  sizeBytes: v.pipe(numberBetween(0, MOST_LOG_BYTES, 'bytes'), v.integer(expecting('an integer'))),
  addedS: timeS,
};

const settings = {
  ...base('settings'),
  units: record({
    length: oneOf(['m', 'ft']),
    height: oneOf(['m', 'ft']),
    distance: oneOf(['km', 'NM', 'mile']),
    speed: oneOf(['kt', 'mph', 'km/h']),
    verticalSpeed: oneOf(['ft/min', 'm/s']),
    mass: oneOf(['kg', 'lb']),
    pressure: oneOf(['hPa', 'inHg']),
    temperature: oneOf(['C', 'F']),
  }),
  factorSet: v.nullable(shortText(100)),
  timeZone: shortText(100),
  theme: oneOf(['system', 'light', 'dark']),
  currency: record({
    landingsIn90Days: v.nullable(numberBetween(0, 10_000, 'landings')),
    daysSinceStripLanding: v.nullable(numberBetween(0, 10_000, 'days')),
  }),
};

/** A schema for each kind of record; `log` with its bytes. */
export const ENTRY_SCHEMAS = {
  log: record({
    ...logSummary,
    gzip: v.instance(Uint8Array, expecting('bytes packed with gzip')),
  }),
  visit: record({
    ...base('visit'),
    logId: v.nullable(id),
    enteredS: v.nullable(timeS),
    plannedForS: v.nullable(timeS),
    aeroplaneId: v.nullable(id),
    conditions: v.nullable(conditions),
    landings: listOf(landing, 'landings'),
    remarks: listOf(remark, 'remarks'),
    removedRemarks: listOf(record({ id, removedS: timeS }), 'removed remarks'),
    predictions: listOf(frozenPrediction, 'predictions'),
  }),
  strip: record({
    ...base('strip'),
    versions: v.pipe(
      listOf(record({ fromS: v.nullable(timeS), feature: jsonObject }), 'versions'),
      v.minLength(1, expecting('one version or more')),
    ),
  }),
  aeroplane: record({ ...base('aeroplane'), document: jsonObject }),
  'factor-set': record({ ...base('factor-set'), document: jsonObject }),
  settings: record(settings),
  result: record({
    ...base('result'),
    logId: id,
    algorithmVersion: version,
    inputsSha256: sha256,
    data: plainJson,
  }),
};

/** The schema of a log without its bytes. */
export const LOG_SUMMARY_SCHEMA = record(logSummary);
