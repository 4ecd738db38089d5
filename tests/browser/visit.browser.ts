/**
 * The visit: predicted, kept, set beside its flight; approaches side by side; remarks and places put
 * by hand.
 */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { expectQuiet, openPage, useBrowser } from './open-page.ts';
import { violations } from './axe-violations.ts';

useBrowser();

async function predict(page: Page, aeroplane = 'marram-160', massKg = '930'): Promise<void> {
  await page.getByLabel('Strip', { exact: true }).selectOption({ label: 'Ternholm' });
  await page.getByLabel('Landing', { exact: true }).selectOption('25');
  await page.getByLabel('Taking off', { exact: true }).selectOption('25');
  await page.getByLabel('Day', { exact: true }).fill('2025-09-21');
  const form = page.locator('wr-conditions-form');
  await form.getByRole('button', { name: 'Calm' }).click();
  await form.getByLabel(/Temperature/).fill('19');
  await form.getByLabel(/Mass at landing/).fill(massKg);
  await form.getByLabel(/Surface/).selectOption('grass-dry');
  await form.getByLabel(/Aeroplane/).selectOption(aeroplane);
  await form.getByRole('button', { name: 'Predict' }).click();
  await page.getByRole('heading', { name: /^In: plan/ }).waitFor();
}

test('[PG80] a visit names what is missing, is predicted, kept, and joined to its flight by hand', async () => {
  const watched = await openPage({ hash: '#/visit' });
  const { page } = watched;
  expect(await page.locator('.caution-block').innerText()).toMatch(
    /the wind \(calm has to be said\)/,
  );
  await predict(page);
  expect(await violations(page)).toEqual([]);
  // Numbers of notes are for paper, where the notes stand apart.
  expect(await page.locator('.note-number').count()).toBeGreaterThan(4);
  expect(await page.locator('.note-number:visible').count()).toBe(0);
  // The plan is longer than the strip: said as plainly as what is left would be, and never in green.
  const short = page.locator('.is-short').first();
  expect((await short.innerText()).replaceAll('\u00a0', ' ')).toMatch(/\u2212\d+ m\s+too long/);
  await page.getByRole('button', { name: 'Keep this prediction' }).click();
  await page.getByRole('heading', { name: /^Visits you kept/ }).waitFor();
  const sentence = await page.locator('h1.sentence').innerText();
  // The frozen one is there when the page is opened again; the draft is not.
  await page.reload();
  await page.getByRole('link', { name: /21 September 2025, Ternholm/ }).click();
  await page.getByText('as it stood when it was kept').waitFor();
  expect(await page.locator('h1.sentence').innerText()).toBe(sentence);
  // The demonstration has a flight of that day and strip.
  await page.goto(`${page.url().replace(/#.*/, '')}#/debrief`);
  await page.locator('.join-offer').waitFor();
  expect(await page.getByRole('heading', { name: /Predicted before the flight/ }).count()).toBe(0);
  expect(await violations(page)).toEqual([]);
  await page.getByRole('button', { name: 'Yes, but the weather was another' }).click();
  await page.getByRole('heading', { name: /Predicted before the flight/ }).waitFor();
  expect(await page.locator('.join-offer').count()).toBe(0);
  expectQuiet(watched);
});

test('[PG86] reasons in place of figures break their lines, and stand on no other table', async () => {
  const watched = await openPage({ hash: '#/visit' });
  const { page } = watched;
  await predict(page, 'eelgrass-450', '430');
  const tables = page.locator('.visit-figures');
  expect(await tables.locator('.undetermined').count()).toBeGreaterThan(1);
  const [into, out] = await tables.evaluateAll((all) =>
    all.map((each) => {
      const { left, right } = each.getBoundingClientRect();
      return { left, right };
    }),
  );
  expect(into.right).toBeLessThan(out.left);
  // A reason is a sentence: beside the figures of the others it was a column of single words.
  const narrowest = await tables
    .locator('td', { has: page.locator('.undetermined') })
    .evaluateAll((all) => Math.min(...all.map((each) => each.getBoundingClientRect().width)));
  expect(narrowest).toBeGreaterThan(200);
  const over = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(over).toBe(0);
  expectQuiet(watched);
});

test('[PG85] lays approaches over each other, chosen by key, and lets one stand out', async () => {
  const watched = await openPage({ width: 390, hash: '#/side' });
  const { page } = watched;
  await page.getByRole('heading', { name: 'Gates and rolls' }).waitFor();
  const lines = page.locator('.lane');
  const before = await lines.count();
  await page.getByRole('checkbox', { checked: true }).first().focus();
  await page.keyboard.press('Space');
  await expect.poll(() => lines.count()).toBeLessThan(before);
  await page.getByRole('button', { name: 'Let approach 2 stand out' }).press('Enter');
  await page.getByText('number 2 in full ink').waitFor();
  expect(await page.locator('.gates .is-chosen').count()).toBe(1);
  // On a phone nothing of the table lies off the screen, and each figure has its name.
  const table = page.locator('.wide-table');
  expect(await table.evaluate((each) => each.scrollWidth - each.clientWidth)).toBe(0);
  const cells = page.locator('.gates tbody td');
  expect(await cells.count()).toBeGreaterThan(4);
  for (const cell of await cells.all()) {
    expect(
      await cell.evaluate((each) => getComputedStyle(each, '::before').content.length),
    ).toBeGreaterThan(5);
  }
  expectQuiet(watched);
});

test('[SB13] says under airspeeds that they are estimated and no margin over the stall', async () => {
  const watched = await openPage({ hash: '#/side' });
  const { page } = watched;
  const note = page.locator('.wide-table .quiet');
  await page.getByLabel('Strip and direction').selectOption('Sedgeholt 02');
  await expect.poll(() => note.innerText()).toMatch(/^Airspeed at each gate in kt\./);
  expect((await note.innerText()).replaceAll('\u00a0', ' ')).toContain(
    'estimated, within about 5 kt; they say nothing about a margin over the stall.',
  );
  await page.getByLabel('Strip and direction').selectOption('Mereling 11');
  await expect.poll(() => note.innerText()).toMatch(/^Ground speed at each gate in kt\. Bands/);
  expectQuiet(watched);
});

test('[PG87] a remark stays, and a touchdown put by hand is marked and taken back', async () => {
  const watched = await openPage({ hash: '#/debrief' });
  const { page } = watched;
  const said = page.locator('h1.sentence');
  await page.locator('wr-own-remarks').waitFor();
  const measured = await said.innerText();
  await page.getByLabel('Write a remark').fill('Sinks behind the row.');
  await page.getByRole('button', { name: 'Keep the remark' }).click();
  await page.getByText('Sinks behind the row.').waitFor();
  await page.getByText('Put the touchdown or the end of the roll by hand').click();
  await page.locator('#own-touchdown').fill('here');
  await page.getByRole('button', { name: 'Put it there by hand' }).first().click();
  await page.locator('#own-touchdown-message').waitFor();
  await page.locator('#own-touchdown').fill('900');
  await page.getByRole('button', { name: 'Put it there by hand' }).first().click();
  await page.getByText('expected a place before the end of the roll').waitFor();
  expect(await said.innerText()).toBe(measured);
  await page.locator('#own-touchdown').fill('110');
  await page.getByRole('button', { name: 'Put it there by hand' }).first().click();
  await expect.poll(() => said.innerText()).toMatch(/^Touched down 110.m in/);
  expect(await page.locator('.by-hand').innerText()).toMatch(/by hand/);
  expect(await violations(page)).toEqual([]);
  await page.getByRole('button', { name: 'undo', exact: true }).click();
  await expect.poll(() => said.innerText()).toBe(measured);
  // Ready to be put again, better this time.
  expect(await page.locator('#own-touchdown').isVisible()).toBe(true);
  expect(await page.getByText('Sinks behind the row.').count()).toBe(1);
  expectQuiet(watched);
});

test('[HC13] that a pass touched is said by hand, marked, and taken back', async () => {
  const watched = await openPage({ hash: '#/logbook' });
  const { page } = watched;
  await page.getByRole('button', { name: /Show all/ }).click();
  await page
    .getByRole('link', { name: /low pass/ })
    .first()
    .click();
  const said = page.locator('h1.sentence');
  await expect.poll(() => said.innerText()).toMatch(/^Flew along the strip/);
  const measured = await said.innerText();
  await page.getByLabel('the wheels touched').check();
  await expect.poll(() => said.innerText()).toMatch(/, and went again\.$/);
  await page
    .getByText(/That the wheels touched is said by hand/)
    .first()
    .waitFor();
  expect(await violations(page)).toEqual([]);
  await page.getByLabel('as measured').check();
  await expect.poll(() => said.innerText()).toBe(measured);
  expectQuiet(watched);
});

test('[HC18] a lift-off put by hand is marked, and refused before the brake release', async () => {
  const watched = await openPage({ hash: '#/debrief' });
  const { page } = watched;
  const said = page.locator('h1.sentence');
  await page.locator('wr-debrief-sheet [data-key="take-off-0"]').first().click();
  await expect.poll(() => said.innerText()).toMatch(/lifted off/);
  const measured = await said.innerText();
  await page.getByText('Put the lift-off by hand').click();
  await page.locator('#own-lift-off').fill('-300');
  await page.getByRole('button', { name: 'Put it there by hand' }).click();
  await page.getByText('expected a place behind the brake release').waitFor();
  await page.locator('#own-lift-off').fill('150');
  await page.getByRole('button', { name: 'Put it there by hand' }).click();
  await expect.poll(() => said.innerText()).toMatch(/lifted off 150.m in/);
  expect(await page.locator('.by-hand').innerText()).toMatch(/by hand/);
  expect(await violations(page)).toEqual([]);
  await page.getByRole('button', { name: 'undo', exact: true }).click();
  await expect.poll(() => said.innerText()).toBe(measured);
  expectQuiet(watched);
});
