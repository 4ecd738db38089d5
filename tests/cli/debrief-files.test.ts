/** One file never stops the others, whatever goes wrong with it. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { debriefFiles, whyUnread } from '../../src/cli/debrief-files.ts';
import type { Debrief } from '../../src/debrief/debrief.ts';
import { failure, problem, success } from '../../src/result.ts';

const folder = mkdtempSync(join(tmpdir(), 'windrow files '));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

const EMPTY: Debrief = {
  source: { file: 'x', format: 'gpx', sha256: '', fixes: 0, usedFixes: 0, medianIntervalS: 1 },
  flights: [],
  problems: [],
  leftOut: [],
};

describe('[CLI11] one file after the other', () => {
  test('[CLI11] a fault of the program in one file is told as such and costs only that file', async () => {
    const files = ['a', 'faulty', 'refused', 'z'].map((name) => join(folder, name));
    for (const file of files) writeFileSync(file, file);
    const { read, unread } = await debriefFiles(files, (bytes, file) => {
      expect(new TextDecoder().decode(bytes)).toBe(file);
      if (file.endsWith('faulty')) throw new TypeError('x is not a function');
      const refusal = failure<Debrief>([problem('odd', 'error', 'line 3', 'odd')]);
      return Promise.resolve(file.endsWith('refused') ? refusal : success(EMPTY));
    });
    expect(read).toHaveLength(2);
    expect(unread.map(({ file }) => file)).toEqual(files.slice(1, 3));
    const [faulty, refused] = unread.map(({ problems }) => problems[0]);
    expect(faulty.message).toContain('a fault of the program, not of the file');
    expect(faulty.message).toContain('x is not a function');
    expect(refused.where).toBe('line 3');
  });

  test('[CLI11] a file that may not be read is told in plain words', () => {
    const denied = Object.assign(new Error('EACCES: permission denied'), { code: 'EACCES' });
    expect(whyUnread(denied)).toBe('the file may not be read; expected read permission');
    expect(whyUnread('odd')).toBe('odd');
  });
});
