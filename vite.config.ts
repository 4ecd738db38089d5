import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { contentPolicy } from './src/app/content-policy.ts';
import { demoLogbook, policyInPage, precachingWorker } from './tests/tools/vite-page-plugins.ts';

const projectFolder = fileURLToPath(new URL('.', import.meta.url));

/** Tests of what keeps a state between calls, or of the programs around it: each file by itself. */
const HAS_A_PAGE = ['tests/app', 'tests/contract', 'tests/drawings', 'tests/tools'];

export default defineConfig({
  root: 'src/app',
  publicDir: false,
  build: {
    outDir: '../../dist/app',
    emptyOutDir: true,
    target: 'es2022',
    modulePreload: { polyfill: false },
    // Everything comes from files of our own: an inlined asset would need a wider policy.
    assetsInlineLimit: 0,
    // The demo logbook takes its seconds; a reader of the start's output need not be told how many.
    rolldownOptions: { checks: { bundlerTimings: false } },
  },
  worker: { format: 'es' },
  plugins: [policyInPage(), demoLogbook(projectFolder), precachingWorker()],
  preview: { headers: { 'Content-Security-Policy': contentPolicy({ header: true }) } },
  test: {
    root: projectFolder,
    projects: [
      {
        extends: true,
        test: { name: 'page', include: HAS_A_PAGE.map((folder) => `${folder}/**/*.test.ts`) },
      },
      {
        extends: true,
        test: {
          name: 'pure',
          include: ['tests/**/*.test.ts'],
          exclude: HAS_A_PAGE.map((folder) => `${folder}/**`),
          // Below the page nothing keeps anything: its modules are loaded once for all files, a minute less.
          isolate: false,
        },
      },
    ],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    pool: 'threads',
    // Every core: by itself it would leave one free, which on two cores is half of them.
    maxWorkers: '100%',
  },
});
