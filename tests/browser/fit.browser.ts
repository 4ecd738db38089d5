/**
 * Fit for use: every room at three widths in both themes without a fault that axe knows, without
 * sideways scrolling; units, offline.
 */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { emptyLogbook, expectQuiet, openPage, useBrowser, watch } from './open-page.ts';
import { violations } from './axe-violations.ts';

useBrowser();

const ROOMS = ['logbook', 'debrief', 'side', 'factor', 'visit', 'strips', 'aeroplanes', 'settings'];

async function room(page: Page, name: string): Promise<void> {
  await page.goto(`${page.url().replace(/#.*/, '')}#/${name}`);
  await page.locator('h1.sentence').first().waitFor();
  // Drawings wait for their width to be measured.
  await page.waitForTimeout(150);
}

describe.each([1280, 820, 390])('at %i pixels', (width) => {
  test('[PG60] every room is clean, light and dark', async () => {
    const watched = await openPage({ width });
    const { page } = watched;
    for (const name of ROOMS) {
      await room(page, name);
      for (const [theme, of] of [
        ['light', 'all'],
        ['dark', 'colours'],
      ] as const) {
        await page.emulateMedia({ colorScheme: theme });
        const found = await violations(page, of);
        expect({ name, theme, found }).toEqual({ name, theme, found: [] });
      }
      const over = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect({ name, over }).toEqual({ name, over: 0 });
    }
    expectQuiet(watched);
  });
});

test('[PG69] between those widths nothing scrolls sideways, and the list stays in its column', async () => {
  const watched = await openPage({ width: 620 });
  const { page } = watched;
  for (const width of [620, 700, 900, 1024, 1180]) {
    await page.setViewportSize({ width, height: 900 });
    for (const name of ROOMS) {
      await room(page, name);
      const over = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect({ name, width, over }).toEqual({ name, width, over: 0 });
      if (name !== 'logbook') continue;
      const list = await page.locator('wr-landing-list').boundingBox();
      const table = await page.locator('.landings').boundingBox();
      expect({ width, wide: table?.width }).toEqual({ width, wide: list?.width });
    }
  }
  expectQuiet(watched);
});

test('[PG61] the empty logbook and its rooms are clean too', async () => {
  const watched = await openPage({ width: 390 });
  const { page } = watched;
  await emptyLogbook(watched);
  for (const name of ROOMS) {
    await room(page, name);
    expect({ name, found: await violations(page) }).toEqual({ name, found: [] });
  }
  expectQuiet(watched);
});

test('[PG65] forms, wrong entries and single events are clean too', async () => {
  const watched = await openPage({ width: 820 });
  const { page } = watched;
  const clean = async (name: string): Promise<void> => {
    expect({ name, found: await violations(page) }).toEqual({ name, found: [] });
  };
  await page.getByLabel('Choose files').setInputFiles({
    name: 'letter.gpx',
    mimeType: 'application/gpx+xml',
    buffer: Buffer.from('no track'),
  });
  await page.getByText('1 file looked at').waitFor();
  await clean('a file not taken in');
  for (const name of [
    'strips/new',
    'strips/ternholm',
    'aeroplanes/marram-160',
    'factor/eelgrass-450/landing-roll',
  ]) {
    await room(page, name);
    await clean(name);
  }
  await room(page, 'aeroplanes/new');
  await page.getByRole('button', { name: 'Save the aeroplane' }).click();
  await page.getByText(/fields need another look/).waitFor();
  await clean('wrong entries');
  await room(page, 'debrief');
  await page
    .getByRole('button', { name: /take-off, / })
    .first()
    .press('Enter');
  await page.getByRole('heading', { name: /^Ran / }).waitFor();
  await clean('a take-off');
  await page.getByRole('button', { name: 'Change', exact: true }).click();
  await page.locator('wr-conditions-form').waitFor();
  await clean('conditions');
  for (const found of await page.locator('details.found').all())
    await found.locator('summary').click();
  await clean('how it was found');
  expectQuiet(watched);
});

test('[PG66] opened paste fields are clean, read and refused', async () => {
  const watched = await openPage({ width: 390 });
  const { page } = watched;
  const clean = async (
    name: string,
    themes: readonly ('light' | 'dark')[] = ['light'],
  ): Promise<void> => {
    for (const theme of themes) {
      await page.emulateMedia({ colorScheme: theme });
      expect({ name, theme, found: await violations(page) }).toEqual({ name, theme, found: [] });
    }
    const over = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect({ name, over }).toEqual({ name, over: 0 });
  };
  const paste = async (label: RegExp, text: string, said: RegExp): Promise<void> => {
    await page.getByLabel(label).first().fill(text);
    await page
      .getByRole('button', { name: /^Read it/ })
      .first()
      .click();
    await page.getByText(said).first().waitFor();
  };
  await room(page, 'visit');
  await page.getByText('Paste a METAR').click();
  await clean('METAR, opened');
  await paste(/^METAR/, 'XXDL 101630Z 32007G18KT CAVOK 15/05 Q1027', /not the strip's own wind/);
  await clean('METAR, read');
  await paste(/^METAR/, 'XXDL 101630Z 99007KT 15/05 Q1027', /expected/);
  await clean('METAR, refused', ['dark']);
  await page.getByText('Own limits for the final').click();
  await page.getByLabel('Airspeed, least').fill('50');
  await page.getByRole('button', { name: 'Predict' }).click();
  await page.getByText('found nothing, expected both ends').waitFor();
  await clean('limits, refused');
  await room(page, 'aeroplanes/marram-160');
  await page.getByText('Paste it from a spreadsheet').first().click();
  await clean('table, opened');
  await paste(/, pasted$/, 'altitude (ft);temperature (°C);850 kg\n0;15;310\n', /Read 1 distance/);
  await clean('table, read');
  await paste(/, pasted$/, 'ft\t0\t15\n0\t120\tabout 130', /expected/);
  await clean('table, refused', ['dark', 'light']);
  expectQuiet(watched);
});

test('[PG63] works offline after the first visit', async () => {
  const { page, context } = await openPage({ serviceWorker: true });
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await context.setOffline(true);
  const faults = watch(page);
  await page.reload();
  await page.getByRole('heading', { name: /landings at/ }).waitFor();
  await room(page, 'debrief');
  await page.locator('wr-debrief-sheet h1').waitFor();
  // A room that is loaded only when it is opened.
  await room(page, 'visit');
  await page.getByLabel('Strip', { exact: true }).waitFor();
  expect(faults).toEqual([]);
});

test('[PG64] reaches the rooms by key alone, with a visible focus', async () => {
  const watched = await openPage();
  const { page } = watched;
  await page.keyboard.press('Tab');
  expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('To the page');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.locator('wr-debrief-sheet h1').waitFor();
  const outline = await page.evaluate(() => {
    const link = document.querySelector<HTMLElement>('.rooms-wide a');
    link?.focus();
    return link ? getComputedStyle(link).outlineStyle : '';
  });
  expect(outline).toBe('solid');
  expectQuiet(watched);
});

describe('on a phone', () => {
  test('[PG36] each figure of the list says what it is, and each row its year', async () => {
    const watched = await openPage({ width: 390 });
    const { page } = watched;
    const rows = page.locator('.landings tbody tr', { has: page.locator('[data-label]') });
    expect(await rows.count()).toBeGreaterThan(10);
    for (const row of await rows.all()) {
      const names = await row
        .locator('.figure-cell')
        .evaluateAll((cells) => cells.map((cell) => getComputedStyle(cell, '::before').content));
      expect(names.slice(0, 2)).toEqual(['"roll"', '"left"']);
      expect(await row.locator('.clock').innerText()).toMatch(/^20\d\d \d\d:\d\d$/);
    }
    expectQuiet(watched);
  });

  test('[DN3] limits stand above the gates, verdicts and figures each in one column', async () => {
    const watched = await openPage({ width: 390, hash: '#/debrief' });
    const { page } = watched;
    await page.locator('.gate-verdict').first().waitFor();
    expect(await page.locator('.narrow-only').innerText()).toMatch(/^Limits: airspeed, estimated /);
    const ends = (selector: string, side: 'left' | 'right'): Promise<number[]> =>
      page
        .locator(`.gate-table ${selector}`)
        .evaluateAll(
          (all, which) => all.map((each) => Math.round(each.getBoundingClientRect()[which])),
          side,
        );
    const verdicts = await ends('.gate-verdict', 'left');
    expect(verdicts.length).toBeGreaterThan(4);
    expect(new Set(verdicts).size).toBe(1);
    const figures = await ends('.gate-figure', 'right');
    expect(figures.length).toBeGreaterThan(verdicts.length);
    expect(new Set(figures).size).toBe(1);
    // The block of conditions is as wide as what stands under it.
    const block = await page.locator('.title-block').boundingBox();
    const table = await page.locator('.gate-table').boundingBox();
    expect(Math.round(block?.width ?? NaN)).toBe(Math.round(table?.width ?? 0));
    expectQuiet(watched);
  });
});

test.each([820, 1280])(
  '[PG68] rows of aeroplanes share their columns at %i pixels',
  async (width) => {
    const watched = await openPage({ width, hash: '#/aeroplanes' });
    const { page } = watched;
    const rows = page.locator('.plane-row');
    await rows.first().waitFor();
    const lefts = await rows.evaluateAll((all) =>
      all.map((row) =>
        [...row.children].map((cell) => Math.round(cell.getBoundingClientRect().left)),
      ),
    );
    expect(lefts.length).toBeGreaterThan(1);
    expect(lefts[0]).toHaveLength(3);
    expect(new Set(lefts[0]).size).toBe(3);
    for (const row of lefts) expect(row).toEqual(lefts[0]);
    expectQuiet(watched);
  },
);
