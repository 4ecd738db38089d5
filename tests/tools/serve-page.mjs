/**
 * Builds the page where its sources changed, and serves it on this machine alone.
 *
 * The build runs as a program of its own, so that a test runner's environment does not reach it.
 */

import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { preview } from 'vite';

const rootFolder = fileURLToPath(new URL('../..', import.meta.url));

/**
 * Serves the built page with its content policy as a header.
 *
 * Fails: throws where the build fails or the port is taken and `strictPort` is set.
 *
 * @param {{ port: number, strictPort?: boolean, open?: boolean }} wish
 * @returns {Promise<{ address: string, close: () => Promise<void> }>} the address ends in a slash
 */
export async function servePage({ port, strictPort = false, open = false }) {
  const builder = join(rootFolder, 'tests/tools/build-page.mjs');
  const env = { ...process.env, NODE_ENV: 'production' };
  const built = spawnSync(process.execPath, [builder], { env, stdio: ['ignore', 2, 2] });
  if (built.status !== 0) throw new Error('the page could not be built');
  const server = await preview({
    configFile: join(rootFolder, 'vite.config.ts'),
    logLevel: 'warn',
    preview: { host: '127.0.0.1', port, strictPort, open },
  });
  const address = server.resolvedUrls?.local.at(0);
  if (address === undefined) throw new Error('the page is served nowhere');
  return { address, close: () => server.close() };
}
