/** Which landings share a day? */

/** Landings of each day together, days in the order met. */
export function byDay<Landing extends { readonly dayKey: string }>(
  landings: readonly Landing[],
): Landing[][] {
  const days = new Map<string, Landing[]>();
  for (const landing of landings) {
    const sameDay = days.get(landing.dayKey);
    if (sameDay) sameDay.push(landing);
    else days.set(landing.dayKey, [landing]);
  }
  return [...days.values()];
}
