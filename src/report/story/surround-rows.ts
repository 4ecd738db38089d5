/**
 * Obstacles passed and areas flown over, beside the other measured figures of an event.
 *
 * In: clearances of an event, areas of its flight, the pilot's units. Out: rows with how each was found.
 */
import type { AreaTime } from '../../events/area-time.ts';
import type { Clearance } from '../../events/clearance.ts';
import {
  figureLine,
  hasFigure,
  heightFigure,
  lengthFigure,
  secondsFigure,
  type PilotUnits,
} from '../figure-text.ts';
import type { MeasuredRow } from './measured-rows.ts';

/** A row for each obstacle passed. */
export function clearanceRows(clearances: readonly Clearance[], units: PilotUnits): MeasuredRow[] {
  return clearances.map(({ obstacle, verticalM, slantM }) => {
    const slant = lengthFigure(slantM, units);
    return {
      label: `height over ${obstacle}`,
      figure: heightFigure(verticalM, units),
      beside: hasFigure(slant) ? `slant ${figureLine(slant)}` : '',
      how: 'From the wheels to the top of the obstacle where the track passed nearest beside it; negative is below the top. The ground beyond the strip counts as level unless the top was entered above the nearer threshold or the sea. How exactly the obstacle was entered is not in the band.',
    };
  });
}

/** A row for each area to avoid that was, or may have been, flown over on the whole flight. */
export function areaRows(areas: readonly AreaTime[], units: PilotUnits): MeasuredRow[] {
  return areas.map(({ area, insideS, lowestMslM }) => {
    const lowest = heightFigure(lowestMslM, units);
    const inside = secondsFigure(insideS);
    return {
      label: `over ${area}, an area to avoid`,
      figure: inside,
      beside: hasFigure(lowest) ? `lowest ${figureLine(lowest)} above the sea` : '',
      how: 'Time over the area on the whole flight, and below its upper limit where it has one. A fix near the edge counts as in and as out, and the edge may have been crossed anywhere between two fixes; the band says so.',
    };
  });
}
