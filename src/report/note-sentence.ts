/** A note of the lower floors as a sentence to be read on a page. */
import type { Problem } from '../result.ts';
import { NBSP } from './figure-text.ts';
import { inPilotUnits, type TextUnits } from './figures-in-text.ts';

/** Units that stand after a figure in notes. */
const UNIT = /(?<=\d) (?=(?:%|°|(?:kt|mph|km\/h|m|ft|kg|lb|hPa|inHg|s|min|Hz)\b))/g;

/**
 * Capital, full stop and true minus, which machines do not need, and units that stay on the line of
 * their figure: `(0.4 % downhill)` broke before its percent sign on a phone.
 */
export function noteSentence(text: string): string {
  const words = ended(text);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Notes as sentences in the pilot's units. */
export function notesIn(texts: readonly string[], units: TextUnits): string[] {
  return texts.map((text) => noteSentence(inPilotUnits(text, units)));
}

/**
 * What was found in a file, with its place; the file as a whole need not be named beside its name. A
 * field keeps its name as it stands in the file, where the pilot looks for it.
 */
export function problemSentence({ code, where, message }: Omit<Problem, 'severity'>): string {
  if (where === 'file') return noteSentence(message);
  const isField = /^\w+\[/.test(where) || (code.endsWith('-field') && where !== 'document');
  return isField ? `${where}: ${ended(message)}` : noteSentence(`${where}: ${message}`);
}

function ended(text: string): string {
  const words = text.replace(/(?<=^|[\s(])-(?=\d)/g, '\u2212').replace(UNIT, NBSP);
  return /[.!?]$/.test(words) ? words : `${words}.`;
}
