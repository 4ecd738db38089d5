/**
 * The demonstration's files from `tracks-sample`, as the page fetches them.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { DemoFiles } from '../../src/logbook/demo-logbook.ts';

const SAMPLE = fileURLToPath(new URL('../../tracks-sample/', import.meta.url));
const text = (file: string) => readFileSync(`${SAMPLE}${file}`, 'utf8');

/** Every file of the demonstration, read anew. */
export function demoFiles(): DemoFiles {
  return {
    strips: text('strips.geojson'),
    aeroplanes: readdirSync(`${SAMPLE}aeroplanes`).map((name) => text(`aeroplanes/${name}`)),
    conditions: text('conditions.json'),
    flights: readdirSync(`${SAMPLE}flights`).map((fileName) => ({
      fileName,
      bytes: Uint8Array.from(readFileSync(`${SAMPLE}flights/${fileName}`)),
    })),
  };
}
