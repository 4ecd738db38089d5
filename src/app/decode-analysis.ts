/**
 * Is a kept result what this version of the page expects?
 *
 * In: the data of a result record, which may come from a file of anybody's. Out: the analysis, or
 * null: then the log is measured again from its bytes.
 */
import * as v from 'valibot';
import type { LogAnalysis } from './app-state.ts';

/** Brake delays and round-outs that the measuring knows; a test holds them against it. */
export const BRAKES = 9;
export const SHAPES = 45;

const number = v.pipe(v.number(), v.finite());
const text = v.string();
const undeterminedPart = v.object({ undetermined: text });
const measured = v.union([
  v.object({ value: number, low: number, high: number }),
  undeterminedPart,
]);
const tenNumbers = v.pipe(v.array(number), v.length(10));
const quantity = v.picklist([
  'landing-roll',
  'landing-from-50-ft',
  'take-off-roll',
  'take-off-to-50-ft',
]);
const comparison = v.object({
  quantity,
  dayKey: text,
  ratio: measured,
  log: v.union([v.object({ value: number, sd: number }), undeterminedPart]),
  role: v.picklist(['counts', 'upper-bound', 'left-out']),
  why: text,
  factorSet: v.nullable(
    v.object({ id: text, name: text, isOwn: v.boolean(), safetyFactor: number }),
  ),
});
const outcome = v.union([
  v.picklist([
    ...(['full-stop', 'touch-and-go', 'stop-and-go', 'go-around', 'low-pass'] as const),
    ...(['overflight', 'take-off', 'rejected'] as const),
  ]),
  undeterminedPart,
]);
const event = v.object({
  key: v.pipe(text, v.regex(/^(approach|take-off)-\d+$/)),
  kind: v.picklist(['approach', 'take-off']),
  timeS: number,
  stripId: v.nullable(text),
  stripName: text,
  designator: v.nullable(text),
  lengthM: v.nullable(number),
  outcome,
  passes: v.nullable(
    v.object({ fromM: tenNumbers, toM: tenNumbers, extrapolatedToM: v.nullable(tenNumbers) }),
  ),
  lowest: v.nullable(v.object({ alongM: measured, aboveM: measured })),
  placeM: measured,
  crossM: measured,
  rollM: measured,
  leftM: measured,
  latestTouchdownM: v.nullable(number),
  expectedRollM: v.nullable(number),
  roll: comparison,
  whole: comparison,
  short: v.union([
    v.object({
      ...{ dayKey: text, alongM: number, rollLog: number },
      ...{ alongVariance: number, covariance: number, rollVariance: number },
    }),
    undeterminedPart,
  ]),
});
const surface = v.picklist([
  ...(['hard-dry', 'hard-wet', 'grass-dry', 'grass-wet', 'grass-wet-very-short'] as const),
  ...(['grass-long', 'soft', 'standing-water', 'snow'] as const),
]);
/** A share each: of the brake delays, and of the round-outs. */
const shares = (count: number) =>
  v.pipe(
    v.array(v.pipe(number, v.minValue(0))),
    v.length(count),
    v.check((all) => all.some((each) => each > 0)),
  );
const lesson = v.object({
  brakes: shares(BRAKES),
  shapes: v.nullable(shares(SHAPES)),
  timeS: number,
  effort: v.nullable(v.picklist(['full', 'normal', 'coasted'])),
});
/** Columns of equal length, times rising: what is compared moment by moment. */
const path = v.pipe(
  v.object({ timeS: v.array(number), latDeg: v.array(number), lonDeg: v.array(number) }),
  v.check(({ timeS, latDeg, lonDeg }) => {
    const isEqual = timeS.length === latDeg.length && timeS.length === lonDeg.length;
    const isOnEarth = latDeg.every((each) => Math.abs(each) <= 90);
    return isEqual && isOnEarth && timeS.every((each, k) => k === 0 || each > timeS[k - 1]);
  }),
);
const flight = v.object({
  startS: number,
  endS: number,
  usedFixes: number,
  medianIntervalS: number,
  aeroplane: v.union([v.object({ id: text, name: text }), undeterminedPart]),
  surface: v.nullable(surface),
  events: v.array(event),
  lessons: v.array(lesson),
  path,
});
const problemPart = v.object({
  code: text,
  severity: v.picklist(['note', 'warning', 'error']),
  where: text,
  message: text,
});
const analysis = v.object({ flights: v.array(flight), problems: v.array(problemPart) });

/** The analysis, or null where the data has another shape. */
export function decodeAnalysis(data: unknown): LogAnalysis | null {
  const parsed = v.safeParse(analysis, data);
  return parsed.success ? parsed.output : null;
}
