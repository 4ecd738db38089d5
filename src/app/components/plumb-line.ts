/**
 * The plumb line: one moment of the flight, as each drawing needs it.
 *
 * In: the columns of the event, a time. Out: cursors with their read-outs: by place for the ruler and
 * the profiles, by time for the flight line and the plan.
 */
import {
  lengthFigure,
  speedFigure,
  figureValue,
  type PilotUnits,
} from '../../report/figure-text.ts';
import { clockSecondsText } from '../../report/local-time.ts';
import { readAtTime, type CursorColumns } from '../../report/story/cursor-columns.ts';
import type { Cursor } from '../drawings/drawing.ts';
import type { Part } from '../drawings/text.ts';

/** Cursors of one moment; `byPlace` is null where no strip is known or it is far away. */
export interface PlumbLine {
  readonly atS: number;
  readonly byTime: Cursor;
  readonly byPlace: Cursor | null;
  /** The read-out in one line, as it is read aloud. */
  readonly spoken: string;
}

/** The plumb line at a time; where no strip is kept, places count along the line of the roll. */
export function plumbLine(
  columns: CursorColumns,
  atS: number,
  units: PilotUnits,
  isKept = true,
): PlumbLine {
  const { alongM, speedMps } = readAtTime(columns, atS);
  const clock = clockSecondsText(atS, units.timeZone);
  const speed = figureValue(speedFigure(speedMps, units));
  const isInside = insideStretch(columns, atS) && !Number.isNaN(alongM);
  const place = isInside ? figureValue(lengthFigure(alongM, units)) : null;
  const readOut: Part[] = [
    { text: clock, weight: 600 },
    ...(place === null ? [] : [{ text: place, gap: 8 }]),
    { text: speed, gap: 8 },
  ];
  return {
    atS,
    byTime: { at: atS, readOut },
    byPlace: isInside ? { at: alongM, readOut } : null,
    spoken: [
      clock,
      ...(place === null ? [] : [`${place} along the ${isKept ? 'strip' : 'line'}`]),
      speed,
    ].join(', '),
  };
}

function insideStretch({ timeS, from, to }: CursorColumns, atS: number): boolean {
  return atS >= timeS[from] && atS <= timeS[Math.max(from, to - 1)];
}
