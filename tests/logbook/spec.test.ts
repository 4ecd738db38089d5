/**
 * Has every rule of the logbook a test that cites it, and every cited rule a place in the page?
 */

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));

test('[HOUSE1] every rule LB of the page is cited by a test, and no other', () => {
  const page = readFileSync(`${root}docs/spec/logbook.md`, 'utf8');
  const rules = [...page.matchAll(/^- \*\*(LB\d+)\*\*/gm)].map(([, id]) => id);
  const titles = ['tests/logbook', 'tests/contract'].flatMap((folder) =>
    readdirSync(root + folder)
      .filter((file) => file.endsWith('.test.ts'))
      .flatMap((file) => [
        ...readFileSync(`${root}${folder}/${file}`, 'utf8').matchAll(/\[(LB\d+)\]/g),
      ]),
  );
  const cited = new Set(titles.map(([, id]) => id));
  expect(rules.length).toBeGreaterThan(30);
  expect(new Set(rules).size).toBe(rules.length);
  expect([...cited].sort()).toEqual([...rules].sort());
});
