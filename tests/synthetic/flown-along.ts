/** A flown flight as seen along its strip: along from the threshold, across, and wheel height over the surface, row by row. */
import { createRunway, toAlongCross } from './runway.ts';
import type { Scenario } from './scenarios.ts';

/** Columns of ten rows a second, metres. */
export interface AlongRows {
  readonly alongM: Float64Array;
  /** To the right of the centreline. */
  readonly crossM: Float64Array;
  readonly aboveM: Float64Array;
}

/** Looks along the strip direction that was flown. */
export function alongOfRows({ strip, designator, flown }: Scenario): AlongRows {
  const runway = createRunway(strip, designator, flown.map);
  const places = Array.from(flown.eastM, (eastM, i) =>
    toAlongCross(runway, eastM, flown.northM[i]),
  );
  const alongM = Float64Array.from(places, (place) => place.alongM);
  const crossM = Float64Array.from(places, (place) => place.crossM);
  const aboveM = flown.wheelMslM.map((wheelM, i) => wheelM - runway.groundMslM(alongM[i]));
  return { alongM, crossM, aboveM };
}
