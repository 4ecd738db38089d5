/**
 * The logbook's list: sorted, filtered, deleted with undo; what is kept stays, and travels as a file.
 */
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, expect, test } from 'vitest';
import { violations } from './axe-violations.ts';
import { bringFiles, emptyLogbook, expectQuiet, openPage, useBrowser } from './open-page.ts';
import { sampleFlight, SAMPLE } from './sample.ts';

useBrowser();

const folder = mkdtempSync(join(tmpdir(), 'windrow-logbook-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function column(page: Page, place: number): Promise<number[]> {
  const rows = await page.locator('.landings tbody tr').all();
  const texts = await Promise.all(
    rows.map(async (row) => {
      const cells = await row.locator('.figure-cell').allInnerTexts();
      return cells.length === 3 ? cells[place] : '';
    }),
  );
  return texts.filter((text) => text !== '').map((text) => parseFloat(text));
}

test('[PG30] sorts by roll, both ways, with what has none at the end', async () => {
  const watched = await openPage();
  const { page } = watched;
  await page.getByRole('button', { name: /Show all/ }).click();
  await page.getByRole('button', { name: /^roll/ }).click();
  const falling = await column(page, 0);
  expect(falling.length).toBeGreaterThan(15);
  expect(falling).toEqual(falling.toSorted((a, b) => b - a));
  await page.getByRole('button', { name: /^roll/ }).click();
  expect(await column(page, 0)).toEqual(falling.toReversed());
  expect(await page.locator('th[aria-sort="ascending"]').innerText()).toMatch(/^roll/);
  const last = page.locator('.landings tbody tr').last();
  expect(await last.locator('.words-cell').count()).toBe(1);
  expectQuiet(watched);
});

test('[PG31] filters by strip and draws every bar to one scale', async () => {
  const watched = await openPage();
  const { page } = watched;
  await page.getByLabel('Strip', { exact: true }).selectOption('Mereling');
  const names = await page.locator('.landings .strip-cell i').allInnerTexts();
  expect(names.length).toBeGreaterThan(3);
  expect(new Set(names)).toEqual(new Set(['Mereling']));
  await page.getByLabel('Strip', { exact: true }).selectOption('');
  // LDA of Mereling is 430 m, of Sedgeholt 355 m (strips file): their grass stands in that proportion.
  const grass = async (name: string): Promise<number> => {
    const row = page.locator('.landings tbody tr', { hasText: name }).first();
    const box = await row.locator('.bar-cell path.grass').boundingBox();
    return box?.width ?? NaN;
  };
  expect((await grass('Mereling')) / (await grass('Sedgeholt'))).toBeCloseTo(430 / 355, 1);
  expectQuiet(watched);
});

test('[PG32] deletes a flight with undo', async () => {
  const watched = await openPage();
  const { page } = watched;
  const before = await page.locator('h1.sentence').innerText();
  await page
    .locator('.landings tbody tr')
    .first()
    .getByRole('button', { name: /Remove/ })
    .click();
  await page.getByText(/with all that was entered about it, was taken out/).waitFor();
  await expect.poll(() => page.locator('h1.sentence').innerText()).not.toBe(before);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByRole('heading', { name: before }).waitFor();
  expectQuiet(watched);
});

test('[NO1] [NO2] shows the newest notice, the others when asked, and folds to an Undo in another room', async () => {
  const watched = await openPage({ width: 390, height: 844 });
  const { page } = watched;
  const notices = page.locator('wr-notices');
  const shown = notices.locator('.message');
  const heightPx = async (): Promise<number> => (await notices.boundingBox())?.height ?? 0;
  const before = await page.locator('h1.sentence').innerText();
  const remove = page
    .locator('.landings tbody tr')
    .first()
    .getByRole('button', { name: /Remove/ });
  for (let k = 1; k <= 3; k++) {
    const flight = await remove.getAttribute('aria-label');
    await remove.click();
    // The notice may come before its row is gone: the next click is for another flight.
    await expect.poll(() => remove.getAttribute('aria-label')).not.toBe(flight);
    const status = notices.getByRole('status').locator('p');
    // Each text is in the region that is read out, though one alone is seen.
    await expect.poll(() => status.count()).toBe(k);
    expect(await shown.count()).toBe(1);
  }
  expect(await heightPx()).toBeLessThan(0.25 * 844);
  await notices.getByRole('button', { name: 'and 2 more notices' }).click();
  expect(await shown.count()).toBe(3);
  expect(await notices.getByRole('button', { name: /^Undo/ }).count()).toBe(3);
  await notices.getByRole('button', { name: 'Show fewer' }).click();
  // What was said longer than a moment ago folds when the room is changed.
  await page.waitForTimeout(1200);
  const go = (hash: string) => page.goto(`${page.url().replace(/#.*/, '')}${hash}`);
  await go('#/strips');
  await expect.poll(() => shown.count()).toBe(0);
  expect(await heightPx()).toBeLessThanOrEqual(52);
  // The Undo says of what it is, and the last one undone leaves the ones before it.
  for (let left = 2; left >= 0; left--) {
    const undo = notices.getByRole('button', { name: /^Undo: .*was taken out of the logbook/ });
    expect(await undo.count()).toBe(1);
    await undo.click();
    const more = left > 1 ? `and ${left - 1} more notice` : null;
    if (more) await notices.getByRole('button', { name: more }).waitFor();
    else await expect.poll(() => notices.getByRole('button', { name: /more/ }).count()).toBe(0);
  }
  await expect.poll(() => notices.getByRole('button').count()).toBe(0);
  await go('#/logbook');
  await page.getByRole('heading', { name: before }).waitFor();
  expectQuiet(watched);
});

test('[PG33] keeps logs, strips and aeroplanes when the page is opened again', async () => {
  const watched = await openPage();
  const { page } = watched;
  await emptyLogbook(watched);
  await bringFiles(page, [
    join(SAMPLE, 'strips.geojson'),
    sampleFlight('2024-04-20-first-circuits-ternholm.gpx'),
  ]);
  await page.getByRole('heading', { name: /^3 landings at one strip/ }).waitFor();
  const sentence = await page.locator('h1.sentence').innerText();
  await page.reload();
  await page.getByRole('heading', { name: sentence }).waitFor();
  expectQuiet(watched);
});

test('[PG34] goes out as one file and comes back the same, bytes of the logs included', async () => {
  const first = await openPage();
  const log = sampleFlight('2024-05-12-home-from-sedge.igc');
  await emptyLogbook(first);
  await bringFiles(first.page, [join(SAMPLE, 'strips.geojson'), log]);
  await first.page.getByRole('heading', { name: /landings? at one strip/ }).waitFor();
  const sentence = await first.page.locator('h1.sentence').innerText();
  const path = join(folder, 'mine.windrow');
  await exportTo(first.page, path);
  const lines = gunzipSync(readFileSync(path)).toString('utf8').trimEnd().split('\n');
  const kept = lines
    .map((line) => JSON.parse(line) as { kind: string; gzip?: string })
    .find(({ kind }) => kind === 'log');
  const bytes = gunzipSync(Buffer.from(kept?.gzip ?? '', 'base64'));
  const digest = (data: Buffer): string => createHash('sha256').update(data).digest('hex');
  expect(digest(bytes)).toBe(digest(readFileSync(log)));

  const second = await openPage();
  await emptyLogbook(second);
  await bringFiles(second.page, [path]);
  await second.page.getByRole('heading', { name: sentence }).waitFor();
  const again = join(folder, 'again.windrow');
  await exportTo(second.page, again);
  const comparable = (file: string): string[] =>
    gunzipSync(readFileSync(file))
      .toString('utf8')
      .split('\n')
      .filter((line) => !line.includes('"kind":"settings"'));
  expect(comparable(again)).toEqual(comparable(path));
  expectQuiet(first);
  expectQuiet(second);
});

async function exportTo(page: Page, path: string): Promise<void> {
  await page.goto(`${page.url().replace(/#.*/, '')}#/settings`);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save the logbook as a file' }).click(),
  ]);
  await download.saveAs(path);
}

test('[PG35] refuses a damaged logbook file and changes nothing', async () => {
  const watched = await openPage();
  const { page } = watched;
  const before = await page.locator('h1.sentence').innerText();
  await page.getByLabel('Choose files').setInputFiles({
    name: 'damaged.windrow',
    mimeType: 'application/octet-stream',
    buffer: Buffer.from([0x1f, 0x8b, 8, 0, 1, 2, 3]),
  });
  await page.getByText(/files? looked at/).waitFor();
  expect(await page.locator('.import-problems').innerText()).toMatch(/expected a whole logbook/);
  expect(await page.locator('h1.sentence').innerText()).toBe(before);
  expectQuiet(watched);
});

async function openDebrief(page: Page): Promise<void> {
  await page.goto(page.url().replace(/#.*/, '#/'));
  await page.locator('.landings tbody tr a').first().click();
  await page.getByRole('heading', { name: 'Your remarks' }).waitFor();
}

async function writeRemark(page: Page, text: string): Promise<void> {
  await page.getByLabel('Write a remark').fill(text);
  await page.getByRole('button', { name: 'Keep the remark' }).click();
  await page.locator('.remarks li', { hasText: text }).waitFor();
}

test('[PG37] remarks of two people about one flight both stay, and what is not taken is listed in words', async () => {
  const pilot = await openPage();
  await emptyLogbook(pilot);
  const log = sampleFlight('2024-05-12-home-from-sedge.igc');
  await bringFiles(pilot.page, [join(SAMPLE, 'strips.geojson'), log]);
  await pilot.page.getByRole('heading', { name: /landings? at one strip/ }).waitFor();
  await openDebrief(pilot.page);
  await writeRemark(pilot.page, 'Long.');
  const path = join(folder, 'to-instructor.windrow');
  await exportTo(pilot.page, path);

  const instructor = await openPage();
  await emptyLogbook(instructor);
  await bringFiles(instructor.page, [path]);
  await instructor.page.getByRole('heading', { name: /landings? at one strip/ }).waitFor();
  await openDebrief(instructor.page);
  await writeRemark(instructor.page, 'Look at the aiming point.');
  const back = join(folder, 'back.windrow');
  await exportTo(instructor.page, back);

  const { page } = pilot;
  await openDebrief(page);
  await page.getByRole('button', { name: 'Remove the remark: Long.' }).click();
  await writeRemark(page, 'Flap too late.');
  await page.goto(page.url().replace(/#.*/, '#/settings'));
  await page.getByLabel('Take in a logbook file').setInputFiles(back);
  const list = page.getByRole('region', { name: 'What was not taken' });
  const line = list.locator('li', { hasText: 'the file has the remark' });
  expect(await line.innerText()).toMatch(
    /^12 May 2024 \d\d:\d\d UTC, \S.*: the file has the remark at \d\d:\d\d:\d\d “Long\.”; in your logbook it was taken out, and it stays out\.$/,
  );
  expect(await violations(page)).toEqual([]);
  await openDebrief(page);
  const remarks = await page.locator('.remarks li i').allInnerTexts();
  expect(remarks.sort()).toEqual(['Flap too late.', 'Look at the aiming point.']);
  // In the logbook too, until it is closed.
  await page.goto(page.url().replace(/#.*/, '#/'));
  await list.getByRole('button', { name: 'Close this list' }).click();
  expect(await list.count()).toBe(0);
  expectQuiet(pilot);
  expectQuiet(instructor);
});
