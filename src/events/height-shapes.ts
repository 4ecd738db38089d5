/**
 * The shapes of the last seconds before touchdown and the height that each makes.
 *
 * A shape is a hold-off at constant sink, before it a round-out over which the sink grows linearly to
 * that of the approach. Heights are linear in the sink at contact and the sink before. Numbers and
 * their reasons: tuning.ts.
 */
import { HEIGHT } from './tuning.ts';

/** One shape of the last seconds: hold-off and round-out, seconds; sink at contact, m/s; prior weight. */
export interface HeightShape {
  readonly holdOffS: number;
  readonly roundOutS: number;
  readonly sinkMps: number;
  readonly sinkSdMps: number;
  readonly weight: number;
}

/** The shapes in the order of the columns; those of one geometry stand together. */
export const HEIGHT_SHAPES: readonly HeightShape[] = HEIGHT.holdOffsS.flatMap((holdOffS) =>
  HEIGHT.roundOutsS.flatMap((roundOutS) =>
    HEIGHT.contactSinks
      .filter((sink) => !sink.heldOff || holdOffS > 0)
      .map((sink) => ({
        holdOffS,
        roundOutS,
        sinkMps: sink.meanMps,
        sinkSdMps: sink.sdMps,
        weight: (sink.weight * holdOffWeight(holdOffS)) / holdOffTotal(sink.heldOff),
      })),
  ),
);

/** Long hold-offs are rarer than short ones. */
function holdOffWeight(holdOffS: number): number {
  return Math.exp(-holdOffS / HEIGHT.holdOffDecayS);
}

function holdOffTotal(heldOff: boolean): number {
  let total = 0;
  for (const holdOffS of HEIGHT.holdOffsS) {
    if (!heldOff || holdOffS > 0) total += holdOffWeight(holdOffS);
  }
  return total;
}

/** Height by a unit sink before the round-out, at `before` seconds to touchdown. */
export function steadySinkTerm(before: number, { holdOffS, roundOutS }: HeightShape): number {
  const u = before - holdOffS;
  if (u <= 0) return 0;
  return u < roundOutS ? (u * u) / (2 * roundOutS) : u - roundOutS / 2;
}

/** Antenna above its rest on the ground by a unit drop: all of it in the air, fading after contact. */
export function settleTerm(before: number): number {
  return before > 0 ? 1 : Math.exp(before / HEIGHT.settleS);
}
