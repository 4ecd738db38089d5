/** A double click of a hand, 150 ms apart, on what removes or keeps: it happens once. */
import type { Locator, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { expectQuiet, openPage, useBrowser } from './open-page.ts';

useBrowser();

async function clickTwice(page: Page, button: Locator): Promise<void> {
  await button.scrollIntoViewIfNeeded();
  const box = await button.boundingBox();
  if (!box) throw new Error('the button has no place');
  const at = [box.x + box.width / 2, box.y + box.height / 2] as const;
  await page.mouse.click(...at);
  await page.waitForTimeout(150);
  // As the browser counts it: the second of a double click.
  await page.mouse.down({ clickCount: 2 });
  await page.mouse.up({ clickCount: 2 });
  await page.waitForTimeout(1500);
}

test('[PG33] on the remove of a flight takes that flight out, and not the one that moved up', async () => {
  const watched = await openPage();
  const { page } = watched;
  const flights = page.locator('button[aria-label^="Remove the flight"]');
  const names = (): Promise<(string | null)[]> =>
    flights.evaluateAll((all) => all.map((each) => each.getAttribute('aria-label')));
  await page.getByRole('button', { name: /Show all/ }).click();
  const before = new Set(await names());
  const days = (all: Iterable<string | null>): Set<string> =>
    new Set([...all].map((name) => (name ?? '').replace(/ \d\d:\d\d$/, '')));
  await clickTwice(page, flights.first());
  expect(days(await names()).size).toBe(days(before).size - 1);
  expectQuiet(watched);
});

test('[PG33] on the remove of a remark takes one remark out', async () => {
  const watched = await openPage();
  const { page } = watched;
  await page.getByRole('button', { name: /Show all/ }).click();
  await page.getByRole('link', { name: /debrief: 20 Apr 2024 09:49/ }).click();
  await page.locator('wr-debrief-sheet h1').waitFor();
  for (const text of ['one', 'two', 'three']) {
    await page.getByLabel('Write a remark').fill(text);
    await page.getByRole('button', { name: 'Keep the remark' }).click();
    await page.getByRole('button', { name: `Remove the remark: ${text}` }).waitFor();
  }
  await clickTwice(page, page.getByRole('button', { name: 'Remove the remark: one' }));
  expect(await page.locator('ul.remarks li i').allInnerTexts()).toEqual(['two', 'three']);
  expectQuiet(watched);
});
