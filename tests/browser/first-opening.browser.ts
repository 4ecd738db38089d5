/**
 * The first opening: the demonstration, marked, taken away with one action and brought back with one.
 */
import { expect, test } from 'vitest';
import { ROOMS } from '../../src/app/route.ts';
import { expectQuiet, openPage, useBrowser } from './open-page.ts';

useBrowser();

test('[PG1] shows the demonstration at the first opening, marked as invented', async () => {
  const watched = await openPage();
  const { page } = watched;
  await page.getByRole('heading', { name: /^\d+ landings at four strips/ }).waitFor();
  expect(await page.getByText('Demo logbook, all invented').count()).toBe(1);
  expect(await page.locator('.landings tbody tr').count()).toBeGreaterThan(20);
  expectQuiet(watched);
});

test('[PG1] marks it on every room at every width, also on a phone', async () => {
  const watched = await openPage();
  const { page } = watched;
  for (const width of [1280, 820, 699, 390, 320]) {
    await page.setViewportSize({ width, height: 900 });
    for (const { id } of ROOMS) {
      await page.goto(`${page.url().replace(/#.*/, '')}#/${id}`);
      await page.locator(`main.room-${id} h1.sentence`).waitFor();
      const mark = page.locator('.demo-mark');
      expect({ width, id, isSeen: await mark.isVisible() }).toEqual({ width, id, isSeen: true });
      expect(await mark.innerText()).toBe('Demo logbook, all invented');
      // Once is enough.
      expect({ width, id, said: await page.getByText(/all invented/).count() }).toEqual({
        ...{ width, id, said: 1 },
      });
      const box = await mark.boundingBox();
      const head = await page.locator('.head').boundingBox();
      if (!box || !head) throw new Error('the mark or the head has no place');
      expect(box.x).toBeGreaterThanOrEqual(0);
      expect(box.x + box.width).toBeLessThanOrEqual(width);
      expect(box.y + box.height).toBeLessThanOrEqual(head.y + head.height);
    }
  }
  await page.goto(`${page.url().replace(/#.*/, '')}#/logbook`);
  await page.getByRole('button', { name: 'Take it away' }).click();
  await page.getByRole('heading', { name: 'No landings yet.' }).waitFor();
  expect(await page.locator('.demo-mark').count()).toBe(0);
  expectQuiet(watched);
});

test('[PG4] cautions in full in every room, on a phone too', async () => {
  const watched = await openPage({ width: 390 });
  const { page } = watched;
  for (const { id } of ROOMS) {
    await page.goto(`${page.url().replace(/#.*/, '')}#/${id}`);
    await page.locator(`main.room-${id} h1.sentence`).waitFor();
    const seen = await page.evaluate(() => document.body.innerText.replace(/\s+/g, ' '));
    for (const words of [
      /aid to debriefing; not for use in flight or for navigation/,
      /no evidence about another pilot/,
      /approved flight manual, the strip's operator, local rules and a qualified instructor come first/,
      /errors: they are shown in the bands, not removed/,
      /own factor describes past landings and promises nothing/,
    ]) {
      // Once: said twice in a room it is no longer read.
      const times = seen.split(words).length - 1;
      expect({ id, words, times }).toEqual({ id, words, times: 1 });
    }
  }
  expectQuiet(watched);
});

test('[PG2] takes the demonstration away with one action, and undoes that with one', async () => {
  const watched = await openPage();
  const { page } = watched;
  const before = await page.locator('h1.sentence').innerText();
  await page.getByRole('button', { name: 'Take it away' }).click();
  await page.getByRole('heading', { name: 'No landings yet.' }).waitFor();
  expect(await page.getByText('Demo logbook, all invented').count()).toBe(0);
  expect(await page.locator('.landings').count()).toBe(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByRole('heading', { name: before }).waitFor();
  expectQuiet(watched);
});

test('[PG3] stays away after the page is opened again, and comes back with one action', async () => {
  const watched = await openPage();
  const { page } = watched;
  const before = await page.locator('h1.sentence').innerText();
  await page.getByRole('button', { name: 'Take it away' }).click();
  await page.getByRole('heading', { name: 'No landings yet.' }).waitFor();
  await page.reload();
  await page.getByRole('heading', { name: 'No landings yet.' }).waitFor();
  await page.getByRole('button', { name: 'Bring the demo' }).click();
  await page.getByRole('heading', { name: before }).waitFor();
  expectQuiet(watched);
});
