import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { countVitestReport } from './count-vitest-report.mjs';

const folder = mkdtempSync(join(tmpdir(), 'windrow-count-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function count(exitCode: number | null, files: readonly (readonly string[])[], broken = 0) {
  const states = files.flat();
  const path = join(folder, 'report.json');
  const report = {
    numTotalTests: states.length,
    numPassedTests: states.filter((state) => state === 'passed').length,
    numFailedTests: states.filter((state) => state === 'failed').length,
    testResults: [
      ...files.map((tests) => ({
        status: tests.includes('failed') ? 'failed' : 'passed',
        assertionResults: tests.map((status) => ({ status })),
      })),
      ...Array.from({ length: broken }, () => ({ status: 'failed', assertionResults: [] })),
    ],
  };
  writeFileSync(path, JSON.stringify(report));
  return countVitestReport(path, exitCode);
}

test('[RUN1] counts tests one by one', () => {
  expect(count(0, [['passed', 'passed'], ['passed']])).toEqual({ passed: 3, failed: 0, note: '' });
  expect(count(1, [['passed', 'failed']])).toEqual({ passed: 1, failed: 1, note: '' });
});

test('[RUN2] a file that did not load is a failure', () => {
  expect(count(1, [['passed']], 2)).toEqual({
    passed: 1,
    failed: 2,
    note: '2 files did not load',
  });
});

test('[RUN3] skipped tests are said, and are neither passed nor failed', () => {
  expect(count(0, [['passed', 'skipped', 'todo']])).toEqual({
    passed: 1,
    failed: 0,
    note: '2 not run',
  });
});

test('[RUN4] no tests, no report or a bad end is a failure', () => {
  expect(count(0, []).failed).toBe(1);
  expect(countVitestReport(join(folder, 'nowhere.json'), 0).failed).toBe(1);
  expect(count(1, [['passed']])).toEqual({ passed: 1, failed: 1, note: 'ended with 1' });
  expect(count(null, [['passed']])).toEqual({ passed: 1, failed: 1, note: 'ended with a signal' });
});
