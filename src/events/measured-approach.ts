/** An approach in the making: what is measured of a pass before heights are known over it. */
import { undetermined } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import type { LowPart } from './contact.ts';
import type { Approach } from './flight-event.ts';
import type { Tie } from './ground-tie.ts';
import type { Pass } from './passes.ts';
import type { StripView } from './strip-view.ts';

/** An approach in the making, with what its contact says about heights. */
export interface MeasuredApproach {
  /** As it was measured by: without heights where some were missing. */
  readonly motion: Motion;
  readonly view: StripView;
  readonly pass: Pass;
  readonly lowPart: LowPart;
  readonly approach: Approach;
  /** Height tie from this contact, or null. */
  readonly tie: Tie | null;
  /** Set where the roll went on into a take-off: the fix at which power was opened. */
  readonly powerIndex: number | null;
}

/** An approach of which nothing is known yet but its strip. */
export function emptyApproach(view: StripView, pass: Pass): Approach {
  const none = undetermined('the wheels did not touch, as far as the data can tell');
  return {
    strip: view.stripId,
    direction: view.stripId === null ? null : view.direction.designator,
    from: pass.from,
    to: pass.to,
    outcome: undetermined('not yet known'),
    contactProbability: 0,
    saidContact: null,
    thresholdCrossing: undetermined('the threshold was not crossed on this pass'),
    touchdown: none,
    rollEnd: none,
    airDistanceM: none,
    landingDistanceM: none,
    groundRollM: none,
    fullStopRollM: none,
    hardestBrakingRollM: none,
    stripLeftM: none,
    goAround: null,
    gates: [],
    posterior: null,
    notes: view.listed
      ? []
      : [`the strip does not list direction ${view.direction.designator} for landing`],
  };
}
