/**
 * Files of the demo world, by path.
 */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the demo world. */
export const SAMPLE = fileURLToPath(new URL('../../tracks-sample', import.meta.url));

/** Path of one of its flights. */
export function sampleFlight(name: string): string {
  return join(SAMPLE, 'flights', name);
}
