/** Where and how fast a flown aeroplane last came down through a height over its strip. */
import { METRES_PER_FOOT } from '../../src/units/convert.ts';
import { alongOfRows } from './flown-along.ts';
import type { Scenario } from './scenarios.ts';

/** The aeroplane at a height on final. Metres from the threshold, m/s. */
export interface GateTruth {
  readonly alongM: number;
  readonly crossM: number;
  readonly groundSpeedMps: number;
  readonly descentRateMps: number;
}

/** True gates of an approach, by heights in feet; null where it never came down through the height before `untilS`. */
export function gateTruths(
  scenario: Scenario,
  untilS: number,
): (heightFt: number) => GateTruth | null {
  const { flown } = scenario;
  const { alongM, crossM, aboveM } = alongOfRows(scenario);
  const last = flown.timeS.findLastIndex((timeS) => timeS <= untilS);
  return (heightFt) => {
    const heightM = heightFt * METRES_PER_FOOT;
    for (let i = last; i > 0; i--) {
      if (!(aboveM[i - 1] >= heightM && aboveM[i] < heightM)) continue;
      const share = (aboveM[i - 1] - heightM) / (aboveM[i - 1] - aboveM[i]);
      const at = (column: Float64Array): number =>
        column[i - 1] + share * (column[i] - column[i - 1]);
      // Over 0.4 s: rows are 0.1 s apart and the wheels are written in steps.
      const [from, to] = [Math.max(0, i - 2), Math.min(flown.length - 1, i + 2)];
      const fallenM = flown.wheelMslM[from] - flown.wheelMslM[to];
      return {
        alongM: at(alongM),
        crossM: at(crossM),
        groundSpeedMps: Math.hypot(at(flown.eastMps), at(flown.northMps)),
        descentRateMps: fallenM / (flown.timeS[to] - flown.timeS[from]),
      };
    }
    return null;
  };
}
