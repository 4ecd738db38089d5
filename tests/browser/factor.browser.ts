/**
 * The own factor: what the command line works out of the same flights, and too few said as too few.
 */
import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { expectQuiet, openPage, useBrowser } from './open-page.ts';
import { SAMPLE } from './sample.ts';

useBrowser();

test('[PG40] shows the factor that the command line finds, and keeps the published one', async () => {
  const names = (kind: string): string[] =>
    readdirSync(join(SAMPLE, kind)).map((name) => join(SAMPLE, kind, name));
  const launcher = fileURLToPath(new URL('../../src/cli/launch.mjs', import.meta.url));
  const tables = execFileSync(
    process.execPath,
    [
      ...[launcher, 'debrief', '--strips', join(SAMPLE, 'strips.geojson')],
      ...names('aeroplanes').flatMap((path) => ['--aeroplane', path]),
      ...['--conditions', join(SAMPLE, 'conditions.json'), ...names('flights')],
    ],
    { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] },
  );
  const [, printed] = /landing from 50 ft +dry +\d+ on [^.]*? {2}([\d.]+)/.exec(tables) ?? [];
  expect(Number(printed)).toBeGreaterThan(0.5);
  const watched = await openPage({ hash: '#/factor' });
  const { page } = watched;
  const sentence = await page.locator('h1.sentence').innerText();
  expect(sentence).toBe(`Your own factor is ${printed}. The published 1.43 stays.`);
  await page.getByText('Plan with the published 1.43.').waitFor();
  await page
    .locator('.caution-line')
    .getByText(/promises nothing about the next/)
    .waitFor();
  expectQuiet(watched);
});

test('[PG41] gives no factor where there are too few landings', async () => {
  const watched = await openPage({ hash: '#/factor/eelgrass-450/landing-roll' });
  const { page } = watched;
  expect(await page.locator('h1.sentence').innerText()).toMatch(/no factor/);
  await page.getByText('Plan with the published factors.').waitFor();
  expect(await page.locator('.fill-own').count()).toBe(0);
  expectQuiet(watched);
});

test('[PG44] a kind of ground is chosen, and one with too few landings has no factor of another', async () => {
  const watched = await openPage({ hash: '#/factor/marram-160/landing-from-50-ft' });
  const { page } = watched;
  // What speaks statistics stands a press away, after the picture; the plain line before it.
  const leans = page.getByText(/leans on \d+ other landings of yours/);
  await page.getByText(/^95 of 100 landings on another day should need less than/).waitFor();
  expect(await leans.isVisible()).toBe(false);
  await page.getByText('How the bound was found, and what it leans on').click();
  expect(await leans.isVisible()).toBe(true);
  await page.getByText(/standard deviation/).waitFor();
  await page.getByRole('combobox', { name: 'Ground', exact: true }).selectOption('wet');
  await page.getByText('Too few landings: four count, no factor yet.').waitFor();
  expect(page.url()).toContain('/factor/marram-160/landing-from-50-ft/wet');
  expectQuiet(watched);
});

test('[PG42] never holds a roll against the published factor', async () => {
  const watched = await openPage({ hash: '#/factor/marram-160/landing-roll' });
  const { page } = watched;
  expect(await page.locator('wr-figure').first().innerText()).not.toMatch(/published/);
  await page.getByText('Never plan a length of strip with a roll alone.').waitFor();
  expectQuiet(watched);
});

test('[PG43] shows where the wheels touched, and the length that 95 of 100 short landings need', async () => {
  const watched = await openPage({ hash: '#/factor/marram-160/landing-from-50-ft' });
  const { page } = watched;
  const touched = page.locator('wr-figure', { has: page.locator('.ellipse-next') }).first();
  await touched.waitFor();
  const place = touched.locator('xpath=..');
  const [, count] = /, (\d+) touchdowns/.exec(await place.locator('h3').innerText()) ?? [];
  expect(Number(count)).toBeGreaterThanOrEqual(5);
  expect(await touched.locator('circle.dot').count()).toBe(Number(count));
  expect(await place.locator('p.quiet').innerText()).toMatch(/^along: middle −?\d+\s\S+ −?\d+–/);
  const needed = page.locator('table.figures', { hasText: 'needed' }).locator('tbody tr');
  expect(await needed.count()).toBeGreaterThan(0);
  expect(await needed.first().innerText()).toMatch(/as on \d+ \w+ \d{4}/);
  const [length, lda, left] = (await needed.first().locator('td').allInnerTexts()).map((text) =>
    parseFloat(text.replace('−', '-')),
  );
  expect(length).toBeGreaterThan(100);
  // Three figures rounded to whole metres.
  expect(Math.abs(lda - length - left)).toBeLessThanOrEqual(1);
  expectQuiet(watched);
});
