/**
 * Who is told that records have changed. Rules: docs/spec/logbook.md, LB23.
 */

import { afterEach, describe, expect, test, vi } from 'vitest';
import { createNotices, type ChangeNotice } from '../../src/logbook/change-notices.ts';
import { put } from '../../src/logbook/logbook-store.ts';
import { createMemoryStore } from '../../src/logbook/memory-store.ts';
import { inventedVisit, valueOf } from './invented-entries.ts';

afterEach(() => {
  vi.unstubAllGlobals();
});

const NOTICE: ChangeNotice = { changed: [], from: 'here' };

describe('a listener', () => {
  test('[LB23] that throws stops neither the write nor the others, and its fault comes to light', async () => {
    const thrownLater: unknown[] = [];
    vi.stubGlobal('queueMicrotask', (work: () => void) => {
      try {
        work();
      } catch (fault) {
        thrownLater.push(fault);
      }
    });
    const store = createMemoryStore();
    const heard: string[] = [];
    const fault = new Error('a fault of the page');
    store.subscribe(() => heard.push('first'));
    store.subscribe(() => {
      throw fault;
    });
    store.subscribe(() => heard.push('third'));
    valueOf(await store.write([put(inventedVisit('v'))]));
    expect(heard).toEqual(['first', 'third']);
    expect(thrownLater).toEqual([fault]);
    expect(valueOf(await store.list('visit'))).toHaveLength(1);
  });

  test('[LB23] that came twice is told twice, and leaves once for each', () => {
    const notices = createNotices();
    const listener = vi.fn();
    const [leave] = [notices.subscribe(listener), notices.subscribe(listener)];
    notices.tell(NOTICE);
    expect(listener).toHaveBeenCalledTimes(2);
    leave();
    leave();
    notices.tell(NOTICE);
    expect(listener).toHaveBeenCalledTimes(3);
  });

  test('[LB23] that leaves while it is told keeps no other from being told', () => {
    const notices = createNotices();
    const heard: string[] = [];
    const leave = notices.subscribe(() => {
      heard.push('goes');
      leave();
    });
    notices.subscribe(() => heard.push('stays'));
    notices.tell(NOTICE);
    notices.tell(NOTICE);
    expect(heard).toEqual(['goes', 'stays', 'stays']);
  });
});
