import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { contentPolicy } from './src/app/content-policy.ts';
import { demoLogbook, policyInPage, precachingWorker } from './tests/tools/vite-page-plugins.ts';

const projectFolder = fileURLToPath(new URL('.', import.meta.url));

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
    include: ['tests/**/*.test.ts'],
    // Each worker loads a module once for all its files, a minute less. So no module may keep what a
    // test could notice: caches go by the object they were made from.
    isolate: false,
    testTimeout: 60_000,
    hookTimeout: 60_000,
    pool: 'threads',
    // Every core: by itself it would leave one free, which on two cores is half of them.
    maxWorkers: '100%',
  },
});
