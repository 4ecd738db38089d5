/**
 * Safe from the first day: the content policy stands in header and page, nothing asks elsewhere.
 */
import { expect, inject, test } from 'vitest';
import { openPage, useBrowser } from './open-page.ts';

useBrowser();

test('[PG50] sends the policy as a header and carries it in the page', async () => {
  const answer = await fetch(inject('address'));
  const header = answer.headers.get('content-security-policy') ?? '';
  const html = await answer.text();
  expect(header).toContain("default-src 'none'");
  expect(header).not.toMatch(/unsafe|\*|https?:/);
  expect(html).toMatch(/<meta http-equiv="Content-Security-Policy"/i);
});

test('[PG51] stops a script, a style and a request that somebody smuggled in', async () => {
  const { page, faults } = await openPage();
  const result = await page.evaluate(async () => {
    const script = document.createElement('script');
    script.textContent = 'window.smuggled = true';
    document.body.append(script);
    const element = document.createElement('p');
    element.setAttribute('style', 'color: red');
    document.body.append(element);
    const asked = await fetch('https://example.invalid/').then(
      () => 'answered',
      () => 'stopped',
    );
    return { smuggled: 'smuggled' in window, asked, style: element.style.color };
  });
  expect(result.smuggled).toBe(false);
  expect(result.asked).toBe('stopped');
  expect(result.style).toBe('');
  // The guard of all other tests sees such things: here it must have complained.
  expect(
    faults.filter((fault) => fault.includes('Content Security Policy')).length,
  ).toBeGreaterThan(1);
});
