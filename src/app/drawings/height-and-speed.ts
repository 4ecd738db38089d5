/**
 * Height over speed on one distance axis: approach, flare and roll.
 *
 * In: the model, a width, a cursor. Out: the drawing. The exaggeration of the heights is printed;
 * hatching holds 90 % of the error.
 */
import { nothing, svg } from 'lit';
import { NBSP, numberText, unitOf } from '../../report/figure-text.ts';
import type { FinalPicture } from '../../report/pictures/final-picture.ts';
import type { Cursor, Drawing } from './drawing.ts';
import { heightPanel } from './height-panel.ts';
import { bob, plumbLine } from './marks.ts';
import { multiples, px, roundStep } from './scale.ts';
import { layOutProfiles, type ProfileLayout } from './profile-layout.ts';
import { speedPanel } from './speed-panel.ts';
import { partsWidth, type Label, type Part } from './text.ts';

/** Room for the axis under the speeds, pixels. */
const AXIS = 24;

/** Draws both. */
export function heightAndSpeed(
  picture: FinalPicture,
  width: number,
  cursor: Cursor | null = null,
): Drawing {
  const layout = layOutProfiles(picture, width);
  const heights = heightPanel(picture, layout);
  const speeds = speedPanel(picture, layout);
  const axis = distanceAxis(picture, layout);
  const notes = noteLabels(heights.exaggeration, width);
  const bottom = layout.speed[1];
  // Farther out than the axis the line would hang over its figures.
  const { from, to } = layout.along;
  const seen = cursor && cursor.at >= from && cursor.at <= to ? cursor : null;
  const inside = svg`${heights.drawing}${speeds.drawing}${axis.drawing}
    ${seen ? plumbLine(layout.along.at(seen.at), 8, layout.along.at(seen.at), bottom) : nothing}
    ${seen ? bob(layout.along.at(seen.at), bottom + 4) : nothing}
    ${heights.marks}${speeds.marks}`;
  const labels = [...heights.labels, ...speeds.labels, ...axis.labels, ...notes];
  return { width, height: bottom + AXIS, inside, labels };
}

function distanceAxis(
  { units }: FinalPicture,
  { along, speed, width }: ProfileLayout,
): { drawing: ReturnType<typeof svg>; labels: Label[] } {
  const { si } = unitOf(units.length);
  const y = speed[1];
  const pxPerUnit = (along.at(1) - along.at(0)) * si;
  const step = roundStep(Math.max(58 / pxPerUnit, 1));
  const all = multiples(step, along.from / si, along.to / si);
  const ticks = all.map((units) => `M${px(along.at(units * si))} ${px(y)}v5`).join('');
  const labels = all.map((each): Label => {
    const isLast = each === all[all.length - 1];
    const text = numberText(each, 0) + (isLast ? NBSP + units.length : '');
    const parts: Part[] = [{ text, ink: 'ink2' }];
    const half = partsWidth(parts) / 2;
    return { x: Math.min(along.at(each * si), width - half), y: y + 19, anchor: 'middle', parts };
  });
  const line = `M${px(along.at(along.from))} ${px(y)}H${px(along.at(along.to))}`;
  return { drawing: svg`<path class="axis" d=${line + ticks}/>`, labels };
}

function noteLabels(exaggeration: number | null, width: number): Label[] {
  const drawn = exaggeration === null ? '' : `height drawn ×${NBSP}${numberText(exaggeration, 1)}`;
  const wide = [drawn, 'hatching holds 90 % of the error'].filter((text) => text !== '').join('; ');
  const text = partsWidth([{ text: wide }]) < width - 8 ? wide : drawn;
  return [{ x: width - 2, y: 13, anchor: 'end', parts: [{ text, ink: 'ink2' }] }];
}
