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
 * A service worker that keeps every file of the build and answers from what it keeps. A new build has a new name for its store, so old and new files never mix.
 */
export function precachingWorker(): Plugin {
  return {
    name: 'windrow-offline',
    apply: 'build',
    enforce: 'post',
    generateBundle(_options, bundle) {
      const kept = Object.keys(bundle);
      const hash = createHash('sha256');
      for (const name of kept.sort()) {
        const file = bundle[name];
        hash.update(name).update(file.type === 'chunk' ? file.code : file.source);
      }
      const store = `windrow-${hash.digest('hex').slice(0, 12)}`;
      this.emitFile({
        type: 'asset',
        fileName: 'sw.js',
        source: workerSource(store, ['./', ...kept]),
      });
    },
  };
}

function workerSource(store: string, files: readonly string[]): string {
  return `const STORE = ${JSON.stringify(store)};
const FILES = ${JSON.stringify(files)};
self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(STORE).then((cache) => cache.addAll(FILES)).then(() => self.skipWaiting()));
});
self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter((name) => name.startsWith('windrow-') && name !== STORE).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});
self.addEventListener('fetch', (event) => {
  if (event.request.method !== 'GET' || !event.request.url.startsWith(self.location.origin)) return;
  event.respondWith(
    caches
      .open(STORE)
      .then((cache) => cache.match(event.request, { ignoreSearch: true, ignoreVary: true }))
      .then((kept) => kept ?? fetch(event.request)),
  );
});
`;
}
