/**
 * The service worker that keeps the page for use without a network, as text.
 *
 * In: the build's name and its files. Out: a script without imports. It keeps every file when it is
 * installed, answers from what it keeps, and asks the network for anything else of its own folder.
 * Other addresses it leaves alone. A new build waits until no page of the old one is open: old and new
 * files never meet in one page.
 *
 * Source: W3C Service Workers and WHATWG Fetch, from memory.
 */

/** The worker's script; `files` are addresses below its own folder, the page itself being `./`. */
export function offlineWorkerSource(build: string, files: readonly string[]): string {
  return `'use strict';
const SCOPE = self.registration.scope;
// Pages of other folders share this storage: only names that begin like this are ours.
const OURS = 'windrow ' + SCOPE + ' ';
const STORE = OURS + ${JSON.stringify(build)};
const FILES = ${JSON.stringify(files)};

self.addEventListener('install', (event) => event.waitUntil(keepAll()));
self.addEventListener('activate', (event) => event.waitUntil(forgetOlder().then(() => self.clients.claim())));
self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method === 'GET' && request.url.startsWith(SCOPE)) event.respondWith(answer(request));
});

async function keepAll() {
  const store = await caches.open(STORE);
  // Past the browser's own cache, which may hold files of an older build. One that fails fails all.
  await store.addAll(FILES.map((file) => new Request(file, { cache: 'reload' })));
}

async function forgetOlder() {
  const names = await caches.keys();
  const older = names.filter((name) => name.startsWith(OURS) && name !== STORE);
  await Promise.all(older.map((name) => caches.delete(name)));
}

async function answer(request) {
  const isVisit = request.mode === 'navigate';
  const store = await caches.open(STORE);
  // A server may say that an answer varies with the asker's origin: all askers here are of our own.
  const wanted = isVisit && isPage(request.url) ? SCOPE : request;
  const kept = await store.match(wanted, { ignoreSearch: true, ignoreVary: true });
  if (kept) return kept;
  try {
    return await fetch(request);
  } catch (fault) {
    // Without a network any address of the folder shows the page rather than nothing.
    const page = isVisit ? await store.match(SCOPE) : undefined;
    if (page) return page;
    throw fault;
  }
}

function isPage(url) {
  const address = url.split(/[?#]/)[0];
  return address === SCOPE || address === SCOPE + 'index.html';
}
`;
}
