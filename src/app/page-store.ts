/**
 * What the parts of the store see of it.
 *
 * The store itself carries out actions (app-store.ts); importing, measuring and keeping are its parts.
 */
import type { KeptInputs } from '../logbook/debrief-context.ts';
import type { LogSummary } from '../logbook/entry.ts';
import type { LogbookStore } from '../logbook/logbook-store.ts';
import type { Problem, Result } from '../result.ts';
import type { AnalysisClient } from './analysis-client.ts';
import type { AppState, LogAnalysis } from './app-state.ts';

/** What the browser gives. */
export interface Surroundings {
  readonly logbook: LogbookStore;
  readonly client: AnalysisClient;
  /** UTC seconds since 1970. */
  readonly clock: () => number;
  /** Bytes of the demonstration's logbook file. */
  readonly fetchDemo: () => Promise<Uint8Array<ArrayBuffer>>;
  readonly saveFile: (fileName: string, content: Blob) => void;
}

/** The store as its parts see it. */
export interface PageStore {
  readonly state: AppState;
  readonly around: Surroundings;
  /** The records a debrief rests on. */
  inputs(): KeptInputs;
  /** The bytes of a kept log. */
  bytesOf(log: LogSummary): Promise<Result<Uint8Array<ArrayBuffer>>>;
  /** Replaces parts of the state. */
  update(part: Partial<AppState>): void;
  /** Puts one analysis into the state. */
  setAnalysis(logId: string, analysis: LogAnalysis): void;
  /** Says something at the foot of the page; with a deletion it can be undone there. */
  say(text: string, deletion?: number | null, isCaution?: boolean): void;
  /** Says what went wrong, and nothing where nothing did. */
  report(done: { readonly ok: boolean; readonly problems: readonly Problem[] }): void;
  /** Reads all records anew, then measures what is out of date. */
  reload(): Promise<void>;
}
