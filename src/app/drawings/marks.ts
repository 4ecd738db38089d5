/**
 * The marks: each origin is the exact place.
 *
 * In: a place in pixels, where wanted a turn. Out: SVG. Colours come by class from the style sheet;
 * no mark says anything by colour alone, and a caution always stands beside words.
 */
import { svg, type SVGTemplateResult } from 'lit';
import { px } from './scale.ts';

function placed(
  x: number,
  y: number,
  turnDeg: number,
  inside: SVGTemplateResult,
): SVGTemplateResult {
  const turn = turnDeg === 0 ? '' : ` rotate(${px(turnDeg)})`;
  return svg`<g transform=${`translate(${px(x)} ${px(y)})${turn}`}>${inside}</g>`;
}

/** Peg driven in: touchdown. The tip is the place. */
export function peg(x: number, y: number, turnDeg = 0): SVGTemplateResult {
  return placed(x, y, turnDeg, svg`<path class="mark rim" d="M-5-17H5V-13L0 0L-5-13Z"/>`);
}

/** A place put by hand: a ring on the mark's head. */
export function handRing(x: number, y: number): SVGTemplateResult {
  return svg`<circle class="mark-line" cx=${px(x)} cy=${px(y)} r="5"/>`;
}

/** Where it was measured before the hand moved it: the peg as a dotted outline. */
export function pegWas(x: number, y: number, turnDeg = 0): SVGTemplateResult {
  return placed(x, y, turnDeg, svg`<path class="outline-dotted" d="M-5-17H5V-13L0 0L-5-13Z"/>`);
}

/** Peg drawn out: lift-off. */
export function pegOut(x: number, y: number, turnDeg = 0): SVGTemplateResult {
  return placed(
    x,
    y,
    turnDeg,
    svg`<path class="mark-line fill-ground" d="M-5-3H5V-7L0-20L-5-7Z"/><path class="mark-line" d="M-3 0H3"/>`,
  );
}

/** Chock: the stop. Its upright face is the place. */
export function chock(x: number, y: number, turnDeg = 0): SVGTemplateResult {
  return placed(x, y, turnDeg, svg`<path class="mark rim" d="M0 0V-15L15 0Z"/>`);
}

/** The stop on a plan: the chock beside an upright strip, `side` 1 right of it, -1 left of it. */
export function stopFlag(x: number, y: number, side: number): SVGTemplateResult {
  return placed(x, y, 0, svg`<path class="mark rim" d=${`M0 0H${px(15 * side)}L0-15Z`}/>`);
}

/** Chock not set: the roll ended otherwise, or the brakes were let go. */
export function chockOpen(x: number, y: number, turnDeg = 0): SVGTemplateResult {
  return placed(
    x,
    y,
    turnDeg,
    svg`<path class="mark-line fill-ground" d="M0-0.8V-13.5L12.7-0.8Z"/>`,
  );
}

/** Post with a bar: the screen of 50 ft. */
export function screenPost(x: number, y: number, turnDeg = 0, tall = 26): SVGTemplateResult {
  return placed(x, y, turnDeg, svg`<path class="mark-line" d=${`M0 0V${-tall}M-7 ${-tall}H7`}/>`);
}

/** Dip: the lowest point of a go-around or a pass; it never touches its dash. */
export function dip(x: number, y: number): SVGTemplateResult {
  return placed(
    x,
    y,
    0,
    svg`<path class="mark-line" d="M-11-9Q-6-1.5 0-1.5T11-9"/><path class="mark-line" d="M-3 3H3"/>`,
  );
}

/**
 * Gate: posts at the pilot's limits, a dot where the aircraft was, `at` from -1 (low limit) to 1
 * (high limit). Out: an open dot beyond the post. Without limits the dot alone.
 */
export function gate(
  x: number,
  y: number,
  verdict: 'in' | 'out' | 'cannot tell' | null,
  at: number,
): SVGTemplateResult {
  if (verdict === null) return svg`<circle class="mark" cx=${px(x)} cy=${px(y)} r="3.6"/>`;
  const dotX = 9 * Math.min(Math.max(at, -1.6), 1.6);
  const style = { in: 'dot', out: 'dot-out', 'cannot tell': 'dot-open' }[verdict];
  return placed(
    x,
    y,
    0,
    svg`<path class="gate-bar" d="M-9-3H9M-9 3H9"/><path class="mark-line" d="M-9-7V7M9-7V7"/>
      <circle class=${style} cx=${px(dotX)} cy="0" r="3.6"/>`,
  );
}

/** Lozenge: the aiming point. */
export function lozenge(x: number, y: number): SVGTemplateResult {
  return placed(x, y, 0, svg`<path class="mark-line" d="M-8 0l8-8l8 8l-8 8Z"/>`);
}

/** Hurdle: caution. Never alone: words stand beside it. */
export function hurdle(x: number, y: number): SVGTemplateResult {
  return placed(
    x,
    y,
    0,
    svg`<path class="hurdle" d="M0-13V1M12-13V1M0-11H12M0-6H12M0-1H12M0-1L12-11"/>`,
  );
}

/** Width that a hurdle takes before its words, pixels. */
export const HURDLE_WIDTH = 18;

/** Bob at the foot of the plumb line. */
export function bob(x: number, y: number, turnDeg = 0): SVGTemplateResult {
  return placed(x, y, turnDeg, svg`<path class="mark rim" d="M-2-8H2V-5L5 0L0 10L-5 0L-2-5Z"/>`);
}

/** Plumb line: a hairline with a paper edge. */
export function plumbLine(x1: number, y1: number, x2: number, y2: number): SVGTemplateResult {
  const d = `M${px(x1)} ${px(y1)}L${px(x2)} ${px(y2)}`;
  return svg`<path class="plumb-rim" d=${d}/><path class="plumb" d=${d}/>`;
}

/** Wind, blowing towards `toDeg` clockwise from up. */
export function windArrow(x: number, y: number, toDeg: number): SVGTemplateResult {
  return placed(
    x,
    y,
    toDeg + 180,
    svg`<path class="mark-line" d="M0-22V20M-6 11L0 21L6 11M-7-22V-4M7-22V-4"/>`,
  );
}

/** North, `deg` clockwise from up. */
export function northArrow(x: number, y: number, deg: number): SVGTemplateResult {
  return placed(
    x,
    y,
    deg,
    svg`<path class="mark-line" d="M0 17V-10"/><path class="mark" d="M0-19L4.5-7H-4.5Z"/>`,
  );
}

/** A bracket of 90 % below (or with a turn, beside) a tape: between two places on one line. */
export function bracket(from: number, to: number, y: number, isUpright = false): SVGTemplateResult {
  const d = isUpright
    ? `M${px(y + 6)} ${px(from)}H${px(y)}V${px(to)}H${px(y + 6)}`
    : `M${px(from)} ${px(y + 6)}V${px(y)}H${px(to)}V${px(y + 6)}`;
  return svg`<path class="bracket" d=${d}/>`;
}

/** Three cut lines bending away: the word mark, 30 by 24 pixels. */
export function wordMark(x: number, y: number): SVGTemplateResult {
  return placed(
    x,
    y,
    0,
    svg`<path class="word-mark" d="M1 18C9 18 13 12 18 1M8 19C15 18 19 12 23.5 3M15.5 19.5C21 18 24.5 13 28.5 6"/>`,
  );
}
