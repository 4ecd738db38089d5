/**
 * What is wrong with a laid-out drawing: text over text, text or lines off the canvas, small text.
 *
 * In: a drawing. Out: faults in words; none where it is sound. Widths of text are estimates for the
 * widest usual system font, so that a real label takes no more room than its box.
 */
import type { Drawing } from '../../src/app/drawings/drawing.ts';
import { labelBox, LEAST_SIZE, overlaps, type Label } from '../../src/app/drawings/text.ts';
import { templateText } from './template-text.ts';

/** Lines may stand out by half their own thickness, pixels. */
const LINE = 2;

/** All faults. */
export function faultsOf(drawing: Drawing): string[] {
  return [...textFaults(drawing), ...lineFaults(drawing), ...rodFaults(drawing)];
}

function textFaults({ width, height, labels }: Drawing): string[] {
  const faults: string[] = [];
  const boxes = labels.map(labelBox);
  labels.forEach((label, i) => {
    const name = `"${textOf(label)}"`;
    const { left, right, top, bottom } = boxes[i];
    const isInside = left >= -0.5 && top >= -0.5 && right <= width + 0.5 && bottom <= height + 0.5;
    if (!isInside) {
      faults.push(
        `${name} lies off: ${[left, top, right, bottom].map(Math.round).join(' ')} of ${width} ${height}`,
      );
    }
    for (const { size = LEAST_SIZE } of label.parts) {
      if (!(size >= 13)) faults.push(`${name} has ${size} px`);
    }
    labels.slice(0, i).forEach((other, j) => {
      if (overlaps(boxes[i], boxes[j])) faults.push(`${name} lies over "${textOf(other)}"`);
    });
  });
  return faults;
}

function textOf({ parts }: Label): string {
  return parts.map(({ text }) => text).join(' ');
}

/** Points of paths drawn at their place; marks that are moved there by a transform are left out. */
function lineFaults({ inside, width, height }: Drawing): string[] {
  const markup = templateText(inside);
  const faults = markup.includes('<text') ? ['there is text beside the labels'] : [];
  if (/NaN|Infinity|undefined/.test(markup)) faults.push('a number is missing');
  const plain = markup.replace(/<g transform=.*?<\/g>/gs, '');
  for (const [, d] of plain.matchAll(/ d="([^"]*)"/g)) {
    for (const [x, y] of pointsOf(d)) {
      if (x < -LINE || x > width + LINE || y < -LINE || y > height + LINE) {
        faults.push(`a line runs off at ${x} ${y}: ${d.slice(0, 40)}`);
        break;
      }
    }
  }
  return faults;
}

/** Words over a rod. */
function rodFaults({ inside, labels }: Drawing): string[] {
  const bodies = templateText(inside).matchAll(/class="rod-body" d="([^"]*)"/g);
  const boxes = Array.from(bodies, ([, d]) => {
    const points = pointsOf(d);
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    return {
      ...{ left: Math.min(...xs), right: Math.max(...xs) },
      ...{ top: Math.min(...ys), bottom: Math.max(...ys) },
    };
  });
  return labels
    .filter((label) => boxes.some((box) => overlaps(labelBox(label), box)))
    .map((label) => `"${textOf(label)}" lies over a rod`);
}

/** Points of the absolute commands M, L, Q, H and V. */
function pointsOf(d: string): [number, number][] {
  const points: [number, number][] = [];
  let [x, y] = [0, 0];
  for (const [, command, rest] of d.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
    const numbers = (rest.match(/-?[\d.]+/g) ?? []).map(Number);
    if (command === 'H') x = numbers[0];
    else if (command === 'V') y = numbers[0];
    else if ('MLQ'.includes(command)) [x, y] = numbers.slice(-2);
    else continue;
    points.push([x, y]);
  }
  return points;
}
