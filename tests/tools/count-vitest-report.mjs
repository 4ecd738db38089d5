/**
 * How many tests passed and failed, by the JSON report that Vitest wrote?
 *
 * A run that cannot be trusted counts as a failure: no report, no tests, a file that did not load,
 * or an exit code that disagrees with the report.
 */

import { existsSync, readFileSync } from 'node:fs';

/** @typedef {{ passed: number, failed: number, note: string }} Count */

/**
 * The parts of Vitest's report that are read here.
 *
 * @typedef {object} Report
 * @property {number} numTotalTests
 * @property {number} numPassedTests
 * @property {number} numFailedTests
 * @property {{ status: string, assertionResults: { status: string }[] }[]} testResults
 */

/**
 * @param {string} reportPath
 * @param {number | null} exitCode of Vitest; null where a signal ended it
 * @returns {Count}
 */
export function countVitestReport(reportPath, exitCode) {
  if (!existsSync(reportPath)) return { passed: 0, failed: 1, note: 'no report was written' };
  const report = /** @type {Report} */ (JSON.parse(readFileSync(reportPath, 'utf8')));
  const passed = report.numPassedTests;
  if (report.numTotalTests === 0) return { passed, failed: 1, note: 'no tests were found' };

  const brokenFiles = report.testResults.filter(
    (file) =>
      file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed'),
  ).length;
  const failed = report.numFailedTests + brokenFiles;
  const left = report.numTotalTests - passed - report.numFailedTests;
  const notes = [];
  if (brokenFiles > 0) notes.push(`${brokenFiles} files did not load`);
  if (left > 0) notes.push(`${left} not run`);
  if (failed === 0 && exitCode !== 0) {
    return { passed, failed: 1, note: `ended with ${exitCode ?? 'a signal'}` };
  }
  return { passed, failed, note: notes.join(', ') };
}
