/**
 * Colours can be told from what they lie on.
 *
 * Source: W3C, WCAG 2.2, success criteria 1.4.3 (text 4.5:1) and 1.4.11 (marks 3:1), with its
 * definitions of contrast ratio and relative luminance; formula from memory.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { expectNear } from '../expect-near.ts';

const CSS = readFileSync('src/app/styles/tokens.css', 'utf8');

/** Colours of the first rule whose selector follows `after`. */
function coloursAfter(after: string): Readonly<Record<string, string>> {
  const start = CSS.indexOf(after);
  if (start < 0) throw new Error(`no rule ${after}`);
  const open = CSS.indexOf('{', start + after.length - 1);
  const block = CSS.slice(open, CSS.indexOf('}', open));
  return Object.fromEntries(
    [...block.matchAll(/--([a-z0-9]+): (#[0-9a-f]{3,6});/g)].map(([, name, hex]) => [name, hex]),
  );
}

const THEMES = {
  light: coloursAfter(':root {'),
  dark: coloursAfter(":root[data-theme='dark'] {"),
  print: coloursAfter(":root,\n  :root[data-theme='dark'] {"),
};

function luminance(hex: string): number {
  const long = hex.length === 4 ? hex.replaceAll(/[0-9a-f]/g, '$&$&') : hex;
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = parseInt(long.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

describe('the formula', () => {
  test('[TOKEN1] gives 21 for black on white and 4.48 for #777 on white', () => {
    expectNear(contrast('#000', '#fff'), 21, 1e-9);
    expectNear(contrast('#777777', '#ffffff'), 4.48, 0.005);
  });
});

describe.each(Object.entries(THEMES))('colours of the %s theme', (theme, colours) => {
  const ratio = (of: string, on: string): number => {
    expect(colours, `${theme} ${of} on ${on}`).toHaveProperty(of);
    expect(colours).toHaveProperty(on);
    return contrast(colours[of], colours[on]);
  };

  test.each(['ink', 'ink2', 'measured', 'expected', 'planned', 'own', 'caution'])(
    '[TOKEN2] %s is read on paper and on a sheet',
    (role) => {
      expect(ratio(role, 'ground')).toBeGreaterThanOrEqual(4.5);
      expect(ratio(role, 'sheet')).toBeGreaterThanOrEqual(4.5);
    },
  );

  test('[TOKEN3] figures are read on swathe, tape and grass', () => {
    expect(ratio('onswathe', 'swathe')).toBeGreaterThanOrEqual(4.5);
    expect(ratio('tapeink', 'tape')).toBeGreaterThanOrEqual(4.5);
    expect(ratio('ink', 'grass')).toBeGreaterThanOrEqual(4.5);
    expect(ratio('ink', 'mown')).toBeGreaterThanOrEqual(4.5);
  });

  test('[TOKEN4] marks and edges are seen on what they lie on', () => {
    for (const role of ['edge', 'hedge', 'expected', 'planned', 'own', 'caution', 'measured']) {
      expect(ratio(role, 'ground'), role).toBeGreaterThanOrEqual(3);
    }
    // Planned marks on light grass have less, and a rim of the paper's colour instead.
    for (const role of ['expected', 'own', 'caution', 'measured', 'ink']) {
      expect(ratio(role, 'grass'), role).toBeGreaterThanOrEqual(3);
    }
    expect(ratio('swathe', 'mown')).toBeGreaterThanOrEqual(1.5);
  });
});

describe('the dark theme', () => {
  test('[TOKEN5] is the same whether the machine or the pilot asks for it', () => {
    const asked = coloursAfter(":root:not([data-theme='light']) {");
    expect(Object.keys(asked).length).toBeGreaterThan(15);
    expect(asked).toEqual(THEMES.dark);
    expect(Object.keys(THEMES.light).sort()).toEqual(Object.keys(THEMES.dark).sort());
    expect(Object.keys(THEMES.print).sort()).toEqual(Object.keys(THEMES.light).sort());
  });
});

describe('the style sheet of drawings', () => {
  test('[TOKEN6] takes every colour from the tokens', () => {
    const css = readFileSync('src/app/styles/drawings.css', 'utf8');
    expect(css).not.toMatch(/#[0-9a-f]{3,6}\b|rgb|hsl|oklch/i);
    const known = new Set([...Object.keys(THEMES.light), 'series', 'sans', 'serif']);
    const used = [...css.matchAll(/var\(--([a-z0-9]+)\)/g)].map(([, name]) => name);
    expect(used.length).toBeGreaterThan(50);
    expect(used.filter((name) => !known.has(name))).toEqual([]);
  });
});
