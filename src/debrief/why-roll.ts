/**
 * Why did rolls differ from the expected ones: one landing's, and those of an aeroplane in the middle?
 *
 * In: debriefed flights. Out: shares of touchdown speed and of slowing down that add up exactly.
 */
import {
  averageSplit,
  splitRoll,
  type AverageSplit,
  type RollSplit,
} from '../calibration/roll-split.ts';
import type { Prediction } from '../performance/prediction.ts';
import { isUndetermined, undetermined, type Estimate, type Undetermined } from '../result.ts';
import type { Flight } from './debrief.ts';

/** One landing's split and what it was made of. Metres and m/s over the ground. */
export interface WhyRoll {
  readonly split: RollSplit;
  readonly measuredM: Estimate;
  readonly expectedM: number;
  readonly touchdownMps: Estimate;
  readonly referenceMps: number;
}

/** The split of one approach's roll; undetermined where there is nothing to split. */
export function whyRoll(
  { events, compared }: Pick<Flight, 'events' | 'compared'>,
  index: number,
): WhyRoll | Undetermined {
  const { touchdown, fullStopRollM: measuredM } = events.approaches[index];
  const { prediction } = compared.approaches[index];
  if (isUndetermined(touchdown)) return touchdown;
  if (isUndetermined(measuredM)) return measuredM;
  const touchdownMps = touchdown.groundSpeedMps;
  if (isUndetermined(touchdownMps)) return touchdownMps;
  const expected = expectedOf(prediction);
  if (isUndetermined(expected)) return expected;
  const split = splitRoll({ measuredM, touchdownMps, ...expected });
  if (!split) return undetermined('the expected touchdown speed over the ground is not positive');
  return { split, measuredM, touchdownMps, ...expected };
}

/** An aeroplane's rolls that count, split in the middle. */
export interface AeroplaneSplit {
  readonly aeroplane: string;
  readonly name: string;
  /** False: slowing down cannot be told from rolling friction and is the pilot's in no part. */
  readonly brakes: boolean;
  readonly split: AverageSplit;
}

/** Why the rolls of each aeroplane differed, over the landings that count; none without such a landing. */
export function whyRolls(flights: readonly Flight[]): AeroplaneSplit[] {
  const splits = new Map<string, { name: string; brakes: boolean; of: RollSplit[] }>();
  for (const flight of flights) {
    const { aeroplane, compared } = flight;
    if (isUndetermined(aeroplane)) continue;
    const found = splits.get(aeroplane.id) ?? {
      name: aeroplane.name,
      brakes: aeroplane.brakes,
      of: [],
    };
    splits.set(aeroplane.id, found);
    compared.approaches.forEach(({ roll }, k) => {
      if (roll.role !== 'counts') return;
      const why = whyRoll(flight, k);
      if (!isUndetermined(why)) found.of.push(why.split);
    });
  }
  return [...splits].flatMap(([aeroplane, { name, brakes, of }]) => {
    const split = averageSplit(of);
    return split ? [{ aeroplane, name, brakes, split }] : [];
  });
}

function expectedOf(
  prediction: Prediction | Undetermined,
): { readonly expectedM: number; readonly referenceMps: number } | Undetermined {
  if (isUndetermined(prediction)) return prediction;
  const { landing, speeds, day } = prediction;
  if (isUndetermined(landing)) return landing;
  if (isUndetermined(landing.expectedRollM)) return landing.expectedRollM;
  if (isUndetermined(speeds)) return speeds;
  if (isUndetermined(day.headwindMps)) return day.headwindMps;
  const referenceMps = speeds.touchdownMps / Math.sqrt(day.densityRatio) - day.headwindMps;
  return { expectedM: landing.expectedRollM, referenceMps };
}
