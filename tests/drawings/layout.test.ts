/** Drawings are laid out soundly at every width, from real demo flights. */
import { html, svg } from 'lit';
import { beforeAll, describe, expect, test } from 'vitest';
import { drawingFigure, type Drawing } from '../../src/app/drawings/drawing.ts';
import { standingRuler } from '../../src/app/drawings/strip-ruler-standing.ts';
import { approachOf, flightOf } from './demo-pictures.ts';
import { faultsOf } from './drawing-faults.ts';
import { everyDrawing, WIDTHS, type NamedDrawing } from './every-drawing.ts';
import { templateText } from './template-text.ts';

let drawings: NamedDrawing[] = [];

beforeAll(async () => {
  drawings = await everyDrawing();
});

describe('every drawing', () => {
  test.for(WIDTHS)(
    '[DRAW1] at %i px keeps its words apart, on the canvas and readable',
    (width) => {
      expect(drawings.length).toBeGreaterThan(60);
      const faults = drawings.flatMap(({ name, draw }) =>
        faultsOf(draw(width)).map((fault) => `${name}: ${fault}`),
      );
      expect(faults).toEqual([]);
    },
  );

  test.for(WIDTHS)('[DRAW2] at %i px is as wide as it was asked to be', (width) => {
    const wrong = drawings
      .filter(({ name }) => !name.startsWith('bar'))
      .map(({ name, draw }) => ({ name, drawn: draw(width).width }))
      .filter(({ drawn }) => drawn !== width);
    expect(wrong).toEqual([]);
  });

  test('[DRAW3] is a figure with a sentence that is read out, and a table behind it', () => {
    for (const { name, picture, draw } of drawings) {
      const markup = templateText(drawingFigure(draw(756), picture, name));
      expect(markup).toContain('<figure class="drawing-figure" aria-label="');
      expect(markup).toMatch(/<svg[^>]*role="(img|group)"[^>]*aria-label="[^"]{10,}"/s);
      expect(markup.match(/<th scope="row">/g)?.length ?? 0).toBe(picture.rows.length);
      if (!name.startsWith('bar')) expect(picture.rows.length, name).toBeGreaterThan(0);
    }
  });

  test('[DRAW4] colours by class only: no style attribute, no colour of its own', () => {
    for (const { name, draw } of drawings) {
      const markup = templateText(draw(358).inside);
      expect(markup, name).not.toMatch(/ style=| fill="| stroke="|#[0-9a-f]{3,6}/i);
    }
  });
});

describe('the checker', () => {
  const sound: Drawing = {
    width: 200,
    height: 100,
    inside: svg`<path d="M0 0L200 100"/>`,
    labels: [{ x: 10, y: 50, anchor: 'start', parts: [{ text: 'threshold' }] }],
  };
  const labelled = (...labels: Drawing['labels']): string[] => faultsOf({ ...sound, labels });

  test('[DRAW5] passes a sound drawing and reports each fault', () => {
    expect(faultsOf(sound)).toEqual([]);
    const [first] = sound.labels;
    expect(labelled(first, { ...first, x: 40 })[0]).toMatch(/lies over/);
    expect(labelled({ ...first, x: 190 })[0]).toMatch(/lies off/);
    expect(labelled({ ...first, parts: [{ text: 'small', size: 12 }] })[0]).toMatch(/12 px/);
    expect(faultsOf({ ...sound, inside: svg`<path d="M0 0H230"/>` })[0]).toMatch(/runs off/);
    expect(faultsOf({ ...sound, inside: svg`<path d=${`M0 NaN`}/>` })).toContain(
      'a number is missing',
    );
    expect(faultsOf({ ...sound, inside: svg`<text>loose</text>` })).toHaveLength(1);
  });
});

describe('a template as text', () => {
  test('[DRAW6] is escaped, nested and without listeners', () => {
    const inner = svg`<path class=${'a&b'} d="M0 0"/>`;
    const text = templateText(
      html`<p @click=${() => undefined} ?hidden=${true}>${inner}<b>${'<'}</b></p>`,
    );
    expect(text).toBe('<p hidden=""><path class="a&amp;b" d="M0 0"/><b>&lt;</b></p>');
    expect(() => templateText({})).toThrow(/cannot hold/);
    expect(() => templateText(svg`<path x=${NaN}/>`)).toThrow(/NaN/);
  });
});

test.for([288, 358])(
  '[DRAW51] at %i px the ring of a place put by hand stands clear of its words',
  async (width) => {
    const flight = await flightOf('2025-09-21-last-dry-day-sedge.gpx');
    const last = flight.events.approaches.length - 1;
    const measured = approachOf(flight, last, { ownRollFactor: 1.55 });
    const places = measured.places.map((place) => ({ ...place, wasM: place.atM - 30 }));
    const picture = { ...measured, places };
    expect(picture.rods.length).toBe(3);
    const { labels, inside } = standingRuler(picture, width, null);
    const rings = [...templateText(inside).matchAll(/<circle class="mark-line" cx="?([\d.]+)/g)];
    expect(rings.length).toBe(places.length);
    const ringLeft = Math.min(...rings.map(([, x]) => Number(x))) - 5;
    const words = labels.filter(({ anchor }) => anchor === 'end').map(({ x }) => x);
    expect(words.length).toBeGreaterThan(3);
    expect(Math.max(...words)).toBeLessThan(ringLeft - 1);
    expect(faultsOf(standingRuler(picture, width, null))).toEqual([]);
  },
);
