/**
 * Starts the command line: builds it first when its sources changed.
 *
 *   node src/cli/launch.mjs COMMAND [ARGS]
 *
 * The command line is TypeScript, which Node 20 cannot run. It runs in the caller's folder, so that
 * file names mean what they mean there, and sees COMMAND as its first argument. Everything that
 * this launcher and the build say goes to stderr.
 */

import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { bundleEntry } from '../../tests/tools/bundle-entry.mjs';
import { ensureInstalled } from '../../tests/tools/ensure-installed.mjs';

const rootFolder = fileURLToPath(new URL('../..', import.meta.url));

const callersFolder = findCallersFolder();
process.env.INIT_CWD = callersFolder;
ensureInstalled(rootFolder);
const program = await bundleEntry({
  rootFolder,
  entry: 'src/cli/main.ts',
  outFolder: join('dist', 'cli'),
  sourceFolders: ['src'],
});
process.chdir(callersFolder);
process.argv = [process.execPath, program, ...process.argv.slice(2)];
await import(pathToFileURL(program).href);

/**
 * npm moves to the project's folder and leaves the caller's in INIT_CWD. A program started by some
 * other npm script finds INIT_CWD too, but it says nothing about the caller of this launcher.
 */
function findCallersFolder() {
  const startedByNpm = process.env.npm_lifecycle_script?.includes('src/cli/launch.mjs');
  return (startedByNpm && process.env.INIT_CWD) || process.cwd();
}
