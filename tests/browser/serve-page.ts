/**
 * Builds the page once and serves it for all browser tests, as `npm start` does.
 */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the served page, with a slash at its end. */
    readonly address: string;
  }
}

const configFile = fileURLToPath(new URL('../../vite.config.ts', import.meta.url));
const builder = fileURLToPath(new URL('../tools/build-page.mjs', import.meta.url));

/** Serves the page until all tests are done. */
export default async function servePage(project: TestProject): Promise<() => Promise<void>> {
  // Built as users build it: a test runner's environment would give the libraries' slow side.
  const env = { ...process.env, NODE_ENV: 'production' };
  execFileSync(process.execPath, [builder], { env, stdio: ['ignore', 'inherit', 'inherit'] });
  const server = await preview({ configFile, preview: { host: '127.0.0.1', port: 4188 } });
  const address = server.resolvedUrls?.local.at(0);
  if (address === undefined) throw new Error('the page is served nowhere');
  project.provide('address', address);
  return () => server.close();
}
