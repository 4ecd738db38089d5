/**
 * How does a TypeScript program become one that Node 20 can run?
 *
 * Vite bundles the entry with all it imports into one folder of dist, named after the content of
 * the sources: the same sources are never bundled twice, and two processes that bundle at once
 * cannot see each other's half-written files. Build output goes to stderr.
 */

import { createHash } from 'node:crypto';
import * as fs from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Files that can end in a bundle; the rest of a folder is data. */
const SOURCE_FILE = /\.(ts|mts|js|mjs|cjs|json|geojson|css|html|svg|gpx|igc)$/;
/** Bundles of older sources are kept this long, because a process may still be running from one. */
const KEEP_MS = 24 * 60 * 60 * 1000;

/**
 * Bundles an entry unless a bundle of the same sources is there.
 *
 * Fails: throws what Vite throws (a missing file, a syntax error).
 *
 * @param {object} job
 * @param {string} job.rootFolder the project's folder
 * @param {string} job.entry the TypeScript file, seen from the root
 * @param {string} job.outFolder the folder for bundles of this entry, seen from the root
 * @param {readonly string[]} job.sourceFolders folders whose change asks for a new bundle
 * @returns {Promise<string>} path of the JavaScript file to run
 */
export async function bundleEntry({ rootFolder, entry, outFolder, sourceFolders }) {
  const parent = join(rootFolder, outFolder);
  const finished = join(parent, fingerprint(rootFolder, entry, sourceFolders));
  const program = join(finished, 'program.js');
  if (fs.existsSync(program)) return program;

  fs.mkdirSync(parent, { recursive: true });
  const unfinished = `${finished}.${process.pid}.unfinished`;
  await bundle(rootFolder, entry, unfinished);
  try {
    fs.renameSync(unfinished, finished);
  } catch (error) {
    // Another process was first; its bundle is of the same sources.
    fs.rmSync(unfinished, { recursive: true, force: true });
    if (!fs.existsSync(program)) throw error;
  }
  removeOld(parent);
  return program;
}

/**
 * @param {string} rootFolder
 * @param {string} entry
 * @param {string} outFolder
 */
async function bundle(rootFolder, entry, outFolder) {
  const { build, createLogger } = await import('vite');
  const logger = createLogger('warn');
  const say = (/** @type {string} */ text) => void process.stderr.write(`${text}\n`);
  logger.info = () => {};
  logger.warn = say;
  logger.warnOnce = say;
  logger.error = say;
  await build({
    configFile: false,
    root: rootFolder,
    // At its usual level Vite's reporter writes to stdout past the logger, and stdout is for JSON alone.
    logLevel: 'warn',
    customLogger: logger,
    publicDir: false,
    ssr: { noExternal: true, target: 'node' },
    build: {
      ssr: join(rootFolder, entry),
      target: 'node20',
      outDir: outFolder,
      emptyOutDir: true,
      rolldownOptions: { output: { entryFileNames: 'program.js' } },
    },
  });
}

/**
 * One short name for the content of everything that goes into a bundle.
 *
 * @param {string} rootFolder
 * @param {string} entry
 * @param {readonly string[]} sourceFolders
 */
export function fingerprint(rootFolder, entry, sourceFolders) {
  const hash = createHash('sha256').update(entry);
  hash.update(fs.readFileSync(fileURLToPath(import.meta.url)));
  hash.update(fs.readFileSync(join(rootFolder, 'package-lock.json')));
  for (const folder of sourceFolders) {
    const names = fs.readdirSync(join(rootFolder, folder), { recursive: true, encoding: 'utf8' });
    for (const name of names.filter((each) => SOURCE_FILE.test(each)).sort()) {
      const path = join(rootFolder, folder, name);
      hash.update(`\0${folder}/${name}\0`).update(fs.readFileSync(path));
    }
  }
  return hash.digest('hex').slice(0, 20);
}

/** @param {string} parent */
function removeOld(parent) {
  for (const name of fs.readdirSync(parent)) {
    const path = join(parent, name);
    const age = Date.now() - (fs.statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? Date.now());
    if (age > KEEP_MS) fs.rmSync(path, { recursive: true, force: true });
  }
}
