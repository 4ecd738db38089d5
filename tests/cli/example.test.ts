/** The examples in docs/command-line.md, text and JSON, are what the command prints. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { expectNear } from '../expect-near.ts';
import { PROJECT, runDebrief } from './run-debrief.ts';

/** Words of a line; figures move with the measuring and are pinned by the golden files. */
function words(line: string): string {
  return line
    .replace(/[−–\d.:°%]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

const PAGE = readFileSync(join(PROJECT, 'docs/command-line.md'), 'utf8');
const [, SECTION] = PAGE.split('## Example');
const [, COMMAND] = /debrief -- (.+)/.exec(SECTION) ?? [];

/** Half the last digit that the tables print of a length, and of a place. */
const ROUNDED_M = 0.5;

/** Every value of an example stands in a document: the same text, count or reason, figures to half a metre. */
function expectShown(example: unknown, whole: unknown, path: string): void {
  if (typeof example === 'number' && path.includes('alongM')) {
    expectNear(Number(whole), example, ROUNDED_M, path);
  } else if (typeof example === 'object' && example !== null) {
    for (const [key, value] of Object.entries(example)) {
      const found = (whole as Readonly<Record<string, unknown>> | undefined)?.[key];
      expectShown(value, found, `${path}.${key}`);
    }
  } else expect(whole, path).toBe(example);
}

test('[CLI48] the JSON example, and the strip left in the words, are of the same command', () => {
  const [, json] = /```json\n([^`]+)\n```/.exec(SECTION) ?? [];
  const example = JSON.parse(json) as { source: { file: string }; approaches: object[] };
  const run = runDebrief(['--json', ...COMMAND.trim().split(' ')]);
  const { flights } = JSON.parse(run.stdout) as {
    flights: {
      source: { file: string };
      approaches: { outcome: string; stripLeftM: { value: number } }[];
    }[];
  };
  const [flight] = flights;
  const landing = flight.approaches.find(({ outcome }) => outcome === 'full-stop');
  // The file stands in the document as it was given.
  expect(flight.source.file.endsWith(example.source.file)).toBe(true);
  const source = { ...example.source, file: flight.source.file };
  expectShown(source, flight.source, 'source');
  expect(example.approaches).toHaveLength(1);
  expectShown(example.approaches[0], landing, 'approach');
  const [, leftM] = /a full stop with (\d+) m of 355 m left/.exec(SECTION) ?? [];
  expectNear(landing?.stripLeftM.value ?? NaN, Number(leftM), ROUNDED_M, 'strip left in words');
});

test('[CLI12] the command of the example prints the example, word for word', () => {
  const [, example] = /```text\n([^`]+)\n```/.exec(SECTION) ?? [];
  expect(COMMAND).toContain('--strips');
  const run = runDebrief(COMMAND.trim().split(' '));
  expect(run.code).toBe(0);
  const printed = run.stdout.split('\n');
  const from = printed.findIndex((line) => line.startsWith('2024-07-14'));
  const to = printed.findIndex((line) => line.startsWith('An aid to debriefing'));
  expect(from).toBeGreaterThan(0);
  const shown = printed.slice(from, to - 1);
  expect(shown.length).toBeGreaterThan(20);
  expect(example.split('\n').map(words)).toEqual(shown.map(words));
});
