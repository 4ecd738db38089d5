/**
 * The page's side of the worker: one request, one promise.
 *
 * Cancelling ends the worker itself, whatever it is at, and starts a new one: no loop anywhere has to
 * look whether it is still wanted.
 */
import { problem, failure, type Result } from '../result.ts';
import type { KeptInputs } from '../logbook/debrief-context.ts';
import type { LogSummary } from '../logbook/entry.ts';
import type { EventDebrief, EventDebriefOptions } from '../report/story/event-debrief.ts';
import type { Measured, WorkAnswer, WorkRequest } from './analysis-messages.ts';

/** A worker's face, so that a test can stand in for it. */
export interface WorkerLike {
  postMessage(message: WorkRequest): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<WorkAnswer>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/** Which event of a measured log, and how it is to be shown. */
export interface EventQuestion {
  readonly logId: string;
  readonly flight: number;
  readonly key: string | null;
  readonly options: EventDebriefOptions;
}

interface Waiting {
  readonly onStage: (stage: 'reading' | 'measuring') => void;
  readonly settle: (answer: WorkAnswer | null) => void;
}

/** Asks the worker. */
export class AnalysisClient {
  readonly #makeWorker: () => WorkerLike;
  #worker: WorkerLike | null = null;
  #number = 0;
  readonly #waiting = new Map<number, Waiting>();

  constructor(makeWorker: () => WorkerLike) {
    this.#makeWorker = makeWorker;
  }

  /** Measures a log. Fails as measuring does; `cancelled` where it was cancelled. */
  async measure(
    log: LogSummary,
    bytes: Uint8Array<ArrayBuffer>,
    inputs: KeptInputs,
    onStage: (stage: 'reading' | 'measuring') => void = () => undefined,
  ): Promise<Result<Measured>> {
    const number = ++this.#number;
    const answer = await this.#ask({ kind: 'measure', number, log, bytes, inputs }, onStage);
    if (answer?.kind === 'measured') return answer.result;
    return failure([answer?.kind === 'fault' ? answer.problem : CANCELLED]);
  }

  /** One event; null where the worker does not hold the log. Fails: `cancelled`, or a mistake of ours. */
  async event(question: EventQuestion): Promise<Result<EventDebrief | null>> {
    const number = ++this.#number;
    const answer = await this.#ask({ kind: 'event', number, ...question }, () => undefined);
    if (answer?.kind === 'event') return { ok: true, value: answer.event, problems: [] };
    return failure([answer?.kind === 'fault' ? answer.problem : CANCELLED]);
  }

  /** Ends everything that is asked and not answered. */
  cancelAll(): void {
    this.#worker?.terminate();
    this.#worker = null;
    const waiting = [...this.#waiting.values()];
    this.#waiting.clear();
    for (const { settle } of waiting) settle(null);
  }

  #ask(request: WorkRequest, onStage: Waiting['onStage']): Promise<WorkAnswer | null> {
    this.#worker ??= this.#start();
    const worker = this.#worker;
    return new Promise((settle) => {
      this.#waiting.set(request.number, { onStage, settle });
      worker.postMessage(request);
    });
  }

  #start(): WorkerLike {
    const worker = this.#makeWorker();
    worker.onmessage = ({ data }) => {
      const waiting = this.#waiting.get(data.number);
      if (data.kind === 'stage') {
        waiting?.onStage(data.stage);
        return;
      }
      this.#waiting.delete(data.number);
      waiting?.settle(data);
    };
    // The worker itself broke down, as when memory runs out: what waits is told, the next asks a new one.
    worker.onerror = ({ message }) => {
      // One that was ended already has nobody waiting for it.
      if (this.#worker !== worker) return;
      const waiting = [...this.#waiting];
      this.#waiting.clear();
      this.#worker = null;
      worker.terminate();
      // A worker whose file does not load gives no reason.
      const words = `found the measuring stopped by the browser (${message || 'no reason given'}), expected it to finish`;
      const fault = problem('fault', 'error', 'program', words);
      for (const [number, { settle }] of waiting) settle({ kind: 'fault', number, problem: fault });
    };
    return worker;
  }
}

const CANCELLED = problem('cancelled', 'note', 'import', 'cancelled before it was measured');

/** The worker of the page. */
export function startWorker(): WorkerLike {
  return new Worker(new URL('./analysis.worker.ts', import.meta.url), {
    type: 'module',
  });
}
