import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('../..', import.meta.url)),
    include: ['tests/browser/**/*.browser.ts'],
    globalSetup: ['tests/browser/serve-page.ts'],
    // One browser at a time: two of them only slow each other down on a small machine.
    fileParallelism: false,
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // As patient as the browser's own waiting: a busy machine is no fault of the page.
    expect: { poll: { timeout: 20_000 } },
  },
});
