/**
 * `npm start`: installs what is missing, builds the page when its sources changed, serves it on this
 * machine only and opens it where there is a display.
 *
 *   npm start [-- --port N] [-- --no-open]
 */

import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { ensureInstalled } from '../../tests/tools/ensure-installed.mjs';

const HELP = `npm start: opens Windrow in your browser, from this machine alone

  npm start -- --port N     at another port than 4180
  npm start -- --no-open    only serves, and says the address
`;

const rootFolder = fileURLToPath(new URL('../..', import.meta.url));
const options = readOptions();
if (options.help) {
  console.log(HELP);
  process.exit(0);
}

ensureInstalled(rootFolder);
try {
  // Only now: its own packages may have been missing until here.
  const { servePage } = await import('../../tests/tools/serve-page.mjs');
  const { address } = await servePage({
    port: options.port ?? 4180,
    // A port that was asked for is that port or none.
    strictPort: options.port !== null,
    open: options.open && hasDisplay(),
  });
  console.log(`Windrow is at ${address}  (Ctrl C ends it)`);
} catch (error) {
  console.error(
    `Windrow could not be served: ${error instanceof Error ? error.message : String(error)}`,
  );
  process.exit(1);
}

/** @returns {{ port: number | null, open: boolean, help: boolean }} */
function readOptions() {
  try {
    const { values } = parseArgs({
      options: {
        port: { type: 'string' },
        'no-open': { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
      },
    });
    const port = values.port === undefined ? null : Number(values.port);
    if (port !== null && !(Number.isInteger(port) && port > 0 && port < 65536)) {
      throw new Error(`found --port ${values.port}, expected a number from 1 to 65535`);
    }
    return { port, open: values['no-open'] !== true, help: values.help === true };
  } catch (error) {
    console.error(`${error instanceof Error ? error.message : String(error)}\n\n${HELP}`);
    process.exit(1);
  }
}

/** True where a browser window can open: always but on a Linux without a display. */
function hasDisplay() {
  if (process.env.CI) return false;
  if (process.platform !== 'linux') return true;
  return Boolean(process.env.DISPLAY ?? process.env.WAYLAND_DISPLAY);
}
