/**
 * What strip does one feature of a strips file describe?
 *
 * In: a feature with kind `strip`. Out: the strip, its directions complete. Contradictions are
 * errors; what merely looks odd is a warning.
 */

import { signedDifferenceDeg } from '../geo/angles.ts';
import { shortLine } from '../geo/local-frame.ts';
import { failure, success } from '../result.ts';
import type { Problem, Result } from '../result.ts';
import { checkDirections, completeDirections } from './declared-distances.ts';
import { checkProperties, doubt, readLine, wrong } from './feature-checks.ts';
import type { Positions, RawFeature } from './feature-checks.ts';
import { foreignOf } from './foreign-members.ts';
import { stripProperties } from './strip-properties.ts';
import type { StripProperties } from './strip-properties.ts';
import { createStripFrame } from './strip-frame.ts';
import type { StripFrame } from './strip-frame.ts';
import type { Strip, StripDirection } from './strip.ts';

/** Position error of a centreline drawn by hand, metres, where the file gives none (ours). */
const DRAWN_BY_HAND_M = 5;
/** Least and greatest length of a centreline, metres. */
export const SHORTEST_M = 50;
export const LONGEST_M = 5000;
/** A sharper bend than this is a list of positions in the wrong order, not a strip. */
const SHARPEST_BEND_DEG = 60;
/** Steeper than the steepest mountain strips; more likely feet for metres. */
const STEEPEST_RATIO = 0.2;
/** Profile and end elevations of one survey agree within this, metres. */
const PROFILE_SLACK_M = 2;

/**
 * Reads a strip.
 *
 * Units: metres and degrees. Fails: a property out of its range, a centreline under 50 m or over
 * 5 km or bent by over 60 degrees, a profile that does not rise in distance or runs past end B, and
 * whatever `checkDirections` finds.
 */
export function readStrip(feature: RawFeature): Result<Strip> {
  const line = readLine(feature, ['LineString']);
  const checked = checkProperties(stripProperties, feature);
  if (!line.ok || !checked.ok) return failure([...line.problems, ...checked.problems]);
  const properties = checked.value;

  const bare = withoutDirections(line.value, properties, feature);
  const size = checkCentreline(feature, bare);
  if (!size.ok) return size;
  const { lengthM, trueBearingDeg } = size.value;
  const directions = completeDirections(properties.directions, lengthM, trueBearingDeg);
  const strip: Strip = { ...bare, directions };

  const problems = [
    ...checkHeights(feature, strip, lengthM),
    ...checkDirections(feature, strip, lengthM, trueBearingDeg),
  ];
  if (problems.some((each) => each.severity === 'error')) return failure(problems);
  return success(strip, problems);
}

/** A direction that measures the whole centreline from end A. */
const WHOLE_LINE: StripDirection = {
  designator: '',
  from: 'A',
  use: 'both',
  displacedM: 0,
  ldaM: 0,
  toraM: 0,
  todaM: 0,
  asdaM: 0,
  circuit: null,
  circuitHeightM: null,
  commitM: null,
};

function withoutDirections(
  line: Positions,
  properties: StripProperties,
  feature: RawFeature,
): Strip {
  return {
    id: properties.id,
    name: properties.name ?? properties.id,
    latDeg: line.latDeg,
    lonDeg: line.lonDeg,
    widthM: properties.widthM,
    surface: properties.surface,
    elevationM: properties.elevationM,
    profile: properties.profile,
    positionErrorM: properties.positionErrorM ?? DRAWN_BY_HAND_M,
    endsGuessed: properties.endsGuessed ?? false,
    directions: [],
    properties: feature.properties,
    ...foreignOf(feature),
  };
}

/** The frame from end A, where the centreline has a length and a shape that a strip can have. */
function checkCentreline(feature: RawFeature, strip: Strip): Result<StripFrame> {
  const path = 'geometry.coordinates';
  const { lengthM, sharpestBendDeg } = measureLine(strip);
  // Ends on opposite sides of the globe have a length of NaN.
  if (!(lengthM >= SHORTEST_M && lengthM <= LONGEST_M)) {
    const found = Number.isNaN(lengthM) ? 'half a globe' : showLength(lengthM);
    const expected = `expected ${SHORTEST_M} m to ${LONGEST_M / 1000} km from end A to end B`;
    return wrong(feature, `${path}: found a centreline of ${found}, ${expected}`);
  }
  if (sharpestBendDeg > SHARPEST_BEND_DEG) {
    const found = `found a bend of ${sharpestBendDeg.toFixed(0)} degrees`;
    return wrong(feature, `${path}: ${found}, expected at most ${SHARPEST_BEND_DEG}`);
  }
  return success(createStripFrame(strip, WHOLE_LINE));
}

function measureLine({ latDeg, lonDeg }: Strip): { lengthM: number; sharpestBendDeg: number } {
  let lengthM = 0;
  let sharpestBendDeg = 0;
  let before = NaN;
  for (let i = 1; i < latDeg.length; i++) {
    const piece = shortLine(latDeg[i - 1], lonDeg[i - 1], latDeg[i], lonDeg[i]);
    if (piece.lengthM === 0) continue;
    lengthM += piece.lengthM;
    const bendDeg = Math.abs(signedDifferenceDeg(before, piece.bearingDeg));
    if (bendDeg > sharpestBendDeg) sharpestBendDeg = bendDeg;
    before = piece.bearingDeg;
  }
  return { lengthM, sharpestBendDeg };
}

function showLength(lengthM: number): string {
  return lengthM < 10000 ? `${lengthM.toFixed(1)} m` : `${(lengthM / 1000).toFixed(0)} km`;
}

function checkHeights(feature: RawFeature, strip: Strip, lengthM: number): Problem[] {
  const problems: Problem[] = [];
  const { elevationM, profile } = strip;
  const frame = createStripFrame(strip, WHOLE_LINE);
  if (Math.abs(frame.slopeRatio) > STEEPEST_RATIO) {
    const slope = `${(100 * frame.slopeRatio).toFixed(0)} %`;
    const expected = `expected at most ${100 * STEEPEST_RATIO} %; are the elevations in metres?`;
    problems.push(
      doubt(feature, 'strip-slope', `elevationM: found a slope of ${slope}, ${expected}`),
    );
  }
  if (!profile) return problems;
  for (let i = 1; i < profile.length; i++) {
    if (profile[i][0] > profile[i - 1][0]) continue;
    const found = `found ${profile[i][0]} m after ${profile[i - 1][0]} m`;
    const message = `profile[${i}]: ${found}, expected distances from A that rise`;
    return [...problems, ...wrong(feature, message, 'strip-profile').problems];
  }
  const lastM = profile[profile.length - 1][0];
  // The profile may have been measured along ends that lie elsewhere by their own error.
  const furthestM = lengthM + 2 * strip.positionErrorM;
  if (lastM > furthestM) {
    const found = `found ${lastM} m from A`;
    const message = `profile: ${found}, expected at most the length of ${lengthM.toFixed(1)} m`;
    return [...problems, ...wrong(feature, message, 'strip-profile').problems];
  }
  if (elevationM) {
    const ends = [frame.elevationMslM(0), frame.elevationMslM(lengthM)];
    for (const [index, end] of ['A', 'B'].entries()) {
      if (Math.abs(ends[index] - elevationM[index]) <= PROFILE_SLACK_M) continue;
      const found = `found ${ends[index].toFixed(1)} m at end ${end}`;
      const message = `profile: ${found}, expected the ${elevationM[index]} m of elevationM`;
      problems.push(doubt(feature, 'strip-profile', message));
    }
  }
  return problems;
}
