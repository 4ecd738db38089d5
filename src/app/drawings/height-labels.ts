/**
 * The words of the side view: lowest point, height over the threshold, gates, obstacles, path.
 *
 * In: the model and where everything stands. Out: labels that lie over no line and no other label;
 * one that had to move away hangs on a leader.
 */
import type { FinalPicture } from '../../report/pictures/final-picture.ts';
import { bandWalls, valueAtPlace } from './band.ts';
import { firstFitting, keepFitting } from './placing.ts';
import type { ProfileLayout } from './profile-layout.ts';
import { px, type Scale } from './scale.ts';
import { figureParts, labelBox, overlaps, type Box, type Label, type Part } from './text.ts';

/** How far a label may climb from its place, in steps, pixels. */
const CLIMB = { first: 10, step: 5, most: 130 };
/** A label farther away than this hangs on a leader, pixels. */
const LEADER_FROM = 20;

/** Words of the panel, in this order as far as there is room; leaders as one path. */
export function heightWords(
  picture: FinalPicture,
  { along, height: span, width }: ProfileLayout,
  rise: Scale,
  gates: FinalPicture['gates'],
  surfacePx: (alongM: number) => number,
): { labels: Label[]; leaders: string } {
  const { height, overThreshold, path, lowest, ground } = picture;
  const left = along.at(along.from);
  const within: Box = { left: left + 2, top: span[0] - 12, right: width, bottom: span[1] };
  const walls = [
    ...(height ? bandWalls(height, along, rise) : []),
    ...groundWalls(along, span[1], surfacePx),
    ...markWalls(picture, along, rise, surfacePx, gates),
  ];
  const labels: Label[] = [];
  const posts: Box[] = [];
  let leaders = '';
  const isFree = (label: Label): boolean =>
    keepFitting([label], [...walls, ...posts, ...labels.map(labelBox)], within, 2).length > 0;
  /** Up from a place until there is room, in the fullest form that finds any near by; false where there is none. */
  const climb = (x: number, y: number, forms: readonly (readonly Part[])[]): boolean => {
    for (let up = CLIMB.first; up <= CLIMB.most; up += CLIMB.step) {
      const isHung = up > LEADER_FROM;
      const post = { left: x - 1, right: x + 1, top: y - up - 6, bottom: y - 4 };
      if (isHung && labels.some((label) => overlaps(post, labelBox(label)))) return false;
      for (const parts of forms) {
        const tries: Label[] = isHung
          ? [
              { x: x + 5, y: y - up, anchor: 'start', parts, halo: true },
              { x: x - 5, y: y - up, anchor: 'end', parts, halo: true },
            ]
          : [
              { x: x + 10, y: y - up, anchor: 'start', parts, halo: true },
              { x, y: y - up, anchor: 'middle', parts, halo: true },
              { x: x - 10, y: y - up, anchor: 'end', parts, halo: true },
            ];
        const found = tries.find(isFree);
        if (!found) continue;
        labels.push(found);
        if (isHung) {
          posts.push(post);
          leaders += `M${px(x)} ${px(post.bottom)}V${px(post.top)}`;
        }
        return true;
      }
    }
    return false;
  };
  if (lowest) {
    const figure = figureParts(lowest.figure, { size: 17 });
    climb(along.at(lowest.atM), rise.at(lowest.heightM) - 8, [
      [...figure, { text: 'lowest', gap: 6 }],
      figure,
    ]);
  }
  const overZero = height ? valueAtPlace(height, 0) : NaN;
  if (overThreshold && !Number.isNaN(overZero)) {
    const figure = figureParts(overThreshold, { size: 17 });
    climb(along.at(0), rise.at(overZero), [
      [...figure, { text: 'over the threshold', ink: 'ink2', gap: 6 }],
      figure,
    ]);
  }
  for (const { alongM, heightM, label, slope } of gates.toReversed()) {
    const isOut = slope?.limit.verdict === 'out';
    const out: Part[] = isOut
      ? [{ text: `${slope.name} out`, ink: 'caution', serif: true, gap: 6 }]
      : [];
    const [x, y] = [along.at(alongM), rise.at(heightM)];
    // A gate that is out has an open dot: its name goes before that word where there is little room.
    const forms: Part[][] = [[{ text: label }, ...out], ...(isOut ? [[{ text: label }]] : [])];
    const found = climb(x, y, forms) ? null : besideGate(x, y, forms).find(isFree);
    if (found) labels.push(found);
  }
  const said = new Set<string>();
  for (const { name, passedAlongM, words, shortWords, isBelow } of picture.passed) {
    const wheelsM = height ? valueAtPlace(height, passedAlongM) : NaN;
    if (passedAlongM < along.from || passedAlongM > along.to || !(wheelsM <= rise.to)) continue;
    const ink = isBelow ? 'caution' : 'ink';
    const before = labels.length;
    climb(along.at(passedAlongM), rise.at(wheelsM), [
      [{ text: words, ink, weight: 600 }],
      [{ text: shortWords, ink, weight: 600 }],
    ]);
    if (labels.length > before) said.add(name);
  }
  for (const { name, alongM, topM, label } of ground.obstacles) {
    if (said.has(name)) continue;
    const at = (Math.max(...alongM) + Math.min(...alongM)) / 2;
    if (at < along.from || at > along.to || Number.isNaN(topM)) continue;
    climb(along.at(at), rise.at(topM) - 2, [[{ text: label, ink: 'ink2' }]]);
  }
  if (path) {
    const parts: Part[] = [
      { text: 'path', weight: 600 },
      ...figureParts(path, { size: 14, gap: 5 }),
    ];
    const found = pathTries(parts, left, span).find(isFree);
    if (found) labels.push(found);
  }
  return { labels: [...labels, ...underTurf(picture, along, span[1], width)], leaders };
}

/**
 * Where nothing is free over a gate: at its right, as at the beginning of the axis, at its left and
 * lower under the line flown, or right under it.
 */
function besideGate(x: number, y: number, forms: readonly (readonly Part[])[]): Label[] {
  return forms.flatMap((parts) => [
    ...[5, 0, -5].map((dy): Label => ({
      x: x + 14,
      y: y + dy,
      anchor: 'start',
      parts,
      halo: true,
    })),
    ...[8, 14, 20, 26].map((dy): Label => ({
      x: x - 12,
      y: y + dy,
      anchor: 'end',
      parts,
      halo: true,
    })),
    ...[22, 28, 34].map((dy): Label => ({ x, y: y + dy, anchor: 'middle', parts, halo: true })),
  ]);
}

/** Under the turf: the float, the commit point, and where a go-around was begun, each by its place. */
function underTurf(
  { float, commit }: FinalPicture,
  along: Scale,
  bottom: number,
  width: number,
): Label[] {
  const y = bottom + 15;
  const at = (alongM: number, parts: readonly Part[]): Label[] => {
    const x = along.at(Math.max(alongM, along.from));
    return [
      { x: x + 2, y, anchor: 'start', parts, halo: true },
      { x: x - 2, y, anchor: 'end', parts, halo: true },
    ];
  };
  const within: Box = { left: 0, top: bottom, right: width, bottom: bottom + 30 };
  const floats = float
    ? firstFitting(
        at(float.fromLowM, [{ text: 'float' }, ...figureParts(float.figure, { size: 14, gap: 5 })]),
        [],
        within,
      )
    : null;
  const taken = floats ? [labelBox(floats)] : [];
  const post =
    commit && commit.commitM >= along.from
      ? firstFitting(at(commit.commitM, [{ text: 'commit point' }]), taken, within, 6)
      : null;
  const begun = commit?.begun;
  const words = begun && begun.lowM >= along.from ? begun : null;
  const tries = (text: string): Label[] => (words ? at(words.lowM, [{ text }]) : []);
  const beside = words
    ? firstFitting(tries(words.shortWords), post ? [labelBox(post)] : [], within, 6)
    : null;
  if (words && !beside) {
    const whole = firstFitting(tries(words.words), taken, within, 6);
    if (whole) return [whole];
  }
  return [floats, post, beside].filter((each) => each !== null);
}

/** Under the line at its beginning, as high as there is room. */
function pathTries(parts: readonly Part[], left: number, span: readonly [number, number]): Label[] {
  const rows = Math.floor((span[1] - span[0]) / 4);
  return Array.from({ length: rows }, (_, k) => span[0] + 14 + 4 * k).flatMap((y) =>
    [6, 40, 80].map((dx): Label => ({ x: left + dx, y, anchor: 'start', parts, halo: true })),
  );
}

/** The turf, in columns. */
function groundWalls(along: Scale, bottom: number, surfacePx: (alongM: number) => number): Box[] {
  const columns = 60;
  const step = (along.to - along.from) / columns;
  return Array.from({ length: columns }, (_, k) => {
    const atM = along.from + k * step;
    const top = Math.min(surfacePx(atM), surfacePx(atM + step));
    return { left: along.at(atM), right: along.at(atM + step), top, bottom };
  });
}

/** Pegs, chocks, dips and gates. */
function markWalls(
  { touchdown, stopM, lowest }: FinalPicture,
  along: Scale,
  rise: Scale,
  surfacePx: (alongM: number) => number,
  gates: FinalPicture['gates'],
): Box[] {
  const box = (x: number, y: number, half: number, up: number, down: number): Box => ({
    left: x - half,
    right: x + half,
    top: y - up,
    bottom: y + down,
  });
  return [
    ...(touchdown ? [box(along.at(touchdown.atM), surfacePx(touchdown.atM), 5, 21, 0)] : []),
    ...(touchdown && stopM !== null ? [box(along.at(stopM) + 7, surfacePx(stopM), 8, 16, 0)] : []),
    ...(touchdown && stopM !== null
      ? [
          {
            left: along.at(touchdown.atM),
            right: along.at(stopM),
            top: Math.min(surfacePx(touchdown.atM), surfacePx(stopM)) - 6,
            bottom: Math.max(surfacePx(touchdown.atM), surfacePx(stopM)),
          },
        ]
      : []),
    ...(lowest ? [box(along.at(lowest.atM), rise.at(lowest.heightM), 11, 14, 2)] : []),
    ...gates.map(({ alongM, heightM }) => box(along.at(alongM), rise.at(heightM), 10, 7, 7)),
  ];
}
