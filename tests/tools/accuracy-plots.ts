/**
 * The pictures of docs/accuracy: plain SVG, drawn from the counted cells.
 *
 * Each picture answers one question and stands on its own paper-coloured ground, so that it reads
 * the same on a light and a dark page.
 */

/** Colours: paper, ink, quiet ink, rule, the measurement, the bound. */
const PAPER = '#fbfaf6';
const INK = '#22262b';
const QUIET = '#6d737b';
const RULE = '#dedbd2';
const OURS = '#1f5f8b';
const BOUND = '#c2641c';
const WIDTH = 760;
const LEFT = 210;
const RIGHT = 60;
const ROW = 30;

/** One line of a picture of errors: median, 90th percentile, and where known the bound's median, metres. */
export interface ErrorRow {
  readonly name: string;
  readonly medianM: number;
  readonly p90M: number;
  readonly boundM: number | null;
}

/** Rows under a common heading. */
export interface RowGroup<T> {
  readonly heading: string;
  readonly rows: readonly T[];
}

/** One line of a picture of coverage: share 0 to 1 and its standard error. */
export interface CoverageRow {
  readonly name: string;
  readonly share: number;
  readonly doubt: number;
}

/** A named curve: rising x, and the share below it. */
export interface Curve {
  readonly name: string;
  readonly values: readonly number[];
  readonly bound: boolean;
}

/** Errors as dots on lines: how far off is the median, and how far off one landing in ten. */
export function drawErrors(title: string, groups: readonly RowGroup<ErrorRow>[]): string {
  const most = niceTop(Math.max(...groups.flatMap(({ rows }) => rows.map(({ p90M }) => p90M))));
  const x = (metres: number): number => LEFT + (metres / most) * (WIDTH - LEFT - RIGHT);
  const parts: string[] = [];
  const bottom = eachRow(groups, parts, ({ name, medianM, p90M, boundM }, y) => {
    parts.push(
      line(x(0), y, x(p90M), y, OURS, 1.5, 0.35),
      circle(x(medianM), y, 6, OURS),
      line(x(p90M), y - 5, x(p90M), y + 5, OURS, 2),
      text(x(p90M) + 8, y + 4, `${medianM.toFixed(1)} / ${p90M.toFixed(1)}`, QUIET, 'start', 11),
      boundM === null ? '' : line(x(boundM), y - 9, x(boundM), y + 9, BOUND, 2.5),
      `<title>${escaped(name)}</title>`,
    );
  });
  const ticks = steps(most);
  const grid = ticks.map((m) => line(x(m), TOP - 14, x(m), bottom, RULE, 1)).join('');
  const labels = ticks.map((m) => text(x(m), bottom + 18, `${m}`, QUIET, 'middle')).join('');
  const key =
    keyDot(LEFT, OURS, 'median') +
    keyTick(LEFT + 90, OURS, '90th percentile') +
    keyTick(LEFT + 220, BOUND, 'bound of the median');
  const unit = text(WIDTH - RIGHT, bottom + 36, 'metres off', QUIET, 'end');
  return picture(title, bottom + 48, grid + parts.join('') + labels + unit + key);
}

/** Coverage with two standard errors either side: do nine bands in ten hold the truth? */
export function drawCoverage(title: string, groups: readonly RowGroup<CoverageRow>[]): string {
  const shares = groups.flatMap(({ rows }) => rows.map(({ share, doubt }) => share - 2 * doubt));
  const least = Math.min(0.8, Math.floor(Math.min(...shares) * 20) / 20);
  const x = (share: number): number =>
    LEFT + ((Math.max(share, least) - least) / (1 - least)) * (WIDTH - LEFT - RIGHT);
  const parts: string[] = [];
  const bottom = eachRow(groups, parts, ({ share, doubt }, y) => {
    parts.push(
      line(x(share - 2 * doubt), y, x(Math.min(1, share + 2 * doubt)), y, OURS, 2, 0.5),
      circle(x(share), y, 5, OURS),
      text(WIDTH - RIGHT + 52, y + 4, `${(100 * share).toFixed(0)} %`, QUIET, 'end', 11),
    );
  });
  const wanted = `<rect x="${n(x(0.88))}" y="${TOP - 14}" width="${n(x(0.92) - x(0.88))}" height="${n(bottom - TOP + 14)}" fill="${BOUND}" fill-opacity="0.12"/>`;
  const ticks: number[] = [];
  for (let k = Math.round(least * 20); k <= 20; k++) ticks.push(k / 20);
  const grid = ticks.map((s) => line(x(s), TOP - 14, x(s), bottom, RULE, 1)).join('');
  const labels = ticks
    .map((s) => text(x(s), bottom + 18, `${Math.round(100 * s)} %`, QUIET, 'middle'))
    .join('');
  const key =
    keyDot(LEFT, OURS, 'bands that hold the truth, and two standard errors either side') +
    `<rect x="${LEFT + 420}" y="39" width="14" height="10" fill="${BOUND}" fill-opacity="0.2"/>` +
    text(LEFT + 440, 48, '88 to 92 %', QUIET);
  return picture(title, bottom + 34, wanted + grid + parts.join('') + labels + key);
}

/** Shares of landings found at least so near. */
export function drawShares(title: string, mostM: number, curves: readonly Curve[]): string {
  const height = 300;
  const left = 60;
  const x = (metres: number): number => left + (metres / mostM) * (WIDTH - left - 170);
  const y = (share: number): number => TOP + (1 - share) * height;
  const grid = [0, 0.25, 0.5, 0.75, 0.9, 1].map(
    (share) =>
      line(x(0), y(share), x(mostM), y(share), RULE, 1) +
      text(x(0) - 8, y(share) + 4, `${Math.round(100 * share)} %`, QUIET, 'end'),
  );
  const ticks = steps(mostM).map(
    (m) => line(x(m), y(1), x(m), y(0), RULE, 1) + text(x(m), y(0) + 18, `${m}`, QUIET, 'middle'),
  );
  const tones = [OURS, '#5b8f3a', '#7a4f9c', INK];
  let plain = 0;
  const ends = spread(curves.map(({ values }) => y(shareBelow(values, mostM))));
  const drawn = curves.map(({ name, values, bound }, k) => {
    const colour = bound ? BOUND : tones[plain++ % tones.length];
    const points: string[] = [];
    for (let k60 = 0; k60 <= 120; k60++) {
      const metres = (k60 / 120) * mostM;
      points.push(`${n(x(metres))},${n(y(shareBelow(values, metres)))}`);
    }
    const dash = bound ? ' stroke-dasharray="5 4"' : '';
    return (
      `<polyline points="${points.join(' ')}" fill="none" stroke="${colour}" stroke-width="2"${dash}/>` +
      text(x(mostM) + 8, ends[k] + 4, name, colour)
    );
  });
  const unit = text(x(mostM), y(0) + 36, 'metres off', QUIET, 'end');
  return picture(title, y(0) + 48, grid.join('') + ticks.join('') + drawn.join('') + unit);
}

const TOP = 84;

function eachRow<T extends { readonly name: string }>(
  groups: readonly RowGroup<T>[],
  parts: string[],
  draw: (row: T, y: number) => void,
): number {
  let y = TOP;
  for (const { heading, rows } of groups) {
    if (groups.length > 1) {
      parts.push(text(16, y + 4, heading, INK, 'start', 13, 600));
      y += ROW * 0.85;
    }
    for (const row of rows) {
      parts.push(text(LEFT - 14, y + 4, row.name, INK, 'end'), '<g>');
      draw(row, y);
      parts.push('</g>');
      y += ROW;
    }
    y += ROW * 0.25;
  }
  return y - ROW * 0.4;
}

function picture(title: string, height: number, inside: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH + 20} ${n(height)}" role="img" font-family="system-ui, sans-serif">
<title>${escaped(title)}</title>
<rect width="100%" height="100%" fill="${PAPER}"/>
${text(16, 24, title, INK, 'start', 16, 600)}
${inside}
</svg>
`;
}

function keyDot(x: number, colour: string, name: string): string {
  return circle(x + 7, 44, 5, colour) + text(x + 18, 48, name, QUIET);
}

function keyTick(x: number, colour: string, name: string): string {
  return line(x + 7, 37, x + 7, 51, colour, 2.5) + text(x + 18, 48, name, QUIET);
}

function text(
  x: number,
  y: number,
  words: string,
  colour: string,
  anchor: 'start' | 'middle' | 'end' = 'start',
  size = 12,
  weight = 400,
): string {
  const heavy = weight === 400 ? '' : ` font-weight="${weight}"`;
  const to = anchor === 'start' ? '' : ` text-anchor="${anchor}"`;
  return `<text x="${n(x)}" y="${n(y)}" fill="${colour}" font-size="${size}"${heavy}${to}>${escaped(words)}</text>`;
}

function line(
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  colour: string,
  width: number,
  opacity = 1,
): string {
  const faint = opacity === 1 ? '' : ` stroke-opacity="${opacity}"`;
  return `<line x1="${n(x1)}" y1="${n(y1)}" x2="${n(x2)}" y2="${n(y2)}" stroke="${colour}" stroke-width="${width}"${faint}/>`;
}

function circle(x: number, y: number, radius: number, colour: string): string {
  return `<circle cx="${n(x)}" cy="${n(y)}" r="${radius}" fill="${colour}"/>`;
}

function n(value: number): string {
  return String(Math.round(10 * value) / 10);
}

function escaped(words: string): string {
  return words.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
}

function niceTop(value: number): number {
  const step = value > 60 ? 20 : 10;
  return Math.ceil((value * 1.12) / step) * step;
}

function steps(most: number): number[] {
  const step = most > 60 ? 20 : 10;
  return Array.from({ length: Math.floor(most / step) + 1 }, (_, k) => k * step);
}

function shareBelow(values: readonly number[], limit: number): number {
  return values.filter((value) => value <= limit).length / values.length;
}

/** The same heights, pushed apart so that labels do not lie on each other. */
function spread(heights: readonly number[]): number[] {
  const order = heights.map((_, k) => k).sort((a, b) => heights[a] - heights[b]);
  const out = [...heights];
  for (let k = 1; k < order.length; k++) {
    out[order[k]] = Math.max(out[order[k]], out[order[k - 1]] + 15);
  }
  return out;
}
