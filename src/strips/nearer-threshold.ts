/**
 * From which threshold does the height of an obstacle count, and where does it stand?
 *
 * In: a strip as seen from one direction, and a place along it or an obstacle. Out: where the landing threshold of
 * the end nearer to that place lies, metres along the direction looked from. An obstacle stands before
 * one threshold and is the same height in either direction.
 */
import type { StripFrame } from './strip-frame.ts';
import type { Obstacle, Strip, StripDirection } from './strip.ts';

/** alongM of the landing threshold nearer to `alongM`; an end where nobody lands counts as one. Never fails. */
export function nearerThresholdM(
  { strip, direction, frame }: { strip: Strip; direction: StripDirection; frame: StripFrame },
  alongM: number,
): number {
  const other = strip.directions.find(({ from }) => from !== direction.from);
  const farM = frame.farEndAlongM - (other?.displacedM ?? 0);
  return alongM > farM / 2 ? farM : 0;
}

/** alongM of an obstacle: of a row of them, or a wire, the middle of its corners. Never fails. */
export function standsAlongM(frame: StripFrame, { latDeg, lonDeg }: Obstacle): number {
  const { alongM } = frame.toAlongCross(Float64Array.from(latDeg), Float64Array.from(lonDeg));
  return alongM.reduce((sum, along) => sum + along, 0) / alongM.length;
}
