/**
 * What does the page cost? Prints the initial download, the time to the first view, from drop to
 * debrief, and of one move of the plumb line.
 *
 *   npm run page-cost
 */

import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { servePage } from './serve-page.mjs';
import { startChromium } from './start-chromium.mjs';

/** @typedef {import('playwright-core').Page} Page */

const built = fileURLToPath(new URL('../../dist/app', import.meta.url));
const sample = fileURLToPath(new URL('../../tracks-sample', import.meta.url));
const ROUNDS = 5;

const { address, close } = await servePage({ port: 4187 });
const browser = await startChromium();

await printDownload();
await printFirstView();
await printImport('1 h at 1 Hz, a strip visit with three circuits', visitGpx);
await printImport('1 h at 1 Hz, 17 circuits', (seed) => circuitsGpx(3600, seed));
await printPlumbLine();

await browser.close();
await close();
process.exit(0);

/** Every file, compressed as a server would, and what of them the browser asks for before the first view. */
async function printDownload() {
  /** @type {Set<string>} */
  const asked = new Set();
  const page = await newPage();
  page.on('request', (request) => asked.add(new URL(request.url()).pathname.slice(1)));
  await page.goto(address);
  await page.locator('.landings tbody tr').first().waitFor();
  const early = new Set(asked);
  await page.context().close();
  let total = 0;
  for (const name of readdirSync(built, { recursive: true, encoding: 'utf8' })) {
    const file = join(built, name);
    if (!statSync(file).isFile()) continue;
    const bytes = gzipSync(readFileSync(file), { level: 9 }).length;
    const isEarly = early.has(name) || name === 'index.html';
    if (isEarly && !name.endsWith('demo.windrow')) total += bytes;
    console.log(`${kB(bytes).padStart(10)}  ${name}${isEarly ? '' : ' (later)'}`);
  }
  console.log(`${kB(total).padStart(10)}  before the first view, compressed, without the demo\n`);
}

async function printFirstView() {
  const times = [];
  for (let round = 0; round < ROUNDS; round++) {
    const page = await newPage();
    const startedAt = performance.now();
    await page.goto(address);
    await page.locator('.landings tbody tr').first().waitFor();
    times.push(performance.now() - startedAt);
    await page.context().close();
  }
  say('first view of the demo, empty storage', times);
  const page = await newPage();
  await page.goto(address);
  await page.locator('.landings tbody tr').first().waitFor();
  await page.waitForTimeout(1000);
  const again = [];
  for (let round = 0; round < ROUNDS; round++) {
    const startedAt = performance.now();
    await page.reload();
    await page.locator('.landings tbody tr').first().waitFor();
    again.push(performance.now() - startedAt);
  }
  say('the same, opened again', again);
  await page.context().close();
}

/**
 * From handing over the file to its debrief on show.
 *
 * @param {string} what
 * @param {(seed: number) => string} makeGpx
 */
async function printImport(what, makeGpx) {
  const times = [];
  for (let round = 0; round < ROUNDS; round++) {
    const page = await newPage();
    await page.goto(address);
    await page.locator('.landings tbody tr').first().waitFor();
    await page.waitForTimeout(500);
    const file = {
      name: `hour-${round}.gpx`,
      mimeType: 'application/gpx+xml',
      buffer: Buffer.from(makeGpx(round)),
    };
    await page.evaluate(watchImport);
    await page.getByLabel('Choose files').setInputFiles(file);
    await page.locator('wr-debrief-sheet h1').waitFor();
    times.push(await page.evaluate(() => Number(document.documentElement.dataset.tookMs)));
    await page.context().close();
  }
  say(`from a log of ${what} to its debrief`, times);
}

/** Runs in the page: from the moment it is given a file, opens the debrief as soon as it can. */
function watchImport() {
  let startedAt = 0;
  document.addEventListener('change', () => (startedAt = performance.now()), { capture: true });
  const observer = new MutationObserver(() => {
    const link = document.querySelector('.imports a');
    if (link && !location.hash.startsWith('#/debrief')) /** @type {HTMLElement} */ (link).click();
    if (!document.querySelector('wr-debrief-sheet h1')) return;
    document.documentElement.dataset.tookMs = String(performance.now() - startedAt);
    observer.disconnect();
  });
  observer.observe(document.body, { childList: true, subtree: true, characterData: true });
}

/** One move of the plumb line, drawn: over a log of 20,000 fixes. */
async function printPlumbLine() {
  const page = await newPage();
  await page.goto(address);
  await page.locator('.landings tbody tr').first().waitFor();
  const buffer = Buffer.from(circuitsGpx(20_000, 9));
  await page
    .getByLabel('Choose files')
    .setInputFiles({ name: 'long.gpx', mimeType: 'application/gpx+xml', buffer });
  await page.getByRole('link', { name: 'see the debrief' }).click({ timeout: 60_000 });
  await page
    .getByRole('button', { name: /full stop/ })
    .first()
    .press('Enter');
  await page.getByRole('heading', { name: /^Touched down/ }).waitFor();
  await page.locator('wr-debrief-sheet wr-figure svg').nth(2).waitFor();
  const times = await page.evaluate(async () => {
    const sheet = document.querySelector('wr-debrief-sheet');
    const figure = document.querySelectorAll('wr-figure')[1];
    const box = figure.getBoundingClientRect();
    const found = [];
    const places = new Set();
    for (let k = 0; k < 120; k++) {
      const x = box.left + box.width * (0.2 + 0.4 * ((k % 40) / 40));
      const startedAt = performance.now();
      figure.dispatchEvent(
        new PointerEvent('pointermove', { bubbles: true, clientX: x, clientY: box.top + 60 }),
      );
      await sheet?.updateComplete;
      await Promise.all(
        [...document.querySelectorAll('wr-figure')].map((each) => each.updateComplete),
      );
      // The layout that the change asks for is part of its price.
      figure.getBoundingClientRect();
      places.add(document.querySelector('.plumb-slider output')?.textContent);
      found.push(performance.now() - startedAt);
      await new Promise((done) => requestAnimationFrame(done));
    }
    if (places.size < 40) throw new Error(`the plumb line hung at ${places.size} places only`);
    return found;
  });
  say('one move of the plumb line, 20,000 fixes', times);
  await page.context().close();
}

async function newPage() {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    serviceWorkers: 'block',
  });
  return context.newPage();
}

/**
 * One hour: three circuits, then straight out and back at a height.
 *
 * @param {number} seed
 */
function visitGpx(seed) {
  const text = circuitsGpx(618, seed);
  const last = text.lastIndexOf('</trkpt>') + '</trkpt>'.length;
  const lastTime = text.slice(text.lastIndexOf('<time>') + 6, text.lastIndexOf('</time>'));
  const startS = Date.parse(lastTime) / 1000 + 30;
  const cruise = Array.from({ length: 2982 }, (_, k) => {
    const out = (k < 1491 ? k : 2982 - k) * 0.0004;
    const time = new Date((startS + k) * 1000).toISOString();
    return `<trkpt lat="${(54.75 + out).toFixed(7)}" lon="2.4"><ele>500</ele><time>${time}</time></trkpt>`;
  });
  return text.slice(0, last) + cruise.join('\n') + text.slice(last);
}

/**
 * A log of any length with real circuits: a flight of the demonstration, flown again and again.
 *
 * @param {number} fixes
 * @param {number} seed moves the times, so that no two logs are the same
 */
function circuitsGpx(fixes, seed) {
  const text = readFileSync(join(sample, 'flights/2024-04-20-first-circuits-ternholm.gpx'), 'utf8');
  const points = [...text.matchAll(/<trkpt[^]*?<\/trkpt>/g)].map(([point]) => ({
    point,
    timeS: Date.parse(/<time>(.*?)<\/time>/.exec(point)?.[1] ?? '') / 1000,
  }));
  const spanS = points[points.length - 1].timeS - points[0].timeS + 60;
  const written = Array.from({ length: fixes }, (_, k) => {
    const { point, timeS } = points[k % points.length];
    const shiftedS = timeS + seed * 86_400 + Math.floor(k / points.length) * spanS;
    const time = new Date(shiftedS * 1000).toISOString();
    return point.replace(/<time>.*?<\/time>/, `<time>${time}</time>`);
  });
  const head = text.slice(0, text.indexOf('<trkpt'));
  const foot = text.slice(text.lastIndexOf('</trkpt>') + '</trkpt>'.length);
  return head + written.join('\n') + foot;
}

/**
 * @param {string} what
 * @param {readonly number[]} times
 */
function say(what, times) {
  const sorted = times.toSorted((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)];
  const worst = sorted[sorted.length - 1];
  console.log(
    `${what}: middle ${middle.toFixed(1)} ms, slowest ${worst.toFixed(1)} ms of ${times.length}`,
  );
}

/** @param {number} bytes */
function kB(bytes) {
  return `${(bytes / 1000).toFixed(1)} kB`;
}
