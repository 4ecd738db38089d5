/**
 * The slope of a strip as a wedge of turf under its tape.
 *
 * In: the ground, the scale, where the wedge begins. Out: SVG and its words. The wedge is drawn to a
 * height of its own; the words give the slope in per cent.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { StripGround } from '../../report/pictures/strip-ground.ts';
import { pathThrough, type Point, type Scale } from './scale.ts';
import type { Label } from './text.ts';

/** Height of the wedge, pixels. */
const WEDGE = 12;

/** The wedge under a lying tape. */
export function slopeWedge(
  { surface, slopeText, nearEndM, farEndM }: StripGround,
  { at }: Scale,
  top: number,
): { drawing: SVGTemplateResult | typeof nothing; labels: Label[]; bottom: number } {
  if (!surface || slopeText === null) {
    const parts = [{ text: 'slope not known', ink: 'ink2' as const }];
    const label: Label = { x: at(Math.max(nearEndM, 0)), y: top + 12, anchor: 'start', parts };
    return { drawing: nothing, labels: [label], bottom: top + 16 };
  }
  const lowest = Math.min(...surface.riseM);
  const highest = Math.max(...surface.riseM);
  const foot = top + 12 + WEDGE;
  const pxPerM = highest > lowest ? WEDGE / (highest - lowest) : 0;
  const line = Array.from(surface.alongM, (along, i): Point => [
    at(along),
    foot - 1 - (surface.riseM[i] - lowest) * pxPerM,
  ]);
  const area = pathThrough([[at(nearEndM), foot], ...line, [at(farEndM), foot]], true);
  // The words stand over the low end.
  const isUphill = surface.riseM[0] <= surface.riseM[surface.riseM.length - 1];
  const label: Label = {
    x: isUphill ? at(Math.max(nearEndM, 0)) + 2 : at(farEndM) - 2,
    y: top + 10,
    anchor: isUphill ? 'start' : 'end',
    parts: [{ text: slopeText, ink: 'ink2' }],
  };
  return { drawing: svg`<path class="turf" d=${area}/>`, labels: [label], bottom: foot };
}
