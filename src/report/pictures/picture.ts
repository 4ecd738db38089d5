/**
 * What every picture model has in common: a sentence that is read out, and a table that says in
 * words and figures all that the picture shows.
 *
 * A picture model is plain data (numbers, strings, typed arrays, no functions), so that it can be
 * stored and can cross to and from a worker. Lengths are metres, times UTC seconds since 1970; text
 * is ready to set. A drawing lays a model out; it never computes a figure of its own.
 */
import { figureLine, hasFigure, type FigureText, type NoFigure } from '../figure-text.ts';
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

/** `Sedgeholt 20` of a view. */
export function placeName({ strip, direction }: StripView): string {
  return `${strip.name} ${direction.designator}`;
}
