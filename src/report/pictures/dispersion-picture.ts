/**
 * How closely do touchdowns lie together in one direction of a strip?
 *
 * In: the logbook's flights, an aeroplane, the pilot's units. Out: for each direction with five or more
 * touchdowns their places along and across, the ellipse within which nine of ten next ones are to be
 * expected, and the spread in words. Most touchdowns first.
 */
import {
  touchdownDispersion,
  type Dispersion,
  type Spread,
} from '../../calibration/touchdown-dispersion.ts';
import { isUndetermined, type Estimate } from '../../result.ts';
import { figureLine, figureValue, lengthFigure, type PilotUnits } from '../figure-text.ts';
import { dayText, yearOf } from '../local-time.ts';
import { landingsOf } from '../logbook-words.ts';
import type { LoggedFlight } from '../logged-flight.ts';
import type { Picture } from './picture.ts';

/** One touchdown, metres: along from the landing threshold, across to the right of the centreline. */
export interface ScatterPoint {
  readonly alongM: number;
  readonly crossM: number;
}

/** The model. */
export interface DispersionPicture extends Picture {
  readonly name: string;
  readonly designator: string;
  readonly points: readonly ScatterPoint[];
  /** Middle of the touchdowns, metres. */
  readonly middle: ScatterPoint;
  /** The ellipse: half axes in metres, the long one turned to the right of the strip's axis, radians. */
  readonly ellipse: Dispersion['nineOfTen'];
  /** Width of the strip, metres; null: not known any more. */
  readonly widthM: number | null;
  readonly lengthUnit: 'm' | 'ft';
  /** `along: middle 82 m 55–109 from the threshold; spread 31 m, of which 6 m may be the log's error`. */
  readonly alongWords: string;
  readonly crossWords: string;
}

/** Directions with enough touchdowns for a shape. */
export function dispersionPictures(
  flights: readonly LoggedFlight[],
  aeroplaneId: string,
  units: PilotUnits,
  widthsM: ReadonlyMap<string, number>,
): DispersionPicture[] {
  const own = flights.filter(
    ({ summary: { aeroplane } }) => !isUndetermined(aeroplane) && aeroplane.id === aeroplaneId,
  );
  const found = landingsOf(own).flatMap(
    ({ stripId, stripName, designator, placeM, crossM, timeS }) =>
      stripId === null || designator === null || isUndetermined(placeM) || isUndetermined(crossM)
        ? []
        : [
            {
              stripId,
              key: `${stripId}\n${designator}`,
              stripName,
              designator,
              placeM,
              crossM,
              timeS,
            },
          ],
  );
  const keys = [...new Set(found.map(({ key }) => key))];
  return keys
    .flatMap((key) => {
      const here = found.filter((each) => each.key === key);
      const dispersion = touchdownDispersion(
        here.map(({ placeM, crossM }) => ({ alongM: placeM, crossM })),
      );
      return dispersion === null
        ? []
        : [pictureOf(here, dispersion, units, widthsM.get(here[0].stripId) ?? null)];
    })
    .sort((a, b) => b.points.length - a.points.length);
}

interface Touchdown {
  readonly stripName: string;
  readonly designator: string;
  readonly placeM: Estimate;
  readonly crossM: Estimate;
  readonly timeS: number;
}

function pictureOf(
  here: readonly Touchdown[],
  { along, cross, nineOfTen }: Dispersion,
  units: PilotUnits,
  widthM: number | null,
): DispersionPicture {
  const [{ stripName: name, designator }] = here;
  const shown = (metres: number): string => figureValue(lengthFigure(metres, units));
  const side = (metres: number): string =>
    `${shown(Math.abs(metres))} ${metres < 0 ? 'left' : 'right'} of the centreline`;
  const spread = ({ sd, measuringSd }: Spread): string =>
    measuringSd >= sd
      ? `spread ${shown(sd)}, all of which may be the log's error`
      : `spread ${shown(sd)}, of which ${shown(measuringSd)} may be the log's error`;
  const middle = (metres: Estimate): string => figureLine(lengthFigure(metres, units));
  const alongWords = `along: middle ${middle(along.middle)} from the threshold; ${spread(along)}`;
  const crossWords = `across, right positive: middle ${middle(cross.middle)}; ${spread(cross)}`;
  return {
    name,
    designator,
    points: here.map(({ placeM, crossM }) => ({ alongM: placeM.value, crossM: crossM.value })),
    middle: { alongM: along.mean, crossM: cross.mean },
    ellipse: nineOfTen,
    widthM,
    lengthUnit: units.length,
    alongWords,
    crossWords,
    spoken: `Touchdowns at ${name} ${designator}, ${here.length} of them; ${alongWords}; ${crossWords}. Nine of ten next ones are to be expected within an ellipse ${shown(2 * nineOfTen.longHalfM)} long and ${shown(2 * nineOfTen.shortHalfM)} wide.`,
    rows: here.map(({ timeS, placeM, crossM }) => ({
      label: `${dayText(timeS, units.timeZone)} ${yearOf(timeS, units.timeZone)}`,
      value: `${figureValue(lengthFigure(placeM, units))} from the threshold, ${side(crossM.value)}`,
    })),
  };
}
