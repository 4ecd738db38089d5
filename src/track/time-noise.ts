/**
 * How far off are the times of a log?
 *
 * In: times and positions of the fixes. Out: seconds, one standard deviation; 0 where nothing says that
 * they are off. A fix at another moment than stated lies elsewhere along the track, never across it.
 */
import { trimmedSd } from './white-noise.ts';

/** What the times of a log are off by, as it shows itself: cut to whole seconds, or straying. Never fails. */
export function timeNoiseSdS(
  timeS: Float64Array,
  timeStepS: number,
  eastM: Float64Array,
  northM: Float64Array,
  intervalS: number,
): number {
  return Math.max(cutTimesSdS(timeS, timeStepS), strayTimesSdS(timeS, eastM, northM, intervalS));
}

/**
 * What times cut to whole seconds are off by, seconds (one sd); 0 where nothing says that they were cut.
 *
 * A recorder that fixes every 4.5 s and writes whole seconds leaves steps of 4 and 5 s in turn. Steps of 1
 * and 2 s are left alone: those of a log once a second that lost fixes.
 */
export function cutTimesSdS(timeS: Float64Array, timeStepS: number): number {
  if (timeStepS < 1 || timeS.length < LEAST_STEPS) return 0;
  const steps = timeS.slice(1).map((t, k) => Math.round(t - timeS[k]));
  steps.sort();
  const short = steps[Math.floor(ENDS_SHARE * steps.length)];
  const long = steps[Math.ceil((1 - ENDS_SHARE) * steps.length) - 1];
  return short >= 2 && long === short + 1 ? 1 / Math.sqrt(12) : 0;
}

const LEAST_STEPS = 20;
/** Both steps make up more than this share of all; what is left may be holes. */
const ENDS_SHARE = 0.1;

/**
 * What times stray by, seconds: the noise along the track beyond that across it, over the speed.
 *
 * Loggers that stamp a fix when it arrives are late by a twentieth to half a second, differently each
 * time. Noise is read off third differences over uneven steps, which a steady change of speed does not bend.
 */
export function strayTimesSdS(
  timeS: Float64Array,
  eastM: Float64Array,
  northM: Float64Array,
  intervalS: number,
): number {
  // Between the fixes of a slow log the aircraft's own changes of speed look the same.
  if (intervalS > LONGEST_INTERVAL_S) return 0;
  // In fast logs the speed changes the place by less than the noise: over a second it shows.
  const step = Math.max(1, Math.round(1 / intervalS));
  const along: number[] = [];
  const across: number[] = [];
  const speeds: number[] = [];
  for (let i = 3 * step; i < timeS.length; i++) {
    const at = [i - 3 * step, i - 2 * step, i - step, i];
    const spanS = timeS[i] - timeS[at[0]];
    const usualS = 3 * step * intervalS;
    const east = eastM[i] - eastM[at[0]];
    const north = northM[i] - northM[at[0]];
    const goneM = Math.hypot(east, north);
    const isHole = Math.abs(spanS - usualS) > UNEVEN_SHARE * usualS + UNEVEN_S;
    if (isHole || !(goneM > LEAST_MOVING_MPS * spanS)) continue;
    const weights = at.map((a) =>
      at.reduce((product, b) => (a === b ? product : product / (timeS[a] - timeS[b])), 1),
    );
    const size = Math.hypot(...weights);
    let [x, y] = [0, 0];
    at.forEach((a, k) => {
      x += (weights[k] * (eastM[a] - eastM[at[0]])) / size;
      y += (weights[k] * (northM[a] - northM[at[0]])) / size;
    });
    along.push(Math.abs(x * east + y * north) / goneM);
    across.push(Math.abs(x * north - y * east) / goneM);
    speeds.push(goneM / spanS);
  }
  if (along.length < LEAST_STEPS) return 0;
  const [alongM, acrossM] = [trimmedSd(along), trimmedSd(across)];
  if (!(alongM > CLEARLY_MORE * acrossM)) return 0;
  speeds.sort((a, b) => a - b);
  return Math.sqrt(alongM ** 2 - acrossM ** 2) / speeds[speeds.length >> 1];
}

/** Four fixes whose span differs from the usual one by more than this share and these seconds have a hole among them. */
const UNEVEN_SHARE = 0.2;
const UNEVEN_S = 0.3;
const LONGEST_INTERVAL_S = 3;
/** Slower, a late fix lies within its noise, m/s. */
const LEAST_MOVING_MPS = 10;
/** Noise along the track is more than that across it from here on: gusts and throttle make it a fifth. */
const CLEARLY_MORE = 1.5;
