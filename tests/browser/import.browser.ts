/**
 * Bringing logs: one or many, GPX and IGC, good and bad, dropped or chosen, cancelled.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { flyDemoFile, logText, recordFlight } from '../synthetic/recorders.ts';
import {
  bringFiles,
  emptyLogbook,
  expectQuiet,
  openDebriefOf,
  openPage,
  useBrowser,
} from './open-page.ts';
import { sampleFlight, SAMPLE } from './sample.ts';

useBrowser();

const folder = mkdtempSync(join(tmpdir(), 'windrow-import-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
function file(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

test('[PG10] takes in a GPX and an IGC file at once and offers their debriefs', async () => {
  const watched = await openPage();
  const { page } = watched;
  await emptyLogbook(watched);
  await bringFiles(page, [
    join(SAMPLE, 'strips.geojson'),
    sampleFlight('2024-04-20-first-circuits-ternholm.gpx'),
    sampleFlight('2024-05-12-home-from-sedge.igc'),
  ]);
  expect(await page.getByText('see the debrief').count()).toBe(2);
  // Three approaches in the one file, two in the other (golden files of both).
  await page.getByRole('heading', { name: /landings? at/ }).waitFor();
  const places = await page.locator('.landings .strip-cell').allInnerTexts();
  expect(places.every((place) => /^(Ternholm|Sedgeholt) \d\d$/.test(place))).toBe(true);
  expect(places.length).toBeGreaterThanOrEqual(4);
  expectQuiet(watched);
});

test('[PG11] says of a bad file what was found, where, and what was expected', async () => {
  const watched = await openPage();
  const { page } = watched;
  await emptyLogbook(watched);
  await bringFiles(page, [
    file('letter.gpx', 'Dear strip owner,\nthank you for having me.\n'),
    file('cut-off.gpx', '<gpx version="1.1"><trk><trkseg><trkpt lat="54.7" lon="2.3">'),
    file('empty.igc', ''),
  ]);
  const items = page.locator('.imports > ul > li');
  expect(await items.count()).toBe(3);
  for (const text of await items.allInnerTexts()) {
    expect(text).toMatch(/not taken in/);
    expect(text).toMatch(/expected/);
    // Each place once: neither `file:` beside the file's name nor a line named twice.
    expect(text).not.toMatch(/file: |line (\d+)[^.]*line \1/i);
  }
  await page.getByRole('heading', { name: 'No landings yet.' }).waitFor();
  await page.getByRole('button', { name: 'Close this list' }).click();
  expect(await page.locator('.imports').count()).toBe(0);
  expectQuiet(watched);
});

test('[PG11] reads what stands before the break of a cut-off log, and says where it broke', async () => {
  const watched = await openPage();
  const { page } = watched;
  await emptyLogbook(watched);
  const whole = readFileSync(sampleFlight('2025-09-21-last-dry-day-sedge.gpx'), 'utf8');
  await bringFiles(page, [file('broken.gpx', whole.slice(0, Math.floor(0.55 * whole.length)))]);
  const lines = await page.locator('.import-problems li').allInnerTexts();
  expect(lines[0]).toMatch(/^Line \d+: the XML is not well-formed here/);
  await page.getByText('see the debrief').click();
  await page.getByRole('heading', { name: /^Touched down/ }).waitFor();
  expectQuiet(watched);
});

test('[IM1] folds files that went well into their number, and leaves trouble open', async () => {
  const watched = await openPage({ width: 390 });
  const { page } = watched;
  await emptyLogbook(watched);
  const strips = readFileSync(join(SAMPLE, 'strips.geojson'), 'utf8');
  const good = Array.from({ length: 30 }, (_, k) => file(`good-${k}.geojson`, strips));
  await bringFiles(page, [...good, file('bad.gpx', 'no track at all')]);
  const open = page.locator('.imports > ul > li');
  expect(await open.locator('.import-name').allInnerTexts()).toEqual(['bad.gpx']);
  const list = await page.locator('.imports').boundingBox();
  expect(list?.height).toBeLessThan(400);
  await page.getByText('30 files taken in').click();
  await page.getByText('good-29.geojson').waitFor();
  expectQuiet(watched);
});

test('[PG18] tells other JSON apart in one sentence, and a field by its own name', async () => {
  const watched = await openPage();
  const { page } = watched;
  await bringFiles(page, [
    `${SAMPLE}/conditions.json`,
    `${SAMPLE}/truth.json`,
    file('heavy.json', '{ "schema": 1, "kind": "aeroplane", "massKg": "heavy" }'),
  ]);
  const items = page.locator('.imports > ul > li');
  const lines = (k: number) => items.nth(k).locator('.import-problems li').allInnerTexts();
  expect(await lines(0)).toEqual([
    'Found a conditions file, which is for the command line: here wind, temperature, mass and surface are entered in the debrief of their flight.',
  ]);
  expect(await lines(1)).toEqual([expect.stringMatching(/^Found JSON with "kind": "truth", exp/)]);
  const fields = await lines(2);
  expect(fields).toContain('id: this field is missing.');
  expect(fields.filter((line) => line.startsWith('massKg: ')).length).toBe(1);
  expectQuiet(watched);
});

test('[PG17] says so where the flight of an address is not in the logbook', async () => {
  const watched = await openPage({ hash: '#/debrief/nosuch/9/approach-77' });
  await watched.page.getByRole('heading', { name: 'There is no such flight.' }).waitFor();
  expectQuiet(watched);
});

test('[PG12] knows a log that is in the logbook already', async () => {
  const watched = await openPage();
  const { page } = watched;
  const rows = page.locator('.landings tbody tr');
  const before = await page.locator('h1.sentence').innerText();
  await bringFiles(page, [sampleFlight('2024-04-20-first-circuits-ternholm.gpx')]);
  expect(await page.locator('.import-problems').innerText()).toContain('in the logbook already');
  expect(await page.locator('h1.sentence').innerText()).toBe(before);
  expect(await rows.count()).toBeGreaterThan(0);
  expectQuiet(watched);
});

test('[PG13] takes files that are dropped on the page', async () => {
  const watched = await openPage();
  const { page } = watched;
  await emptyLogbook(watched);
  const transfer = await page.evaluateHandle(() => {
    const data = new DataTransfer();
    data.items.add(new File(['no track at all'], 'dropped.gpx'));
    return data;
  });
  await page.locator('.drop-zone').dispatchEvent('drop', { dataTransfer: transfer });
  await page.getByText(/files? looked at/).waitFor();
  expect(await page.locator('.import-name').innerText()).toBe('dropped.gpx');
  expectQuiet(watched);
});

test('[PG14] cancels: what waits is not taken in, and the page goes on', async () => {
  const watched = await openPage();
  const { page } = watched;
  await emptyLogbook(watched);
  const point = (second: number): string =>
    `<trkpt lat="${(54.7 + second * 1e-4).toFixed(6)}" lon="2.3"><ele>100</ele><time>${new Date(
      1.7e12 + 1000 * second,
    ).toISOString()}</time></trkpt>`;
  const long = Array.from({ length: 60_000 }, (_, second) => point(second)).join('\n');
  const big = file('long.gpx', `<gpx version="1.1"><trk><trkseg>${long}</trkseg></trk></gpx>`);
  const other = sampleFlight('2024-05-12-home-from-sedge.igc');
  await page.getByLabel('Choose files').setInputFiles([big, other]);
  await page.getByRole('button', { name: 'Cancel' }).click();
  await page.getByText('2 files looked at').waitFor();
  expect(await page.locator('.import-stage').allInnerTexts()).toEqual(['cancelled', 'cancelled']);
  await page.getByRole('button', { name: 'Close this list' }).click();
  await bringFiles(page, [other]);
  expect(await page.getByText('see the debrief').count()).toBe(1);
  expectQuiet(watched);
});

test('[PG15] finds a landing at a place nobody has kept, and offers to keep it', async () => {
  const watched = await openDebriefOf([sampleFlight('2024-05-12-home-from-sedge.igc')]);
  const { page } = watched;
  await page.getByText('A place not kept yet').first().waitFor();
  const keep = page.getByRole('link', { name: 'Keep as a strip' });
  expect(await keep.getAttribute('href')).toMatch(
    /^#\/strips\/new\/54\.\d+%2C2\.\d+\/54\.\d+%2C2\.\d+$/,
  );
  expectQuiet(watched);
});

test('[PG19] shows what the log alone carries there: the roll on a bare tape, height and speed, the circuit', async () => {
  const watched = await openDebriefOf([sampleFlight('2024-04-20-first-circuits-ternholm.gpx')]);
  const { page } = watched;
  const roll = page.getByRole('figure', { name: 'The roll' });
  await roll.waitFor();
  expect(
    await page.getByRole('figure').evaluateAll((all) => all.map((each) => each.ariaLabel)),
  ).toEqual(['The flight', 'The roll', 'Height and speed', 'Circuit']);
  // No grass, no ends of a strip, no rod, no rope.
  const drawn = page.locator('figure:not([aria-label="The flight"]) svg');
  for (const kind of ['grass', 'mown', 'strip-end', 'turf', 'rope']) {
    expect(await drawn.locator(`.${kind}`).count()).toBe(0);
  }
  await page.getByText(/^No threshold, no end and no slope are known here/).waitFor();
  expect(await page.getByText('Why it differed').count()).toBe(0);
  // The plumb line hangs on the roll and on both profiles, and says along what it counts.
  const box = await roll.locator('svg').boundingBox();
  if (!box) throw new Error('the roll is drawn');
  await page.mouse.move(box.x + box.width / 2, box.y + 40);
  await expect
    .poll(() => page.locator('.plumb-slider output').innerText())
    .toMatch(/along the line/);
  expect(await page.locator('wr-debrief-sheet svg .plumb').count()).toBeGreaterThan(2);
  expectQuiet(watched);
});

test('[DN8] says of a log written newest first that it was turned, and of one that begins over the strip what it does not show', async () => {
  const text = readFileSync(sampleFlight('2024-04-20-first-circuits-ternholm.gpx'), 'utf8');
  const points = [...text.matchAll(/<trkpt.*?<\/trkpt>\s*/gs)].map(([point]) => point);
  const [head, foot] = [text.slice(0, text.indexOf('<trkpt')), '</trkseg></trk></gpx>'];
  // The golden file of the flight has this touchdown at 09:49:25.
  const begun = points.filter((point) => /T09:(49:(2[4-9]|[3-5])|5)/.test(point));
  const watched = await openPage({ width: 390 });
  const { page } = watched;
  await emptyLogbook(watched);
  await bringFiles(page, [
    join(SAMPLE, 'strips.geojson'),
    file('newest-first.gpx', head + points.toReversed().join('') + foot),
    file('begun-over-strip.gpx', head + begun.join('') + foot),
  ]);
  await page
    .getByText(/The fixes stand newest first in the file; they were put in order/)
    .waitFor();
  const debriefs = await page
    .getByRole('link', { name: 'see the debrief' })
    .evaluateAll((links) => links.map((link) => (link as HTMLAnchorElement).hash));
  await page.goto(page.url().replace(/#.*/, '') + debriefs[1]);
  await page.getByRole('heading', { name: /^Landed, stopped with \d+\sm left\.$/ }).waitFor();
  const ruler = page.getByRole('figure', { name: 'The strip' });
  expect(await ruler.locator('svg').first().getAttribute('aria-label')).toMatch(
    /Undetermined: the log begins over the strip: the wheels may have touched before/,
  );
  expectQuiet(watched);
});

test('[PG16] shows text from files as text', async () => {
  const watched = await openPage();
  const { page } = watched;
  const name = '<img src=x onerror=document.title=1>.gpx';
  const path = file(
    'hostile.gpx',
    '<gpx><trk><name><![CDATA[<script>alert(1)</script>]]></name></trk></gpx>',
  );
  await page.getByLabel('Choose files').setInputFiles({
    name,
    mimeType: 'application/gpx+xml',
    buffer: Buffer.from(`not xml ${path} <b>bold</b>`),
  });
  await page.getByText(/files? looked at/).waitFor();
  expect(await page.locator('.import-name').innerText()).toBe(name);
  expect(await page.locator('.imports img, .imports b, .imports script').count()).toBe(0);
  expect(await page.title()).toBe('Logbook · Windrow');
  expectQuiet(watched);
});

test('[TWICE6] lists a second log of a flight by itself, with a debrief that says which counts', async () => {
  const story = '2025-09-21-last-dry-day-sedge.gpx';
  const logged = recordFlight(flyDemoFile(story), {
    ...{ format: 'igc', seed: 5, intervalS: 2, fromS: 30 },
  });
  const watched = await openPage();
  const { page } = watched;
  const sentence = await page.getByRole('heading', { level: 1 }).innerText();
  await bringFiles(page, [file('recorder.igc', logText(logged))]);
  const second = page.locator('section', { hasText: 'Second logs of a flight' });
  await second.getByText(`also recorded by ${story}, which counts`).waitFor();
  expect(await page.getByRole('heading', { level: 1 }).innerText()).toBe(sentence);
  expect(await page.getByText('Logs without a landing').count()).toBe(0);
  await second.getByRole('link', { name: 'recorder.igc' }).click();
  await page.locator('.notes').getByText(`Also recorded by ${story}, which counts`).waitFor();
  expectQuiet(watched);
});
