/** Documents that tools write pass the check of the format as they are. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { check } from 'prettier';
import { afterAll, expect, test } from 'vitest';
import { tableHead, tableRow } from './accuracy-tally.ts';
import { writeMarkdown } from './write-markdown.ts';

const folder = mkdtempSync(join(tmpdir(), 'windrow-markdown-'));
afterAll(() => rmSync(folder, { recursive: true }));

test('a table of a tool is written aligned, with every cell', async () => {
  const made = ['# Title', '', tableHead(['a long heading', 'n']), tableRow(['1', '± 0.25'])];
  const text = `${made.join('\n')}\n\n\n`;
  expect(await check(text, { parser: 'markdown' })).toBe(false);

  const file = join(folder, 'made.md');
  await writeMarkdown(file, text);

  const written = readFileSync(file, 'utf8');
  expect(await check(written, { parser: 'markdown' })).toBe(true);
  expect(written).toBe(
    '# Title\n\n| a long heading | n      |\n| -------------- | ------ |\n| 1              | ± 0.25 |\n',
  );
});
