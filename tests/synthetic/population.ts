/**
 * The simulator's own population: aeroplanes, strips, winds, hands and receivers drawn by seed.
 *
 * In: a seeded generator. Out: everything a simulated approach needs. The ranges are weak and
 * generic on purpose: a 12 m/s microlight and a 30 m/s single, no braking and hard braking, a long
 * float and a firm arrival must all occur. Source: common practice, no source.
 */
import type { LocalFrame } from '../../src/geo/local-frame.ts';
import type { Random } from '../../src/numeric/random.ts';
import type { Strip } from '../../src/strips/strip.ts';
import type { AeroplaneModel } from './aeroplane-model.ts';
import type { ApproachPlan } from './approach-model.ts';
import { inventStrip } from './invent-strip.ts';
import { PLAIN_RECEIVER, type Receiver } from './receiver-model.ts';
import type { RollPlan } from './roll-model.ts';
import { windOf, type WindDay } from './wind-model.ts';

/** Uniform between two bounds. */
export function between(random: Random, low: number, high: number): number {
  return low + (high - low) * random.uniform();
}

/** An aeroplane: stall 11.5 to 25 m/s, nose or tail wheel, good or poor engine. */
export function drawAeroplane(random: Random): AeroplaneModel {
  const stallMps = between(random, 11.5, 25);
  const climbMps = stallMps * between(random, 1.4, 1.55);
  const glideFlap = between(random, 6.5, 9.5);
  const tailWheel = random.uniform() < 0.35;
  return {
    stallMps,
    glideFlap,
    glideClean: glideFlap * between(random, 1.15, 1.35),
    staticThrustMps2: between(random, 2.5, 3.3),
    thrustGoneMps: stallMps * between(random, 4.2, 5),
    idleThrustMps2: between(random, 0.1, 0.3),
    liftOffMps: stallMps * between(random, 1.08, 1.22),
    climbMps,
    cruiseMps: stallMps * between(random, 1.8, 2.2),
    rollingFriction: between(random, 0.04, 0.1),
    brakeFriction: between(random, 0.2, 0.45),
    antennaM: between(random, 1, 1.6),
    noseUpM: tailWheel ? between(random, -0.05, 0.05) : between(random, 0.05, 0.25),
    noseDownS: between(random, 0.7, 1.8),
  };
}

/**
 * A strip of 300 to 700 m with a slope up to 2.5 %, at the map's origin. Its slope changes every 50 to
 * 110 m, by up to 1 % (one sd): in the middle the ground lies some half a metre off the line through
 * its ends, on the worst strips twice that. Common practice, no source.
 */
export function drawStrip(map: LocalFrame, random: Random, stallMps: number): Strip {
  // Long enough that no braking at all still stops on it: the study is not about overruns.
  const lengthM = Math.round(between(random, 1, 1.5) * (stallMps ** 2 * 0.95 + 150));
  const slope = between(random, -0.025, 0.025);
  const startM = between(random, 5, 60);
  const profile = drawProfile(random, lengthM, startM, slope);
  return inventStrip(map, {
    id: 'drawn',
    bearingDeg: Math.round(between(random, 0, 360)),
    lengthM,
    elevationM: [startM, startM + slope * lengthM],
    profile,
  });
}

/** Ground that rises evenly on the whole and wanders off that line between the ends. */
function drawProfile(
  random: Random,
  lengthM: number,
  startM: number,
  slope: number,
): [number, number][] {
  const stepM = between(random, 50, 110);
  // Uneven by what the strip's height says, so that nothing else is drawn differently for it.
  const unevenness = 0.01 * (startM % 1);
  const offM = [0];
  const parts = Math.max(1, Math.ceil(lengthM / stepM - 0.5));
  for (let k = 1; k < parts; k++) offM.push(offM[k - 1] + unevenness * stepM * random.normal());
  const endM = offM[parts - 1];
  const bridged = offM.map((atM, k): [number, number] => {
    const fromAM = Math.round(k * stepM);
    return [fromAM, startM + slope * fromAM + atM - (fromAM / lengthM) * endM];
  });
  return [...bridged, [lengthM, startM + slope * lengthM]];
}

/** A wind mostly along the strip: up to 8 m/s on the nose, 2 m/s from behind, 4 m/s across. */
export function drawWind(random: Random, bearingDeg: number): WindDay {
  const headMps = between(random, -2, 8);
  const crossMps = between(random, -4, 4);
  const fromDeg = bearingDeg + (Math.atan2(crossMps, headMps) * 180) / Math.PI;
  return windOf(fromDeg, Math.hypot(headMps, crossMps), between(random, 0.08, 0.2));
}

/** An approach to a landing: held off, flown on, floated or firm. */
export function drawApproach(random: Random, aeroplane: AeroplaneModel): ApproachPlan {
  const stall = aeroplane.stallMps;
  const hand = random.uniform();
  const floats = hand > 0.85;
  const firm = hand < 0.1;
  const flownOn = hand >= 0.1 && hand < 0.35;
  const speedMps = stall * (floats ? between(random, 1.36, 1.5) : between(random, 1.22, 1.4));
  const pathDeg = between(random, 3, 6.5);
  const sink = speedMps * Math.tan((pathDeg * Math.PI) / 180);
  const holdHeightM = flownOn || firm ? 0.1 : between(random, 0.15, 0.6);
  const contactMps = firm ? between(random, 1, 1.8) : between(random, 0.2, 1.1);
  const flareS = firm ? between(random, 0.9, 1.4) : between(random, 1.2, 2.4);
  const flareHeightM = Math.min(9, Math.max(holdHeightM + 0.8, sink * flareS));
  const touchdownMps = flownOn || firm ? speedMps * 1.2 : stall * between(random, 1.08, 1.28);
  return {
    speedMps,
    pathDeg,
    aimAlongM: between(random, 10, 100) - 1.2 * speedMps * flareS,
    flareHeightM,
    holdHeightM,
    holdSinkMps: between(random, 0.1, 0.4),
    contactSinkMps: Math.min(contactMps, 0.8 * sink),
    touchdownMps,
    throttleCutS: between(random, 0.5, 2.5),
    pathWanderDeg: 0.35,
    speedWanderMps: 0.025 * speedMps,
    bouncesMps: drawBounces(random),
    flarePower: between(random, 0.5, 0.75),
    ending: { kind: 'land' },
  };
}

/** A full-stop roll: not braked, lightly, normally or hard; ended by standing, taxiing or turning off. */
export function drawRoll(random: Random): RollPlan {
  const foot = random.uniform();
  const mps2 = brakesFor(random, foot);
  const last = random.uniform();
  return {
    brakeDelayS: between(random, 0.4, 4.5),
    brakes: { mps2 },
    end: last < 0.6 ? 'stopped' : last < 0.8 ? 'taxi' : 'vacated',
    endMps: between(random, 2.5, 4.8),
    powerAfterS: 4,
    crossM: between(random, -2, 2),
  };
}

/** A receiver: errors of a consumer type, at a wished interval. */
export function drawReceiver(random: Random, intervalS: number): Receiver {
  const kind = random.uniform();
  return {
    ...PLAIN_RECEIVER,
    intervalS,
    horizontalBiasM: between(random, 1.5, 2.5),
    horizontalBiasS: between(random, 60, 300),
    verticalBiasM: between(random, 3, 5),
    verticalBiasS: between(random, 60, 300),
    horizontalWhiteM: between(random, 0.3, 0.5),
    verticalWhiteM: between(random, 0.5, 0.8),
    whiteS: intervalS < 1 ? between(random, 0, 0.5) : 0,
    filter: kind < 0.6 ? 'tracking' : kind < 0.7 ? 'late' : 'none',
    filterS: between(random, 0.3, 0.6),
  };
}

/** The same receiver, one in seven with heights that are late by a third of a second to some two seconds. */
export function withLateHeights(receiver: Receiver, random: Random): Receiver {
  const isLate = random.uniform() < 0.15;
  const heightLateS = 0.35 - 0.8 * Math.log(1 - 0.93 * random.uniform());
  return { ...receiver, heightLateS: isLate ? heightLateS : 0 };
}

/** The same receiver with recorded speed and a pressure sensor, as an IGC recorder has. */
export function withPressure(receiver: Receiver, random: Random): Receiver {
  return {
    ...receiver,
    pressure: {
      qnhHpa: between(random, 995, 1033),
      staticError: between(random, -0.12, 0.12),
      lagS: between(random, 0.2, 0.9),
      whiteM: between(random, 0.2, 0.5),
    },
  };
}

function brakesFor(random: Random, foot: number): number {
  if (foot < 0.2) return 0;
  if (foot < 0.45) return between(random, 0.3, 0.8);
  if (foot < 0.8) return between(random, 0.8, 1.8);
  return between(random, 2, 3.5);
}

function drawBounces(random: Random): number[] {
  const luck = random.uniform();
  if (luck > 0.12) return [];
  const first = between(random, 0.4, 1.2);
  return luck > 0.04 ? [first] : [first, first * between(random, 0.4, 0.8)];
}
