/**
 * The four strips of Doggerland, their obstacles, the village not to be overflown and the approach
 * path through the valley.
 *
 * Doggerland is drowned: the places lie in the open North Sea near 54.7 N 2.3 E, so that none can be
 * mistaken for a real one. Every name, length and height is invented.
 */
import type { LocalFrame } from '../../../src/geo/local-frame.ts';
import type { Strip } from '../../../src/strips/strip.ts';
import { inventStrip, roundTo } from '../invent-strip.ts';
import { createRunway, toEastNorth } from '../runway.ts';

/** Id of a strip of the demo world. */
export type DemoStripId = 'ternholm' | 'sedge' | 'hollowmere' | 'mereling';

/** The strips by id. */
export function demoStrips(map: LocalFrame): Record<DemoStripId, Strip> {
  return {
    ternholm: inventStrip(map, {
      id: 'ternholm',
      name: 'Ternholm',
      eastM: 0,
      northM: 0,
      bearingDeg: 71,
      lengthM: 560.4,
      widthM: 22,
      elevationM: [11, 13.5],
      positionErrorM: 2,
      fromA: { circuit: 'right', circuitHeightM: 245 },
      fromB: { circuit: 'left', circuitHeightM: 245, displacedM: 60 },
    }),
    sedge: inventStrip(map, {
      id: 'sedge',
      name: 'Sedgeholt',
      eastM: 7200,
      northM: 4300,
      bearingDeg: 23,
      lengthM: 355.4,
      widthM: 14,
      elevationM: [6.2, 6.8],
      fromA: { circuit: 'left', circuitHeightM: 215 },
      fromB: { circuit: 'right', circuitHeightM: 215 },
    }),
    hollowmere: inventStrip(map, {
      id: 'hollowmere',
      name: 'Hollowmere Bank',
      eastM: -6100,
      northM: 5200,
      bearingDeg: 328,
      lengthM: 410.4,
      widthM: 16,
      elevationM: [14, 28.5],
      profile: [
        [0, 14],
        [60, 15],
        [140, 17.3],
        [220, 20.5],
        [300, 24.2],
        [360, 27],
        [410, 28.5],
      ],
      fromA: { use: 'landing', circuit: 'left', circuitHeightM: 215, commitM: -300 },
      fromB: { use: 'take-off', circuit: 'right', circuitHeightM: 215 },
    }),
    mereling: inventStrip(map, {
      id: 'mereling',
      name: 'Mereling',
      eastM: 4500,
      northM: -6000,
      bearingDeg: 112,
      lengthM: 430.4,
      widthM: 18,
      elevationM: [21, 26.5],
      profile: [
        [0, 21],
        [90, 21.6],
        [180, 23.1],
        [260, 25.2],
        [340, 26.6],
        [430, 26.5],
      ],
      positionErrorM: 3,
      fromA: { circuit: 'right', circuitHeightM: 155 },
      fromB: { circuit: 'left', circuitHeightM: 155 },
    }),
  };
}

/** The strips file: RFC 7946 features, strips first. */
export function demoStripsGeoJson(map: LocalFrame): unknown {
  const strips = demoStrips(map);
  const place = (id: DemoStripId, designator: string, alongM: number, crossM: number): number[] => {
    const at = toEastNorth(createRunway(strips[id], designator, map), alongM, crossM);
    const { latDeg, lonDeg } = map.toLatLon(at.eastM, at.northM);
    return [roundTo(lonDeg, 6), roundTo(latDeg, 6)];
  };
  const row = (kind: string, id: DemoStripId, points: number[][], more: object): unknown => ({
    type: 'Feature',
    properties: { kind, strip: id, invented: true, ...more },
    geometry:
      points.length === 1
        ? { type: 'Point', coordinates: points[0] }
        : { type: 'LineString', coordinates: points },
  });
  return {
    type: 'FeatureCollection',
    features: [
      ...Object.values(strips).map((strip) => stripFeature(strip)),
      row(
        'obstacle',
        'ternholm',
        [place('ternholm', '25', -75, -45), place('ternholm', '25', -70, 40)],
        {
          name: 'Osier row',
          heightM: 1.5,
        },
      ),
      row('obstacle', 'sedge', [place('sedge', '20', -95, -30), place('sedge', '20', -85, 25)], {
        name: 'Alders on short final',
        topAboveThresholdM: 2.5,
      }),
      row('obstacle', 'hollowmere', [place('hollowmere', '33', 460, 70)], {
        name: 'Mast on the bank',
        topMslM: 47,
      }),
      avoidArea([
        place('ternholm', '25', -300, 500),
        place('ternholm', '25', 350, 500),
        place('ternholm', '25', 350, 1000),
        place('ternholm', '25', -300, 1000),
      ]),
      row(
        'approach-path',
        'hollowmere',
        [
          place('hollowmere', '33', -1700, -700),
          place('hollowmere', '33', -1100, -330),
          place('hollowmere', '33', -700, -60),
          place('hollowmere', '33', -450, 0),
          place('hollowmere', '33', 0, 0),
        ],
        { designator: '33', name: 'Up the valley' },
      ),
    ],
  };
}

function stripFeature(strip: Strip): unknown {
  const optional = strip.profile === null ? {} : { profile: strip.profile };
  return {
    type: 'Feature',
    properties: {
      kind: 'strip',
      id: strip.id,
      name: strip.name,
      invented: true,
      widthM: strip.widthM,
      surface: strip.surface,
      elevationM: strip.elevationM,
      ...optional,
      positionErrorM: strip.positionErrorM,
      directions: strip.directions.map((direction) => {
        const { commitM, ...rest } = direction;
        return commitM === null ? rest : { ...rest, commitM };
      }),
    },
    geometry: {
      type: 'LineString',
      coordinates: strip.lonDeg.map((lonDeg, i) => [lonDeg, strip.latDeg[i]]),
    },
  };
}

/** The ring runs anticlockwise, as RFC 7946 asks of an outer ring. */
function avoidArea(corners: number[][]): unknown {
  const doubled = corners.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = corners[(i + 1) % corners.length];
    return sum + x * nextY - nextX * y;
  }, 0);
  const ring = doubled > 0 ? corners : corners.toReversed();
  return {
    type: 'Feature',
    properties: {
      kind: 'avoid',
      name: 'Lower Wrackham, a village',
      invented: true,
      belowMslM: 320,
    },
    geometry: { type: 'Polygon', coordinates: [[...ring, ring[0]]] },
  };
}
