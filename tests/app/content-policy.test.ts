/**
 * What the page may load. Rule ids: [CSP1] to [CSP3], said in the titles.
 *
 * Source: W3C Content Security Policy Level 3, from memory.
 */

import { describe, expect, test } from 'vitest';
import { contentPolicy } from '../../src/app/content-policy.ts';

const POLICIES = [
  ['in the page', contentPolicy({ header: false })],
  ['as a header', contentPolicy({ header: true })],
] as const;

/** The rules by their names. */
function rulesOf(policy: string): Map<string, readonly string[]> {
  const rules = policy.split(';').map((rule) => rule.trim().split(/\s+/));
  const names = rules.map(([name]) => name);
  expect(new Set(names).size, 'a browser ignores the second rule of a name').toBe(names.length);
  return new Map(rules.map(([name, ...sources]) => [name, sources]));
}

describe.each(POLICIES)('the content policy %s', (_where, policy) => {
  test('[CSP1] allows files of our own and nothing else: no address, no scheme, nothing unsafe', () => {
    for (const [name, sources] of rulesOf(policy)) {
      expect(sources, name).toHaveLength(1);
      expect(["'self'", "'none'"], name).toContain(sources[0]);
    }
    expect(policy).not.toMatch(/unsafe|eval|\*|:|nonce|sha\d/);
  });

  test('[CSP2] forbids whatever it does not name, and what has no such fall-back', () => {
    const rules = rulesOf(policy);
    expect(rules.get('default-src')).toEqual(["'none'"]);
    // These two are not covered by default-src.
    expect(rules.get('base-uri')).toEqual(["'none'"]);
    expect(rules.get('form-action')).toEqual(["'none'"]);
    for (const name of ['object-src', 'frame-src', 'child-src', 'media-src', 'font-src']) {
      expect(rules.get(name) ?? rules.get('default-src'), name).toEqual(["'none'"]);
    }
  });

  test('[CSP2] allows what the page needs: scripts, workers, styles, pictures, its own files', () => {
    const rules = rulesOf(policy);
    for (const name of ['script-src', 'worker-src', 'style-src', 'img-src', 'connect-src']) {
      expect(rules.get(name), name).toEqual(["'self'"]);
    }
  });
});

test('[CSP3] only the header can forbid to be framed, and is the same otherwise', () => {
  const [inPage, header] = POLICIES.map(([, policy]) => rulesOf(policy));
  expect(header.get('frame-ancestors')).toEqual(["'none'"]);
  // A browser complains of it in a page.
  expect(inPage.has('frame-ancestors')).toBe(false);
  header.delete('frame-ancestors');
  expect([...header]).toEqual([...inPage]);
});
