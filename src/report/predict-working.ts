/**
 * The working of a prediction as text: a line a step, the sources in a list below.
 *
 * In: a chain of steps and the pilot's units. Out: lines; what, by how much, on what, the running
 * distance, and why, with the letter of its source.
 */
import type { FactorChain } from '../performance/prediction.ts';
import type { PilotUnits } from './figure-text.ts';
import { longestOf, workingLines } from './story/visit-working.ts';
import { textTable } from './text-table.ts';
import { plainSpaces, wrapText } from './wrap-text.ts';

/** Sources met so far, in order: the first is [a]. */
export type SourceList = string[];

/** Both workings of one use; nothing where the chain is empty. */
export function workingText(
  what: string,
  chain: FactorChain,
  sources: SourceList,
  units: PilotUnits,
): string[] {
  return (['expected', 'planned'] as const).flatMap((kind) => {
    const lines = workingLines(chain[kind], longestOf([chain[kind]]), units);
    const rows = lines.map(({ name, by, actsOn, running, why, source }) =>
      [name, by, actsOn, running, `[${letterOf(source, sources)}] ${why}`].map(plainSpaces),
    );
    const heading = [`${what}, ${kind}`, 'by', 'acts on', 'distance', 'why'];
    return rows.length === 0 ? [] : ['', ...textTable(heading, rows)];
  });
}

/** The sources by their letters. */
export function sourceLines(sources: SourceList): string[] {
  if (sources.length === 0) return [];
  return ['', ...sources.flatMap((source, k) => wrapText(`[${letter(k)}] ${source}`, '  '))];
}

function letterOf(source: string, sources: SourceList): string {
  const known = sources.indexOf(source);
  if (known >= 0) return letter(known);
  sources.push(source);
  return letter(sources.length - 1);
}

/** a to z, then aa, ab. */
function letter(k: number): string {
  const last = String.fromCharCode(97 + (k % 26));
  return k < 26 ? last : letter(Math.floor(k / 26) - 1) + last;
}
