/** The example in docs/command-line.md is what the command prints. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { PROJECT, runDebrief } from './run-debrief.ts';

/** Words of a line; figures move with the measuring and are pinned by the golden files. */
function words(line: string): string {
  return line
    .replace(/[−–\d.:°%]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

test('[CLI12] the command of the example prints the example, word for word', () => {
  const page = readFileSync(join(PROJECT, 'docs/command-line.md'), 'utf8');
  const [, section] = page.split('## Example');
  const [, command] = /debrief -- (.+)/.exec(section) ?? [];
  const [, example] = /```text\n([^`]+)\n```/.exec(section) ?? [];
  expect(command).toContain('--strips');
  const run = runDebrief(command.trim().split(' '));
  expect(run.code).toBe(0);
  const printed = run.stdout.split('\n');
  const from = printed.findIndex((line) => line.startsWith('2024-07-14'));
  const to = printed.findIndex((line) => line.startsWith('An aid to debriefing'));
  expect(from).toBeGreaterThan(0);
  const shown = printed.slice(from, to - 1);
  expect(shown.length).toBeGreaterThan(20);
  expect(example.split('\n').map(words)).toEqual(shown.map(words));
});
