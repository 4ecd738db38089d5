/** Of which landings a length needed is told, and in whose conditions. */
import { describe, expect, test } from 'vitest';
import { shortLandings, shortLengths } from '../../src/debrief/short-lengths.ts';
import { debriefDemo, demoContext } from './demo-flights.ts';

describe('the lengths needed of some flights', async () => {
  const read = async (file: string) => (await debriefDemo(file, demoContext())).flights[0];
  const early = await read('2024-05-12-home-from-sedge.igc');
  const late = await read('2025-07-06-every-fix-twice.gpx');
  const otherWay = await read('2025-04-06-rejected-and-stop-and-go.igc');
  const other = await read('2024-05-19-microlight-circuits-mereling.igc');
  const threeStrips = await read('2024-08-04-three-strips.igc');
  const placesOf = (flights: Parameters<typeof shortLengths>[0]) =>
    shortLengths(flights).map(({ strip, direction, day }) => `${strip} ${direction} ${day}`);

  test('go by the conditions of the last landing there, in whatever order the logs come', () => {
    const expected = ['ternholm 25 2025-07-06', 'ternholm 07 2025-04-06'];
    expect(placesOf([early, late, otherWay]).sort()).toEqual(expected.toSorted());
    expect(placesOf([otherWay, late, early]).sort()).toEqual(expected.toSorted());
  });

  test('are of the landings whose roll was compared, each aeroplane by its own', () => {
    expect(placesOf([other])).toEqual([]);
    // Its touch-and-go at the first of three has a prediction and no roll to hold against it.
    expect(threeStrips.events.approaches[0].strip).toBe('mereling');
    expect(placesOf([threeStrips])).toEqual(['sedge 20 2024-08-04', 'ternholm 25 2024-08-04']);
    expect(shortLandings([early, late, other], 'marram-160')).toHaveLength(2);
    expect(shortLandings([early, late, other], 'eelgrass-450')).toEqual([]);
  });
});
