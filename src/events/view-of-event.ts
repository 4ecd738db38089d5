/** In which view was an event measured? */
import type { FlightEvents } from './detect-events.ts';
import type { StripView } from './strip-view.ts';

/** The view that an event's strip and direction name; null at a place nobody has kept as a strip. */
export function viewOfEvent(
  { views }: Pick<FlightEvents, 'views'>,
  { strip, direction }: { readonly strip: string | null; readonly direction: string | null },
): StripView | null {
  if (strip === null) return null;
  return (
    views.find((view) => view.stripId === strip && view.direction.designator === direction) ?? null
  );
}
