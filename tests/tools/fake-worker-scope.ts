/**
 * A make-believe service worker scope: caches, clients and a network that tests hold in their hands.
 */

import { createContext, runInContext } from 'node:vm';

/** Where the make-believe page lives. */
export const SCOPE = 'https://strips.example/windrow/';

/** What a request of a test looks like. */
export interface FakeRequest {
  readonly url: string;
  readonly method?: string;
  readonly mode?: string;
}

type Stores = Map<string, Map<string, string>>;
/** Answers with a text, or null where there is no network. */
type Network = (url: string, cacheMode: string | undefined) => string | null;

/** Starts the worker's script in a scope of its own. `stores` outlives it, as in a browser. */
export function startWorker(
  source: string,
  { stores, network, scope = SCOPE }: { stores: Stores; network: Network; scope?: string },
) {
  const listeners = new Map<string, (event: unknown) => void>();
  const state = { skipped: false, claimed: false };

  class FakeRequestObject {
    readonly url: string;
    readonly cache: string | undefined;
    readonly mode: string;
    constructor(address: string, init: { cache?: string } = {}) {
      this.url = new URL(address, scope).href;
      this.cache = init.cache;
      this.mode = 'cors';
    }
  }
  const addressOf = (request: string | { url: string }) =>
    typeof request === 'string' ? request : request.url;
  const withoutSearch = (url: string) => url.split(/[?#]/)[0];
  const fetchText = (request: { url: string; cache?: string | undefined }) => {
    const text = network(request.url, request.cache);
    return text === null ? Promise.reject(new TypeError('no network')) : Promise.resolve(text);
  };
  const openStore = (name: string) => {
    const kept = stores.get(name) ?? new Map<string, string>();
    stores.set(name, kept);
    return {
      // As the standard says: all of them, or none and a failure.
      addAll: async (requests: FakeRequestObject[]) => {
        const texts = await Promise.all(requests.map(fetchText));
        if (texts.includes('404')) throw new TypeError('one failed');
        for (const [i, { url }] of requests.entries()) kept.set(url, texts[i]);
      },
      // Everything was served with "Vary: Origin", and scripts and styles are asked for with an origin.
      match: (
        request: string | { url: string; mode?: string },
        { ignoreSearch = false, ignoreVary = false } = {},
      ) => {
        const hasOrigin = typeof request !== 'string' && request.mode === 'cors';
        if (hasOrigin && !ignoreVary) return Promise.resolve(undefined);
        const url = addressOf(request);
        const text = kept.get(ignoreSearch ? withoutSearch(url) : url);
        return Promise.resolve(text === undefined ? undefined : { text });
      },
    };
  };

  const self = {
    registration: { scope },
    clients: {
      claim: () => Promise.resolve(void (state.claimed = true)),
    },
    skipWaiting: () => void (state.skipped = true),
    addEventListener: (kind: string, listener: (event: unknown) => void) =>
      listeners.set(kind, listener),
  };
  const caches = {
    open: (name: string) => Promise.resolve(openStore(name)),
    keys: () => Promise.resolve([...stores.keys()]),
    delete: (name: string) => Promise.resolve(stores.delete(name)),
  };
  const fetch = async (request: { url: string }) => ({ text: await fetchText(request) });
  runInContext(source, createContext({ self, caches, fetch, Request: FakeRequestObject }));

  const fire = async (kind: string, event: object) => {
    const waits: Promise<unknown>[] = [];
    const waitUntil = (work: Promise<unknown>) => waits.push(work);
    listeners.get(kind)?.({ ...event, waitUntil });
    await Promise.all(waits);
  };
  return {
    state,
    install: () => fire('install', {}),
    activate: () => fire('activate', {}),
    /** The text it answered with; `left alone` where it did not answer at all. */
    request: async (wish: FakeRequest): Promise<string> => {
      const answers: Promise<{ text: string }>[] = [];
      const respondWith = (answer: Promise<{ text: string }>) => answers.push(answer);
      const request = { method: 'GET', mode: 'cors', ...wish };
      listeners.get('fetch')?.({ request, respondWith });
      return answers.length === 0 ? 'left alone' : (await answers[0]).text;
    },
  };
}
