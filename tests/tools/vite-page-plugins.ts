/**
 * What the page's build needs beside Vite: the policy in the page, the demo world as files of the
 * page, and a service worker that keeps the page for offline use.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Plugin } from 'vite';
import { contentPolicy } from '../../src/app/content-policy.ts';
import { bundleEntry } from './bundle-entry.mjs';
import { offlineWorkerSource } from './offline-worker.ts';

/** Puts the content security policy into index.html. */
export function policyInPage(): Plugin {
  return {
    name: 'windrow-policy',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: {
          'http-equiv': 'Content-Security-Policy',
          content: contentPolicy({ header: false }),
        },
        injectTo: 'head-prepend',
      },
    ],
  };
}

/**
 * The demonstration as one logbook file, `demo.windrow`, beside the built page: measured while
 * building, so that its landings are on show at once.
 */
export function demoLogbook(projectFolder: string): Plugin {
  return {
    name: 'windrow-demo',
    apply: 'build',
    async generateBundle() {
      const program = await bundleEntry({
        rootFolder: projectFolder,
        entry: 'tests/tools/make-demo-logbook.ts',
        outFolder: join('dist', 'demo-logbook'),
        sourceFolders: ['src', 'tracks-sample', 'tests/tools'],
      });
      // The program's folder is named after the content of all sources: what it wrote once holds.
      const written = join(dirname(program), 'demo.windrow');
      if (!existsSync(written)) {
        execFileSync(process.execPath, [program, join(projectFolder, 'tracks-sample'), written], {
          stdio: ['ignore', 'ignore', 'inherit'],
        });
      }
      this.emitFile({ type: 'asset', fileName: 'demo.windrow', source: readFileSync(written) });
    },
  };
}

/**
 * A service worker that keeps every file of the build (offline-worker.ts). Its store is named after the
 * content of all files, so old and new files never mix.
 */
export function precachingWorker(): Plugin {
  return {
    name: 'windrow-offline',
    apply: 'build',
    enforce: 'post',
    generateBundle(_options, bundle) {
      const names = Object.keys(bundle).sort();
      if (!names.includes('index.html')) throw new Error('the build has no index.html to keep');
      const hash = createHash('sha256');
      for (const name of names) {
        const file = bundle[name];
        const content = file.type === 'chunk' ? file.code : file.source;
        hash.update(JSON.stringify([name, Buffer.byteLength(content)])).update(content);
      }
      // The page is kept under its folder's address: some servers send index.html elsewhere.
      const files = ['./', ...names.filter((name) => name !== 'index.html')];
      const source = offlineWorkerSource(hash.digest('hex').slice(0, 12), files);
      this.emitFile({ type: 'asset', fileName: 'sw.js', source });
    },
  };
}
