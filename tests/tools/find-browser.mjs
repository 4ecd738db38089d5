/**
 * Which browser do the browser tests use, and can it be installed where there is none?
 *
 * Looks at WINDROW_BROWSER, then at the usual places of Chromium. On a Debian machine where this
 * process may install packages it installs Chromium. Output goes to stderr.
 */

import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:/Program Files/Google/Chrome/Application/chrome.exe',
];

/** Said where there is no browser and none may be installed. */
export const HOW_TO_GET_ONE =
  'No Chromium was found, so the browser tests did not run. Install it (Debian: apt-get install chromium) or name it in WINDROW_BROWSER.';

/**
 * The browser's program, or null where there is none.
 *
 * @param {{ install: boolean }} wish
 * @returns {string | null}
 */
export function findBrowser({ install }) {
  const named = process.env.WINDROW_BROWSER;
  if (named) return existsSync(named) ? named : null;
  const found = PLACES.find((place) => existsSync(place));
  if (found) return found;
  if (install && installChromium()) return PLACES.find((place) => existsSync(place)) ?? null;
  return null;
}

/** Tries Debian's package; true where it went through. */
function installChromium() {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return false;
  if (!existsSync('/usr/bin/apt-get')) return false;
  console.error('Installing Chromium for the browser tests ...');
  const run = (/** @type {string[]} */ ...args) =>
    spawnSync('apt-get', args, { stdio: ['ignore', 2, 2] }).status === 0;
  return run('update') && run('install', '-y', '--no-install-recommends', 'chromium');
}
