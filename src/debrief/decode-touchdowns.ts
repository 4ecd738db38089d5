/**
 * Which touchdowns are known from outside the log, as from wheel marks paced from the threshold?
 *
 * Input: the text of a touchdowns document,
 * `{ "schema": 1, "kind": "touchdowns", "touchdowns": [{ "time": "2024-07-14T12:58:45Z", "alongM": 142 }] }`.
 * The time only says which landing is meant. Output: one entry for each touchdown, in order.
 * The range of places is that of the page (our own, no source): it catches a slip of a digit.
 */

import * as v from 'valibot';
import { success, type Problem, type Result } from '../result.ts';
import { IsoTimeReader } from '../track/decode-time.ts';
import {
  decodeDocument,
  expecting,
  numberBetween,
  orNull,
  shortText,
  unknownFields,
} from '../units/entered-field.ts';
import { FARTHEST_M } from './landing-limits.ts';

/** A touchdown known from outside the log. */
export interface KnownTouchdown {
  /** UTC seconds since 1970, near the touchdown. */
  readonly timeS: number;
  /** Metres from the landing threshold, positive into the strip. */
  readonly alongM: number;
  readonly note: string | null;
}

// A time without a zone may be meant as the pilot's own clock: refused.
const UTC_TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?Z$/;
const utcExpected = expecting('a UTC time as "2024-07-14T12:58:45Z"');

const timeSchema = v.pipe(
  v.string(utcExpected),
  v.check((text) => UTC_TIME.test(text) && Number.isFinite(secondsOf(text)), utcExpected),
);

const touchdownSchema = v.object(
  {
    time: timeSchema,
    alongM: numberBetween(-FARTHEST_M, FARTHEST_M, 'm'),
    note: orNull(shortText(300)),
  },
  expecting('an object with time and alongM'),
);

const documentSchema = v.object(
  {
    schema: v.literal(1, expecting('1, the only schema known')),
    kind: v.literal('touchdowns', expecting('"touchdowns"')),
    touchdowns: v.pipe(
      v.array(touchdownSchema, expecting('a list of touchdowns')),
      v.check(
        (all) => new Set(all.map(({ time }) => secondsOf(time))).size === all.length,
        expecting('one touchdown at each time'),
      ),
    ),
  },
  expecting('an object with schema, kind and touchdowns'),
);

/**
 * Reads a touchdowns document.
 *
 * Units: as the field names say. Fails: a failure names each wrong field, what was found and what
 * was expected; an unknown field is kept out with a warning, so that a misspelt one is noticed.
 */
export function decodeTouchdowns(text: string): Result<readonly KnownTouchdown[]> {
  const decoded = decodeDocument(text, 'touchdowns', documentSchema);
  if (!decoded.ok) return decoded;
  const { json, value } = decoded.value;
  const known = value.touchdowns.map(({ time, alongM, note }) => ({
    timeS: secondsOf(time),
    alongM,
    note,
  }));
  return success(known, findUnknownFields(json));
}

function secondsOf(time: string): number {
  return new IsoTimeReader().read(time);
}

function findUnknownFields(json: unknown): Problem[] {
  const { touchdowns } = json as { readonly touchdowns: readonly unknown[] };
  const ofEach = Object.keys(touchdownSchema.entries);
  return [
    ...unknownFields('touchdowns', json, Object.keys(documentSchema.entries), ''),
    ...touchdowns.flatMap((each, k) =>
      unknownFields('touchdowns', each, ofEach, `touchdowns.${k}.`),
    ),
  ];
}
