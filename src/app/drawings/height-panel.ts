/**
 * The side view: height over the ground, with obstacles, gates, touchdown and roll.
 *
 * In: the model and where the panel stands. Out: SVG, words, and by how much heights are drawn
 * larger than lengths.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { NBSP, numberText, unitOf } from '../../report/figure-text.ts';
import type { FinalPicture } from '../../report/pictures/final-picture.ts';
import type { ObstaclePicture } from '../../report/pictures/strip-ground.ts';
import { bandPaths, valueAtPlace } from './band.ts';
import { bracket, chock, dip, gate, peg } from './marks.ts';
import { heightWords } from './height-labels.ts';
import type { Panel, ProfileLayout } from './profile-layout.ts';
import {
  linearScale,
  multiples,
  pathThrough,
  px,
  roundStep,
  type Point,
  type Scale,
} from './scale.ts';
import type { Label, Part } from './text.ts';
import { riseAt, turfPath } from './turf.ts';

/** Draws the side view. */
export function heightPanel(
  picture: FinalPicture,
  layout: ProfileLayout,
): Panel & { readonly exaggeration: number | null } {
  const { along, height: span } = layout;
  const rise = heightScale(picture, layout);
  const { ground, height, touchdown, stopM, lowest, gates } = picture;
  const surface = (alongM: number): number => rise.at(riseAt(picture.ground, alongM));
  // Where no strip is kept nobody knows what grows there: a bare line at the level of the wheels.
  const turf = ground.isKept
    ? svg`<path class="turf" d=${turfPath(ground, along, rise, span[1])}/>`
    : svg`<path class="axis" d=${`M${px(along.at(along.from))} ${px(surface(0))}H${px(along.at(along.to))}`}/>`;
  const grid = gridLines(picture, layout, rise);
  const band = height ? bandPaths(height, along, rise) : null;
  const posts = [0, ground.ldaM].map(
    (alongM) => `M${px(along.at(alongM))} ${px(surface(alongM))}V${px(span[1])}`,
  );
  const inGates = gates.filter(({ alongM, heightM }) => alongM >= along.from && heightM <= rise.to);
  const rolled =
    touchdown && stopM !== null
      ? rollPath(touchdown.atM, stopM, (alongM) => [along.at(alongM), surface(alongM) - 3])
      : '';
  const overZero = height && ground.isKept ? valueAtPlace(height, 0) : NaN;
  const words = heightWords(picture, layout, rise, inGates, surface);
  const drawing = svg`${grid.drawing}
    ${turf}
    ${ground.obstacles.map((obstacle) => sideObstacle(obstacle, picture, layout, rise))}
    ${ground.isKept ? svg`<path class="strip-end" d=${posts.join('')}/>` : nothing}
    ${band ? svg`<path class="hatch-measured" d=${band.hatch}/><path class="trace" d=${band.line}/>` : nothing}
    <path class="hang" d=${words.leaders}/>
    ${Number.isNaN(overZero) ? nothing : svg`<path class="leader" d=${`M${px(along.at(0))} ${px(surface(0))}V${px(rise.at(overZero))}`}/>`}
    <path class="dimension" d=${passedLines(picture, layout, rise)}/>
    ${floatLine(picture, layout, surface)}
    ${commitLine(picture, layout, surface)}
    <path class="roll-line" d=${rolled}/>`;
  const marks = svg`
    ${inGates.map(({ alongM, heightM, slope }) => gate(along.at(alongM), rise.at(heightM), slope?.limit.verdict ?? null, slope?.limit.at ?? 0))}
    ${touchdown ? peg(along.at(touchdown.atM), surface(touchdown.atM) - 4) : nothing}
    ${stopM === null || !touchdown ? nothing : chock(along.at(stopM), surface(stopM) - 1)}
    ${lowest ? dip(along.at(lowest.atM), rise.at(lowest.heightM) - 3) : nothing}`;
  const labels = [...grid.labels, ...words.labels];
  const exaggeration =
    height === null
      ? null
      : Math.abs(rise.at(1) - rise.at(0)) / Math.abs(along.at(1) - along.at(0));
  return { drawing, marks, labels, exaggeration };
}

/** From the top of each obstacle passed to the wheels over it, with a tick at either end. */
function passedLines(picture: FinalPicture, { along }: ProfileLayout, rise: Scale): string {
  return picture.passed
    .filter(({ passedAlongM: at }) => at >= along.from && at <= along.to)
    .flatMap(({ passedAlongM, overM }) => {
      const wheelsM = picture.height ? valueAtPlace(picture.height, passedAlongM) : NaN;
      if (!(wheelsM <= rise.to)) return [];
      const [x, y] = [along.at(passedAlongM), rise.at(wheelsM)];
      const top = rise.at(wheelsM - overM);
      return [`M${px(x)} ${px(y)}V${px(top)}M${px(x - 4)} ${px(y)}h8M${px(x - 4)} ${px(top)}h8`];
    })
    .join('');
}

/** In the turf under it: where the float began and ended, with the bracket of where it began. */
function floatLine(
  { float }: FinalPicture,
  { along, height: span }: ProfileLayout,
  surface: (alongM: number) => number,
): SVGTemplateResult | typeof nothing {
  if (!float) return nothing;
  const { fromM, toM, fromLowM, fromHighM } = float;
  const y = Math.min(surface(toM) + TURF_ROW, span[1] - TURF_ROW);
  const [from, to] = [along.at(Math.max(fromM, along.from)), along.at(toM)];
  const ends = [fromLowM, fromHighM].map((each) => along.at(Math.max(each, along.from)));
  return svg`<path class="dimension" d=${`M${px(from)} ${px(y - 4)}v4H${px(to)}v-4`}/>
    ${bracket(ends[0], ends[1], y)}`;
}

/** The commit point as a post of its own; under it the bracket of where a go-around began. */
function commitLine(
  { commit }: FinalPicture,
  { along, height: span }: ProfileLayout,
  surface: (alongM: number) => number,
): SVGTemplateResult | typeof nothing {
  if (!commit || commit.commitM < along.from) return nothing;
  const x = along.at(commit.commitM);
  const { begun } = commit;
  const y = span[1] - TURF_ROW;
  return svg`<path class="half-way" d=${`M${px(x)} ${px(surface(commit.commitM) - 14)}V${px(span[1])}`}/>
    ${begun && begun.lowM >= along.from ? bracket(along.at(begun.lowM), along.at(begun.highM), y) : nothing}`;
}

/** Room that a bracket takes in the turf, pixels. */
const TURF_ROW = 8;

function heightScale(
  { height, ground }: FinalPicture,
  { along, height: span }: ProfileLayout,
): Scale {
  let most = 12;
  height?.value.forEach((each, i) => {
    if (height.alongM[i] >= along.from && height.alongM[i] <= along.to && each > most) most = each;
  });
  const lowest = ground.surface ? Math.min(0, ...ground.surface.riseM) : 0;
  const reach = most * 1.12 - lowest;
  return linearScale(lowest - 0.13 * reach, most * 1.12, span[1], span[0]);
}

function rollPath(fromM: number, toM: number, place: (alongM: number) => Point): string {
  const steps = 12;
  return pathThrough(
    Array.from({ length: steps + 1 }, (_, i) => place(fromM + ((toM - fromM) * i) / steps)),
  );
}

function gridLines(
  { units, height, noHeight }: FinalPicture,
  { along, height: span, width }: ProfileLayout,
  rise: Scale,
): { drawing: SVGTemplateResult; labels: Label[] } {
  const { si, symbol } = unitOf(units.height);
  if (!height) {
    const parts: Part[] = [{ text: `· · · ${noHeight ?? 'no heights'}`, serif: true, size: 14 }];
    const label: Label = { x: width / 2, y: (span[0] + span[1]) / 2, anchor: 'middle', parts };
    return { drawing: svg``, labels: [label] };
  }
  const step = roundStep((rise.to - rise.from) / si / 4);
  const all = multiples(step, 0, rise.to / si).filter((each) => rise.at(each * si) > span[0] + 4);
  const left = along.at(along.from);
  const d = all.map((each) => `M${px(left)} ${px(rise.at(each * si))}H${px(width - 10)}`).join('');
  const labels = all.map((each): Label => {
    const text = numberText(each, 0) + (each === 0 ? NBSP + symbol : '');
    return {
      x: left - 8,
      y: rise.at(each * si) + 5,
      anchor: 'end',
      parts: [{ text, ink: 'ink2' }],
    };
  });
  return { drawing: svg`<path class="grid-dotted" d=${d}/>`, labels };
}

/** An obstacle from the side: a row as a clipped block, a single one as trunk and crown, to its height. */
function sideObstacle(
  obstacle: ObstaclePicture,
  picture: FinalPicture,
  { along }: ProfileLayout,
  rise: Scale,
): SVGTemplateResult | typeof nothing {
  const { alongM, isRow } = obstacle;
  const places = Array.from(alongM).filter((each) => each >= along.from && each <= along.to);
  if (places.length === 0) return nothing;
  const middleM = (Math.min(...places) + Math.max(...places)) / 2;
  const ground = riseAt(picture.ground, middleM);
  const topM = Number.isNaN(obstacle.topM) ? ground + obstacle.heightM : obstacle.topM;
  if (Number.isNaN(topM)) return nothing;
  const foot = rise.at(ground);
  const top = rise.at(Math.min(topM, rise.to));
  if (isRow) {
    const left = along.at(Math.min(...places)) - 4;
    const right = along.at(Math.max(...places)) + 4;
    return svg`<path class="hedge" d=${`M${px(left)} ${px(foot)}V${px(top + 3)}Q${px((left + right) / 2)} ${px(top - 3)} ${px(right)} ${px(top + 3)}V${px(foot)}Z`}/>`;
  }
  const x = along.at(middleM);
  const crown = Math.max(3, (foot - top) * 0.36);
  return svg`<path class="hedge" d=${`M${px(x)} ${px(foot)}V${px(top + 2 * crown)}`}/>
    <ellipse class="hedge" cx=${px(x)} cy=${px(top + crown)} rx=${px(Math.min(9, Math.max(4, crown)))} ry=${px(crown)}/>`;
}
