/** Which of several copies of one thing is the newest? One rule for all that is merged. */
import { canonicalText } from './plain-json.ts';

/** Items with the same key together, in the order in which the keys first come. */
export function grouped<T>(items: readonly T[], keyOf: (item: T) => unknown): [T, ...T[]][] {
  const groups = new Map<unknown, [T, ...T[]]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return [...groups.values()];
}

/**
 * The item of the greatest time; of one time the one whose text is greater, so that everybody who
 * merges the same copies comes to the same.
 */
export function newestOf<T>(items: readonly [T, ...T[]], timeOf: (item: T) => number): T {
  return items.reduce((best, each) => {
    const later = timeOf(each) - timeOf(best);
    return later > 0 || (later === 0 && canonicalText(each) > canonicalText(best)) ? each : best;
  });
}
