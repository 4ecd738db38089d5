/** What axe finds wrong with a page. */
import axe from 'axe-core';
import type { Page } from 'playwright-core';

/** Rules of WCAG 2.2 AA and good practice that the page breaks, by the package's own script (axe-core). */
export async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { axe: rules } = window as unknown as {
      axe: { run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const found = await rules.run();
    return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 160)}`);
  });
}
