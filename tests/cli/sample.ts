/** The demo files as arguments, and the document's shape as far as the tests use it. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { PROJECT } from './run-debrief.ts';

/** Folder of the demo world. */
export const SAMPLE = join(PROJECT, 'tracks-sample');

/** Paths of its logs, in order of their names. */
export const FLIGHTS = readdirSync(join(SAMPLE, 'flights'))
  .sort()
  .map((name) => join(SAMPLE, 'flights', name));

/** Visits of one aeroplane to short strips, enough for a length, and one of the other. */
export const VISITS = FLIGHTS.filter((file) =>
  /wet-grass|uphill|three-strips|gusty-go-around|last-dry|across-the-wind/.test(file),
);

/** Its strips, both aeroplanes and conditions. */
export const SETTINGS = [
  ['--strips', join(SAMPLE, 'strips.geojson')],
  ['--aeroplane', join(SAMPLE, 'aeroplanes/marram-160.json')],
  ['--aeroplane', join(SAMPLE, 'aeroplanes/eelgrass-450.json')],
  ['--conditions', join(SAMPLE, 'conditions.json')],
].flat();

/** What the tests read of the document. */
export interface DebriefDocument {
  readonly schema: number;
  readonly caution: string;
  readonly flights: readonly {
    readonly source: { readonly file: string };
    readonly aeroplane: unknown;
    readonly conditions: object;
    readonly approaches: readonly {
      readonly prediction: object;
      readonly ratio: object;
      readonly counts: boolean;
    }[];
  }[];
  readonly files: readonly {
    readonly file: string;
    readonly read: boolean;
    readonly flights: number;
    readonly problems: readonly { readonly message: string; readonly where: string }[];
  }[];
}

/** Parses the document; fails where stdout holds anything else. */
export function parseDocument(text: string): DebriefDocument {
  return JSON.parse(text) as DebriefDocument;
}
