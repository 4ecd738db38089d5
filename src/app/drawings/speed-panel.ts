/**
 * Ground speed along the strip, with what was expected.
 *
 * In: the model and where the panel stands. Out: SVG and words.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { NBSP, numberText, unitOf } from '../../report/figure-text.ts';
import type { FinalPicture } from '../../report/pictures/final-picture.ts';
import { bandPaths, bandWalls } from './band.ts';
import { chock, peg } from './marks.ts';
import { mostPace, paceGateMarks, paceGates, paceGateWalls, paceGateWords } from './pace-gates.ts';
import { firstFitting } from './placing.ts';
import type { Panel, ProfileLayout } from './profile-layout.ts';
import { hatchPath, rectanglePoints } from './hatch.ts';
import { columnPath, linearScale, multiples, px, roundStep, type Scale } from './scale.ts';
import { figureParts, labelBox, type Box, type Label, type Part } from './text.ts';

/** Draws the speeds: over the ground as a line, through the air at the gates. */
export function speedPanel(picture: FinalPicture, layout: ProfileLayout): Panel {
  const { along, speed: span } = layout;
  const { touchdown, stopM, expected, guide } = picture;
  const pace = speedScale(picture, layout);
  const grid = gridLines(picture, layout, pace);
  const band = bandPaths(picture.speed, along, pace);
  const guideBox = guide
    ? rectanglePoints(
        along.at(along.from),
        pace.at(Math.max(guide.highMps, guide.lowMps + 1)),
        along.at(0),
        pace.at(guide.lowMps),
      )
    : null;
  const curve = expected
    ? columnPath(expected.alongM, expected.speedMps, (at, mps) => [
        along.at(Math.min(at, along.to)),
        pace.at(mps),
      ])
    : '';
  const drawing = svg`${grid.drawing}
    <path class="leader" d=${`M${px(along.at(0))} ${px(span[0])}V${px(span[1])}`}/>
    ${guideBox ? svg`<path class="hatch-planned" d=${hatchPath(guideBox, -45, 5)}/>` : nothing}
    <path class="hatch-measured" d=${band.hatch}/>
    ${expected ? svg`<path class="expected-line" d=${curve}/>` : nothing}
    <path class="trace" d=${band.line}/>`;
  const marks = svg`${paceGateMarks(paceGates(picture.gates, along), along, pace)}
    ${touchdown ? peg(along.at(touchdown.atM), pace.at(touchdown.speedMps) - 4) : nothing}
    ${stopM === null || !touchdown ? nothing : chock(along.at(stopM), span[1])}`;
  return { drawing, marks, labels: [...grid.labels, ...panelWords(picture, layout, pace)] };
}

function speedScale(
  { speed, guide, gates }: FinalPicture,
  { along, speed: span }: ProfileLayout,
): Scale {
  let most = Math.max(guide?.highMps ?? 10, mostPace(paceGates(gates, along)));
  speed.value.forEach((each, i) => {
    if (speed.alongM[i] >= along.from && speed.alongM[i] <= along.to && each > most) most = each;
  });
  return linearScale(0, most * 1.16, span[1], span[0]);
}

function gridLines(
  { units }: FinalPicture,
  { along, speed: span, width }: ProfileLayout,
  pace: Scale,
): { drawing: SVGTemplateResult; labels: Label[] } {
  const { si, symbol } = unitOf(units.speed);
  const step = roundStep(pace.to / si / 4);
  const all = multiples(step, 0, pace.to / si).filter((each) => pace.at(each * si) > span[0] + 4);
  const left = along.at(along.from);
  const d = all
    .filter((each) => each > 0)
    .map((each) => `M${px(left)} ${px(pace.at(each * si))}H${px(width - 10)}`);
  const labels = all.map((each): Label => {
    const text = numberText(each, 0) + (each === 0 ? NBSP + symbol : '');
    return {
      x: left - 8,
      y: pace.at(each * si) + 5,
      anchor: 'end',
      parts: [{ text, ink: 'ink2' }],
    };
  });
  return { drawing: svg`<path class="grid-dotted" d=${d.join('')}/>`, labels };
}

function panelWords(
  { speed, touchdown, stopM, expected, guide, gates }: FinalPicture,
  { along, speed: span, width }: ProfileLayout,
  pace: Scale,
): Label[] {
  const within: Box = {
    left: along.at(along.from),
    top: span[0] - 8,
    right: width,
    bottom: span[1],
  };
  const curve = expected
    ? Array.from(expected.alongM, (at, i): Box => {
        const [x, y] = [along.at(Math.min(at, along.to)), pace.at(expected.speedMps[i])];
        return { left: x - 3, right: x + 3, top: y - 3, bottom: y + 3 };
      })
    : [];
  const stop: Box[] =
    stopM === null || !touchdown
      ? []
      : [
          {
            left: along.at(stopM),
            right: along.at(stopM) + 15,
            top: span[1] - 15,
            bottom: span[1],
          },
        ];
  const inGates = paceGates(gates, along);
  const gateWalls = paceGateWalls(inGates, along, pace);
  const walls = [...bandWalls(speed, along, pace), ...curve, ...stop, ...gateWalls];
  const labels: Label[] = [];
  const zero = along.at(0);
  const threshold: Box = { left: zero - 1, right: zero + 1, top: span[0], bottom: span[1] };
  const free = (tries: readonly Label[], more: readonly Box[] = []): Label | null =>
    firstFitting(tries, [...walls, ...more, ...labels.map(labelBox)], within, 2);
  const place = (tries: readonly Label[]): void => {
    const found = free(tries);
    if (found) labels.push(found);
  };
  if (touchdown?.speed) {
    const { speed: figure } = touchdown;
    const x = along.at(touchdown.atM) + 12;
    const y = pace.at(touchdown.speedMps) - 8;
    const forms = [true, false].map((withBand) => figureParts(figure, { size: 17, withBand }));
    place(
      [0, -6, -12, -18].flatMap((dy) =>
        forms.map((parts): Label => ({ x, y: y + dy, anchor: 'start', parts, halo: true })),
      ),
    );
  }
  labels.push(
    ...paceGateWords(
      inGates,
      gateWalls,
      (tries, beside) => free(tries, [threshold, ...beside]),
      [6, 14, 22, 30, 38, 46, 54].map((dy) => ({ x: width - 10, y: span[0] + dy })),
    ),
  );
  if (guide) {
    const forms = [guide.label, guide.label.replace(' today, less the wind', '')];
    const room = along.at(0) - 12;
    const lines = [24, 40, 56, 72].map((dy) => pace.at(guide.lowMps) + dy);
    lines.push(pace.at(Math.max(guide.highMps, guide.lowMps + 1)) - 6);
    place(
      lines
        .flatMap((y) =>
          forms.map((text): Label => ({
            x: along.at(along.from) + 6,
            y,
            anchor: 'start',
            parts: [{ text, ink: 'planned' }],
            halo: true,
          })),
        )
        .filter((label) => labelBox(label).right < room),
    );
  }
  if (expected && touchdown) place(expectedTries(expected, along, pace));
  return labels;
}

/** Under the expected curve, at one place after another; else over it. */
function expectedTries(
  { alongM, speedMps }: NonNullable<FinalPicture['expected']>,
  along: Scale,
  pace: Scale,
): Label[] {
  const parts: Part[] = [{ text: 'expected', ink: 'expected' }];
  const last = alongM.length - 1;
  const shares = [0.55, 0.65, 0.45, 0.75, 0.35, 0.85];
  const at = (dx: number, dy: number, anchor: Label['anchor']): Label[] =>
    shares.map((share) => {
      const i = Math.round(last * share);
      const x = along.at(Math.min(alongM[i], along.to)) + dx;
      return { x, y: pace.at(speedMps[i]) + dy, anchor, parts, halo: true };
    });
  return [...at(-10, 18, 'end'), ...at(-14, 30, 'end'), ...at(14, -10, 'start')];
}
