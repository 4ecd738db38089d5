/**
 * What the predictor remarks, each thing said once.
 *
 * In: notes of predictions. Out: lines; credits that the plan does not take in one line for the
 * landing and one for the take-off, with the condition and each figure once.
 */
import type { Phase } from '../performance/aeroplane.ts';
import type { Prediction, PredictionNote } from '../performance/prediction.ts';

/** `landing, slope: no credit is taken for 0.2 % uphill`; frozen before the use was named: without it. */
const CREDIT =
  /^(?:(?<phase>landing|take-off), )?(?<name>[^:]+): no credit is taken for (?<what>.*)$/;

/** The notes of a prediction that are about this use, or about both. */
export function notesOf({ notes }: Prediction, use: Phase): PredictionNote[] {
  return notes.filter(({ phase }) => phase === undefined || phase === use);
}

/** The lines, credits last. */
export function predictionNoteLines(notes: readonly PredictionNote[]): string[] {
  const lines = new Set<string>();
  const refused = new Map<string, Map<string, Set<string>>>();
  for (const { code, text } of notes) {
    const groups = code === 'credit-not-taken' ? CREDIT.exec(text)?.groups : undefined;
    if (!groups) {
      lines.add(text);
      continue;
    }
    const { phase, name, what } = groups as Partial<typeof groups>;
    const planned = phase ? `the planned ${phase} takes` : 'the planned figures take';
    const names = refused.get(planned) ?? new Map<string, Set<string>>();
    refused.set(
      planned,
      names.set(name ?? '', (names.get(name ?? '') ?? new Set()).add(what ?? '')),
    );
  }
  const credits = [...refused].map(([planned, names]) => {
    const each = [...names].map(([name, whats]) => `${name} (${[...whats].join('; ')})`);
    return `${planned} no credit for ${each.join(', ')}`;
  });
  return [...lines, ...credits];
}
