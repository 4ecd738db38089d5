/**
 * The state of the page before anything is read.
 */
import { makeSettings } from '../logbook/make-entry.ts';
import type { AppState } from './app-state.ts';

/** The state before anything is read. */
export function emptyState(nowS: number): AppState {
  return {
    phase: 'opening',
    fault: null,
    settings: makeSettings(nowS),
    logs: [],
    visits: [],
    strips: [],
    aeroplanes: [],
    factorSets: [],
    analyses: new Map(),
    otherLogs: new Map(),
    toMeasure: 0,
    imports: [],
    notTaken: [],
    visitDraft: null,
    messages: [],
    hasDemo: false,
    nowS,
  };
}
