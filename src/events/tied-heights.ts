/**
 * How high were the wheels over the strip's surface?
 *
 * In: motion, strip view, the flight's tied height offset. Out: heights with bands at any time;
 * never below the ground.
 */
import { narrowestPositiveEstimate } from '../numeric/posterior.ts';
import { undetermined, type Measured } from '../result.ts';
import type { Motion } from '../track/motion.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import { valueAt } from './arrival-data.ts';
import type { TiedOffset } from './ground-tie.ts';
import type { StripView } from './strip-view.ts';
import { HEIGHT } from './tuning.ts';

/** Heights of the wheels over the strip's surface, tied. */
export class TiedHeights {
  readonly #motion: Motion;
  readonly #view: StripView;
  readonly #offsetAt: (timeS: number) => TiedOffset;

  constructor(motion: Motion, view: StripView, offsetAt: (timeS: number) => TiedOffset) {
    this.#motion = motion;
    this.#view = view;
    this.#offsetAt = offsetAt;
  }

  /** Height at a time; never below the ground. */
  aboveAt(timeS: number): Measured {
    if (!this.#motion.hasHeight) return undetermined('the log has no heights');
    const recorded = valueAt(this.#motion.timeS, this.#view.smoothAboveM, timeS);
    if (Number.isNaN(recorded)) return undetermined('the log has no height here');
    const offset = this.#offsetAt(timeS);
    const ownSdM = Math.hypot(this.#motion.noise.verticalSdM / 2, this.#pressureSdM(timeS));
    const above = {
      weight: offset.offset.weight,
      mean: offset.offset.mean.map((mean) => recorded - mean),
      sd: offset.offset.sd.map((sd) => Math.hypot(sd, ownSdM)),
    };
    return narrowestPositiveEstimate(above);
  }

  /** Middle of the same, for finding where a height was passed; NaN without heights. */
  middleAt(i: number): number {
    return this.#view.smoothAboveM[i] - this.#offsetAt(this.#motion.timeS[i]).offsetM;
  }

  /** What the cabin's static pressure and the sensor's delay add to a pressure height tied at rest, metres. */
  #pressureSdM(timeS: number): number {
    const { heightDatum, timeS: times, speedMps, verticalSpeedMps } = this.#motion;
    if (heightDatum !== 'pressure') return 0;
    const dynamicM = valueAt(times, speedMps, timeS) ** 2 / (2 * GRAVITY_MPS2);
    const lagM = PRESSURE_LAG_S * valueAt(times, verticalSpeedMps, timeS);
    return Math.hypot(HEIGHT.pressurePriorSd[1] * dynamicM, lagM);
  }

  tiedAt(timeS: number): TiedOffset {
    return this.#offsetAt(timeS);
  }
}

/** The middle of what a sensor in a cabin lags by, seconds. */
const PRESSURE_LAG_S = HEIGHT.pressureLagsS[1];
