/**
 * Keeping labels apart: along a row, up a column, or by leaving out.
 *
 * In: wanted places with sizes, in pixels. Out: places that do not overlap and stay inside.
 */
import { labelBox, overlaps, type Box, type Label } from './text.ts';

/** Something of a size that wants to stand at a place. */
export interface Wish {
  /** Wanted middle. */
  readonly at: number;
  readonly size: number;
}

/**
 * Middles on a line that keep the wished order, do not overlap and stay between `from` and `to`; the
 * moves are shared among neighbours. Null where they cannot all fit.
 */
export function spreadOut(
  wishes: readonly Wish[],
  from: number,
  to: number,
  apart: number,
): number[] | null {
  const order = wishes.map((_, i) => i).sort((a, b) => wishes[a].at - wishes[b].at);
  const total = wishes.reduce((sum, { size }) => sum + size, 0) + apart * (wishes.length - 1);
  if (total > to - from) return null;
  // Groups that touch stand about the mean of their members' wishes (pool adjacent violators).
  let groups: { members: number[]; size: number; at: number }[] = [];
  for (const i of order) {
    const { at, size } = wishes[i];
    groups.push({ members: [i], size, at: inside(at, size, from, to) });
    for (;;) {
      const last = groups.at(-1);
      const before = groups.at(-2);
      if (!last || !before) break;
      if (before.at + before.size / 2 + apart <= last.at - last.size / 2) break;
      const members = [...before.members, ...last.members];
      const size = before.size + apart + last.size;
      const at = inside(groupMiddle(members, wishes, apart, size), size, from, to);
      groups = [...groups.slice(0, -2), { members, size, at }];
    }
  }
  const middles = new Array<number>(wishes.length).fill(0);
  for (const { members, size, at } of groups) {
    let start = at - size / 2;
    for (const i of members) {
      middles[i] = start + wishes[i].size / 2;
      start += wishes[i].size + apart;
    }
  }
  return middles;
}

/** Where a touching group would stand so that its members move least, by their mean. */
function groupMiddle(
  members: readonly number[],
  wishes: readonly Wish[],
  apart: number,
  size: number,
): number {
  let offset = -size / 2;
  let sum = 0;
  for (const i of members) {
    sum += wishes[i].at - (offset + wishes[i].size / 2);
    offset += wishes[i].size + apart;
  }
  return sum / members.length;
}

function inside(at: number, size: number, from: number, to: number): number {
  return Math.min(Math.max(at, from + size / 2), to - size / 2);
}

/** The labels that fit, in order of preference: each is kept where it overlaps none kept before. */
export function keepFitting(
  labels: readonly Label[],
  taken: readonly Box[],
  within: Box,
  apart = 3,
): Label[] {
  const boxes = [...taken];
  return labels.filter((label) => {
    const box = labelBox(label);
    const isInside =
      box.left >= within.left &&
      box.right <= within.right &&
      box.top >= within.top &&
      box.bottom <= within.bottom;
    if (!isInside || boxes.some((other) => overlaps(box, other, apart))) return false;
    boxes.push(box);
    return true;
  });
}

/** The first of several places for one label that fits, or null. */
export function firstFitting(
  places: readonly Label[],
  taken: readonly Box[],
  within: Box,
  apart = 3,
): Label | null {
  return places.find((label) => keepFitting([label], taken, within, apart).length > 0) ?? null;
}
