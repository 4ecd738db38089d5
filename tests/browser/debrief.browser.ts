/**
 * The debrief: the figures of the core, events to choose, the plumb line, conditions typed in.
 */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { expectQuiet, openDebriefOf, openPage, useBrowser } from './open-page.ts';
import { sampleFlight, SAMPLE } from './sample.ts';

useBrowser();

const CIRCUITS = '2024-04-20-first-circuits-ternholm.gpx';
/** That flight with its strips and its aeroplane, conditions not entered. */
const MARRAM_AT_TERNHOLM = [
  `${SAMPLE}/strips.geojson`,
  `${SAMPLE}/aeroplanes/marram-160.json`,
  sampleFlight(CIRCUITS),
];

/** A flight of a golden file: the figures as the command line gives them. */
interface GoldenFlight {
  readonly approaches: readonly {
    readonly metres: { readonly touchdown: number; readonly roll: number; readonly left: number };
  }[];
}

async function openDebrief(page: Page, day: string, clock: string): Promise<void> {
  await page.getByRole('button', { name: /Show all/ }).click();
  await page.getByRole('link', { name: new RegExp(`debrief: ${day} ${clock}`) }).click();
  await page.locator('wr-debrief-sheet h1').waitFor();
}

test('[PG20] says the last landing as the command line measures it', async () => {
  const watched = await openPage();
  const { page } = watched;
  await openDebrief(page, '20 Apr 2024', '09:49');
  const path = `${SAMPLE}/../tests/golden/${CIRCUITS}.expected.json`;
  const [flight] = JSON.parse(readFileSync(path, 'utf8')) as GoldenFlight[];
  const { touchdown, roll, left } = flight.approaches[2].metres;
  const sentence = await page.locator('h1.sentence').innerText();
  expect(sentence.replaceAll('\u00a0', ' ')).toBe(
    `Touched down ${touchdown} m in, rolled ${roll} m, stopped with ${left} m left.`,
  );
  expectQuiet(watched);
});

test('[PG21] chooses an event on the flight line, by pointer and by key', async () => {
  const watched = await openPage();
  const { page } = watched;
  await openDebrief(page, '20 Apr 2024', '09:49');
  await page
    .getByRole('button', { name: /take-off, Ternholm/ })
    .first()
    .click();
  await page.getByRole('heading', { name: /^Ran \d+.m, lifted off/ }).waitFor();
  const passes = page.getByRole('button', { name: /touch-and-go, / }).first();
  await passes.focus();
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: /and went again/ }).waitFor();
  expect(await page.locator('[data-key][aria-pressed="true"]').count()).toBe(1);
  expectQuiet(watched);
});

test('[PG22] hangs one plumb line through all drawings, by pointer, key and slider', async () => {
  const watched = await openPage();
  const { page } = watched;
  await openDebrief(page, '20 Apr 2024', '09:49');
  const ruler = page.locator('wr-figure').nth(1);
  await ruler.scrollIntoViewIfNeeded();
  const box = await ruler.boundingBox();
  if (!box) throw new Error('the ruler has no place');
  await page.mouse.move(box.x + 0.45 * box.width, box.y + 0.5 * box.height);
  const output = page.locator('.plumb-slider output');
  await expect
    .poll(() => output.innerText())
    .toMatch(/^\d\d:\d\d:\d\d, \d+.m along the strip, \d+.kt$/);
  // A line on the flight line, the ruler, the profiles, and a point on the plan.
  expect(await page.locator('.plumb').count()).toBeGreaterThanOrEqual(3);
  const first = await output.innerText();
  await page.getByRole('slider', { name: /plumb line/ }).focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => output.innerText()).not.toBe(first);
  expectQuiet(watched);
});

test('[PG22] hangs the plumb line where a finger taps the standing strip of a phone', async () => {
  const watched = await openPage({ width: 390, touch: true, hash: '#/debrief' });
  const { page } = watched;
  await page.locator('wr-debrief-sheet h1').waitFor();
  const ruler = page.locator('wr-figure').nth(1);
  await ruler.scrollIntoViewIfNeeded();
  const drawing = await ruler.locator('svg').boundingBox();
  if (!drawing) throw new Error('the ruler has no place');
  const output = page.locator('.plumb-slider output');
  const tap = async (share: number): Promise<number> => {
    await page.touchscreen.tap(drawing.x + 180, drawing.y + share * drawing.height);
    await expect.poll(() => output.innerText()).toMatch(/\d+.m along the strip/);
    return Number(/(−?\d+).m along/.exec(await output.innerText())?.[1].replace('−', '-'));
  };
  const low = await tap(0.7);
  // Zero stands below: higher on the screen is further along the strip.
  await expect.poll(() => tap(0.45)).toBeGreaterThan(low);
  expectQuiet(watched);
});

test('[PG64] keeps the ring of the slider off the read-outs above and below', async () => {
  for (const width of [1280, 390]) {
    const watched = await openPage({ width, hash: '#/debrief' });
    const { page } = watched;
    await page.locator('wr-debrief-sheet h1').waitFor();
    await page.getByRole('slider', { name: /plumb line/ }).focus();
    await page.keyboard.press('PageUp');
    const readOut = page.locator('.plumb-slider output');
    await expect.poll(() => readOut.innerText()).toMatch(/along the strip/);
    const slider = await page.getByRole('slider').boundingBox();
    const said = await readOut.boundingBox();
    const ruler = await page.locator('wr-figure').nth(1).boundingBox();
    if (!slider || !said || !ruler) throw new Error('slider or read-out has no place');
    // The ring: 3 px wide, 2 px off.
    const foot = slider.y + slider.height + 5;
    const isBelow = said.y > slider.y + slider.height / 2;
    expect(foot).toBeLessThanOrEqual(isBelow ? said.y : ruler.y);
    if (!isBelow) expect(said.x).toBeGreaterThanOrEqual(slider.x + slider.width + 5);
    expectQuiet(watched);
  }
});

test('[PG23] shows conditions that nobody entered as missing, and the figures follow what is typed', async () => {
  const watched = await openDebriefOf(MARRAM_AT_TERNHOLM);
  const { page } = watched;
  await page.locator('wr-debrief-sheet h1').waitFor();
  expect(await page.locator('.title-block').innerText()).toMatch(/not entered/);
  expect(await page.locator('.title-block').innerText()).not.toMatch(/calm|dry/);
  expect(await page.getByText('expected', { exact: true }).count()).toBe(0);
  await page.getByRole('button', { name: 'Enter what is missing' }).click();
  const form = page.locator('wr-conditions-form');
  await form.getByLabel('Wind from', { exact: false }).first().fill('250');
  await form
    .getByLabel(/^Wind speed|^Speed/)
    .first()
    .fill('8');
  await form.getByRole('radio', { name: /true/i }).first().check();
  await form.getByLabel(/Temperature/).fill('14');
  await form.getByLabel(/QNH/).fill('1016');
  await form
    .getByLabel(/landing/i)
    .first()
    .fill('900');
  await form.getByLabel(/Surface/).selectOption('grass-dry');
  await form.getByRole('button', { name: 'Use these' }).click();
  await page.getByText(/times the expected roll/).waitFor();
  expect(await page.locator('.title-block').innerText()).toMatch(/250° 8.kt/);
  await page.reload();
  await page.getByText(/times the expected roll/).waitFor();
  expectQuiet(watched);
});

test('[EM1] asks for the braking with the conditions while no ratio is on the screen, and it counts', async () => {
  const watched = await openDebriefOf(MARRAM_AT_TERNHOLM);
  const { page } = watched;
  await page.getByRole('button', { name: 'Enter what is missing' }).click();
  const form = page.locator('wr-conditions-form');
  await form.getByRole('button', { name: 'Calm' }).click();
  await form.getByLabel(/Temperature/).fill('14');
  await form.getByLabel(/QNH/).fill('1016');
  await form.getByLabel(/Mass at landing/).fill('900');
  await form.getByLabel(/Surface/).selectOption('grass-dry');
  await form.getByLabel(/Aeroplane/).selectOption('marram-160');
  await form.getByRole('radio', { name: /^coasted/ }).check();
  await form.getByRole('button', { name: 'Use these' }).click();
  await page.getByText(/times the expected roll/).waitFor();
  const marks = page.getByRole('radiogroup', { name: 'Braking of this landing' });
  await marks.getByText('as entered with the conditions: coasted').waitFor();
  // With the ratio on the screen it is not asked for again.
  await page.getByRole('button', { name: 'Change', exact: true }).click();
  await form.getByLabel(/QNH/).waitFor();
  expect(await form.getByText('Braking').count()).toBe(0);
  await form.getByRole('button', { name: 'Cancel' }).click();
  // It counts: a ratio of a coasted landing is a most, never one of the own factor's.
  await page.goto(`${page.url().replace(/#.*/, '')}#/factor/marram-160/landing-roll`);
  const rows = page.locator('wr-figure').first().locator('.twin tbody tr');
  await expect.poll(() => rows.last().textContent()).toMatch(/at most \d\.\d\d/);
  expectQuiet(watched);
});

test('[PG23] leads to the form of an aeroplane where none is kept', async () => {
  const watched = await openDebriefOf([`${SAMPLE}/strips.geojson`, sampleFlight(CIRCUITS)]);
  const { page } = watched;
  await page.getByRole('button', { name: 'Enter what is missing' }).click();
  await page.getByText('none kept yet: type one in the room Aeroplanes').waitFor();
  await page.getByRole('button', { name: 'Close the form' }).click();
  await page.getByRole('link', { name: /Type your aeroplane.s handbook figures/ }).click();
  await page.locator('wr-aeroplane-form').waitFor();
  expectQuiet(watched);
});

test('[PG24] opens how a figure was found', async () => {
  const watched = await openPage();
  const { page } = watched;
  await openDebrief(page, '20 Apr 2024', '09:49');
  const label = page.locator('.found-label').getByText('touchdown', { exact: true });
  const touchdown = page.locator('details.found', { has: label });
  await touchdown.locator('summary').click();
  await touchdown.getByText(/Half of the chance lies before the value/).waitFor();
  await touchdown.locator('svg').waitFor();
  expectQuiet(watched);
});

test('[PG27] holds a final against limits typed in: in, out, or cannot tell', async () => {
  const watched = await openPage();
  const { page } = watched;
  await openDebrief(page, '20 Apr 2024', '09:49');
  await page.getByRole('button', { name: 'Change', exact: true }).click();
  await page.getByText('Own limits for the final').click();
  await page.getByLabel('Airspeed, least').fill('30');
  await page.getByRole('button', { name: 'Use these' }).click();
  const message = page.locator('#conditions-airspeedMost-message');
  expect(await message.innerText()).toBe(
    'found nothing, expected both ends of the limit, or neither',
  );
  await page.getByLabel('Airspeed, most').fill('90');
  await page.getByLabel('Path, least').fill('20');
  await page.getByLabel('Path, most').fill('30');
  await page.getByLabel('Descent, least').fill('0');
  // The lower end of the band at 50 ft: nobody can tell.
  const cell = (name: string) =>
    page.locator('.gate-table tbody tr').last().locator(`td[data-label="${name}"]`);
  const band = await cell('descent').locator('.band').innerText();
  await page.getByLabel('Descent, most').fill(String(Number(band.split('\u2013')[0]) + 20));
  await page.getByRole('button', { name: 'Use these' }).click();
  await expect
    .poll(() => cell('airspeed, estimated').innerText(), { timeout: 10_000 })
    .toMatch(/in\s+against 30\u201390.kt/);
  expect(await cell('path').innerText()).toMatch(/out\s+against 20.0\u201330.0°/);
  expect(await cell('descent').innerText()).toMatch(/cannot tell\s+against/);
  // Offered for the same aeroplane on another day, never taken unasked.
  await page.goto(`${page.url().replace(/#.*/, '')}#/logbook`);
  await openDebrief(page, '2 Jun 2024', '08:24');
  expect(await page.getByText('no limits entered').count()).toBe(1);
  await page.getByRole('button', { name: 'Change', exact: true }).click();
  await page.getByText('Own limits for the final').click();
  await page.getByRole('button', { name: 'Take the ones last entered' }).click();
  expect(await page.getByLabel('Path, most').inputValue()).toBe('30');
  expectQuiet(watched);
});

test('[PG28] shows the float, the commit point, where a go-around was begun, and the path kept to', async () => {
  const watched = await openPage();
  const { page } = watched;
  const textsWith = async (word: string): Promise<string> => {
    const figures = page.locator('wr-figure', { hasText: word });
    await figures.first().waitFor();
    const texts = await figures.locator('svg text').allTextContents();
    return texts.join(' ').replace(/\s+/g, ' ');
  };
  await openDebrief(page, '18 May 2025', '12:28');
  const wentAround = await textsWith('commit point');
  expect(wentAround).toMatch(/commit point.* begun \d+ m before/);
  expect(wentAround).toMatch(/preferred path (not )?kept to/);
  await page
    .getByRole('button', { name: /full stop, / })
    .first()
    .click();
  expect(await textsWith('float')).toMatch(/float ?\d+/);
  expectQuiet(watched);
});
