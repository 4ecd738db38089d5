/**
 * The worker that keeps the page, run in a make-believe scope. Rule ids: [SW1] to [SW4], said in the titles.
 */

import { beforeEach, describe, expect, test } from 'vitest';
import { SCOPE, startWorker } from './fake-worker-scope.ts';
import { offlineWorkerSource } from './offline-worker.ts';

const FILES = ['./', 'assets/index-1.js', 'demo.windrow'];
const STORE = `windrow ${SCOPE} build-1`;
const SOURCE = offlineWorkerSource('build-1', FILES);

let stores: Map<string, Map<string, string>>;
let asked: string[];
let isOnline: boolean;

/** A server that names what it was asked for. */
function network(url: string): string | null {
  asked.push(url);
  if (!isOnline) return null;
  return url.endsWith('/missing.js') ? '404' : `served ${url}`;
}

beforeEach(() => {
  stores = new Map();
  asked = [];
  isOnline = true;
});

const start = (source = SOURCE) => startWorker(source, { stores, network });

/** A worker that is installed and active. */
async function running() {
  const worker = start();
  await worker.install();
  await worker.activate();
  asked = [];
  return worker;
}

const visit = (url: string) => ({ url, mode: 'navigate' });

describe('installing', () => {
  test('[SW1] keeps every file of the build, past the browser’s own cache', async () => {
    const modes: (string | undefined)[] = [];
    const worker = startWorker(SOURCE, {
      stores,
      network: (url, mode) => {
        modes.push(mode);
        return network(url);
      },
    });
    await worker.install();
    const addresses = [SCOPE, `${SCOPE}assets/index-1.js`, `${SCOPE}demo.windrow`];
    expect([...(stores.get(STORE) ?? [])]).toEqual(addresses.map((url) => [url, `served ${url}`]));
    expect(modes).toEqual(['reload', 'reload', 'reload']);
  });

  test('[SW1] fails where one file fails, and keeps none', async () => {
    const worker = start(offlineWorkerSource('build-1', [...FILES, 'missing.js']));
    await expect(worker.install()).rejects.toThrow('one failed');
    expect(stores.get(STORE)?.size).toBe(0);
    isOnline = false;
    await expect(start().install()).rejects.toThrow('no network');
  });

  test('[SW1] waits for its turn: pages of the old build go on with the old files', async () => {
    const worker = start();
    await worker.install();
    expect(worker.state.skipped).toBe(false);
  });
});

describe('beginning to work', () => {
  test('[SW2] removes our own older stores and nobody else’s, and takes the open pages over', async () => {
    const others = [
      'another page of this address',
      'windrow',
      'windrow-like',
      `windrow ${SCOPE}copy/ build-0`,
      'windrow https://strips.example/ build-0',
    ];
    for (const name of [`windrow ${SCOPE} build-0`, ...others]) stores.set(name, new Map());
    const worker = await running();
    expect([...stores.keys()].sort()).toEqual([...others, STORE].sort());
    expect(worker.state.claimed).toBe(true);
  });
});

describe('answering', () => {
  test('[SW3] gives the kept files without asking anybody, whatever stands behind a question mark', async () => {
    const worker = await running();
    for (const file of ['assets/index-1.js', 'assets/index-1.js?x=1', 'demo.windrow']) {
      const answer = await worker.request({ url: SCOPE + file });
      expect(answer).toBe(`served ${SCOPE}${file.split('?')[0]}`);
    }
    expect(asked).toEqual([]);
  });

  test('[SW3] shows the page without a network, at its own address and at any other below', async () => {
    const worker = await running();
    isOnline = false;
    for (const path of ['', '?from=icon', 'index.html', 'index.html?x#y', 'no/such/page']) {
      expect(await worker.request(visit(SCOPE + path)), path).toBe(`served ${SCOPE}`);
    }
  });

  test('[SW3] gives the page of its own build also with a network: page and files belong together', async () => {
    const worker = await running();
    await worker.request(visit(`${SCOPE}index.html`));
    await worker.request(visit(SCOPE));
    expect(asked).toEqual([]);
  });

  test('[SW3] asks the network for what it does not keep, and keeps nothing of it', async () => {
    const worker = await running();
    const url = `${SCOPE}docs/other.html`;
    expect(await worker.request(visit(url))).toBe(`served ${url}`);
    expect(await worker.request({ url: `${SCOPE}new.js` })).toBe(`served ${SCOPE}new.js`);
    expect(asked).toEqual([url, `${SCOPE}new.js`]);
    expect(stores.get(STORE)?.size).toBe(3);
  });

  test('[SW3] passes a missing network on where it has nothing to give', async () => {
    const worker = await running();
    isOnline = false;
    await expect(worker.request({ url: `${SCOPE}new.js` })).rejects.toThrow('no network');
  });

  test('[SW4] leaves other addresses, other folders and other kinds of request alone', async () => {
    const worker = await running();
    const requests = [
      { url: 'https://elsewhere.example/windrow/demo.windrow' },
      { url: 'https://strips.example/other/' },
      { url: 'https://strips.example/windrow' },
      visit('https://elsewhere.example/'),
      { url: `${SCOPE}demo.windrow`, method: 'POST' },
      { url: `${SCOPE}demo.windrow`, method: 'HEAD' },
    ];
    for (const request of requests) {
      expect(await worker.request(request), request.url).toBe('left alone');
    }
    expect(asked).toEqual([]);
  });

  test('[SW4] never answers from a store that is not its own', async () => {
    const worker = await running();
    stores.set(
      'windrow https://strips.example/windrow/ build-2',
      new Map([[`${SCOPE}x.js`, 'of 2']]),
    );
    expect(await worker.request({ url: `${SCOPE}x.js` })).toBe(`served ${SCOPE}x.js`);
  });
});
