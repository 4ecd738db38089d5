/**
 * The flight as a line of height against time; its events are the way to choose one.
 *
 * In: the model, a width, which event is chosen, what to call when one is chosen. Out: the drawing:
 * the chosen stretch in full ink, marks at their moments, words where there is room for them. Every
 * event keeps its mark and its key even where its words find no room.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { figureValue } from '../../report/figure-text.ts';
import { clockText } from '../../report/local-time.ts';
import type { FlightLinePicture, LineEvent } from '../../report/pictures/flight-line-picture.ts';
import type { Cursor, Drawing } from './drawing.ts';
import { bob, chock, dip, peg, pegOut, plumbLine } from './marks.ts';
import { keepFitting } from './placing.ts';
import { columnPath, linearScale, multiples, px, type Scale } from './scale.ts';
import { labelBox, partsWidth, type Box, type Label, type Part } from './text.ts';

/** Rows, pixels from the top. */
const ROW = { top: 30, base: 78, ticks: 94, words: 115, second: 140 };

/** What the page tells the line. */
export interface FlightLineOptions {
  readonly chosen: string | null;
  readonly onChoose?: (key: string) => void;
  readonly cursor?: Cursor | null;
}

/** Draws it. */
export function flightLine(
  picture: FlightLinePicture,
  width: number,
  { chosen, onChoose, cursor = null }: FlightLineOptions,
): Drawing {
  const { timeS, heightM, events } = picture;
  const time = timeScale(picture, width);
  const highest = heightM.reduce((most, height) => (height > most ? height : most), 1);
  const level = linearScale(0, highest, ROW.base, ROW.top);
  const line = columnPath(timeS, heightM, (atS, height) => [time.at(atS), level.at(height)]);
  const event = events.find(({ key }) => key === chosen) ?? null;
  const words = eventWords(events, event, time, width);
  const ticks = tickLabels(time, width, picture.timeZone);
  const taken = [...words.map(({ label }) => labelBox(label)), ...ticks.labels.map(labelBox)];
  const within = { left: 0, top: 0, right: width, bottom: ROW.second + 8 };
  const legs = keepFitting(legWords(picture, time), taken, within, 8);
  const top = highestLabel(picture, time, level);
  const hasSecond = words.some(({ label }) => label.y === ROW.second);
  const height = (hasSecond ? ROW.second : ROW.words) + 10;
  const inside = svg`
    <path class="trace-fill" d=${`${line}L${px(time.at(time.to))} ${ROW.base}L${px(time.at(time.from))} ${ROW.base}Z`}/>
    <path class="axis-strong" d=${`M${px(time.at(time.from))} ${ROW.base}H${px(time.at(time.to))}${ticks.d}`}/>
    <path class="trace-other" d=${line}/>
    ${event ? svg`<path class="trace-chosen" d=${stretchPath(picture, event, time, level)}/>` : nothing}
    ${picture.taxiing.map(({ fromS, toS }) => svg`<path class="taxi" d=${`M${px(time.at(fromS))} ${ROW.base}H${px(time.at(toS))}`}/>`)}
    ${cursor ? plumbLine(time.at(cursor.at), 4, time.at(cursor.at), ROW.base) : nothing}
    ${cursor ? bob(time.at(cursor.at), ROW.base + 6) : nothing}
    ${events.map((each) => eventMark(each, time, levelAt(picture, each.atS, level), each === event))}
    ${words.map(({ label, event: each }) => underline(label, each === event))}
    ${events.map((each) => hitArea(each, time, each === event, words.find((word) => word.event === each)?.label ?? null, onChoose))}`;
  const labels = [
    ...words.map(({ label }) => label),
    ...ticks.labels,
    ...legs,
    ...keepFitting(top, [], within),
  ];
  return { width, height, inside, labels, hasChoices: true };
}

/** Time to pixels: the page turns a pointer into seconds by it. */
export function timeScale({ timeS }: FlightLinePicture, width: number): Scale {
  return linearScale(timeS[0], Math.max(timeS[timeS.length - 1], timeS[0] + 1), 2, width - 2);
}

function levelAt({ timeS, heightM }: FlightLinePicture, atS: number, level: Scale): number {
  const i = timeS.findIndex((each) => each >= atS);
  const height = heightM[i < 0 ? heightM.length - 1 : i];
  return Number.isNaN(height) ? ROW.base : level.at(height);
}

function stretchPath(
  { timeS, heightM }: FlightLinePicture,
  { stretch }: LineEvent,
  time: Scale,
  level: Scale,
): string {
  const height = heightM.map((each, i) =>
    timeS[i] >= stretch.fromS && timeS[i] <= stretch.toS ? each : NaN,
  );
  return columnPath(timeS, height, (atS, each) => [time.at(atS), level.at(each)]);
}

function eventMark(
  event: LineEvent,
  time: Scale,
  lineY: number,
  isChosen: boolean,
): SVGTemplateResult {
  const x = time.at(event.atS);
  if (event.mark === 'dip') return dip(x, Math.min(lineY - 4, ROW.base - 6));
  if (event.mark === 'peg-out') return pegOut(x, ROW.base - 2);
  if (event.mark === 'unknown') {
    return svg`<circle class="outline-dotted" cx=${px(x)} cy=${ROW.base - 9} r="7"/>`;
  }
  if (event.stopS === null) return peg(x, ROW.base - 2);
  const stop = time.at(event.stopS);
  const roll = svg`<rect class="roll-block" x=${px(x)} y=${ROW.base - 4} width=${px(Math.max(3, stop - x))} height="8"/>`;
  return svg`${isChosen ? roll : nothing}${peg(x, ROW.base - 5)}${isChosen ? chock(Math.max(stop, x + 6), ROW.base - 5) : nothing}`;
}

interface Word {
  readonly event: LineEvent;
  readonly label: Label;
}

/** The chosen event's words first, then the others in order, on two rows; what finds no room goes without. */
function eventWords(
  events: readonly LineEvent[],
  chosen: LineEvent | null,
  time: Scale,
  width: number,
): Word[] {
  const within: Box = { left: 0, top: 0, right: width, bottom: ROW.second + 8 };
  const order = [...(chosen ? [chosen] : []), ...events.filter((event) => event !== chosen)];
  const words: Word[] = [];
  for (const event of order) {
    const isChosen = event === chosen;
    const style: Omit<Part, 'text'> = isChosen ? { size: 14, weight: 650 } : { size: 14 };
    const tries = [ROW.words, ROW.second].flatMap((y) =>
      [event.text, event.shortText].map((text) =>
        fittedLabel(text, style, time.at(event.atS), y, width),
      ),
    );
    const taken = words.map(({ label }) => labelBox(label));
    const label = tries.find((each) => keepFitting([each], taken, within, 10).length > 0);
    if (label) words.push({ event, label });
  }
  return words;
}

function fittedLabel(
  text: string,
  style: Omit<Part, 'text'>,
  x: number,
  y: number,
  width: number,
): Label {
  const parts = [{ text, ...style }];
  const box = labelBox({ x, y, anchor: 'middle', parts });
  const shift = Math.max(0, -box.left) - Math.max(0, box.right - width);
  return { x: x + shift, y, anchor: 'middle', parts };
}

function underline(label: Label, isChosen: boolean): SVGTemplateResult {
  const box = labelBox(label);
  const d = `M${px(box.left)} ${px(label.y + 6)}H${px(box.right)}`;
  return svg`<path class=${isChosen ? 'underline-chosen' : 'underline'} d=${d}/>`;
}

/** A place to point at or to reach by key, 44 px high and at least 28 wide. */
function hitArea(
  { key, atS, text, place }: LineEvent,
  time: Scale,
  isChosen: boolean,
  label: Label | null,
  onChoose: ((key: string) => void) | undefined,
): SVGTemplateResult {
  const x = time.at(atS);
  const box = label ? labelBox(label) : { left: x, right: x };
  const choose = (): void => onChoose?.(key);
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    choose();
  };
  const words = label
    ? svg`<rect class="hit" x=${px(box.left)} y=${px(label.y - 18)} width=${px(box.right - box.left)} height="26"/>`
    : nothing;
  return svg`<g class="choice" role="button" tabindex="0" data-key=${key} aria-pressed=${isChosen ? 'true' : 'false'}
    aria-label=${`${text}, ${place}`} @click=${choose} @keydown=${press}>
    <rect class="hit" x=${px(x - 14)} y=${ROW.base - 40} width="28" height="46"/>${words}</g>`;
}

/** Steps of minutes that a clock has. */
const MINUTES = [1, 2, 5, 10, 15, 30, 60, 120];
const TICK_ROOM = 78;

function tickLabels(time: Scale, width: number, timeZone: string): { labels: Label[]; d: string } {
  const pxPerMinute = 60 * ((time.at(time.to) - time.at(time.from)) / (time.to - time.from));
  const step = 60 * (MINUTES.find((each) => each * pxPerMinute >= TICK_ROOM) ?? 240);
  const all = multiples(step, time.from, time.to);
  const minor = multiples(step / (step % 300 === 0 ? 5 : 2), time.from, time.to);
  const d = minor.map((atS) => `M${px(time.at(atS))} ${ROW.base}v4`).join('');
  const labels = all.map((atS): Label => {
    const parts: Part[] = [{ text: clockText(atS, timeZone), ink: 'ink2' }];
    return { x: time.at(atS), y: ROW.ticks, anchor: 'middle', parts };
  });
  const within = { left: 0, top: 0, right: width, bottom: ROW.second };
  const long = all.map((atS) => `M${px(time.at(atS))} ${ROW.base}v7`).join('');
  return { labels: keepFitting(labels, [], within), d: d + long };
}

function legWords({ legs }: FlightLinePicture, time: Scale): Label[] {
  return legs
    .filter(({ name }) => name === 'downwind' || name === 'base')
    .map(({ name, fromS, toS }) => ({
      x: time.at((fromS + toS) / 2),
      y: ROW.words,
      anchor: 'middle',
      parts: [{ text: name, ink: 'ink2' }],
    }));
}

/** The highest point, with its height over the lowest point of the log. */
function highestLabel(
  { highest, timeS, heightM }: FlightLinePicture,
  time: Scale,
  level: Scale,
): Label[] {
  if (!highest) return [];
  let best = 0;
  heightM.forEach((height, i) => {
    if (height > heightM[best] || Number.isNaN(heightM[best])) best = i;
  });
  const parts: Part[] = [{ text: figureValue(highest), ink: 'ink2' }];
  const half = partsWidth(parts) / 2;
  const x = Math.min(Math.max(time.at(timeS[best]), half), time.at(time.to) - half);
  return [{ x, y: level.at(heightM[best]) - 8, anchor: 'middle', parts }];
}
