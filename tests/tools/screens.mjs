/**
 * Takes the screenshots of docs/screens: every room at three widths, light and dark, and the print.
 *
 *   npm run screens [-- NAME ...]      only the pictures whose name begins so
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { servePage } from './serve-page.mjs';
import { startChromium } from './start-chromium.mjs';

/** @typedef {import('playwright-core').Page} Page */
/** @typedef {{ name: string, hash: string, prepare?: (page: Page) => Promise<void> }} Scene */

const OUT = fileURLToPath(new URL('../../docs/screens', import.meta.url));
const WIDTHS = [1280, 820, 390];
const wanted = process.argv.slice(2);

const NEWEST = 'wr-debrief-sheet [data-key]';
/** @param {string} key */
const choose = (key) => async (/** @type {Page} */ page) => {
  await page.locator(`[data-key^="${key}"]`).last().click();
  await page.waitForTimeout(500);
};
/**
 * Opens the first landing of the list whose words fit.
 *
 * @param {string} words
 */
const flightOf = (words) => async (/** @type {Page} */ page) => {
  const all = page.getByRole('button', { name: /Show all/ });
  if (await all.count()) await all.click();
  await page
    .getByRole('link', { name: new RegExp(words) })
    .first()
    .click();
  await page.locator(NEWEST).first().waitFor();
  await page.waitForTimeout(500);
};

/**
 * Lays over each other what was flown in one direction.
 *
 * @param {string} place
 */
const sideAt = (place) => async (/** @type {Page} */ page) => {
  await page.getByRole('heading', { name: 'Gates and rolls' }).waitFor();
  await page.getByLabel('Strip and direction').selectOption(place);
  await page.locator('.side-page .kicker', { hasText: place }).waitFor();
  // Up to six logs are measured for it.
  await page.waitForTimeout(3000);
};
/**
 * Predicts a visit in a light wind on dry grass, and keeps it.
 *
 * @param {string} strip
 * @param {string} landing
 * @param {string} takeOff
 */
const visitTo = (strip, landing, takeOff) => async (/** @type {Page} */ page) => {
  await page.getByLabel('Strip', { exact: true }).selectOption({ label: strip });
  await page.getByLabel('Landing', { exact: true }).selectOption(landing);
  await page.getByLabel('Taking off', { exact: true }).selectOption(takeOff);
  await page.getByLabel('Day', { exact: true }).fill('2025-10-05');
  const form = page.locator('wr-conditions-form');
  await form.getByLabel('Wind from').fill('260');
  await form.getByLabel(/^Wind speed/).fill('8');
  await form.getByLabel(/^Gusting/).fill('14');
  await form.getByRole('radio', { name: /true/i }).first().check();
  await form.getByLabel(/Temperature/).fill('19');
  await form.getByLabel(/QNH/).fill('1016');
  await form.getByLabel(/Mass at landing/).fill('900');
  await form.getByLabel(/Surface/).selectOption('grass-dry');
  await form.getByLabel(/Aeroplane/).selectOption('marram-160');
  await form.getByRole('button', { name: 'Predict' }).click();
  await page.getByRole('button', { name: 'Keep this prediction' }).click();
  await page
    .getByRole('button', { name: /^Close: / })
    .first()
    .click();
};

/** @type {readonly Scene[]} */
const SCENES = [
  { name: 'logbook', hash: '#/logbook' },
  {
    name: 'logbook-empty',
    hash: '#/logbook',
    prepare: async (page) => {
      await page.getByRole('button', { name: 'Take it away' }).click();
      await page.getByRole('heading', { name: 'No landings yet.' }).waitFor();
    },
  },
  { name: 'debrief', hash: '#/logbook', prepare: flightOf('20 Apr.*debrief') },
  {
    name: 'debrief-plumb',
    hash: '#/logbook',
    prepare: async (page) => {
      await flightOf('20 Apr.*debrief')(page);
      await page.locator('wr-figure').nth(1).scrollIntoViewIfNeeded();
      await page.getByRole('slider').focus();
      for (let k = 0; k < 3; k++) await page.keyboard.press('PageUp');
    },
  },
  {
    name: 'debrief-conditions',
    hash: '#/logbook',
    prepare: async (page) => {
      await flightOf('20 Apr.*debrief')(page);
      await page.getByRole('button', { name: /^(Change|Enter what is missing)$/ }).click();
    },
  },
  {
    name: 'debrief-limits',
    hash: '#/logbook',
    prepare: async (page) => {
      await flightOf('20 Apr.*debrief')(page);
      await page.getByRole('button', { name: /^(Change|Enter what is missing)$/ }).click();
      await page.getByText('Own limits for the final').click();
      const limits = { airspeed: ['54', '62'], path: ['3', '6'], centreline: ['10', '10'] };
      for (const [name, [least, most]] of Object.entries(limits)) {
        await page.locator(`#conditions-${name}Least`).fill(least);
        await page.locator(`#conditions-${name}Most`).fill(most);
      }
      await page.getByRole('button', { name: 'Use these' }).click();
      await page.locator('.gate-verdict').first().waitFor();
    },
  },
  {
    name: 'debrief-limits-form',
    hash: '#/logbook',
    prepare: async (page) => {
      await flightOf('20 Apr.*debrief')(page);
      await page.getByRole('button', { name: /^(Change|Enter what is missing)$/ }).click();
      await page.getByText('Own limits for the final').click();
      await page.locator('#conditions-airspeedLeast').fill('54');
      await page.getByRole('button', { name: 'Use these' }).click();
      await page.locator('#conditions-airspeedMost-message').waitFor();
    },
  },
  {
    name: 'debrief-commit-point',
    hash: '#/logbook',
    prepare: async (page) => {
      await flightOf('18 May.*debrief')(page);
      await page.evaluate(() => {
        location.hash = location.hash.replace(/approach-\d+$/, 'approach-0');
      });
      await page.getByRole('heading', { name: /^Went around/ }).waitFor();
    },
  },
  { name: 'debrief-go-around', hash: '#/logbook', prepare: flightOf('go-around, 2') },
  { name: 'debrief-take-off', hash: '#/debrief', prepare: choose('take-off') },
  {
    name: 'debrief-by-hand',
    hash: '#/debrief',
    prepare: async (page) => {
      await page.locator('wr-own-remarks').waitFor();
      await page
        .getByLabel('Write a remark')
        .fill('Sinks behind the row: a trickle of power to it.');
      await page.getByRole('button', { name: 'Keep the remark' }).click();
      await page.getByText('Put the touchdown or the end of the roll by hand').click();
      await page.locator('#own-touchdown').fill('110');
      await page.getByRole('button', { name: 'Put it there by hand' }).first().click();
      await page.locator('.by-hand').waitFor();
    },
  },
  { name: 'side', hash: '#/side', prepare: sideAt('Ternholm 25') },
  { name: 'side-go-arounds', hash: '#/side', prepare: sideAt('Sedgeholt 02') },
  { name: 'visit-empty', hash: '#/visit' },
  {
    name: 'visit-metar',
    hash: '#/visit',
    prepare: async (page) => {
      await page.getByText('Paste a METAR').click();
      const report = 'XXDL 101630Z 32007G18KT CAVOK 15/05 Q1027';
      await page.getByLabel('METAR, as reported').fill(report);
      await page.getByRole('button', { name: 'Read it' }).first().click();
    },
  },
  { name: 'visit', hash: '#/visit', prepare: visitTo('Ternholm', '25', '25') },
  { name: 'visit-too-long', hash: '#/visit', prepare: visitTo('Sedgeholt', '20', '02') },
  { name: 'visit-one-way', hash: '#/visit', prepare: visitTo('Hollowmere Bank', '33', '15') },
  { name: 'factor', hash: '#/factor' },
  { name: 'factor-roll', hash: '#/factor/marram-160/landing-roll' },
  { name: 'factor-too-few', hash: '#/factor/eelgrass-450/landing-from-50-ft' },
  { name: 'strips', hash: '#/strips' },
  { name: 'strip-form', hash: '#/strips/ternholm' },
  { name: 'aeroplanes', hash: '#/aeroplanes' },
  { name: 'aeroplane-form', hash: '#/aeroplanes/marram-160' },
  {
    name: 'aeroplane-pasted',
    hash: '#/aeroplanes/marram-160',
    prepare: async (page) => {
      await page.getByText('Paste it from a spreadsheet').first().click();
      await page
        .getByLabel(/, pasted$/)
        .first()
        .fill('ft\t0\t15\n0\t120\tabout 130');
      await page.getByRole('button', { name: 'Read it' }).first().click();
      await page.locator('wr-paste-field .field-message').first().waitFor();
    },
  },
  { name: 'settings', hash: '#/settings' },
  {
    name: 'settings-own-factors',
    hash: '#/settings',
    prepare: async (page) => {
      const saving = page.waitForEvent('download');
      await page.getByText('Save the default set as a file').click();
      const text = readFileSync(await (await saving).path(), 'utf8');
      const file = { name: 'own.json', mimeType: 'application/json', buffer: Buffer.from(text) };
      await page.locator('wr-factor-sets input[type=file]').setInputFiles(file);
      await page.locator('wr-factor-sets summary').first().click();
    },
  },
];

const { address, close } = await servePage({ port: 4189 });
const browser = await startChromium();
mkdirSync(OUT, { recursive: true });
if (wanted.length === 0) {
  for (const old of readdirSync(OUT).filter((name) => /\.(webp|png|pdf)$/.test(name))) {
    rmSync(join(OUT, old));
  }
}
for (const scene of SCENES.filter(isWanted)) {
  for (const width of WIDTHS) {
    await shoot(scene, width, 'light');
    await shoot(scene, width, 'dark');
  }
  console.log(scene.name);
}
if (isWanted({ name: 'print' })) await print();
await browser.close();
await close();
process.exit(0);

/** @param {{ readonly name: string }} scene */
function isWanted({ name }) {
  return wanted.length === 0 || wanted.some((each) => name.startsWith(each));
}

/**
 * @param {string} hash
 * @param {number} width
 * @param {'light' | 'dark'} theme
 */
async function open(hash, width, theme) {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    colorScheme: theme,
    reducedMotion: 'reduce',
    serviceWorkers: 'block',
  });
  const page = await context.newPage();
  await page.goto(address + hash);
  await page.locator('h1.sentence').first().waitFor();
  await page.waitForTimeout(400);
  return page;
}

/**
 * @param {Scene} scene
 * @param {number} width
 * @param {'light' | 'dark'} theme
 */
async function shoot({ name, hash, prepare }, width, theme) {
  const page = await open(hash, width, theme);
  await prepare?.(page);
  await page.waitForTimeout(250);
  const path = join(OUT, `${name}-${width}-${theme}.webp`);
  // Chromium's own command: it writes WebP, a third of the size of the others.
  const session = await page.context().newCDPSession(page);
  const { cssContentSize } = await session.send('Page.getLayoutMetrics');
  const { data } = await session.send('Page.captureScreenshot', {
    format: 'webp',
    quality: 75,
    captureBeyondViewport: true,
    clip: { x: 0, y: 0, width, height: cssContentSize.height, scale: 1 },
  });
  writeFileSync(path, Buffer.from(data, 'base64'));
  await page.context().close();
}

/** The print as a PDF, and its pages as pictures where poppler is there to draw them. */
async function print() {
  const page = await open('#/logbook', 1280, 'light');
  await flightOf('20 Apr.*debrief')(page);
  const path = join(OUT, 'debrief-print.pdf');
  await page.pdf({ path, preferCSSPageSize: true, printBackground: true });
  await page.context().close();
  try {
    execFileSync('pdftoppm', ['-r', '80', '-png', path, join(OUT, 'debrief-print')]);
  } catch {
    console.error('pdftoppm (Debian: poppler-utils) is not there: the print stays a PDF');
  }
}
