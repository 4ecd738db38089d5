/** The published factor sets by their ids. */
import { undetermined, type Undetermined } from '../../result.ts';
import { CLASS_B } from './class-b.ts';
import type { FactorSet } from './factor-set.ts';
import { HANDBOOK_ONLY } from './handbook-only.ts';
import { UK_LEAFLET } from './uk-leaflet.ts';

/** Every published set, the default first. */
export const PUBLISHED_SETS: readonly FactorSet[] = [UK_LEAFLET, CLASS_B, HANDBOOK_ONLY];

/**
 * The set of an id, published or the pilot's own, the default for null, or why there is none of that
 * name.
 */
export function findFactorSet(
  id: string | null,
  own: readonly FactorSet[] = [],
): FactorSet | Undetermined {
  if (id === null) return UK_LEAFLET;
  const found = [...PUBLISHED_SETS, ...own].find((set) => set.id === id);
  if (found) return found;
  const known = [...PUBLISHED_SETS, ...own].map((set) => set.id).join(', ');
  return undetermined(`no factor set is called '${id}'; expected one of ${known}`);
}
