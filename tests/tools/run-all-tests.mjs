/**
 * Everything that must hold before a change is done: `npm test`.
 *
 * Runs on a fresh clone: lint on one core beside format, types and unused code on the other, then
 * the tests, then those in a browser. Every check counts as one, every test as one. The last line
 * is `N passed, N failed`; the exit code is 0 only when nothing failed.
 */

import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled } from './ensure-installed.mjs';
import { countVitestReport } from './count-vitest-report.mjs';
import { findBrowser, HOW_TO_GET_ONE } from './find-browser.mjs';

/** @typedef {import('./count-vitest-report.mjs').Count} Count */

const rootFolder = fileURLToPath(new URL('../..', import.meta.url));

/**
 * A tool that says yes or no by its exit code.
 *
 * @typedef {{ name: string, package: string, bin?: string, args: readonly string[] }} Check
 */

/** Two lists that take about as long as each other; they run side by side. @type {readonly (readonly Check[])[]} */
const checks = [
  [
    {
      name: 'lint',
      package: 'eslint',
      args: ['src', 'tests', 'vite.config.ts', 'eslint.config.js'],
    },
  ],
  [
    { name: 'format', package: 'prettier', args: ['--check', '--log-level', 'warn', '.'] },
    { name: 'types', package: 'typescript', bin: 'tsc', args: ['--noEmit'] },
    { name: 'unused code', package: 'knip', args: ['--no-progress'] },
  ],
];

/** @type {readonly { name: string, run: () => Count }[]} */
const suites = [
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

const lines = /** @type {string[]} */ ([]);
let passed = 0;
let failed = 0;
await Promise.all(
  checks.map(async (list) => {
    for (const each of list) {
      const startedAt = Date.now();
      const { ok, output } = await runCheck(each);
      console.log(`\n== ${each.name}\n${output}`);
      report(each.name, { passed: ok ? 1 : 0, failed: ok ? 0 : 1, note: '' }, startedAt);
    }
  }),
);
for (const suite of suites) {
  console.log(`\n== ${suite.name}`);
  const startedAt = Date.now();
  report(suite.name, suite.run(), startedAt);
}
console.log(`\n== summary\n${lines.join('\n')}\n`);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;

/**
 * Adds a step to the sums and to the summary.
 *
 * @param {string} name
 * @param {Count} count
 * @param {number} startedAt milliseconds
 */
function report(name, count, startedAt) {
  const seconds = ((Date.now() - startedAt) / 1000).toFixed(1);
  passed += count.passed;
  failed += count.failed;
  lines.push(
    `${name.padEnd(12)} ${count.passed} passed, ${count.failed} failed` +
      `${count.note ? ` (${count.note})` : ''}, ${seconds} s`,
  );
}

/**
 * Runs a check beside others: what it prints is kept together.
 *
 * @param {Check} check
 * @returns {Promise<{ ok: boolean, output: string }>}
 */
function runCheck({ package: packageName, bin = packageName, args }) {
  return new Promise((resolve) => {
    const program = spawn(process.execPath, [binOf(packageName, bin), ...args], {
      cwd: rootFolder,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let output = '';
    program.stdout.on('data', (text) => (output += String(text)));
    program.stderr.on('data', (text) => (output += String(text)));
    program.on('error', (error) => resolve({ ok: false, output: output + error.message }));
    program.on('close', (code) => resolve({ ok: code === 0, output }));
  });
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
  const { status } = spawnSync(process.execPath, [binOf(packageName, binName), ...args], {
    cwd: rootFolder,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  return status;
}

/**
 * The script of a package's program.
 *
 * @param {string} packageName
 * @param {string} binName
 */
function binOf(packageName, binName) {
  const folder = join(rootFolder, 'node_modules', packageName);
  const { bin } = /** @type {{ bin: string | Record<string, string> }} */ (
    JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
  );
  return join(folder, typeof bin === 'string' ? bin : bin[binName]);
}
