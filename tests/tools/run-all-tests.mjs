/**
 * Everything that must hold before a change is done: `npm test`.
 *
 * Runs on a fresh clone, in order: format, lint, types, unused code, tests, tests in a browser. Every check counts as
 * one, every test as one. The last line is `N passed, N failed`; the exit code is 0 only when
 * nothing failed.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled } from './ensure-installed.mjs';
import { countVitestReport } from './count-vitest-report.mjs';
import { findBrowser, HOW_TO_GET_ONE } from './find-browser.mjs';

/** @typedef {import('./count-vitest-report.mjs').Count} Count */

const rootFolder = fileURLToPath(new URL('../..', import.meta.url));

/** @type {readonly { name: string, run: () => Count }[]} */
const steps = [
  { name: 'format', run: () => check('prettier', ['--check', '--log-level', 'warn', '.']) },
  {
    name: 'lint',
    run: () => check('eslint', ['src', 'tests', 'vite.config.ts', 'eslint.config.js']),
  },
  { name: 'types', run: () => check('typescript', ['--noEmit'], 'tsc') },
  { name: 'unused code', run: () => check('knip', ['--no-progress']) },
  { name: 'tests', run: () => runVitest([]) },
  { name: 'browser', run: runBrowserTests },
];

try {
  ensureInstalled(rootFolder);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  console.log('0 passed, 1 failed');
  process.exit(1);
}

const lines = [];
let passed = 0;
let failed = 0;
for (const step of steps) {
  console.log(`\n== ${step.name}`);
  const startedAt = Date.now();
  const count = step.run();
  const seconds = ((Date.now() - startedAt) / 1000).toFixed(1);
  passed += count.passed;
  failed += count.failed;
  lines.push(
    `${step.name.padEnd(12)} ${count.passed} passed, ${count.failed} failed` +
      `${count.note ? ` (${count.note})` : ''}, ${seconds} s`,
  );
}
console.log(`\n== summary\n${lines.join('\n')}\n`);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;

/**
 * A tool that says yes or no by its exit code.
 *
 * @param {string} packageName
 * @param {readonly string[]} args
 * @param {string} [binName]
 * @returns {Count}
 */
function check(packageName, args, binName = packageName) {
  const status = runBin(packageName, binName, args);
  return status === 0 ? { passed: 1, failed: 0, note: '' } : { passed: 0, failed: 1, note: '' };
}

/**
 * The page in a real browser; where none is found and none may be installed, says what to install.
 *
 * @returns {Count}
 */
function runBrowserTests() {
  if (findBrowser({ install: true }) === null) {
    console.log(HOW_TO_GET_ONE);
    return { passed: 0, failed: 0, note: 'not run: no browser' };
  }
  return runVitest(['--config', 'tests/browser/vitest.config.ts']);
}

/**
 * @param {readonly string[]} args
 * @returns {Count}
 */
function runVitest(args) {
  const folder = mkdtempSync(join(tmpdir(), 'windrow-tests-'));
  const reportPath = join(folder, 'report.json');
  try {
    const status = runBin('vitest', 'vitest', [
      'run',
      ...args,
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${reportPath}`,
    ]);
    return countVitestReport(reportPath, status);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * Runs a package's program with this Node, on any system, and gives its exit code.
 *
 * @param {string} packageName
 * @param {string} binName
 * @param {readonly string[]} args
 */
function runBin(packageName, binName, args) {
  const folder = join(rootFolder, 'node_modules', packageName);
  const { bin } = /** @type {{ bin: string | Record<string, string> }} */ (
    JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
  );
  const script = join(folder, typeof bin === 'string' ? bin : bin[binName]);
  const { status } = spawnSync(process.execPath, [script, ...args], {
    cwd: rootFolder,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  return status;
}
