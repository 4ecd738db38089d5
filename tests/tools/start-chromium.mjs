/**
 * Chromium for browser tests, screenshots and measurements.
 */

import { chromium } from 'playwright-core';
import { findBrowser, HOW_TO_GET_ONE } from './find-browser.mjs';

/** Keeps Chromium from asking for anything by itself. */
const ARGS = [
  ...['--no-sandbox', '--disable-quic', '--no-first-run', '--disable-background-networking'],
  ...['--disable-component-update', '--disable-sync'],
];

/**
 * Starts it. Fails: throws where there is none, saying how to get one.
 *
 * @returns {Promise<import('playwright-core').Browser>}
 */
export async function startChromium() {
  const executablePath = findBrowser({ install: true });
  if (executablePath === null) throw new Error(HOW_TO_GET_ONE);
  return chromium.launch({ executablePath, args: ARGS });
}
