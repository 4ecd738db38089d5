/**
 * A page in a real browser, watched: what it says to the console, what it asks other addresses for,
 * what its content policy stops.
 *
 * Every test ends with `expectQuiet`, which fails on any of them.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject } from 'vitest';
import { startChromium } from '../tools/start-chromium.mjs';

/** How a page is opened. */
export interface Opening {
  readonly width?: number;
  readonly height?: number;
  readonly theme?: 'light' | 'dark';
  readonly hash?: string;
  /** A screen to be touched. */
  readonly touch?: boolean;
  /** The offline worker; left out by default, so that each test sees the build as it is. */
  readonly serviceWorker?: boolean;
}

/** A watched page with its own empty storage. */
export interface WatchedPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Everything that no page should do. */
  readonly faults: string[];
}

let browser: Browser | null = null;
const open: BrowserContext[] = [];

/** Starts one browser for a file of tests, and ends it with everything that was opened. */
export function useBrowser(): void {
  beforeAll(async () => {
    browser = await startChromium();
  });
  afterAll(async () => {
    for (const context of open.splice(0)) await context.close();
    await browser?.close();
  });
}

/** Opens the page in a storage of its own and waits until the logbook is open. */
export async function openPage({
  width = 1280,
  height = 900,
  theme = 'light',
  hash = '',
  touch = false,
  serviceWorker = false,
}: Opening = {}): Promise<WatchedPage> {
  if (!browser) throw new Error('useBrowser comes first');
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: theme,
    reducedMotion: 'reduce',
    hasTouch: touch,
    serviceWorkers: serviceWorker ? 'allow' : 'block',
    acceptDownloads: true,
  });
  open.push(context);
  const page = await context.newPage();
  const faults = watch(page);
  await page.goto(inject('address') + hash);
  await page.locator('h1.sentence').first().waitFor();
  return { page, context, faults };
}

/** Watches a page from now on. */
export function watch(page: Page): string[] {
  const faults: string[] = [];
  const address = inject('address');
  page.on('console', (message) => {
    // The tests themselves keep the offline worker out; the browser warns of that.
    if (message.text().includes('Service Worker registration blocked')) return;
    if (message.type() === 'error' || message.type() === 'warning') {
      faults.push(`console: ${message.text()}`);
    }
  });
  page.on('pageerror', (error) => faults.push(`fault: ${error.message}`));
  page.on('request', (request) => {
    const url = request.url();
    const isOwn = url.startsWith(address) || url.startsWith('blob:') || url.startsWith('data:');
    if (!isOwn) faults.push(`asked for ${url}`);
  });
  return faults;
}

/** Fails where the page complained, broke, or asked another address for anything. */
export function expectQuiet({ faults }: WatchedPage): void {
  expect(faults).toEqual([]);
}

/** Takes the demonstration away, for tests that begin with nothing. */
export async function emptyLogbook(watched: WatchedPage): Promise<void> {
  const { page } = watched;
  await page.getByRole('button', { name: 'Take it away' }).click();
  await page.getByRole('heading', { name: 'No landings yet.' }).waitFor();
}

/** Gives files to the logbook and waits until they are all looked at. */
export async function bringFiles(page: Page, paths: readonly string[]): Promise<void> {
  await page.getByLabel('Choose files').setInputFiles([...paths]);
  await page.getByText(/files? looked at/).waitFor();
}

/** Opens the page on an empty logbook that was given these files, one of them a log, at its debrief. */
export async function openDebriefOf(paths: readonly string[]): Promise<WatchedPage> {
  const watched = await openPage();
  await emptyLogbook(watched);
  await bringFiles(watched.page, paths);
  await watched.page.getByRole('link', { name: 'see the debrief' }).click();
  return watched;
}
