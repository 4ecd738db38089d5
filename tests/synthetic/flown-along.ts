/** A flown flight as seen along its strip: along from the threshold and wheel height over the surface, row by row. */
import { createRunway, toAlongCross } from './runway.ts';
import type { Scenario } from './scenarios.ts';

/** Columns of ten rows a second, metres. */
export interface AlongRows {
  readonly alongM: Float64Array;
  readonly aboveM: Float64Array;
}

/** Looks along the strip direction that was flown. */
export function alongOfRows({ strip, designator, flown }: Scenario): AlongRows {
  const runway = createRunway(strip, designator, flown.map);
  const alongM = flown.eastM.map((eastM, i) => toAlongCross(runway, eastM, flown.northM[i]).alongM);
  const aboveM = flown.wheelMslM.map((wheelM, i) => wheelM - runway.groundMslM(alongM[i]));
  return { alongM, aboveM };
}
