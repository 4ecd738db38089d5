/** What axe finds wrong with a page. */
import axe from 'axe-core';
import type { Page } from 'playwright-core';

/**
 * Rules of WCAG 2.2 AA and good practice that the page breaks, by the package's own script (axe-core).
 *
 * @param of colours alone: for a page that was looked at whole in its other theme, where nothing else differs.
 */
export async function violations(page: Page, of: 'all' | 'colours' = 'all'): Promise<string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(
    async (runOnly) => {
      const { axe: rules } = window as unknown as {
        axe: {
          run: (
            options: object,
          ) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
        };
      };
      const found = await rules.run({ resultTypes: ['violations'], ...(runOnly && { runOnly }) });
      return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 160)}`);
    },
    of === 'colours' ? ['color-contrast'] : null,
  );
}
