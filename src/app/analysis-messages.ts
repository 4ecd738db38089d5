/**
 * What do the page and its worker say to each other?
 *
 * Every request has a number; its answers carry the same. All of it is plain data.
 */
import type { KeptInputs } from '../logbook/debrief-context.ts';
import type { LogSummary } from '../logbook/entry.ts';
import type { Problem, Result } from '../result.ts';
import type { EventDebrief, EventDebriefOptions } from '../report/story/event-debrief.ts';
import type { LogAnalysis } from './app-state.ts';

/** Reads and measures one log. */
export interface MeasureRequest {
  readonly kind: 'measure';
  readonly number: number;
  readonly log: LogSummary;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly inputs: KeptInputs;
}

/** Asks for one event of a log that was measured. */
export interface EventRequest {
  readonly kind: 'event';
  readonly number: number;
  readonly logId: string;
  readonly flight: number;
  readonly key: string | null;
  readonly options: EventDebriefOptions;
}

export type WorkRequest = MeasureRequest | EventRequest;

/** A measured log, with the fingerprint of what it was measured with. */
export interface Measured {
  readonly analysis: LogAnalysis;
  readonly inputsSha256: string;
}

export type WorkAnswer =
  | { readonly kind: 'stage'; readonly number: number; readonly stage: 'reading' | 'measuring' }
  | { readonly kind: 'measured'; readonly number: number; readonly result: Result<Measured> }
  /** Null: the worker does not hold that log (any more): measure it first. */
  | { readonly kind: 'event'; readonly number: number; readonly event: EventDebrief | null }
  /** A mistake of the program, in words. */
  | { readonly kind: 'fault'; readonly number: number; readonly problem: Problem };
