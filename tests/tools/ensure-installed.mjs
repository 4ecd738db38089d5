/**
 * Are the packages that package-lock.json names installed? If not, install them.
 *
 * Plain Node with nothing but its own modules, so that it runs on a fresh clone. Output of npm goes
 * to stderr: stdout belongs to the program that asked.
 */

import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** How long to wait for another process that is installing, milliseconds. */
const PATIENCE_MS = 10 * 60 * 1000;
const PAUSE_MS = 200;

/**
 * Installs the locked packages where they are missing or out of date.
 *
 * A stamp in node_modules holds the hash of the lock file it was installed from. Without a stamp,
 * npm's own record of what it installed is compared, so that a plain `npm install` counts too.
 * Two processes at once: the second waits for the first.
 * Fails: throws when npm fails or another process holds the lock for ten minutes.
 *
 * @param {string} rootFolder the folder of package-lock.json
 */
export function ensureInstalled(rootFolder) {
  if (isInstalled(rootFolder)) return;
  const lockFolder = join(rootFolder, 'dist', 'installing');
  mkdirSync(join(rootFolder, 'dist'), { recursive: true });
  takeLock(lockFolder);
  try {
    if (isInstalled(rootFolder)) return;
    if (!agreesWithNpmRecord(rootFolder)) runNpmCi(rootFolder);
    writeFileSync(stampPath(rootFolder), lockHash(rootFolder));
  } finally {
    rmSync(lockFolder, { recursive: true, force: true });
  }
}

/** @param {string} rootFolder */
function isInstalled(rootFolder) {
  const stamp = stampPath(rootFolder);
  return existsSync(stamp) && readFileSync(stamp, 'utf8') === lockHash(rootFolder);
}

/** @param {string} rootFolder */
function stampPath(rootFolder) {
  return join(rootFolder, 'node_modules', '.installed-from');
}

/** @param {string} rootFolder */
function lockHash(rootFolder) {
  return createHash('sha256')
    .update(readFileSync(join(rootFolder, 'package-lock.json')))
    .digest('hex');
}

/**
 * True where npm's record in node_modules holds every package of the lock file at its version.
 * Packages for other machines (optional ones) may be absent.
 *
 * @param {string} rootFolder
 */
function agreesWithNpmRecord(rootFolder) {
  const recordPath = join(rootFolder, 'node_modules', '.package-lock.json');
  if (!existsSync(recordPath)) return false;
  const wanted = packagesIn(join(rootFolder, 'package-lock.json'));
  const present = packagesIn(recordPath);
  return [...wanted].every(([path, entry]) => {
    if (path === '') return true;
    const found = present.get(path);
    return found ? found.version === entry.version : entry.optional === true;
  });
}

/**
 * @typedef {{ version?: string, optional?: boolean }} LockedPackage
 */

/**
 * @param {string} path of a lock file
 * @returns {Map<string, LockedPackage>} packages by their place
 */
function packagesIn(path) {
  const lock = /** @type {{ packages: Record<string, LockedPackage> }} */ (
    JSON.parse(readFileSync(path, 'utf8'))
  );
  return new Map(Object.entries(lock.packages));
}

/** @param {string} rootFolder */
function runNpmCi(rootFolder) {
  console.error('Installing the packages named in package-lock.json ...');
  const npmScript = process.env.npm_execpath;
  // Development packages build the command line, so they are wanted whatever NODE_ENV says.
  const args = ['ci', '--include=dev'];
  const [command, allArgs] = npmScript ? [process.execPath, [npmScript, ...args]] : ['npm', args];
  const { status, error } = spawnSync(command, allArgs, {
    cwd: rootFolder,
    stdio: ['ignore', 2, 2],
    shell: !npmScript && process.platform === 'win32',
  });
  if (error) throw error;
  if (status !== 0) throw new Error(`npm ci ended with code ${status}`);
}

/**
 * Makes the lock folder, which only one process can do, and writes whose it is.
 *
 * @param {string} lockFolder
 */
function takeLock(lockFolder) {
  const giveUpAt = Date.now() + PATIENCE_MS;
  for (;;) {
    try {
      mkdirSync(lockFolder);
      writeFileSync(join(lockFolder, 'pid'), String(process.pid));
      return;
    } catch (error) {
      if (/** @type {NodeJS.ErrnoException} */ (error).code !== 'EEXIST') throw error;
    }
    if (isAbandoned(lockFolder)) {
      rmSync(lockFolder, { recursive: true, force: true });
    } else if (Date.now() > giveUpAt) {
      throw new Error(`another process has been installing for long; if not, remove ${lockFolder}`);
    } else {
      sleep(PAUSE_MS);
    }
  }
}

/**
 * True where the process that took the lock has ended without giving it back.
 *
 * @param {string} lockFolder
 */
function isAbandoned(lockFolder) {
  try {
    process.kill(Number(readFileSync(join(lockFolder, 'pid'), 'utf8')), 0);
    return false;
  } catch (error) {
    // ESRCH: no such process. A lock whose owner is not yet written (ENOENT) is being taken now.
    return /** @type {NodeJS.ErrnoException} */ (error).code === 'ESRCH';
  }
}

/** @param {number} milliseconds */
function sleep(milliseconds) {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, milliseconds);
}
