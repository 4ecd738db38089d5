/** A page that was left open: what is entered then is written down with the time of then. */
import { expect, test } from 'vitest';
import { expectQuiet, openPage, useBrowser } from './open-page.ts';

useBrowser();

test('[LB46] a remark written into a page left open for two hours is two hours younger', async () => {
  const watched = await openPage();
  const { page } = watched;
  await page.clock.install();
  await page.reload();
  await page.getByRole('button', { name: /Show all/ }).click();
  await page.getByRole('link', { name: /debrief: 20 Apr 2024 09:49/ }).click();
  await page.locator('wr-debrief-sheet h1').waitFor();
  await page.clock.fastForward('02:00:00');
  await page.getByLabel('Write a remark').fill('late');
  await page.getByRole('button', { name: 'Keep the remark' }).click();
  await page.getByRole('button', { name: 'Remove the remark: late' }).waitFor();
  const ageS = await page.evaluate(() => {
    const shell = document.querySelector('wr-app') as unknown as {
      store: { state: { visits: { remarks: { text: string; writtenS: number }[] }[] } };
    };
    const remarks = shell.store.state.visits.flatMap((visit) => visit.remarks);
    const late = remarks.find(({ text }) => text === 'late');
    return Date.now() / 1000 - (late?.writtenS ?? 0);
  });
  expect(ageS).toBeLessThan(120);
  expectQuiet(watched);
});
