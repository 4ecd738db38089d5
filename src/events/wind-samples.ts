/**
 * What of a flight does its wind tell in?
 *
 * In: motion. Out: velocity over the ground every two seconds of flight, with the height over the
 * lowest of the flight, the rates of climb and of turn, and how far the track has turned in all.
 */
import type { Motion } from '../track/motion.ts';
import { WIND } from './circuit-tuning.ts';
import { typicalSpeed } from './passes.ts';
import { windShare } from './wind-share.ts';

/** One moment of flight. */
export interface WindSample {
  readonly timeS: number;
  readonly eastMps: number;
  readonly northMps: number;
  readonly speedSdMps: number;
  /** The wind there as a share of that at the reference height. */
  readonly share: number;
  /** 0 where no height is recorded. */
  readonly climbMps: number;
  /** How fast the track turns, degrees a second, positive to the right. */
  readonly turnDegPs: number;
  /** Within a turn that goes on and on, as an orbit does: speed is rather held in it. */
  readonly inFullTurn: boolean;
}

/** The moments in flight, some seconds apart, in order of time; holes stay holes. */
export function windSamples(motion: Motion): WindSample[] {
  const flying = WIND.flyingShare * typicalSpeed(motion);
  const groundM = lowestHeight(motion);
  const samples: Omit<WindSample, 'inFullTurn'>[] = [];
  let nextS = -Infinity;
  for (let i = 0; i < motion.length; i++) {
    const speed = motion.speedMps[i];
    if (motion.timeS[i] < nextS || speed < flying) continue;
    nextS = motion.timeS[i] + WIND.stepS - SLACK_S;
    const eastMps = motion.velocityEastMps[i];
    const northMps = motion.velocityNorthMps[i];
    const sideways =
      northMps * motion.accelerationEastMps2[i] - eastMps * motion.accelerationNorthMps2[i];
    const climb = motion.verticalSpeedMps[i];
    samples.push({
      ...{ timeS: motion.timeS[i], eastMps, northMps, speedSdMps: motion.speedSdMps[i] },
      share: windShare(motion.smoothHeightM[i] - groundM),
      climbMps: Number.isNaN(climb) ? 0 : climb,
      turnDegPs: (sideways / (speed * speed)) * DEGREES,
    });
  }
  const full = fullTurns(samples);
  return samples.map((sample, i) => ({ ...sample, inFullTurn: full[i] }));
}

type Turning = Pick<WindSample, 'timeS' | 'turnDegPs'>;

/** Which moments lie in a turn that goes nearly all the way round without a pause. */
function fullTurns(samples: readonly Turning[]): boolean[] {
  const full = samples.map(() => false);
  let from = 0;
  let turned = 0;
  for (let i = 1; i <= samples.length; i++) {
    const goesOn = i < samples.length && isOneTurn(samples[i - 1], samples[i]);
    if (goesOn) {
      const stepS = samples[i].timeS - samples[i - 1].timeS;
      turned += (Math.abs(samples[i - 1].turnDegPs + samples[i].turnDegPs) / 2) * stepS;
      continue;
    }
    if (turned >= WIND.fullTurnDeg) full.fill(true, from, i);
    from = i;
    turned = 0;
  }
  return full;
}

function isOneTurn(before: Turning, after: Turning): boolean {
  const turning = Math.min(Math.abs(before.turnDegPs), Math.abs(after.turnDegPs));
  return (
    turning >= WIND.straightDegPs &&
    before.turnDegPs * after.turnDegPs > 0 &&
    after.timeS - before.timeS <= WIND.longestStepS
  );
}

/** How far the track turned in its turns, degrees; gusts on straights left out. */
export function turnedDeg(samples: readonly WindSample[]): number {
  let sum = 0;
  for (let i = 1; i < samples.length; i++) {
    const [from, to] = [samples[i - 1], samples[i]];
    const turning = Math.max(Math.abs(from.turnDegPs), Math.abs(to.turnDegPs));
    if (turning < WIND.straightDegPs || to.timeS - from.timeS > WIND.longestStepS) continue;
    const cross = from.eastMps * to.northMps - from.northMps * to.eastMps;
    const dot = from.eastMps * to.eastMps + from.northMps * to.northMps;
    sum += Math.abs(Math.atan2(cross, dot)) * DEGREES;
  }
  return sum;
}

const DEGREES = 180 / Math.PI;

/** Fixes of a log are not quite evenly spaced, seconds. */
const SLACK_S = 0.1;

/** Lowest recorded height of the flight, for the ground's; NaN without heights. */
function lowestHeight(motion: Motion): number {
  let lowest = Infinity;
  for (const height of motion.smoothHeightM) if (height < lowest) lowest = height;
  return lowest === Infinity ? NaN : lowest;
}
