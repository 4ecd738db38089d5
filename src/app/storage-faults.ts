/**
 * What does a failure of the browser's storage mean to a pilot?
 *
 * In: what IndexedDB throws. Out: what was found, what was expected, and what can be done.
 *
 * Source: error names of W3C Indexed Database API 3.0 and WHATWG Storage, from memory.
 */

import { DiskFault } from '../logbook/logbook-store.ts';
import { problem, type Problem } from '../result.ts';

const FULL =
  'found no room left in the storage that the browser gives this page, expected room for the change. Nothing was changed. Export the logbook, then delete logs or make room on this device';
const CLOSED =
  'found the logbook closed by the browser or by a newer Windrow in another tab, expected it open. Open the page again';

/** A failure while reading or writing; anything that is no storage error is a fault of ours and stays. */
export function diskFault(error: unknown): unknown {
  const name = nameOfError(error);
  if (name === 'QuotaExceededError') return new DiskFault('logbook-full', FULL);
  if (name === 'InvalidStateError') return new DiskFault('logbook-closed', CLOSED);
  if (!isDomError(error)) return error;
  const message = `found the browser's storage failing (${words(error)}), expected it to read or write. Nothing was changed`;
  return new DiskFault('logbook-storage', message);
}

/** Why the logbook could not be opened. */
export function openFault(error: unknown, version: number): Problem {
  const refuse = (code: string, message: string) => problem(code, 'error', 'logbook', message);
  switch (nameOfError(error)) {
    case 'VersionError':
      return refuse(
        'logbook-too-new',
        `found a logbook that a newer Windrow wrote, expected version ${version} or older. It was left as it is; bring this Windrow up to date`,
      );
    case 'QuotaExceededError':
      return refuse('logbook-full', FULL);
    // Private windows of some browsers offer a database and then refuse to open it: InvalidStateError.
    case 'SecurityError':
    case 'InvalidStateError':
    case 'ReferenceError':
    case 'TypeError':
      return refuse(
        'logbook-no-storage',
        `found a browser that gives this page no storage (${words(error)}), expected IndexedDB. What is entered now is gone when the page is closed, unless it is exported`,
      );
    default:
      return refuse(
        'logbook-storage',
        `found a logbook that does not open (${words(error)}), expected it to. It was left as it is`,
      );
  }
}

function isDomError(error: unknown): boolean {
  return typeof DOMException !== 'undefined' && error instanceof DOMException;
}

function nameOfError(error: unknown): string {
  return error instanceof Error ? error.name : '';
}

function words(error: unknown): string {
  return error instanceof Error ? `${error.name}: ${error.message}` : String(error);
}
