/**
 * Who is told that records have changed?
 *
 * In: one notice after each transaction. Out: every listener is called with it, once, in the order
 * of subscription.
 */

import type { EntryKey } from './entry.ts';

/** A record that was put or removed. */
export type ChangedKey = EntryKey & { readonly what: 'put' | 'removed' };

/** What one transaction changed, and whether this store made it or another tab's. */
export interface ChangeNotice {
  readonly changed: readonly ChangedKey[];
  readonly from: 'here' | 'elsewhere';
}

export type NoticeListener = (notice: ChangeNotice) => void;

/** Passes notices on to listeners. */
export interface Notices {
  tell(notice: ChangeNotice): void;
  /** Gives the function that ends the subscription. */
  subscribe(listener: NoticeListener): () => void;
}

/**
 * Makes a passer-on of notices.
 *
 * A listener that throws keeps no other from being told and makes no write fail: its fault is thrown
 * on its own, after the present work, where the platform reports it.
 */
export function createNotices(): Notices {
  const listeners = new Set<NoticeListener>();
  return {
    tell: (notice) => {
      for (const listener of [...listeners]) {
        try {
          listener(notice);
        } catch (fault) {
          queueMicrotask(() => {
            throw fault;
          });
        }
      }
    },
    subscribe: (listener) => {
      // A wrapper of its own makes two subscriptions of one function two.
      const own: NoticeListener = (notice) => listener(notice);
      listeners.add(own);
      return () => listeners.delete(own);
    },
  };
}
