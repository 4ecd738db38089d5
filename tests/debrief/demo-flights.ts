/** The demo world for tests: its flights debriefed once, and their truth. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { debriefFile, type Debrief, type DebriefContext } from '../../src/debrief/debrief.ts';
import { decodeAeroplane } from '../../src/performance/decode-aeroplane.ts';
import type { Result } from '../../src/result.ts';
import { decodeStrips } from '../../src/strips/decode-strips.ts';
import { decodeConditions } from '../../src/weather/decode-conditions.ts';

/** The tests and the tools run in the project's folder; a bundled tool cannot see its own. */
const SAMPLE = `${resolve('tracks-sample')}/`;

/** A moment in the truth file. */
export interface TrueMoment {
  readonly timeS: number;
  readonly alongM: number;
}

/** What truly happened in one flight, as far as the tests use it. */
export interface TrueFlight {
  readonly takeOffs: readonly {
    readonly kind: string;
    readonly strip: string;
    readonly direction: string;
    readonly brakeRelease: TrueMoment | null;
    readonly liftOff: TrueMoment | null;
    readonly groundRollM: number | null;
  }[];
  readonly approaches: readonly {
    readonly outcome: string;
    readonly strip: string;
    readonly direction: string;
    readonly threshold: TrueMoment | null;
    readonly touchdown: TrueMoment | null;
    readonly rollEnd: (TrueMoment & { readonly kind: string }) | null;
    readonly groundRollM: number | null;
    readonly goAround: { readonly lowestTimeS: number; readonly lowestAboveM: number } | null;
    readonly bounces: readonly unknown[];
  }[];
  readonly circuits: readonly {
    readonly side: string;
    readonly legs: readonly {
      readonly leg: string;
      readonly startTimeS: number;
      readonly endTimeS: number;
    }[];
  }[];
  readonly joins: readonly { readonly kind: string; readonly timeS: number }[];
}

/** Names of the demo's logs, in order. */
export const DEMO_FILES = readdirSync(`${SAMPLE}flights`).sort();

/** The demo's strips, aeroplanes and conditions. */
export function demoContext(): DebriefContext {
  const read = <T>(file: string, decode: (text: string) => Result<T>): T => {
    const result = decode(readFileSync(SAMPLE + file, 'utf8'));
    if (!result.ok) throw new Error(`${file}: ${result.problems[0].message}`);
    return result.value;
  };
  return {
    strips: read('strips.geojson', decodeStrips),
    aeroplanes: readdirSync(`${SAMPLE}aeroplanes`).map((file) =>
      read(`aeroplanes/${file}`, decodeAeroplane),
    ),
    conditions: read('conditions.json', decodeConditions),
  };
}

/** Debriefs one demo log. */
export async function debriefDemo(file: string, context: DebriefContext): Promise<Debrief> {
  const bytes = new Uint8Array(readFileSync(join(SAMPLE, 'flights', file)));
  const result = await debriefFile(bytes, file, context);
  if (!result.ok) throw new Error(`${file}: ${result.problems[0].message}`);
  return result.value;
}

/** True events by file name. */
export function demoTruth(): Readonly<Record<string, TrueFlight>> {
  const document = JSON.parse(readFileSync(`${SAMPLE}truth.json`, 'utf8')) as {
    readonly flights: Readonly<Record<string, TrueFlight>>;
  };
  return document.flights;
}
