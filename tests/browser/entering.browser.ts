/**
 * Entering things: a strip kept from a landing, an aeroplane typed from its handbook, settings.
 */
import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { expectQuiet, openDebriefOf, openPage, useBrowser } from './open-page.ts';
import { sampleFlight, SAMPLE } from './sample.ts';

useBrowser();

async function go(page: Page, hash: string): Promise<void> {
  await page.goto(`${page.url().replace(/#.*/, '')}${hash}`);
  await page.locator('h1.sentence').first().waitFor();
}

/** Fills one table of one row. */
async function typeTable(form: Locator, quantity: string, distance: string): Promise<void> {
  await form.getByRole('button', { name: `Add: ${quantity}` }).click();
  const table = form
    .locator('fieldset.form-part')
    .filter({ has: form.page().locator('legend', { hasText: quantity }) })
    .last();
  await table.getByLabel('Flap').fill('full');
  await table.getByLabel('Flown on').selectOption('hard-dry');
  if (quantity.includes('50 ft')) await table.getByLabel('Screen').selectOption('15.24');
  await table.getByLabel('Pressure altitudes').fill('0');
  await table.getByLabel('Temperatures').fill('standard');
  await table.getByLabel('Masses').fill('900');
  await table.locator('.grid input').fill(distance);
}

test('[PG15] [PG70] a place is kept as a strip, and the landing is then measured from its threshold', async () => {
  const watched = await openDebriefOf([sampleFlight('2024-05-12-home-from-sedge.igc')]);
  const { page } = watched;
  await page.getByRole('link', { name: 'Keep as a strip' }).click();
  const guess = page.locator('wr-strip-form .caution-block');
  expect((await guess.innerText()).replaceAll('\u00a0', ' ')).toMatch(
    /ends is a guess. Each end lies 50 m beyond where the wheels were/,
  );
  await page.getByRole('button', { name: 'Save the strip' }).click();
  await page.getByRole('alert').getByText(/Name/).waitFor();
  await page.getByLabel('Name').fill('Home Field');
  await page.getByLabel('grass', { exact: true }).check();
  await page.getByLabel('Width').fill('20');
  await page.getByRole('button', { name: 'Save the strip' }).click();
  await page.getByText('Home Field was kept.').waitFor();
  await page.getByRole('heading', { name: /^Touched down \d+.m/ }).waitFor();
  expect(await page.locator('.kicker').innerText()).toMatch(/^Home Field \d\d/);
  await go(page, '#/strips/new');
  expect(await guess.count()).toBe(0);
  expectQuiet(watched);
});

test('[PG71] an aeroplane is typed from its handbook, row by row, and nothing is assumed', async () => {
  const watched = await openPage({ hash: '#/aeroplanes/new' });
  const { page } = watched;
  const form = page.locator('wr-aeroplane-form');
  await form.getByRole('button', { name: 'Save the aeroplane' }).click();
  await form.getByText(/fields need another look/).waitFor();
  await form.getByLabel('Name').fill('Blue Heron');
  await form.getByLabel('nose wheel').check();
  await form.getByLabel('yes').check();
  await form.getByLabel('Least mass').fill('500');
  await form.getByLabel('Greatest take-off mass').fill('900');
  await form.getByLabel('Greatest landing mass').fill('900');
  await form.getByLabel('Speeds hold at').fill('900');
  await form.getByLabel('Stall, landing').fill('45');
  await form.getByLabel('Stall, take-off').fill('48');
  await typeTable(form, 'Landing, from 50 ft (or 15 m)', '450');
  await typeTable(form, 'Landing ground roll', '200');
  await form.getByRole('button', { name: 'Save the aeroplane' }).click();
  await page.getByRole('heading', { name: '3 aeroplanes.' }).waitFor();
  const row = page.locator('.plane-row', { hasText: 'Blue Heron' });
  expect(await row.innerText()).toMatch(/500 to 900.kg/);
  expect(await row.innerText()).toMatch(/not in its handbook: take-off/);
  expectQuiet(watched);
});

test('[MF1] [PF1] a METAR and a handbook table are pasted, read, said, and open to change', async () => {
  const watched = await openPage({ hash: '#/visit' });
  const { page } = watched;
  await page.getByText('Paste a METAR').click();
  await page.getByLabel('METAR, as reported').fill('XXDL 101630Z 32007G18KT CAVOK 15/05 Q1027');
  await page.getByRole('button', { name: /^Read it/ }).click();
  await page.getByText("true, and not the strip's own wind").waitFor();
  expect(await page.locator('#conditions-windSpeed').inputValue()).toBe('7');
  await page.locator('#conditions-windSpeed').fill('5');
  await expect.poll(() => page.getByText("not the strip's own wind").count()).toBe(0);
  await go(page, '#/aeroplanes/new');
  await page.getByRole('button', { name: 'Add: Landing ground roll' }).click();
  await page.getByText('Paste it from a spreadsheet').click();
  await page
    .getByLabel('Landing ground roll, pasted')
    .fill('altitude (ft);temperature (°C);850 kg;975 kg\n0;15;310;345\n2000;15;340;380\n');
  await page.getByRole('button', { name: /^Read it/ }).click();
  await page.getByText('Read 4 distances').waitFor();
  expect(await page.locator('.grid input').nth(3).inputValue()).toBe('380');
  await page.getByRole('button', { name: /^Remove this table/ }).click();
  await page.getByRole('button', { name: /^Undo/ }).click();
  expect(await page.locator('.grid input').nth(3).inputValue()).toBe('380');
  expectQuiet(watched);
});

test('[PG72] strips go out as GeoJSON and come back the same', async () => {
  const watched = await openPage({ hash: '#/strips' });
  const { page } = watched;
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save all as a GeoJSON file' }).click(),
  ]);
  interface Collection {
    readonly features: readonly { readonly properties: { readonly name?: string } }[];
  }
  const path = await download.path();
  const written = JSON.parse(readFileSync(path, 'utf8')) as Collection;
  const kept = JSON.parse(readFileSync(`${SAMPLE}/strips.geojson`, 'utf8')) as Collection;
  const sorted = ({ features }: Collection): string[] =>
    features.map((feature) => JSON.stringify(feature)).sort();
  expect(sorted(written)).toEqual(sorted(kept));
  expectQuiet(watched);
});

test('[PG73] a changed width is kept, and a strip is removed with undo', async () => {
  const watched = await openPage({ hash: '#/strips/mereling' });
  const { page } = watched;
  await page.getByLabel('Width').fill('31');
  await page.getByRole('button', { name: 'Save the strip' }).click();
  await page.getByText('Mereling was kept.').waitFor();
  await go(page, '#/strips/mereling');
  await expect.poll(() => page.getByLabel('Width').inputValue()).toBe('31');
  await page.getByRole('button', { name: /^Remove Mereling/ }).click();
  await page.getByRole('heading', { name: /^3 strips/ }).waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByRole('heading', { name: /^4 strips/ }).waitFor();
  expectQuiet(watched);
});

test('[SL1] a strip is drawn and said while its ends are typed', async () => {
  const watched = await openPage({ hash: '#/strips/new' });
  const { page } = watched;
  const said = page.locator('.typed-strip output');
  const drawn = page.locator('.typed-strip svg');
  expect(await said.innerText()).toMatch(/stand here once both ends are typed/);
  await page.locator('#strip-a-lat').fill('54.7');
  await page.locator('#strip-a-lon').fill('2.3');
  await page.locator('#strip-b-lat').fill('54.7');
  expect(await said.innerText()).toMatch(/longitude of end B is missing/);
  expect(await drawn.count()).toBe(0);
  await page.locator('#strip-b-lon').fill('2.3062');
  await expect.poll(() => said.innerText()).toMatch(/^400.m, 090° true .* 09 .* 27 /);
  expect(await drawn.count()).toBe(1);
  await page.locator('#strip-b-lon').fill('-2.3062');
  await expect.poll(() => said.innerText()).toMatch(/further than those of any strip/);
  expectQuiet(watched);
});

test('[PG74] units and time zone change every room, and stay', async () => {
  const watched = await openPage();
  const { page } = watched;
  const roll = page.locator('.landings .figure-cell b').first();
  const metres = parseFloat(await roll.innerText());
  const clock = await page.locator('.landings .clock').first().innerText();
  await go(page, '#/settings');
  const lengths = page.locator('fieldset', { hasText: 'Lengths, widths' }).last();
  await lengths.getByLabel('feet', { exact: true }).check();
  await page.getByLabel('Time zone').selectOption('Europe/Athens');
  await go(page, '#/logbook');
  await expect.poll(() => roll.innerText()).toMatch(/ft$/);
  const feet = parseFloat((await roll.innerText()).replace(/\s/g, ''));
  // 0.3048 m a foot exactly; both figures are rounded.
  expect(Math.abs(feet - metres / 0.3048)).toBeLessThan(2.2);
  // Athens is three hours ahead in summer (IANA time zone database).
  const hour = (text: string): number => Number(text.slice(-5, -3));
  const shown = page.locator('.landings .clock').first();
  const ahead = async (): Promise<number> =>
    (hour(await shown.innerText()) - hour(clock) + 24) % 24;
  await expect.poll(ahead).toBe(3);
  await page.reload();
  await expect.poll(() => roll.innerText()).toMatch(/ft$/);
  // [DN2] The working too, whose steps the handbook has in metres.
  await go(page, '#/debrief');
  await page.getByText('Expected, no safety factor').click();
  const steps = await page.locator('.working[open] td:last-child').allInnerTexts();
  expect(steps.length).toBeGreaterThan(3);
  for (const step of steps) expect(step).toMatch(/^\d+\u00a0ft$/);
  expectQuiet(watched);
});
