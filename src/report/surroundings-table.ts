/**
 * Obstacles passed and areas flown over, for people.
 *
 * In: a flight. Out: a table of clearances, a line an area; nothing where nothing was passed.
 */
import type { Flight } from '../debrief/debrief.ts';
import type { Clearance } from '../events/clearance.ts';
import { isUndetermined } from '../result.ts';
import { placeText } from './event-table.ts';
import { metres, utcTime } from './format-quantity.ts';
import { textTable } from './text-table.ts';

const HEADING = ['UTC', 'flown', 'obstacle', 'wheels over its top', 'slant distance'];

/** All of it. */
export function surroundingsLines({ events, surroundings }: Flight): string[] {
  const row = (what: string, place: string, clearance: Clearance): string[] => [
    utcTime(clearance.timeS),
    `${what} ${place}`,
    clearance.obstacle,
    metres(clearance.verticalM),
    metres(clearance.slantM),
  ];
  const rows = [
    ...events.takeOffs.flatMap((takeOff, k) =>
      surroundings.takeOffs[k].map((each) => row('taking off', placeText(takeOff), each)),
    ),
    ...events.approaches.flatMap((approach, k) =>
      surroundings.approaches[k].map((each) => row('approach', placeText(approach), each)),
    ),
  ].sort((a, b) => a[0].localeCompare(b[0]));
  return [...textTable(HEADING, rows), ...areaLines(surroundings)];
}

function areaLines({ areas }: Flight['surroundings']): string[] {
  return areas.map(({ area, firstTimeS, insideS, lowestMslM }) => {
    if (isUndetermined(insideS)) return `  area to avoid, ${area}: ${insideS.undetermined}`;
    const band = `${insideS.low.toFixed(0)}–${insideS.high.toFixed(0)}`;
    if (firstTimeS === null) return `  area to avoid, ${area}: perhaps touched, ${band} s`;
    const lowest = isUndetermined(lowestMslM)
      ? ''
      : `, down to ${metres(lowestMslM)} above the sea`;
    return `  ${utcTime(firstTimeS)}  over the area to avoid, ${area}: ${insideS.value.toFixed(0)} s ${band}${lowest}`;
  });
}
