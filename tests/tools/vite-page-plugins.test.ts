/**
 * What the build of the page adds: the policy, the offline worker. Rule ids: [BUILD1], [SW1].
 */

import { describe, expect, test } from 'vitest';
import { contentPolicy } from '../../src/app/content-policy.ts';
import { SCOPE, startWorker } from './fake-worker-scope.ts';
import { policyInPage, precachingWorker } from './vite-page-plugins.ts';

type File = { type: 'asset'; source: string | Uint8Array } | { type: 'chunk'; code: string };

const BUNDLE: Record<string, File> = {
  'index.html': { type: 'asset', source: '<!doctype html>' },
  'assets/index-1.js': { type: 'chunk', code: 'start()' },
  'assets/index-1.css': { type: 'asset', source: 'p { margin: 0 }' },
  'demo.windrow': { type: 'asset', source: Uint8Array.of(0x1f, 0x8b, 0xff) },
};

/** The worker's script for a build of these files. */
function workerOf(bundle: Record<string, File>): string {
  const emitted: { fileName: string; source: string }[] = [];
  const hook = precachingWorker().generateBundle as unknown as (
    this: { emitFile: (file: { fileName: string; source: string }) => void },
    options: unknown,
    bundle: unknown,
  ) => void;
  hook.call({ emitFile: (file) => emitted.push(file) }, {}, bundle);
  expect(emitted.map(({ fileName }) => fileName)).toEqual(['sw.js']);
  return emitted[0].source;
}

/** Name and addresses of what the worker keeps. */
async function keptBy(source: string): Promise<[string, string[]]> {
  const stores = new Map<string, Map<string, string>>();
  await startWorker(source, { stores, network: (url) => url }).install();
  const [[name, kept]] = [...stores];
  return [name, [...kept.keys()]];
}

describe('the offline worker of a build', () => {
  test('[SW1] keeps every file of it, the page under its folder’s address', async () => {
    const [, kept] = await keptBy(workerOf(BUNDLE));
    const files = ['', 'assets/index-1.css', 'assets/index-1.js', 'demo.windrow'];
    expect(kept).toEqual(files.map((file) => SCOPE + file));
  });

  test('[SW2] has another store as soon as any file is another, and the same for the same files', async () => {
    const nameOf = async (bundle: Record<string, File>) => (await keptBy(workerOf(bundle)))[0];
    const name = await nameOf(BUNDLE);
    expect(await nameOf(Object.fromEntries(Object.entries(BUNDLE).reverse()))).toBe(name);
    const builds: Record<string, File>[] = [
      { ...BUNDLE, 'index.html': { type: 'asset', source: '<!doctype html> ' } },
      { ...BUNDLE, 'assets/index-1.js': { type: 'chunk', code: 'start(1)' } },
      { ...BUNDLE, 'demo.windrow': { type: 'asset', source: Uint8Array.of(0x1f, 0x8b, 0xfe) } },
      { ...BUNDLE, 'more.css': { type: 'asset', source: '' } },
    ];
    const names = await Promise.all(builds.map(nameOf));
    expect(new Set([name, ...names]).size).toBe(5);
  });

  test('[SW1] of a build without a page is a mistake of the program', () => {
    const { 'index.html': page, ...others } = BUNDLE;
    expect(page.type).toBe('asset');
    expect(() => workerOf(others)).toThrow('index.html');
  });
});

test('[BUILD1] the page carries the policy before anything that it could load', () => {
  const hook = policyInPage().transformIndexHtml as () => unknown;
  expect(hook()).toEqual([
    {
      tag: 'meta',
      attrs: {
        'http-equiv': 'Content-Security-Policy',
        content: contentPolicy({ header: false }),
      },
      injectTo: 'head-prepend',
    },
  ]);
});
