/**
 * Serves the built page for all browser tests, as `npm start` does.
 */
import type { TestProject } from 'vitest/node';
import { servePage as serve } from '../tools/serve-page.mjs';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the served page, with a slash at its end. */
    readonly address: string;
  }
}

/** Serves the page until all tests are done. */
export default async function servePage(project: TestProject): Promise<() => Promise<void>> {
  const { address, close } = await serve({ port: 4188 });
  project.provide('address', address);
  return close;
}
