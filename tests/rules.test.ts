/**
 * Rules and tests: each rule of docs/spec has a test with its id in the title, and what the titles call
 * a rule of the measuring stands in docs/spec/measuring.md. A rule of one file alone, outside those
 * families, stands in its tests only.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const ID = /^([A-Z]+)(\d*)$/;

/** The ids set in bold in a spec; `**IV1** to **IV6**` are six. */
function rulesOf(text: string): string[] {
  const spans = [...text.matchAll(/\*\*([A-Z]+)(\d+)\*\* to \*\*\1(\d+)\*\*/g)];
  const between = spans.flatMap(([, family, first, last]) =>
    Array.from(
      { length: Number(last) - Number(first) + 1 },
      (_, k) => `${family}${Number(first) + k}`,
    ),
  );
  const single = [...text.matchAll(/\*\*([A-Z]{2,}\d*)\*\*/g)].map(([, id]) => id);
  return [...single, ...between];
}

/** The ids in brackets in the titles of a test file. */
function titledIn(text: string): string[] {
  const titles = [...text.matchAll(/['"`]((?:\[[A-Z]{2,}\d*\] )+)/g)];
  return titles.flatMap(([, ids]) => [...ids.matchAll(/[A-Z]{2,}\d*/g)].map(([id]) => id));
}

function textsUnder(folder: string, ending: RegExp): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => ending.test(file))
    .map((file) => readFileSync(join(ROOT, folder, file), 'utf8'));
}

const familyOf = (id: string): string => ID.exec(id)?.[1] ?? '';
const specs = textsUnder('docs/spec', /\.md$/).map(rulesOf);
const listed = new Set(specs.flat());
const titled = new Set(textsUnder('tests', /\.(test|browser)\.ts$/).flatMap(titledIn));

describe('rules', () => {
  test('[HOUSE9] of a spec all stand in the title of a test', () => {
    expect(listed.size).toBeGreaterThan(300);
    expect([...listed].filter((id) => !titled.has(id))).toEqual([]);
  });

  test('[HOUSE10] of the measuring that titles name stand in its spec', () => {
    const measuring = rulesOf(readFileSync(join(ROOT, 'docs/spec/measuring.md'), 'utf8'));
    const families = new Set(measuring.map(familyOf));
    expect(families.size).toBeGreaterThanOrEqual(35);
    const named = [...titled].filter((id) => families.has(familyOf(id)));
    expect(named.length).toBeGreaterThan(100);
    expect(named.filter((id) => !listed.has(id))).toEqual([]);
  });
});
