/**
 * Was a gate passed within the pilot's own limits?
 *
 * In: what was measured at a gate, the limits. Out: for each limited quantity in, out, or cannot
 * tell where its band lies on both sides of a limit. It is a statement about the past.
 */
import { isUndetermined, type Measured } from '../result.ts';
import { METRES_PER_FOOT, MPS_PER_KNOT } from '../units/convert.ts';
import type { GateLimits, Limits } from '../weather/gate-limits.ts';
import type { Gate } from './flight-event.ts';

/** A quantity of a gate that may be limited, by the name of its field. */
export type LimitedFigure =
  'estimatedAirspeedMps' | 'groundSpeedMps' | 'descentRateMps' | 'pathDeg' | 'crossM';

/** One quantity against its limits, in the unit of its field. */
export interface LimitCheck {
  readonly of: LimitedFigure;
  readonly least: number;
  readonly most: number;
  readonly found: 'in' | 'out' | 'cannot-tell';
}

/** Holds one gate against the limits; nothing above the height from which they count. */
export function checkGate(
  gate: Gate,
  estimatedAirspeedMps: Measured,
  limits: GateLimits,
): LimitCheck[] {
  if (gate.heightFt > limits.fromFt) return [];
  const check = (
    of: LimitedFigure,
    measured: Measured,
    pair: Limits | null,
    unit: number,
  ): LimitCheck[] => {
    if (pair === null) return [];
    const [least, most] = [pair[0] * unit, pair[1] * unit];
    return [{ of, least, most, found: against(measured, least, most) }];
  };
  return [
    ...check('estimatedAirspeedMps', estimatedAirspeedMps, limits.airspeedKt, MPS_PER_KNOT),
    ...check('groundSpeedMps', gate.groundSpeedMps, limits.groundSpeedKt, MPS_PER_KNOT),
    ...check('descentRateMps', gate.descentRateMps, limits.descentRateFpm, METRES_PER_FOOT / 60),
    ...check('pathDeg', gate.pathDeg, limits.pathDeg, 1),
    ...check('crossM', gate.crossM, limits.crossM, 1),
  ];
}

function against(measured: Measured, least: number, most: number): LimitCheck['found'] {
  if (isUndetermined(measured)) return 'cannot-tell';
  if (measured.low >= least && measured.high <= most) return 'in';
  return measured.high < least || measured.low > most ? 'out' : 'cannot-tell';
}
