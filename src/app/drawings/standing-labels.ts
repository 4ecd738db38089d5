/**
 * The words of a standing strip ruler: left of the tape, over the rods, by obstacles.
 *
 * In: the model and the columns. Out: labels that do not overlap, with hurdles where a rod is too
 * long.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { StripPicture } from '../../report/pictures/strip-picture.ts';
import { hurdle } from './marks.ts';
import { firstFitting, spreadOut } from './placing.ts';
import { px } from './scale.ts';
import type { DrawnObstacle } from './strip-bed.ts';
import type { StandingLayout } from './ruler-layout.ts';
import {
  figureParts,
  labelBox,
  overlaps,
  partsWidth,
  wrapWords,
  type Box,
  type Label,
  type Part,
} from './text.ts';

/** Lines of one place, right-aligned. */
interface Block {
  readonly at: number;
  readonly lines: readonly (readonly Part[])[];
}

const LINE = 17;

/** Places, the end, the threshold and the rope, kept apart; figures that found no room on the strip. */
export function sideLabels(
  picture: StripPicture,
  layout: StandingLayout,
  missing: readonly ('roll' | 'left')[],
): Label[] {
  const { axes, words, foot } = layout;
  const { at } = axes.scale;
  const { places, rope, end, start, left, roll } = picture;
  const blocks: Block[] = [
    ...endBlock(end.label, at(end.atM)),
    ...(left && missing.includes('left')
      ? [
          {
            at: at(end.atM) + 1,
            lines: [
              [
                ...figureParts(left.figure, {
                  size: 17,
                  withBand: false,
                  ink: left.isOver ? 'caution' : 'ink',
                }),
              ],
              ...wrapWords(left.words, words).map((text): Part[] => [{ text }]),
            ] as Part[][],
          },
        ]
      : []),
    ...places.map(({ atM, label, figure }) => ({
      at: at(atM),
      lines: [
        ...wrapWords(label, words).map((text): Part[] => [{ text }]),
        figureParts(figure, { size: 17, withBand: false }),
        // A band of two negatives is longer than the column.
        ...(figure.band === '' ? [] : wrapWords(figure.band, words)).map((text): Part[] => [
          { text, ink: 'ink2' },
        ]),
      ],
    })),
    ...(roll && missing.includes('roll')
      ? [
          {
            at: (at(places[0]?.atM ?? 0) + at(places[1]?.atM ?? 0)) / 2,
            lines: [
              [
                { text: 'roll', gap: 0 },
                ...figureParts(roll, { size: 17, withBand: false, gap: 5 }),
              ],
            ],
          },
        ]
      : []),
    ...(rope
      ? [
          {
            at: at(rope.atM),
            lines: [
              [{ text: 'latest', ink: rope.of }],
              figureParts(rope.figure, { size: 17, ink: rope.of, withBand: false }),
            ] as Part[][],
          },
        ]
      : []),
    ...(start.atM === 0
      ? [
          {
            at: at(0),
            lines: wrapWords(startWords(start.label), words).map((text): Part[] => [
              { text, ink: 'ink2' },
            ]),
          },
        ]
      : []),
  ];
  const wishes = blocks.map((block) => ({ at: block.at, size: block.lines.length * LINE }));
  const placed = spreadOut(wishes, 0, foot + 4, 5);
  return blocks.flatMap((block, k) => {
    const middle = placed?.[k] ?? block.at;
    const top = middle - (block.lines.length * LINE) / 2;
    return block.lines.map((parts, i): Label => ({
      x: words,
      y: top + i * LINE + 13,
      anchor: 'end',
      parts,
    }));
  });
}

/** `LDA` over its figure, and over `guessed` where it is. */
function endBlock(label: string, at: number): Block[] {
  const [declared, ...doubt] = label.split(', ');
  const [name, ...rest] = declared.split(/[ \u00a0]/);
  const lines: Part[][] = [
    [{ text: name }],
    [{ text: rest.join('\u00a0'), size: 15, weight: 600 }],
    ...doubt.map((text) => [{ text }]),
  ];
  return [{ at, lines }];
}

/** The start without its figures: the tape shows them. */
function startWords(label: string): string {
  return label.replace(/(displaced) .*/, '$1');
}

/** Name and figure over each rod; pushed up where they would lie over one another. */
export function rodTops(
  { rods }: StripPicture,
  layout: StandingLayout,
): { labels: Label[]; drawing: SVGTemplateResult | typeof nothing } {
  const { axes, rods: columns, top, width } = layout;
  const { at } = axes.scale;
  const boxes: Box[] = [];
  const labels: Label[] = [];
  const drawings: SVGTemplateResult[] = [];
  const leaders: Box[] = [];
  const walls = rodBoxes(rods, layout);
  const order = rods.map((_, k) => k).sort((a, b) => rods[a].toM - rods[b].toM);
  for (const k of order) {
    const rod = rods[k];
    const lines: Part[][] = [
      [{ text: rod.label.replace(' factor', '') }],
      figureParts(rod.figure, { size: 17, ink: rod.kind, withBand: false }),
    ];
    const half = Math.max(...lines.map(partsWidth)) / 2;
    const x = Math.min(Math.max(columns[k], layout.bed[1] + 6 + half), width - half - 1);
    const rodTop = Math.max(at(rod.toM), top) - (rod.kind === 'own' ? 9 : 6);
    let bottom = rodTop;
    const boxAt = (y: number): Box => ({ left: x - half, right: x + half, top: y - 36, bottom: y });
    // Higher rods beside it run through the room over this one.
    const others = walls.filter((_, j) => j !== k);
    const isTaken = (y: number): boolean =>
      [...boxes, ...others].some(
        (box) => box.left < x + half && box.right > x - half && box.top < y && box.bottom > y - 36,
      );
    const feet = at(rod.fromM) + 40;
    if (isTaken(bottom) && feet < layout.foot && !isTaken(feet)) {
      // Under the plumb line, at the rod's foot.
      bottom = feet;
    }
    for (let tries = 0; tries < 120 && isTaken(bottom); tries++) bottom -= 4;
    boxes.push(boxAt(bottom));
    lines.forEach((parts, i) =>
      labels.push({ x, y: bottom - 22 + i * 17, anchor: 'middle', parts }),
    );
    if (bottom < rodTop - 6) {
      leaders.push({ left: columns[k], right: columns[k], top: bottom + 2, bottom: rodTop });
    }
  }
  // A leader that would run through another rod's words is left out: their colours tell them apart.
  const free = leaders.filter((line) => !boxes.some((box) => overlaps(line, box)));
  drawings.push(
    ...free.map(
      ({ left, top: from, bottom }) =>
        svg`<path class="leader" d=${`M${px(left)} ${px(from)}V${px(bottom)}`}/>`,
    ),
  );
  const over = rods.filter(({ isTooLong }) => isTooLong);
  if (over.length > 0 && hasRoomBesideRods(layout)) {
    drawings.push(...tooLong(over, layout, labels));
  }
  return { labels, drawing: drawings.length === 0 ? nothing : svg`${drawings}` };
}

/** The room that each rod takes, with its end. */
function rodBoxes(rods: StripPicture['rods'], { axes, rods: columns, top }: StandingLayout): Box[] {
  return rods.map(({ fromM, toM }, k) => ({
    ...{ left: columns[k] - 9, right: columns[k] + 9 },
    ...{ top: Math.max(axes.scale.at(toM), top) - 9, bottom: axes.scale.at(fromM) },
  }));
}

/** Whether what is too long can be said under the rods; else it stands at the foot. */
export function hasRoomBesideRods({ width, bed }: StandingLayout): boolean {
  return width - bed[1] >= 120;
}

/** What is too long, in words under the rods, with a hurdle each. */
function tooLong(
  over: StripPicture['rods'],
  layout: StandingLayout,
  labels: Label[],
): SVGTemplateResult[] {
  const { axes, bed, width } = layout;
  // Below the words that stand at the rods' feet.
  const feet = axes.scale.at(Math.min(...over.map(({ fromM }) => fromM)));
  const below = labels.filter((label) => label.y > feet).map((label) => label.y);
  let y = Math.max(feet + 8, ...below.map((each) => each + 6));
  return over.flatMap((rod) =>
    wrapWords(`${rod.label} ${rod.leftText}`, width - bed[1] - 30, { weight: 600 }).map(
      (text, i) => {
        y += 17;
        labels.push({
          x: bed[1] + 28,
          y,
          anchor: 'start',
          parts: [{ text, ink: 'caution', weight: 600 }],
        });
        return i === 0 ? hurdle(bed[1] + 10, y + 1) : svg``;
      },
    ),
  );
}

/** Beside each obstacle, right of the strip and clear of the rods, and those that found no room there. */
export function obstacleNames(
  obstacles: readonly DrawnObstacle[],
  rods: StripPicture['rods'],
  taken: readonly Box[],
  layout: StandingLayout,
): { labels: Label[]; unplaced: string[] } {
  const { bed, width, foot } = layout;
  const boxes = [...taken, ...rodBoxes(rods, layout)];
  const within = { left: 0, top: 0, right: width, bottom: foot + 8 };
  const labels: Label[] = [];
  const unplaced: string[] = [];
  for (const { obstacle, points } of obstacles) {
    const ys = points.map(([, y]) => y);
    const right = Math.max(bed[1], ...points.map(([x]) => x + 8));
    const middle = (Math.min(...ys) + Math.max(...ys)) / 2;
    const lines = wrapWords(obstacle.label, width - right - 8);
    const linesAt = (shift: number): Label[] =>
      lines.map((text, i) => ({
        x: right + 6,
        y: middle + shift + 5 + (i - (lines.length - 1) / 2) * 16,
        anchor: 'start',
        parts: [{ text, ink: 'ink2' }],
      }));
    const found = [0, 17, -17, 34]
      .map(linesAt)
      .find((each) => each.every((label) => firstFitting([label], boxes, within) !== null));
    if (found) {
      labels.push(...found);
      boxes.push(...found.map(labelBox));
    } else unplaced.push(obstacle.label);
  }
  return { labels, unplaced };
}
