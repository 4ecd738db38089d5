/**
 * Where the panels of height and speed stand over one distance axis.
 *
 * In: the model and a width in CSS pixels. Out: the axis and the rows of both panels; the page turns
 * a pointer into alongM by the same axis.
 */
import type { SVGTemplateResult } from 'lit';
import type { FinalPicture } from '../../report/pictures/final-picture.ts';
import { linearScale, type Scale } from './scale.ts';
import type { Label } from './text.ts';

/** Where both panels stand. */
export interface ProfileLayout {
  readonly width: number;
  /** alongM to pixels; the page turns a pointer into alongM by it. */
  readonly along: Scale;
  readonly height: readonly [number, number];
  readonly speed: readonly [number, number];
}

/** A panel, its marks (drawn over the cursor) and its words. */
export interface Panel {
  readonly drawing: SVGTemplateResult;
  readonly marks: SVGTemplateResult;
  readonly labels: Label[];
}

const MARGIN = { left: 50, right: 10, top: 26, between: 22 };
/** Half a gate with a dot beyond its post, pixels. */
const GATE_ROOM = 16;
/** Room for a line of words under the turf, pixels. */
const UNDER_TURF = 14;

/** Panels and their common axis. */
export function layOutProfiles(
  { ground, speed, stopM, float, commit, lowest, gates }: FinalPicture,
  width: number,
): ProfileLayout {
  const isNarrow = width < 520;
  const last = speed.alongM.reduce((most, along) => (along > most ? along : most), 0);
  const first = speed.alongM.reduce((least, along) => (along < least ? along : least), 0);
  // Where a pass was lowest and where it was broken off are shown, however far out.
  const reachM = Math.min(
    isNarrow ? -420 : -620,
    (lowest?.atM ?? 0) - 40,
    (commit?.begun?.lowM ?? 0) - 20,
  );
  const toM = Math.max(ground.ldaM + 20, Math.min(last, ground.farEndM + 60), (stopM ?? 0) + 20);
  const seenM = Math.max(reachM, Math.min(first, -60));
  // A gate at the very beginning would lie over the figures of the axis.
  const roomM = (GATE_ROOM * (toM - seenM)) / (width - MARGIN.left - MARGIN.right - GATE_ROOM);
  let fromM = seenM;
  // From the inside outwards: room made for one gate may uncover the next.
  for (const { alongM } of gates.toSorted((a, b) => b.alongM - a.alongM)) {
    if (alongM >= fromM && alongM < fromM + roomM) fromM = alongM - roomM;
  }
  const tall = isNarrow ? 122 : 140;
  const heightTop = MARGIN.top;
  const hasWords = float !== null || (commit !== null && commit.commitM >= fromM);
  const speedTop = heightTop + tall + MARGIN.between + (hasWords ? UNDER_TURF : 0);
  return {
    width,
    along: linearScale(fromM, toM, MARGIN.left, width - MARGIN.right),
    height: [heightTop, heightTop + tall],
    speed: [speedTop, speedTop + (isNarrow ? 96 : 112)],
  };
}
