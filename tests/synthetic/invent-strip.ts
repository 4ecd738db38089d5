/**
 * Strips that do not exist, for flights with known truth.
 *
 * In: where the A end lies on the map, a bearing, a length, heights. Out: a strip in the project's
 * own shape, with both directions. Source: every figure is invented.
 */
import type { LocalFrame } from '../../src/geo/local-frame.ts';
import type { Strip, StripDirection, StripSurface } from '../../src/strips/strip.ts';

/** What an invented strip may say about itself. Metres, degrees true. */
export interface StripWish {
  readonly id: string;
  readonly name?: string;
  /** End A on the map. */
  readonly eastM?: number;
  readonly northM?: number;
  readonly bearingDeg: number;
  readonly lengthM: number;
  readonly widthM?: number;
  readonly surface?: StripSurface;
  /** Elevations of A and B; a profile wins over them inside the strip. */
  readonly elevationM?: readonly [number, number];
  readonly profile?: readonly (readonly [number, number])[] | null;
  readonly positionErrorM?: number;
  /** What differs from the defaults, by end at which a landing begins. */
  readonly fromA?: Partial<StripDirection>;
  readonly fromB?: Partial<StripDirection>;
}

/** Makes a strip. Positions carry seven decimals of a degree, as they are written. */
export function inventStrip(map: LocalFrame, wish: StripWish): Strip {
  const eastM = wish.eastM ?? 0;
  const northM = wish.northM ?? 0;
  const bearingRad = (wish.bearingDeg * Math.PI) / 180;
  const a = map.toLatLon(eastM, northM);
  const b = map.toLatLon(
    eastM + wish.lengthM * Math.sin(bearingRad),
    northM + wish.lengthM * Math.cos(bearingRad),
  );
  const elevationM = wish.elevationM ?? [10, 10];
  return {
    id: wish.id,
    name: wish.name ?? wish.id,
    latDeg: [roundTo(a.latDeg, 7), roundTo(b.latDeg, 7)],
    lonDeg: [roundTo(a.lonDeg, 7), roundTo(b.lonDeg, 7)],
    widthM: wish.widthM ?? 15,
    surface: wish.surface ?? 'grass',
    elevationM,
    profile: wish.profile ?? null,
    endsGuessed: false,
    positionErrorM: wish.positionErrorM ?? 5,
    directions: [
      inventDirection(wish, 'A', wish.bearingDeg, wish.fromA ?? {}),
      inventDirection(wish, 'B', wish.bearingDeg + 180, wish.fromB ?? {}),
    ],
    properties: {},
  };
}

/** Rounds to a number of decimals. */
export function roundTo(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

function inventDirection(
  wish: StripWish,
  from: 'A' | 'B',
  bearingDeg: number,
  own: Partial<StripDirection>,
): StripDirection {
  const displacedM = own.displacedM ?? 0;
  const tens = Math.round((((bearingDeg % 360) + 360) % 360) / 10);
  return {
    designator: (tens === 0 ? 36 : tens).toString().padStart(2, '0'),
    from,
    use: 'both',
    displacedM,
    // Declared in whole metres, never more than there is.
    ldaM: Math.floor(wish.lengthM - displacedM),
    toraM: Math.floor(wish.lengthM),
    todaM: Math.floor(wish.lengthM),
    asdaM: Math.floor(wish.lengthM),
    circuit: 'left',
    circuitHeightM: 200,
    commitM: null,
    ...own,
  };
}
