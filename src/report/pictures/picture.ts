/**
 * What every picture model has in common: a sentence that is read out, and a table that says in
 * words and figures all that the picture shows.
 *
 * A picture model is plain data (numbers, strings, typed arrays, no functions), so that it can be
 * stored and can cross to and from a worker. Lengths are metres, times UTC seconds since 1970; text
 * is ready to set. A drawing lays a model out; it never computes a figure of its own.
 */
import { figureLine, hasFigure, type FigureText, type NoFigure } from '../figure-text.ts';
import type { FlightEvents } from '../../events/detect-events.ts';
import type { StripView } from '../../events/strip-view.ts';

/** One line of the table behind a picture. */
export interface TwinRow {
  readonly label: string;
  readonly value: string;
}

/** Every picture. */
export interface Picture {
  /** One sentence or two, read out in place of the picture. */
  readonly spoken: string;
  readonly rows: readonly TwinRow[];
}

/** A row of the table, from a figure or its reason. */
export function twinRow(label: string, figure: FigureText | NoFigure): TwinRow {
  return {
    label,
    value: hasFigure(figure) ? figureLine(figure) : `undetermined: ${figure.reason}`,
  };
}

/** The view an event was found in; null at a place nobody has kept as a strip. */
export function viewOfEvent(
  events: FlightEvents,
  event: { readonly strip: string | null; readonly direction: string | null },
): StripView | null {
  if (event.strip === null) return null;
  return (
    events.views.find(
      (view) => view.stripId === event.strip && view.direction.designator === event.direction,
    ) ?? null
  );
}

/** `Sedgeholt 20` of a view. */
export function placeName({ strip, direction }: StripView): string {
  return `${strip.name} ${direction.designator}`;
}
