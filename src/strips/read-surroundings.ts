/**
 * What obstacle, avoid area or approach path does one feature of a strips file describe?
 *
 * In: a feature with kind `obstacle`, `avoid` or `approach-path`. Out: the record, or problems that
 * say what was found and what was expected. Whether a named strip exists is for the whole file.
 */

import { failure, success } from '../result.ts';
import type { Problem, Result } from '../result.ts';
import { checkProperties, doubt, readLine, readRings, wrong } from './feature-checks.ts';
import type { RawFeature } from './feature-checks.ts';
import { foreignOf } from './foreign-members.ts';
import { approachPathProperties, avoidProperties, obstacleProperties } from './strip-properties.ts';
import type { ApproachPath, AvoidArea, Obstacle } from './strip.ts';

/**
 * Reads an obstacle, a Point or a LineString.
 *
 * Units: metres. Where more than one height is given, `topMslM` goes before `topAboveThresholdM`
 * and that before `heightM`, with a warning. Fails: no height at all; a top above the threshold of
 * no named strip.
 */
export function readObstacle(feature: RawFeature): Result<Obstacle> {
  const line = readLine(feature, ['Point', 'LineString']);
  const checked = checkProperties(obstacleProperties, feature);
  if (!line.ok || !checked.ok) return failure([...line.problems, ...checked.problems]);
  const { strip, name, topMslM, topAboveThresholdM, heightM } = checked.value;

  const given = Object.entries({ topMslM, topAboveThresholdM, heightM }).filter(
    ([, metres]) => metres !== null,
  );
  if (given.length === 0) {
    const message = 'found no height, expected topMslM, topAboveThresholdM or heightM';
    return wrong(feature, message, 'obstacle-height');
  }
  const used = given[0][0];
  if (used === 'topAboveThresholdM' && strip === null) {
    const message =
      'strip: found nothing, expected the id of the strip that topAboveThresholdM counts from';
    return wrong(feature, message, 'obstacle-height');
  }
  const problems: Problem[] = [];
  if (given.length > 1) {
    const found = `found ${given.map(([key]) => key).join(' and ')}`;
    const message = `${found}, expected one height; ${used} is used`;
    problems.push(doubt(feature, 'obstacle-height', message));
  }
  return success(
    {
      strip,
      name: name ?? 'obstacle',
      latDeg: line.value.latDeg,
      lonDeg: line.value.lonDeg,
      topMslM: used === 'topMslM' ? topMslM : null,
      topAboveThresholdM: used === 'topAboveThresholdM' ? topAboveThresholdM : null,
      heightM: used === 'heightM' ? heightM : null,
      properties: feature.properties,
      ...foreignOf(feature),
    },
    problems,
  );
}

/**
 * Reads an area not to be overflown, a Polygon. Fails: rings that are not closed. Warns of one more
 * than 180 degrees of longitude wide: drawn over the 180th meridian, it is all the world but itself.
 */
export function readAvoidArea(feature: RawFeature): Result<AvoidArea> {
  const rings = readRings(feature);
  const checked = checkProperties(avoidProperties, feature);
  if (!rings.ok || !checked.ok) return failure([...rings.problems, ...checked.problems]);
  const lonDeg = rings.value[0].map(([lon]) => lon);
  const wideDeg = Math.max(...lonDeg) - Math.min(...lonDeg);
  const found = `geometry: found ${wideDeg.toFixed(1)} degrees of longitude from edge to edge`;
  const message = `${found}, expected at most 180; give an area over the 180th meridian as two`;
  return success(
    {
      name: checked.value.name ?? 'avoid area',
      rings: rings.value,
      belowMslM: checked.value.belowMslM,
      properties: feature.properties,
      ...foreignOf(feature),
    },
    wideDeg > 180 ? [doubt(feature, 'strip-geometry', message)] : [],
  );
}

/** Reads a preferred approach path, a LineString. Fails: no strip or no designator. */
export function readApproachPath(feature: RawFeature): Result<ApproachPath> {
  const line = readLine(feature, ['LineString']);
  const checked = checkProperties(approachPathProperties, feature);
  if (!line.ok || !checked.ok) return failure([...line.problems, ...checked.problems]);
  return success({
    strip: checked.value.strip,
    designator: checked.value.designator,
    latDeg: line.value.latDeg,
    lonDeg: line.value.lonDeg,
    properties: feature.properties,
    ...foreignOf(feature),
  });
}
