/**
 * How did a strip lie on the day of a flight?
 *
 * A mown line moves, so a strip's record holds the feature as it was from each day on. A flight is
 * measured against the version of its own day, whatever was drawn later.
 */

import type { Feature, StripRecord } from './entry.ts';

/** The feature as it was at `timeS`; before the first version, the first. */
export function featureAt(strip: StripRecord, timeS: number): Feature {
  const begun = strip.versions.filter(({ fromS }) => fromS === null || fromS <= timeS);
  return (begun.at(-1) ?? strip.versions[0]).feature;
}

/**
 * The strip with the feature as it is from `fromS` on (null: as long as anyone knows). A version that
 * began at the same time is replaced.
 */
export function addVersion(
  strip: StripRecord,
  fromS: number | null,
  feature: Feature,
  nowS: number,
): StripRecord {
  const others = strip.versions.filter((version) => version.fromS !== fromS);
  const versions = [...others, { fromS, feature }].sort(
    (a, b) => (a.fromS ?? Number.NEGATIVE_INFINITY) - (b.fromS ?? Number.NEGATIVE_INFINITY),
  );
  return { ...strip, changedS: nowS, versions };
}
