/**
 * On paper: how many pages, what stands on them, and that nothing lies over anything.
 */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { bringFiles, emptyLogbook, expectQuiet, openPage, useBrowser } from './open-page.ts';
import { sampleFlight } from './sample.ts';

useBrowser();

test('[PG67] prints a visit, in and out, on two pages, with its caution and no print under 9 points', async () => {
  const watched = await openPage({ hash: '#/visit' });
  const { page } = watched;
  await page.getByLabel('Strip', { exact: true }).selectOption({ label: 'Ternholm' });
  await page.getByLabel('Landing', { exact: true }).selectOption('25');
  await page.getByLabel('Taking off', { exact: true }).selectOption('25');
  await page.getByLabel('Day', { exact: true }).fill('2025-10-05');
  const form = page.locator('wr-conditions-form');
  await form.getByLabel('Wind from').fill('260');
  await form.getByLabel(/^Wind speed/).fill('8');
  await form.getByRole('radio', { name: /true/i }).first().check();
  await form.getByLabel(/Temperature/).fill('19');
  await form.getByLabel(/Mass at landing/).fill('900');
  await form.getByLabel(/Surface/).selectOption('grass-dry');
  await form.getByLabel(/Aeroplane/).selectOption('marram-160');
  await form.getByRole('button', { name: 'Predict' }).click();
  await page.getByRole('heading', { name: /^In: plan/ }).waitFor();
  expect(await page.locator('.paper-notes').isVisible()).toBe(false);
  expect(await printed(page)).toEqual({ pages: 2, small: [] });
  // Every line of the working has a note, and each note is there.
  const numbers = await page.locator('.note-number').allInnerTexts();
  const notes = await page.locator('.paper-notes li').count();
  expect(numbers.length).toBeGreaterThan(15);
  expect(new Set(numbers).size).toBe(notes);
  expect(await page.locator('.caution-line').isVisible()).toBe(true);
  expect(await page.locator('.why-row').first().isVisible()).toBe(false);
  expectQuiet(watched);
});

test('[PG62] prints an approach on two pages, drawings on the first, tables and working on the second, with the caution and no print under 9 points', async () => {
  const watched = await openPage({ hash: '#/debrief' });
  const { page } = watched;
  await page.locator('wr-debrief-sheet h1').waitFor();
  expect(await page.locator('.paper-chains, .pen-line').count()).toBe(0);
  expect(await printed(page)).toEqual({ pages: 2, small: [] });
  expect(await page.locator('.caution-line').isVisible()).toBe(true);
  expect(await page.locator('.plumb-slider').isVisible()).toBe(false);
  await layOutForPaper(page);
  // Both chains, each step with what it gives; the published distance first, the plan last.
  const chains = page.locator('.paper-chains table');
  expect(await chains.locator('caption').allInnerTexts()).toEqual([
    'Expected, no safety factor',
    'Planned, by the published rules',
  ]);
  const steps = await chains.nth(1).locator('tr').allInnerTexts();
  expect(steps.length).toBeGreaterThan(3);
  expect(steps[0]).toMatch(/^handbook distance/);
  expect(steps.at(-1)).toMatch(/^planned ground roll/);
  expect(await page.locator('.pen-line').count()).toBeGreaterThan(3);
  const breaks = (selector: string): Promise<string> =>
    page.locator(selector).evaluate((each) => getComputedStyle(each).breakBefore);
  expect(await breaks('.final-gates')).toBe('page');
  expect(await breaks('.debrief-tables')).toBe('auto');
  expectQuiet(watched);
});

test('[PG62] prints a take-off, and a landing at a place nobody has kept, on one page', async () => {
  const watched = await openPage({ hash: '#/debrief' });
  const { page } = watched;
  await page.locator('wr-debrief-sheet h1').waitFor();
  await page
    .getByRole('button', { name: /take-off/ })
    .first()
    .click();
  await page.getByRole('heading', { name: /^Ran / }).waitFor();
  expect(await printed(page)).toEqual({ pages: 1, small: [] });
  await page.emulateMedia({ media: null });
  await page.goto(`${new URL(page.url()).origin}/#/logbook`);
  await emptyLogbook(watched);
  await bringFiles(page, [sampleFlight('2024-04-20-first-circuits-ternholm.gpx')]);
  await page.getByRole('link', { name: 'see the debrief' }).click();
  await page.getByRole('figure', { name: 'The roll' }).waitFor();
  expect(await printed(page)).toEqual({ pages: 1, small: [] });
  expect(await page.locator('.caution-line').isVisible()).toBe(true);
  expectQuiet(watched);
});

test('[PG62] lets no head stand alone at the foot of a page', async () => {
  const watched = await openPage({ hash: '#/factor' });
  const { page } = watched;
  await page.getByRole('heading', { name: /^Where the wheels touched/ }).waitFor();
  await page.emulateMedia({ media: 'print' });
  const kept = await page
    .locator('.section-head:visible, .working-head:visible')
    .evaluateAll((heads) => heads.map((head) => getComputedStyle(head).breakAfter));
  expect(kept.length).toBeGreaterThan(5);
  expect(new Set(kept)).toEqual(new Set(['avoid']));
  expectQuiet(watched);
});

test('[PG75] prints the logbook in one column, every landing of it, no control and no text over another', async () => {
  for (const width of [1280, 390]) {
    const watched = await openPage({ width });
    const { page } = watched;
    await page.getByRole('button', { name: /^Show all/ }).waitFor();
    const all = Number(
      /\d+/.exec(await page.getByRole('button', { name: /^Show all/ }).innerText()),
    );
    expect(all).toBeGreaterThan(24);
    await layOutForPaper(page);
    await expect.poll(() => page.locator('.landings tbody tr').count()).toBe(all);
    expect(await page.locator('button:visible, select:visible, input:visible').count()).toBe(0);
    const list = await page.locator('wr-landing-list').boundingBox();
    const field = await page.locator('wr-strip-field').boundingBox();
    if (!list || !field) throw new Error('the list or the field is not there');
    expect(list.width).toBeGreaterThan(600);
    expect(field.y).toBeGreaterThanOrEqual(list.y + list.height);
    expect(await textOverText(page)).toEqual([]);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    await page.emulateMedia({ media: null });
    await expect.poll(() => page.locator('.landings tbody tr').count()).toBe(24);
    const { pages, small } = await printed(page);
    expect(small).toEqual([]);
    expect(pages).toBeLessThanOrEqual(3);
    expectQuiet(watched);
  }
});

/** The page as the browser lays it out before a print: A4 less its margins. */
async function layOutForPaper(page: Page): Promise<void> {
  await page.setViewportSize({ width: 703, height: 1062 });
  await page.emulateMedia({ media: 'print' });
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
}

/** How many pages of A4 it prints on, and every text on them that is smaller than 9 points (12 px). */
async function printed(page: Page): Promise<{ pages: number; small: string[] }> {
  const pdf = (await page.pdf({ format: 'A4', preferCSSPageSize: true })).toString('latin1');
  await page.emulateMedia({ media: 'print' });
  const small = await page.evaluate(() => {
    const found: string[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const text = node.textContent?.trim() ?? '';
      const parent = node.parentElement;
      if (text === '' || !parent?.checkVisibility()) continue;
      if (parent.closest('.visually-hidden, .twin, style, script')) continue;
      const px = parseFloat(getComputedStyle(parent).fontSize);
      if (px < 11.99) found.push(`${px} px: ${text.slice(0, 40)}`);
    }
    return found;
  });
  return { pages: pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0, small };
}

/** Pairs of printed texts that lie over each other by more than a pixel. */
async function textOverText(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const all: { text: string; box: DOMRect }[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const text = node.textContent?.trim() ?? '';
      const parent = node.parentElement;
      if (text === '' || !parent?.checkVisibility()) continue;
      if (parent.closest('.visually-hidden, .skip, .twin, style, script')) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) all.push({ text, box });
    }
    if (all.length < 100) return [`only ${all.length} texts were found`];
    return all.flatMap(({ text, box }, k) =>
      all
        .slice(k + 1)
        .filter(
          (other) =>
            Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left) > 1 &&
            Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top) > 1,
        )
        .map((other) => `${text} over ${other.text}`),
    );
  });
}
