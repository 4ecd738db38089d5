/**
 * From which threshold does the height of an obstacle count?
 *
 * In: a strip as seen from one direction, and a place along it. Out: where the landing threshold of
 * the end nearer to that place lies, metres along the direction looked from. An obstacle stands before
 * one threshold and is the same height in either direction.
 */
import type { StripFrame } from './strip-frame.ts';
import type { Strip, StripDirection } from './strip.ts';

/** alongM of the landing threshold nearer to `alongM`; an end where nobody lands counts as one. Never fails. */
export function nearerThresholdM(
  { strip, direction, frame }: { strip: Strip; direction: StripDirection; frame: StripFrame },
  alongM: number,
): number {
  const other = strip.directions.find(({ from }) => from !== direction.from);
  const farM = frame.farEndAlongM - (other?.displacedM ?? 0);
  return alongM > farM / 2 ? farM : 0;
}
