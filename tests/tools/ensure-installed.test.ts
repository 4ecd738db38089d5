import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { ensureInstalled } from './ensure-installed.mjs';

let folder = '';
const npmBefore = process.env.npm_execpath;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'windrow-install-'));
  mkdirSync(join(folder, 'node_modules'));
  lock('package-lock.json', { '': {}, 'node_modules/a': { version: '1.0.0' } });
  // In npm's place a program that leaves a mark of its arguments, or fails where it is told to.
  const npm = join(folder, 'npm.mjs');
  writeFileSync(
    npm,
    "import { existsSync, writeFileSync } from 'node:fs';\n" +
      "if (existsSync('fail')) process.exit(3);\n" +
      "writeFileSync('called', process.argv.slice(2).join(' '));\n",
  );
  process.env.npm_execpath = npm;
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
  if (npmBefore === undefined) delete process.env.npm_execpath;
  else process.env.npm_execpath = npmBefore;
});

function lock(path: string, packages: object) {
  writeFileSync(join(folder, path), JSON.stringify({ packages }));
}

function record(packages: object) {
  lock('node_modules/.package-lock.json', packages);
}

/** What npm was called with, or null. */
function called(): string | null {
  const mark = join(folder, 'called');
  return existsSync(mark) ? readFileSync(mark, 'utf8') : null;
}

describe('installing', () => {
  test('[INS1] installs from the lock file once, and again when the lock file changed', () => {
    ensureInstalled(folder);
    expect(called()).toBe('ci --include=dev');
    rmSync(join(folder, 'called'));
    ensureInstalled(folder);
    expect(called()).toBeNull();
    lock('package-lock.json', { '': {}, 'node_modules/a': { version: '1.0.1' } });
    ensureInstalled(folder);
    expect(called()).toBe('ci --include=dev');
  });

  test('[INS2] takes what npm itself recorded as installed', () => {
    record({ 'node_modules/a': { version: '1.0.0' } });
    ensureInstalled(folder);
    expect(called()).toBeNull();
  });

  test('[INS3] does not take another version or a missing package', () => {
    record({ 'node_modules/a': { version: '0.9.0' } });
    ensureInstalled(folder);
    expect(called()).not.toBeNull();
    rmSync(join(folder, 'called'));
    lock('package-lock.json', {
      'node_modules/a': { version: '0.9.0' },
      'node_modules/b': { version: '1.0.0' },
    });
    ensureInstalled(folder);
    expect(called()).not.toBeNull();
  });

  test('[INS4] a package for other machines only may be missing', () => {
    lock('package-lock.json', {
      'node_modules/a': { version: '1.0.0' },
      'node_modules/a-mac': { version: '1.0.0', optional: true },
    });
    record({ 'node_modules/a': { version: '1.0.0' } });
    ensureInstalled(folder);
    expect(called()).toBeNull();
  });

  test('[INS5] a failed installation is said, and tried again the next time', () => {
    writeFileSync(join(folder, 'fail'), '');
    expect(() => ensureInstalled(folder)).toThrow('npm ci ended with code 3');
    rmSync(join(folder, 'fail'));
    ensureInstalled(folder);
    expect(called()).not.toBeNull();
  });

  test('[INS6] a lock left by a process that has ended is removed', () => {
    mkdirSync(join(folder, 'dist/installing'), { recursive: true });
    // Above any process number that a system gives out.
    writeFileSync(join(folder, 'dist/installing/pid'), '99999999');
    ensureInstalled(folder);
    expect(called()).not.toBeNull();
    expect(existsSync(join(folder, 'dist/installing'))).toBe(false);
  });
});
