/**
 * How fast was the aircraft at half the TORA, beside its lift-off speed?
 *
 * In: motion, strip view, the departure, its lift-off speed and time. Out: quantities with bands.
 *
 * Source: definitions in docs/spec/measuring.md; 70 % of the lift-off speed at half way: rule of
 * thumb in FAA guidance on half-way signs, from memory.
 */
import { undetermined, Z90, type Estimate, type Undetermined } from '../result.ts';
import { placeSdM } from '../strips/place-error.ts';
import type { Motion } from '../track/motion.ts';
import type { DepartureRange } from './brake-release.ts';
import type { HalfwayCheck } from './flight-event.ts';
import { FINAL } from './gate-tuning.ts';
import { changeWithin, speedErrors } from './smoothed-speed.ts';
import { endsUnknown, type StripView } from './strip-view.ts';
import { ALONG } from './tuning.ts';

/**
 * The ground speed at half the TORA and, on the ground, its share of the lift-off speed. Speeds m/s;
 * undetermined where it was not passed on this run, the share also where it was off the ground by then.
 */
export function halfwayCheck(
  motion: Motion,
  view: StripView,
  range: DepartureRange,
  liftSpeed: Estimate,
  liftTimeS: Estimate,
): HalfwayCheck | Undetermined {
  const none = endsUnknown(view);
  if (none) return none;
  if (range.rollingSinceS !== null) return undetermined('the run began rolling, after a touch');
  const halfM = view.frame.nearEndAlongM + view.direction.toraM / 2;
  for (let i = range.from + 1; i < range.to; i++) {
    if (view.smoothAlongM[i - 1] < halfM && view.smoothAlongM[i] >= halfM) {
      const share =
        (halfM - view.smoothAlongM[i - 1]) / (view.smoothAlongM[i] - view.smoothAlongM[i - 1]);
      const speed = view.forwardMps[i - 1] + share * (view.forwardMps[i] - view.forwardMps[i - 1]);
      const timeS = motion.timeS[i - 1] + share * (motion.timeS[i] - motion.timeS[i - 1]);
      const placeSd = Math.hypot(ALONG.driftSdM, placeSdM(view.strip));
      const sd = Math.hypot(
        speedErrors(motion, view, range).levelSdMps(timeS, FINAL.jerkShare),
        changeWithin(motion, view.forwardMps, timeS, placeSd / Math.max(speed, 1)),
      );
      const low = speed - Z90 * sd;
      const high = speed + Z90 * sd;
      return {
        groundSpeedMps: { value: speed, low, high },
        shareOfLiftOff:
          timeS > liftTimeS.high
            ? undetermined('it was off the ground by half way')
            : {
                value: speed / liftSpeed.value,
                low: low / liftSpeed.high,
                high: high / liftSpeed.low,
              },
      };
    }
  }
  return undetermined('the run did not pass half the TORA on the ground');
}
