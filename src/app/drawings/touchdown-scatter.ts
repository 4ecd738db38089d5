/**
 * Where the wheels touched: every touchdown on its strip, seen from above, landing from left to right.
 *
 * In: the model, a width. Out: the drawing: the strip with its threshold and centreline, a peg's dot for
 * each touchdown, the ellipse of nine in ten, the tape along. The across is drawn wider, and says so.
 */
import { nothing, svg } from 'lit';
import { numberText, unitOf } from '../../report/figure-text.ts';
import type { DispersionPicture } from '../../report/pictures/dispersion-picture.ts';
import type { Drawing } from './drawing.ts';
import { linearScale, pathThrough, px, type Point } from './scale.ts';
import { tape, TAPE } from './tape.ts';
import type { Label } from './text.ts';

/** Rows, pixels from the top. */
const ROW = { top: 24, base: 156 };
const SIDE = 8;
/** Ground shown before the threshold and beyond the last touchdown at least, metres. */
const ROOM_M = 20;
/** Points of the ellipse's outline. */
const CORNERS = 72;

/** Draws it. */
export function touchdownScatter(picture: DispersionPicture, widthPx: number): Drawing {
  const { points, widthM, middle, lengthUnit } = picture;
  const outline = ellipseOf(picture);
  const alongs = [...points, ...outline].map(({ alongM }) => alongM);
  const step = 10 * unitOf(lengthUnit).si;
  const fromM = Math.floor(Math.min(-ROOM_M, ...alongs) / step) * step;
  const toM = Math.ceil((Math.max(...alongs) + ROOM_M) / step) * step;
  const along = linearScale(fromM, toM, SIDE, widthPx - SIDE);
  const reachM = Math.max(
    (widthM ?? 0) / 2,
    ...[...points, ...outline].map(({ crossM }) => Math.abs(crossM)),
  );
  const across = linearScale(-1.08 * reachM, 1.08 * reachM, ROW.top, ROW.base);
  const place = ({ alongM, crossM }: (typeof points)[number]): Point => [
    along.at(alongM),
    across.at(crossM),
  ];
  const measure = tape({
    scale: along,
    unit: lengthUnit,
    fromM,
    toM,
    edge: ROW.base + 6,
    isUpright: false,
    isToEnd: false,
  });
  const half = widthM === null ? null : widthM / 2;
  const turf =
    half === null
      ? nothing
      : svg`<rect class="grass" x=${px(along.at(0))} y=${px(across.at(-half))} width=${px(along.at(toM) - along.at(0))} height=${px(across.at(half) - across.at(-half))}/>`;
  const [x, y] = place(middle);
  const inside = svg`${turf}
    <path class="axis" d=${`M${px(along.at(fromM))} ${px(across.at(0))}H${px(along.at(toM))}`}/>
    <path class="strip-end" d=${`M${px(along.at(0))} ${ROW.top}V${ROW.base + 6 + TAPE}`}/>
    <path class="ellipse-next" d=${pathThrough(outline.map(place), true)}/>
    ${points.map((point) => {
      const [atX, atY] = place(point);
      return svg`<circle class="dot" cx=${px(atX)} cy=${px(atY)} r=${points.length > 40 ? 3 : 4}/>`;
    })}
    <path class="mark-line" d=${`M${px(x - 8)} ${px(y)}H${px(x + 8)}M${px(x)} ${px(y - 8)}V${px(y + 8)}`}/>
    ${measure.drawing}`;
  const perM = (scale: typeof along): number => Math.abs(scale.at(1) - scale.at(0));
  const wider = numberText(perM(across) / perM(along), 1);
  const labels: Label[] = [
    {
      x: widthPx - SIDE,
      y: 14,
      anchor: 'end',
      parts: [{ text: `across drawn ${wider} times as wide`, ink: 'ink2' }],
    },
  ];
  return {
    width: widthPx,
    height: ROW.base + 6 + TAPE + 6,
    inside,
    labels: [...labels, ...measure.labels],
  };
}

/** The outline of the ellipse, metres. */
function ellipseOf({ middle, ellipse }: DispersionPicture): DispersionPicture['points'] {
  const { longHalfM, shortHalfM, turnedRad } = ellipse;
  const [cos, sin] = [Math.cos(turnedRad), Math.sin(turnedRad)];
  return Array.from({ length: CORNERS }, (_, k) => {
    const turn = (2 * Math.PI * k) / CORNERS;
    const [u, v] = [longHalfM * Math.cos(turn), shortHalfM * Math.sin(turn)];
    return { alongM: middle.alongM + u * cos - v * sin, crossM: middle.crossM + u * sin + v * cos };
  });
}
