import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('../..', import.meta.url)),
    include: ['tests/browser/**/*.browser.ts'],
    globalSetup: ['tests/browser/serve-page.ts'],
    // A browser a core, two at most: on two cores 87 s instead of 124 with one.
    maxWorkers: Math.min(2, availableParallelism()),
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // As patient as the browser's own waiting: a busy machine is no fault of the page.
    expect: { poll: { timeout: 20_000 } },
  },
});
