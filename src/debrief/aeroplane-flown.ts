/**
 * Which aeroplane was flown?
 *
 * In: the aeroplanes given, the conditions of the flight. Out: the one that the conditions name, or the
 * only one given.
 */
import type { Aeroplane } from '../performance/aeroplane.ts';
import { isUndetermined, undetermined, type Undetermined } from '../result.ts';
import type { Conditions } from '../weather/conditions.ts';

/** The aeroplane flown, or why nobody knows. */
export function aeroplaneFlown(
  aeroplanes: readonly Aeroplane[],
  conditions: Conditions | Undetermined,
): Aeroplane | Undetermined {
  const named = isUndetermined(conditions) ? null : conditions.aeroplane;
  if (named !== null) {
    const found = aeroplanes.find((each) => each.id === named);
    return found ?? undetermined(`flown in ${named}, whose handbook figures were not given`);
  }
  if (aeroplanes.length === 1) return aeroplanes[0];
  return undetermined(
    aeroplanes.length === 0
      ? "no aeroplane's handbook figures were given"
      : 'the conditions do not say which of the aeroplanes was flown',
  );
}
