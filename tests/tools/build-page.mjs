/**
 * Builds the page into dist/app, unless a build of the same sources is there.
 *
 *   node tests/tools/build-page.mjs
 *
 * A program of its own, so that a test runner's environment does not reach the build.
 */

import * as fs from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { fingerprint } from './bundle-entry.mjs';

const rootFolder = fileURLToPath(new URL('../..', import.meta.url));
const stamp = join(rootFolder, 'dist', 'app.stamp');
const wanted = [
  fingerprint(rootFolder, 'vite.config.ts', ['src', 'tracks-sample', 'tests/tools']),
  fs.readFileSync(join(rootFolder, 'vite.config.ts'), 'utf8').length,
].join(' ');
const found = fs.existsSync(stamp) ? fs.readFileSync(stamp, 'utf8') : '';
if (found !== wanted || !fs.existsSync(join(rootFolder, 'dist/app/index.html'))) {
  console.error('Building the page ...');
  await build({ configFile: join(rootFolder, 'vite.config.ts'), logLevel: 'warn' });
  fs.writeFileSync(stamp, wanted);
}
