/** Reads the small invented logs beside the tests. */

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { decodeTrack } from '../../src/track/decode-track.ts';
import type { Result } from '../../src/result.ts';
import type { DecodedTrack } from '../../src/track/track.ts';

const FOLDER = new URL('./data/', import.meta.url);

/** Names of all fixture files, sorted. */
export function fixtureNames(): string[] {
  return readdirSync(fileURLToPath(FOLDER))
    .filter((name) => name !== 'README.md')
    .sort();
}

/** The bytes of a fixture file. */
export function fixtureBytes(name: string): Uint8Array {
  return new Uint8Array(readFileSync(fileURLToPath(new URL(name, FOLDER))));
}

/** A fixture decoded through the front door, its name as file name. */
export function decodeFixture(name: string): Promise<Result<DecodedTrack>> {
  return decodeTrack(fixtureBytes(name), name);
}

/** The same, where anything but a success is a failed test. */
export async function decodedFixture(name: string): Promise<DecodedTrack> {
  return expectDecoded(await decodeFixture(name));
}

/** Unwraps a success; throws with the problems otherwise. */
export function expectDecoded(result: Result<DecodedTrack>): DecodedTrack {
  if (!result.ok) throw new Error(result.problems.map((p) => p.message).join('\n'));
  return result.value;
}

/** Bytes of text. */
export function utf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

/** UTC seconds of an ISO text, by the language's own reader. */
export function seconds(iso: string): number {
  return Date.parse(iso) / 1000;
}
