/** What the drawings show lies where the model says, read off the drawn tape like a reader would. */
import { beforeAll, describe, expect, test } from 'vitest';
import { chanceHeap } from '../../src/app/drawings/chance-heap.ts';
import { circuitPlan } from '../../src/app/drawings/circuit-plan.ts';
import type { Drawing } from '../../src/app/drawings/drawing.ts';
import { flightLine } from '../../src/app/drawings/flight-line.ts';
import { heightAndSpeed } from '../../src/app/drawings/height-and-speed.ts';
import { individualsChart } from '../../src/app/drawings/individuals-chart.ts';
import { landingBar } from '../../src/app/drawings/landing-bar.ts';
import { mownField } from '../../src/app/drawings/mown-field.ts';
import { ratioTape } from '../../src/app/drawings/ratio-tape.ts';
import { stripRuler } from '../../src/app/drawings/strip-ruler.ts';
import type { Flight } from '../../src/debrief/debrief.ts';
import { USUAL_UNITS } from '../../src/report/figure-text.ts';
import type { LoggedFlight } from '../../src/report/logged-flight.ts';
import { flightLinePicture } from '../../src/report/pictures/flight-line-picture.ts';
import type { StripPicture } from '../../src/report/pictures/strip-picture.ts';
import { expectNear } from '../expect-near.ts';
import {
  allFlights,
  approachOf,
  begunOverStrip,
  chanceOf,
  circuitOf,
  determined,
  factorOf,
  finalOf,
  flightOf,
  individualsOf,
  limitedFlightOf,
  logbookOf,
} from './demo-pictures.ts';
import { templateText } from './template-text.ts';

let flight: Flight;
let logbook: LoggedFlight[];
let landing: StripPicture;

beforeAll(async () => {
  flight = await flightOf('2024-04-20-first-circuits-ternholm.gpx');
  logbook = await allFlights();
  landing = approachOf(flight, 2, { ownRollFactor: 1.62, aimM: 30 });
});

/** Metres to pixels as the numerals of a lying tape have it: bold ones stand 5 px right of theirs. */
function readTape({ labels }: Drawing): (alongM: number) => number {
  const tick = (text: string): number => {
    const found = labels.find(
      ({ parts }) =>
        parts[0].text === text && parts[0].weight === 650 && parts[0].ink === 'tapeink',
    );
    if (!found) throw new Error(`no ${text} on the tape`);
    return found.x - 5;
  };
  const [zero, hundred] = [tick('0'), tick('100')];
  return (alongM) => zero + ((hundred - zero) / 100) * alongM;
}

/** The first attribute `d` of an element with exactly this class, after a mark in the text. */
function pathOf(markup: string, className: string, after = ''): string {
  const start = after === '' ? 0 : markup.indexOf(after);
  expect(start, `${after} is drawn`).toBeGreaterThanOrEqual(0);
  const found = new RegExp(`class="${className}" d="([^"]*)"`).exec(markup.slice(start));
  if (!found) throw new Error(`no ${className} drawn`);
  return found[1];
}

const firstX = (d: string): number => Number(/^M(-?[\d.]+)/.exec(d)?.[1]);

describe('a strip ruler', () => {
  test('[DRAW10] ends its rods where their rolls end', () => {
    const drawing = stripRuler(landing, 1216);
    const at = readTape(drawing);
    const markup = templateText(drawing.inside);
    const [expected, planned, own] = landing.rods;
    expect([expected.kind, planned.kind, own.kind]).toEqual(['expected', 'planned', 'own']);
    expectNear(firstX(pathOf(markup, 'rod-flat', 'rod rod-expected')), at(expected.toM), 0.3);
    expectNear(firstX(pathOf(markup, 'rod-solid', 'rod rod-planned')) + 4, at(planned.toM), 0.3);
    const round = /class="rod-solid" cx="([\d.]+)"/.exec(markup);
    expectNear(Number(round?.[1]), at(own.toM), 0.3);
    // All hang from the measured touchdown.
    const touchdown = landing.places.find(({ kind }) => kind === 'touchdown');
    for (const rod of landing.rods) {
      expectNear(rod.fromM, touchdown?.atM ?? NaN, 1e-9);
      const body = pathOf(markup, 'rod-body', `rod rod-${rod.kind}`);
      expectNear(firstX(body), at(rod.fromM), 0.3);
    }
  });

  test('[DRAW11] hangs its rods 24 px apart, the expected one nearest the strip', () => {
    const markup = templateText(stripRuler(landing, 1216).inside);
    const rows = ['expected', 'planned', 'own'].map((kind) => {
      const body = pathOf(markup, 'rod-body', `rod rod-${kind}`);
      return Number(/^M[\d.]+ ([\d.]+)/.exec(body)?.[1]);
    });
    expectNear(rows[0] - rows[1], 24, 1e-9);
    expectNear(rows[1] - rows[2], 24, 1e-9);
  });

  test('[DRAW12] draws the roll as ten passes, each from its point of the touchdown to that of the stop', () => {
    const drawing = stripRuler(landing, 1216);
    const at = readTape(drawing);
    const swathe = pathOf(templateText(drawing.inside), 'swathe');
    const starts = [...swathe.matchAll(/M(-?[\d.]+)/g)].map(([, x]) => Number(x));
    const ends = [...swathe.matchAll(/L(-?[\d.]+)/g)].map(([, x]) => Number(x));
    expect(starts).toHaveLength(10);
    const rising = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);
    const { passes } = landing;
    if (!passes) throw new Error('no passes');
    rising(starts).forEach((x, i) => expectNear(x, at(passes.fromM[i]), 0.3, `start ${i}`));
    const stops = rising(ends);
    expect(stops).toHaveLength(10);
    stops.forEach((x, i) => expectNear(x, at(passes.toM[i]), 0.3, `end ${i}`));
    // The earliest lies outermost, the latest in the middle: a notch behind, a point ahead.
    expectNear(starts[0], Math.min(...starts), 1e-9);
    expectNear(Math.max(starts[4], starts[5]), Math.max(...starts), 1e-9);
  });

  test('[DRAW13] brackets the 90 % of each place under the tape', () => {
    const drawing = stripRuler(landing, 1216);
    const at = readTape(drawing);
    const markup = templateText(drawing.inside);
    const brackets = [...markup.matchAll(/class="bracket" d="M([-\d.]+) [\d.]+V[\d.]+H([-\d.]+)/g)];
    expect(brackets).toHaveLength(landing.places.length);
    landing.places.forEach(({ lowM, highM }, i) => {
      expectNear(Number(brackets[i][1]), at(lowM), 0.3);
      expectNear(Number(brackets[i][2]), at(highM), 0.3);
    });
  });

  test('[DRAW14] stands up on a phone, zero at the bottom', () => {
    const drawing = stripRuler(landing, 358);
    const numeral = (text: string): number => {
      const found = drawing.labels.find(
        ({ parts }) => parts[0].text === text && parts[0].ink === 'tapeink',
      );
      return found?.y ?? NaN;
    };
    expect(numeral('0')).toBeGreaterThan(numeral('100'));
    expect(numeral('100')).toBeGreaterThan(numeral('400'));
    expect(drawing.height).toBeGreaterThan(drawing.width);
  });

  test('[DRAW26] says the whole reason of what is not known, under the strip where its outline has no room', () => {
    const begun = approachOf(begunOverStrip(flight, 2), 2);
    if (!begun.unknown) throw new Error('the touchdown is not known');
    const words = (picture: StripPicture, widthPx: number): string =>
      stripRuler(picture, widthPx)
        .labels.flatMap(({ parts }) => parts.map(({ text }) => text))
        .join(' ');
    for (const toM of [250, 120, 30]) {
      const picture = { ...begun, unknown: { ...begun.unknown, toM } };
      for (const widthPx of [1216, 756, 560, 358, 288]) {
        expect(words(picture, widthPx), `${toM} m at ${widthPx} px`).toContain(
          begun.unknown.reason,
        );
      }
    }
  });

  test('[DRAW15] says with a hurdle and in words that a rod is longer than the strip', async () => {
    const tail = await flightOf('2024-09-15-tail-wind-landing-sedge.gpx');
    const picture = approachOf(tail, 0, { ownRollFactor: 1.62 });
    for (const width of [1216, 358, 288]) {
      const { inside, labels } = stripRuler(picture, width);
      expect(templateText(inside)).toContain('class="hurdle"');
      expect(templateText(inside)).toContain('class="hatch-caution"');
      const words = labels.flatMap(({ parts }) => parts.map(({ text }) => text)).join(' ');
      expect(words.replaceAll('\u00a0', ' ')).toMatch(/210 m too long/);
    }
  });

  test('[DRAW16] prints by how much the width is drawn larger than the length', () => {
    const drawing = stripRuler(landing, 1216);
    const at = readTape(drawing);
    const words = drawing.labels.flatMap(({ parts }) => parts.map(({ text }) => text));
    const printed = words.find((text) => text.startsWith('width drawn'));
    const larger = Number(/([\d.]+)$/.exec(printed ?? '')?.[1]);
    // The strip is drawn 100 px wide.
    expectNear(larger, 100 / landing.ground.widthM / (at(1) - at(0)), 0.051);
  });
});

describe('the logbook', () => {
  test('[DRAW20] bars share one metre scale', () => {
    const { bars } = logbookOf(logbook, { stripId: 'ternholm', designator: '25' });
    const lengths = bars.bars.slice(0, 8).map((bar) => {
      const markup = templateText(landingBar(bar, bars.longestM, 310).inside);
      const [, from, to] = /class="grass" d="M([\d.]+) [\d.]+L([\d.]+)/.exec(markup) ?? [];
      return (Number(to) - Number(from)) / (bar.ldaM ?? NaN);
    });
    for (const each of lengths) expectNear(each, lengths[0], 0.001, 'pixels for a metre');
    expect(new Set(bars.bars.map(({ ldaM }) => ldaM)).size).toBeGreaterThan(2);
  });

  test('[DRAW25] a pass that was lowest off its bar has an arrow at that edge, and says where', () => {
    const { bars } = logbookOf(logbook, { stripId: 'ternholm', designator: '25' });
    const passes = bars.bars.filter(({ lowestM }) => lowestM !== null);
    const arrowOf = (bar: (typeof passes)[number], widthPx = 310): string | null => {
      const markup = templateText(landingBar(bar, bars.longestM, widthPx).inside);
      return markup.includes('edge-arrow') ? pathOf(markup, 'mark-line edge-arrow') : null;
    };
    const far = passes.filter(({ lowestM }) => (lowestM ?? 0) < -0.14 * bars.longestM);
    expect(far.length).toBeGreaterThan(1);
    expect(far.length).toBeLessThan(passes.length);
    for (const bar of passes) {
      expect(bar.spoken).toMatch(/lowest \d+\u00a0m (before|past) the threshold/);
      expect(arrowOf(bar) !== null).toBe(far.includes(bar));
    }
    // The tip, the middle point of the three, lies at the edge.
    expect(arrowOf(far[0])).toMatch(/^M7 [\d.]+L1 [\d.]+L7 [\d.]+$/);
    const beyond = { ...far[0], lowestM: bars.longestM + 200 };
    expect(arrowOf(beyond)).toMatch(/^M303 [\d.]+L309 [\d.]+L303 [\d.]+$/);
  });

  test('[DRAW21] a bar at an unknown place is empty', () => {
    const { bars } = logbookOf(logbook, { stripId: 'ternholm', designator: '25' });
    const nowhere = { ...bars.bars[0], stripId: null, ldaM: null };
    expect(templateText(landingBar(nowhere, bars.longestM, 310).inside)).toBe('');
  });

  test('[DRAW22] the mown field has a column for each landing, oldest left', () => {
    const { field } = logbookOf(logbook, { stripId: 'ternholm', designator: '25' });
    const markup = templateText(mownField(field, 420).inside);
    const columns = [...markup.matchAll(/class="swathe swathe-thin" d="M([\d.]+)/g)];
    expect(columns).toHaveLength(field.columns.length);
    const xs = columns.map(([, x]) => Number(x));
    expect(xs).toEqual(xs.toSorted((a, b) => a - b));
  });
});

describe('the tape of ratios', () => {
  test('[DRAW30] has a row for each landing and no published line for a roll', () => {
    const whole = factorOf(logbook, 'marram-160');
    const roll = factorOf(logbook, 'marram-160', 'landing-roll');
    const count = (markup: string, name: string): number =>
      markup.split(`class="${name}"`).length - 1;
    const [drawnWhole, drawnRoll] = [whole, roll].map((each) =>
      templateText(ratioTape(each, 780).inside),
    );
    expect(count(drawnWhole, 'dot')).toBe(whole.counted.length);
    expect(count(drawnWhole, 'bar-90')).toBe(whole.counted.length);
    expect(count(drawnWhole, 'planned-line')).toBe(1);
    expect(count(drawnRoll, 'planned-line')).toBe(0);
    expect(count(drawnRoll, 'own-line')).toBe(1);
  });

  test('[DRAW31] shows dots and the line of 1.00 only where landings are too few', () => {
    const picture = factorOf(logbook, 'eelgrass-450');
    expect(picture.tooFew).not.toBeNull();
    const { inside, labels } = ratioTape(picture, 780);
    const markup = templateText(inside);
    for (const absent of ['own-line', 'planned-line', 'heap', 'bar-90', 'bar-50']) {
      expect(markup, absent).not.toContain(`class="${absent}"`);
    }
    expect(markup).toContain('class="expected-line"');
    const words = labels.flatMap(({ parts }) => parts.map(({ text }) => text)).join(' ');
    expect(words).toContain('too few landings');
    expect(words).toContain('over half the strip was left');
  });
});

describe('the plan', () => {
  test('[DRAW40] puts the cursor on the track, and none where the track was not', () => {
    const picture = circuitOf(flight, 2);
    const middle = picture.trackTimeS[Math.floor(picture.trackTimeS.length / 2)];
    const at = (timeS: number): string =>
      templateText(circuitPlan(picture, 400, { at: timeS, readOut: [] }).inside);
    expect(at(middle)).toContain('class="plumb"');
    expect(at(middle - 86_400)).not.toContain('class="plumb"');
    expect(at(middle + 86_400)).not.toContain('class="plumb"');
  });
});

/** Rounded to tenths of a pixel already; one element a line, so that a change can be read. */
function snapshot({ inside, labels, width, height }: Drawing): string {
  const words = labels.map(({ x, y, anchor, parts }) => {
    const text = parts.map((part) => part.text).join('|');
    return `${x.toFixed(1)} ${y.toFixed(1)} ${anchor} ${text}`;
  });
  const lines = templateText(inside)
    .replace(/\s*\n\s*/g, '')
    .replace(/></g, '>\n<');
  return `${width} x ${height}\n${lines}\n${words.join('\n')}\n`;
}

describe('drawings kept for review', () => {
  const kept: Readonly<Record<string, () => Drawing>> = {
    'ruler-756': () => stripRuler(landing, 756),
    'ruler-358': () => stripRuler(landing, 358),
    'flight-line-756': () =>
      flightLine(flightLinePicture(flight, USUAL_UNITS), 756, { chosen: 'approach-2' }),
    'plan-358': () => circuitPlan(circuitOf(flight, 2), 358),
    'chance-358': () => chanceHeap(chanceOf(flight, 2), 358),
    'field-358': () =>
      mownField(logbookOf(logbook, { stripId: 'sedge', designator: '20' }).field, 358),
    'ratios-358': () => ratioTape(factorOf(logbook, 'marram-160'), 358),
    'in-order-756': () => individualsChart(determined(individualsOf(logbook, 'marram-160')), 756),
  };

  test.each(Object.entries(kept))('[DRAW50] %s is drawn as it was', async (name, draw) => {
    await expect(snapshot(draw())).toMatchFileSnapshot(`output/${name}.txt`);
  });
});

describe('gates in the panel of speeds', () => {
  test('[PG27] bars and posts lie at their speeds on the axis drawn', async () => {
    const limited = await limitedFlightOf('2024-04-20-first-circuits-ternholm.gpx');
    const picture = finalOf(limited, 0);
    const drawing = heightAndSpeed(picture, 756);
    const foot = drawing.labels.find(({ parts }) => parts[0].text === '0\u00a0kt');
    const forty = drawing.labels.find(
      ({ x, y, parts }) => parts[0].text === '40' && x === foot?.x && y < foot.y,
    );
    if (!foot || !forty) throw new Error('no axis of speeds');
    const knotsAt = (y: number): number => ((foot.y - 5 - y) / (foot.y - forty.y)) * 40;
    const markup = templateText(drawing.inside);
    const bars = [...markup.matchAll(/class="bar-90" d="M[\d.]+ ([\d.]+)V([\d.]+)"/g)];
    const drawn = picture.gates.filter(({ airspeed, alongM }) => airspeed && alongM >= -620);
    expect(bars).toHaveLength(drawn.length);
    bars.forEach(([, low, high], k) => {
      const { airspeed } = drawn[k];
      expectNear(knotsAt(Number(low)), ((airspeed?.low ?? NaN) * 3600) / 1852, 0.3);
      expectNear(knotsAt(Number(high)), ((airspeed?.high ?? NaN) * 3600) / 1852, 0.3);
    });
    // The limits entered: 54 to 58 kt.
    const posts = /class="mark-line" d="M[\d.]+ ([\d.]+)H[\d.]+M[\d.]+ ([\d.]+)H/.exec(
      markup.slice(markup.indexOf('class="bar-90"') - 400),
    );
    expectNear(knotsAt(Number(posts?.[1])), 54, 0.3);
    expectNear(knotsAt(Number(posts?.[2])), 58, 0.3);
  });
});
