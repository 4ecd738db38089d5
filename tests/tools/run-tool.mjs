/**
 * Runs a program of tests/ that is written in TypeScript.
 *
 *   node tests/tools/run-tool.mjs ENTRY.ts [ARGS]
 *
 * ENTRY is seen from the project's folder, where the program runs. The caller's folder is in
 * INIT_CWD. Stdout is the program's alone.
 */

import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { bundleEntry } from './bundle-entry.mjs';
import { ensureInstalled } from './ensure-installed.mjs';

const rootFolder = fileURLToPath(new URL('../..', import.meta.url));
const [entry, ...args] = process.argv.slice(2);

if (!entry) {
  console.error('usage: node tests/tools/run-tool.mjs ENTRY.ts [ARGS]');
  process.exit(1);
}

process.env.INIT_CWD ??= process.cwd();
process.chdir(rootFolder);
ensureInstalled(rootFolder);
const program = await bundleEntry({
  rootFolder,
  entry,
  outFolder: join('dist', 'tools', basename(entry, '.ts')),
  sourceFolders: ['src', 'tests'],
});
process.argv = [process.execPath, program, ...args];
await import(pathToFileURL(program).href);
