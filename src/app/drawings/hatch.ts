/**
 * Hatching as plain lines clipped to a polygon: it prints, survives grey and needs no pattern ids.
 *
 * In: a polygon in pixels (even-odd, closed by itself), an angle, a spacing. Out: path data.
 */
import { pathThrough, px, type Point } from './scale.ts';

/** Lines at `angleDeg` (0: level, positive: rising to the right), `spacing` pixels apart. */
export function hatchPath(polygon: readonly Point[], angleDeg: number, spacing: number): string {
  const turn = (angleDeg * Math.PI) / 180;
  const sin = Math.sin(turn);
  const cos = Math.cos(turn);
  // In turned axes the lines are level: u along them, v across.
  const turned = polygon.map(([x, y]): Point => [x * cos - y * sin, x * sin + y * cos]);
  const across = turned.map(([, v]) => v);
  const first = Math.ceil(Math.min(...across) / spacing);
  const last = Math.floor(Math.max(...across) / spacing);
  let text = '';
  for (let k = first; k <= last; k++) {
    // A hair off the corners, so that every crossing is a clean one.
    const v = k * spacing + 1e-4;
    const ends = crossings(turned, v);
    for (let i = 0; i + 1 < ends.length; i += 2) {
      if (ends[i + 1] - ends[i] < 0.5) continue;
      text += pathThrough(
        [ends[i], ends[i + 1]].map((u): Point => [u * cos + v * sin, v * cos - u * sin]),
      );
    }
  }
  return text;
}

function crossings(polygon: readonly Point[], v: number): number[] {
  const found: number[] = [];
  for (let i = 0; i < polygon.length; i++) {
    const [u0, v0] = polygon[i];
    const [u1, v1] = polygon[(i + 1) % polygon.length];
    if (v0 < v === v1 < v) continue;
    found.push(u0 + ((v - v0) / (v1 - v0)) * (u1 - u0));
  }
  return found.sort((a, b) => a - b);
}

/** A rectangle as a polygon. */
export function rectanglePoints(left: number, top: number, right: number, bottom: number): Point[] {
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
}

/** A scalloped outline about a point: a crown from above. Radius in pixels. */
export function crownPath(x: number, y: number, radius: number): string {
  const lobes = Math.max(7, Math.round(radius / 2.2));
  const points = Array.from({ length: lobes }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / lobes;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });
  const lobe = px(radius * Math.sin(Math.PI / lobes) * 1.15);
  const [start, ...rest] = points;
  const arcs = [...rest, start].map(([ax, ay]) => `A${lobe} ${lobe} 0 0 1 ${px(ax)} ${px(ay)}`);
  return `M${px(start[0])} ${px(start[1])}${arcs.join('')}Z`;
}
