/**
 * How high were the wheels over the strip's surface?
 *
 * In: motion, strip view, the flight's tied height offset. Out: heights with bands at any time;
 * never below the ground.
 */
import { narrowestPositiveEstimate } from '../numeric/posterior.ts';
import { undetermined, Z90, type Measured } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import { valueAt } from './arrival-data.ts';
import { hasElevation, type TiedOffset } from './ground-tie.ts';
import { latenessOf } from './height-lags.ts';
import type { StripView } from './strip-view.ts';
import { HEIGHT } from './tuning.ts';

/** Heights of the wheels over the strip's surface, tied. */
export class TiedHeights {
  readonly #motion: Motion;
  readonly #view: StripView;
  readonly #offsetAt: (timeS: number) => TiedOffset;
  /** How late the recorded heights are. */
  readonly #late: { readonly meanS: number; readonly sdS: number };

  constructor(motion: Motion, view: StripView, offsetAt: (timeS: number) => TiedOffset) {
    this.#motion = motion;
    this.#view = view;
    this.#offsetAt = offsetAt;
    this.#late = latenessOf(motion);
  }

  /** Height at a time; never below the ground. */
  aboveAt(timeS: number): Measured {
    return this.isLevelKnown(timeS) ? this.roughlyAboveAt(timeS) : undetermined(NO_ELEVATION);
  }

  /** False at a strip whose elevation nobody entered where no contact there ties the heights. */
  isLevelKnown(timeS: number): boolean {
    const { stripId, strip } = this.#view;
    return stripId === null || hasElevation(strip) || this.#offsetAt(timeS).tied;
  }

  /** The same where the level is not known either: enough to tell an approach from an overflight. */
  roughlyAboveAt(timeS: number): Measured {
    if (!this.#motion.hasHeight) return undetermined('the log has no heights');
    const recorded = this.#recordedAt(timeS);
    if (Number.isNaN(recorded)) return undetermined('the log has no height here');
    const { offset, ceiling } = this.#offsetAt(timeS);
    const floorM = ceiling ? Math.max(0, recorded - ceiling.atMostM) : 0;
    const ownSdM = Math.hypot(this.#motion.noise.verticalSdM / 2, this.#addedSdM(timeS));
    const above = {
      weight: offset.weight,
      mean: offset.mean.map((mean) => recorded - mean - floorM),
      sd: offset.sd.map((sd) => Math.hypot(sd, ownSdM)),
    };
    const { value, low, high } = narrowestPositiveEstimate(above);
    const driftedM = Z90 * (ceiling?.sdM ?? 0);
    return {
      value: floorM + value,
      low: Math.max(0, floorM + value - Math.hypot(value - low, driftedM)),
      high: floorM + value + Math.hypot(high - value, driftedM),
    };
  }

  /** Middle of the same, for finding where a height was passed; NaN without heights. */
  middleAt(i: number): number {
    const timeS = this.#motion.timeS[i];
    return this.#recordedAt(timeS) - this.#offsetAt(timeS).offsetM;
  }

  /** What being late adds, and to a pressure height tied at rest the cabin's static pressure, metres. */
  #addedSdM(timeS: number): number {
    const { heightDatum, timeS: times, speedMps, verticalSpeedMps } = this.#motion;
    const climbMps = valueAt(times, verticalSpeedMps, timeS);
    const lateM = Number.isNaN(climbMps) ? 0 : this.#late.sdS * Math.abs(climbMps);
    if (heightDatum !== 'pressure') return lateM;
    const dynamicM = valueAt(times, speedMps, timeS) ** 2 / (2 * GRAVITY_MPS2);
    return Math.hypot(HEIGHT.pressurePriorSd[1] * dynamicM, lateM);
  }

  /** What the log says of a moment, which it says late. */
  #recordedAt(timeS: number): number {
    return valueAt(this.#motion.timeS, this.#view.smoothAboveM, timeS + this.#late.meanS);
  }

  /** When that was, seconds, which the log's heights say at a time. */
  momentOf(recordedS: number): number {
    return recordedS - this.#late.meanS;
  }

  /** What the delay of the heights may be off by, seconds, one sd. */
  get lateSdS(): number {
    return this.#late.sdS;
  }

  /** How far off the level of all heights may be at a time, metres, one sd. */
  levelSdM(timeS: number): number {
    return Math.hypot(this.#offsetAt(timeS).sdM, this.#addedSdM(timeS));
  }
}

const NO_ELEVATION = 'no elevation of this strip was entered, and the log shows no contact with it';
