/**
 * Which directions does a strip have, and can it hold the distances declared for them?
 *
 * In: directions as a strips file gives them, or none; length and true bearing of the centreline
 * from end A to end B. Out: complete directions (TORA = length, TODA and ASDA = TORA, LDA = length
 * less the displacement, unless given); problems.
 *
 * Source: declared distances, ICAO Annex 14 volume I, definitions and attachment A (from memory);
 * designators by tens of degrees, same document, 5.2.2 (from memory; there magnetic, here true,
 * because a strip that lists no direction has no painted number).
 */

import { signedDifferenceDeg, wrap360 } from '../geo/angles.ts';
import { problem } from '../result.ts';
import type { Problem } from '../result.ts';
import { doubt, wrong } from './feature-checks.ts';
import type { RawFeature } from './feature-checks.ts';
import type { DirectionProperties } from './strip-properties.ts';
import type { Strip, StripDirection } from './strip.ts';

/** Variation, grid convergence and rounding together stay below this outside the polar regions (ours). */
const DESIGNATOR_SLACK_DEG = 35;

/**
 * The directions with every distance filled in; both, from the bearing, where none are given.
 *
 * Units: metres, degrees true from end A to end B.
 * @example completeDirections(null, 420, 93)[0].designator // '09'
 */
export function completeDirections(
  given: readonly DirectionProperties[] | null,
  lengthM: number,
  bearingFromADeg: number,
): StripDirection[] {
  return (given ?? bothFromBearing(bearingFromADeg)).map((each) => {
    const displacedM = each.displacedM ?? 0;
    const toraM = each.toraM ?? lengthM;
    return {
      designator: each.designator,
      from: each.from,
      use: each.use ?? 'both',
      displacedM,
      ldaM: each.ldaM ?? lengthM - displacedM,
      toraM,
      todaM: each.todaM ?? toraM,
      asdaM: each.asdaM ?? toraM,
      circuit: each.circuit,
      circuitHeightM: each.circuitHeightM,
      commitM: each.commitM,
    };
  });
}

/**
 * What contradicts itself in the directions of a strip.
 *
 * Errors: two directions from one end or with one designator; a displacement as long as the strip;
 * LDA or TORA beyond what is there (by more than the ends' own errors, else a warning); TODA or ASDA
 * below TORA. Warning: a designator that does not fit the bearing.
 */
export function checkDirections(
  feature: RawFeature,
  strip: Strip,
  lengthM: number,
  bearingFromADeg: number,
): Problem[] {
  const problems: Problem[] = [];
  const slackM = 2 * strip.positionErrorM;
  const refuse = (message: string) =>
    problems.push(...wrong(feature, message, 'strip-direction').problems);
  const limit = (path: string, foundM: number, mostM: number, what: string) => {
    if (foundM <= mostM + ROUNDING_M) return;
    const severity = foundM > mostM + slackM ? 'error' : 'warning';
    const message = `${path}: found ${foundM} m, expected at most ${what} of ${mostM.toFixed(1)} m`;
    problems.push(problem('strip-direction', severity, feature.where, message));
  };

  for (const [index, direction] of strip.directions.entries()) {
    const path = `directions[${index}]`;
    const { designator, from, displacedM, toraM } = direction;
    const earlier = strip.directions.slice(0, index);
    if (earlier.some((each) => each.from === from)) {
      refuse(`${path}.from: found a second direction from end ${from}, expected one from each end`);
    }
    if (earlier.some((each) => each.designator === designator)) {
      refuse(`${path}.designator: found "${designator}" twice, expected two different ones`);
    }
    if (displacedM >= lengthM) {
      const expected = `expected less than the length of ${lengthM.toFixed(1)} m`;
      refuse(`${path}.displacedM: found ${displacedM} m, ${expected}`);
      continue;
    }
    const leftM = lengthM - displacedM;
    limit(`${path}.ldaM`, direction.ldaM, leftM, displacedM > 0 ? 'the rest' : 'the length');
    limit(`${path}.toraM`, toraM, lengthM, 'the length');
    for (const name of ['todaM', 'asdaM'] as const) {
      if (direction[name] >= toraM - ROUNDING_M) continue;
      const expected = `expected at least the TORA of ${toraM.toFixed(1)} m`;
      refuse(`${path}.${name}: found ${direction[name]} m, ${expected}`);
    }
    if (direction.commitM !== null && direction.commitM > leftM) {
      const expected = `expected at most the far end, ${leftM.toFixed(1)} m from the threshold`;
      refuse(`${path}.commitM: found ${direction.commitM} m, ${expected}`);
    }
    const doubtful = checkDesignator(feature, path, direction, bearingFromADeg);
    if (doubtful) problems.push(doubtful);
  }
  return problems;
}

/** Below any length that matters, above what rounding both ends of a line to seven decimals of a degree makes of it. */
const ROUNDING_M = 0.02;

/** Landing at A and at B, named after the true bearing. */
function bothFromBearing(bearingFromADeg: number): DirectionProperties[] {
  const tens = Math.round(bearingFromADeg / 10) % 36;
  return (['A', 'B'] as const).map((from) => ({
    designator: twoDigits(from === 'A' ? tens : (tens + 18) % 36),
    from,
    use: null,
    displacedM: null,
    ldaM: null,
    toraM: null,
    todaM: null,
    asdaM: null,
    circuit: null,
    circuitHeightM: null,
    commitM: null,
  }));
}

/** North is 36, not 00. */
function twoDigits(tens: number): string {
  return String(tens === 0 ? 36 : tens).padStart(2, '0');
}

/** North is 36. */
const MOST_TENS = 36;

/** A number in the designator that is none, or that the bearing contradicts: an end named wrongly, or swapped positions. */
function checkDesignator(
  feature: RawFeature,
  path: string,
  direction: StripDirection,
  bearingFromADeg: number,
): Problem | null {
  const digits = /^(\d\d)(?!\d)/.exec(direction.designator);
  if (!digits) return null;
  const tens = Number(digits[1]);
  if (tens < 1 || tens > MOST_TENS) {
    const message = `${path}.designator: found "${direction.designator}", expected 01 to ${MOST_TENS}, tens of degrees`;
    return doubt(feature, 'strip-designator', message);
  }
  const bearingDeg = wrap360(bearingFromADeg + (direction.from === 'A' ? 0 : 180));
  const offDeg = Math.abs(signedDifferenceDeg(tens * 10, bearingDeg));
  if (offDeg <= DESIGNATOR_SLACK_DEG) return null;
  const hint =
    offDeg > 180 - DESIGNATOR_SLACK_DEG
      ? 'does this direction begin at the other end?'
      : 'are latitude and longitude swapped?';
  const found = `found "${direction.designator}" from end ${direction.from}`;
  const expected = `expected one near the true bearing of ${bearingDeg.toFixed(0)} degrees`;
  return doubt(feature, 'strip-designator', `${path}.designator: ${found}, ${expected}; ${hint}`);
}
