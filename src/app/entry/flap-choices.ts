/**
 * Which flap settings do an aeroplane's tables know?
 *
 * In: the kept documents of aeroplanes. Out: labels as the handbook prints them, each once.
 */
import type { AeroplaneRecord } from '../../logbook/entry.ts';
import { decodeAeroplane } from '../../performance/decode-aeroplane.ts';

/** A flap setting and the tables it is for, in words. */
export interface FlapChoice {
  readonly flap: string;
  readonly words: string;
}

/** The settings of one aeroplane; none where it is not known or its document cannot be read. */
export function flapChoices(
  aeroplanes: readonly AeroplaneRecord[],
  id: string,
): readonly FlapChoice[] {
  const record = aeroplanes.find((each) => each.id === id);
  const decoded = record ? decodeAeroplane(JSON.stringify(record.document)) : null;
  if (!decoded?.ok) return [];
  const phasesOf = new Map<string, Set<string>>();
  for (const { flap, quantity } of decoded.value.tables) {
    const phases = phasesOf.get(flap) ?? new Set<string>();
    phasesOf.set(flap, phases.add(quantity.startsWith('landing') ? 'landing' : 'take-off'));
  }
  return [...phasesOf].map(([flap, phases]) => ({
    flap,
    words: `${flap}, for ${[...phases].sort().join(' and ')}`,
  }));
}

/** An aeroplane's name as its document gives it, else its id. */
export function aeroplaneName({ id, document }: AeroplaneRecord): string {
  return typeof document.name === 'string' && document.name.trim() !== '' ? document.name : id;
}
