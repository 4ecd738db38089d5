/**
 * In the order flown: ratios as points, their weighted course, limits, steps at the foot.
 *
 * In: the model, a width. Out: the drawing, oldest left; ratios on a log scale. A landing beyond the
 * limits is an open dot with its day.
 */
import { svg } from 'lit';
import { numberText } from '../../report/figure-text.ts';
import type { IndividualsPicture } from '../../report/pictures/individuals-picture.ts';
import type { Drawing } from './drawing.ts';
import { keepFitting, spreadOut } from './placing.ts';
import { linearScale, logScale, multiples, pathThrough, px, type Point } from './scale.ts';
import { labelBox, partsWidth, type Label, type Part } from './text.ts';

/** Rows, pixels from the top. */
const ROW = { top: 12, ratios: 108, steps: 128, base: 166, days: 184 };
const LEFT = 40;
/** Names of the levels stand right of the chart from this width up, over it below, pixels. */
const NAMES_FROM = 560;

/** Draws it. */
export function individualsChart(picture: IndividualsPicture, widthPx: number): Drawing {
  const { points, lower, upper, middle } = picture;
  const isWide = widthPx >= NAMES_FROM;
  const names = levelParts(picture);
  const nameWidth = Math.max(...names.map(({ parts }) => partsWidth(parts)));
  const right = isWide ? widthPx - nameWidth - 14 : widthPx - 6;
  const top = isWide ? ROW.top : ROW.top + 18;
  const foot = isWide ? 0 : 36;
  const all = points.map(({ ratio }) => ratio);
  const from = Math.min(lower.ratio, ...all);
  const to = Math.max(upper.ratio, ...all);
  const shift = top - ROW.top;
  const ratio = logScale(from * 0.985, to * 1.015, ROW.ratios + shift, top);
  const order = linearScale(-0.5, points.length - 0.5, LEFT, right);
  const place = (k: number, value: number): Point => [order.at(k), ratio.at(value)];
  const base = ROW.base + shift + foot;
  const stepTop = ROW.steps + shift + foot;
  const highest = Math.max(picture.stepLimit, ...points.map(({ step }) => step ?? 1));
  const step = linearScale(0, Math.log(highest) * 1.05, base, stepTop);
  const level = (value: number): string => `M${px(LEFT)} ${px(ratio.at(value))}H${px(right)}`;
  const barWide = Math.min(9, Math.max(2, (right - LEFT) / points.length - 3));
  const inside = svg`
    <rect class="within" x=${LEFT} y=${px(ratio.at(upper.ratio))} width=${px(right - LEFT)} height=${px(ratio.at(lower.ratio) - ratio.at(upper.ratio))}/>
    <rect class="course-within" x=${LEFT} y=${px(ratio.at(picture.courseTo))} width=${px(right - LEFT)} height=${px(ratio.at(picture.courseFrom) - ratio.at(picture.courseTo))}/>
    <path class="axis" d=${level(middle.ratio)}/>
    <path class="limit-line" d=${level(upper.ratio) + level(lower.ratio)}/>
    <path class="trace-other" d=${pathThrough(points.map((point, k) => place(k, point.ratio)))}/>
    <path class="trace-chosen" d=${pathThrough(points.map((point, k) => place(k, point.course)))}/>
    ${points.map((point, k) => {
      const [x, y] = place(k, point.ratio);
      return svg`<circle class=${point.isBeyond ? 'dot-out' : 'dot'} cx=${px(x)} cy=${px(y)} r=${points.length > 40 ? 3 : 4.5}/>`;
    })}
    ${points.map((point, k) => {
      if (point.step === null) return svg``;
      const high = step.at(Math.log(point.step));
      return svg`<rect class=${point.isStepBeyond ? 'step-bar step-bar-out' : 'step-bar'} x=${px(order.at(k) - barWide / 2)} y=${px(high)} width=${px(barWide)} height=${px(base - high)}/>`;
    })}
    <path class="limit-line" d=${`M${px(LEFT)} ${px(step.at(Math.log(picture.stepLimit)))}H${px(right)}`}/>
    <path class="axis-strong" d=${`M${px(LEFT)} ${px(base)}H${px(right)}`}/>`;
  const within = { left: 0, top: 0, right: widthPx, bottom: base + 24 };
  const ticks = multiples(to > 1.9 * from ? 0.5 : 0.2, from, to).map((value): Label => ({
    x: LEFT - 8,
    y: ratio.at(value) + 5,
    anchor: 'end',
    parts: [{ text: numberText(value, 1), ink: 'ink2' }],
  }));
  const days = keepFitting(dayLabels(picture, order.at, base + 18, widthPx), [], within, 16);
  const labels = isWide
    ? wideNames(names, right + 10, [
        ratio.at(upper.ratio),
        ratio.at(points[points.length - 1].course),
        ratio.at(lower.ratio),
        (base + stepTop) / 2,
      ])
    : narrowNames(
        names,
        [ratio.at(upper.ratio) - 6, 0, ratio.at(lower.ratio) + 16, stepTop - 4],
        right,
      );
  const kept = keepFitting(ticks, labels.map(labelBox), within);
  return {
    width: widthPx,
    height: Math.ceil(base + 26),
    inside,
    labels: [...labels, ...kept, ...days],
  };
}

function levelParts({ upper, lower }: IndividualsPicture): { parts: Part[] }[] {
  return [
    { parts: [{ text: upper.label, ink: 'ink2' }] },
    { parts: [{ text: 'course, weighted', weight: 600 }] },
    { parts: [{ text: lower.label, ink: 'ink2' }] },
    { parts: [{ text: 'step from the last', ink: 'ink2' }] },
  ];
}

function wideNames(
  names: readonly { parts: Part[] }[],
  x: number,
  wanted: readonly number[],
): Label[] {
  const wishes = wanted.map((at) => ({ at, size: 15 }));
  const placed = spreadOut(wishes, 0, ROW.base + 10, 3) ?? wanted;
  return names.map(({ parts }, k) => ({ x, y: placed[k] + 5, anchor: 'start', parts }));
}

/** Over the upper limit, under the lower one, over the steps; the course by its line's weight there too. */
function narrowNames(
  names: readonly { parts: Part[] }[],
  ys: readonly number[],
  right: number,
): Label[] {
  const [upper, course, lower, steps] = names;
  return [
    { x: right, y: ys[0], anchor: 'end', parts: upper.parts },
    { x: LEFT, y: ys[0], anchor: 'start', parts: [{ ...course.parts[0], text: 'course' }] },
    { x: right, y: ys[2], anchor: 'end', parts: lower.parts },
    { x: right, y: ys[3], anchor: 'end', parts: steps.parts },
  ];
}

/** First, last and as many between as have room; the year with the first of each. */
function dayLabels(
  { points }: IndividualsPicture,
  at: (k: number) => number,
  y: number,
  width: number,
): Label[] {
  const last = points.length - 1;
  const order = [0, last, ...points.map((_, k) => k).filter((k) => k > 0 && k < last)];
  return order.map((k): Label => {
    const { day, year } = points[k];
    const isNew = k === 0 || points[k - 1].year !== year;
    const parts: Part[] = [{ text: isNew ? `${day} ${year}` : day, ink: 'ink2' }];
    const half = partsWidth(parts) / 2;
    return { x: Math.min(Math.max(at(k), half), width - half), y, anchor: 'middle', parts };
  });
}
