/**
 * Runs trials in several threads of one machine.
 *
 * The program itself is the thread's program too: its main file asks `isThread()` and calls
 * `serveTrials()` there. Results come in the order of the trials, whatever thread was first.
 */
import { fileURLToPath } from 'node:url';
import { isMainThread, parentPort, Worker } from 'node:worker_threads';
import { runTrial, type Trial, type TrialResult } from './accuracy-trials.ts';

/** Trials sent at once. */
const BATCH = 10;

interface Batch {
  readonly index: number;
  readonly trials: readonly Trial[];
}

interface Answer {
  readonly index: number;
  readonly results: readonly TrialResult[];
}

/** True in a thread that serves trials. */
export function isThread(): boolean {
  return !isMainThread;
}

/** Answers batches until the thread is ended. */
export function serveTrials(): void {
  parentPort?.on('message', ({ index, trials }: Batch) => {
    const results = trials.flatMap(runTrial);
    parentPort?.postMessage({ index, results } satisfies Answer);
  });
}

/**
 * Runs trials in their order, all or until a time: then those begun are finished, and the results
 * are those of a first part of the list.
 *
 * @param program address of the program's main file; @param untilMs by this machine's clock.
 * @param say told after every batch how far it is.
 * Fails: rejects with a thread's own error.
 */
export async function runTrials(
  program: string,
  trials: readonly Trial[],
  threads: number,
  untilMs: number,
  say: (done: number, of: number) => void,
): Promise<TrialResult[]> {
  const batches: Batch[] = [];
  for (let from = 0; from < trials.length; from += BATCH) {
    batches.push({ index: batches.length, trials: trials.slice(from, from + BATCH) });
  }
  const answers = new Array<readonly TrialResult[]>(batches.length);
  let next = 0;
  let done = 0;
  await Promise.all(
    Array.from({ length: Math.min(threads, batches.length) }, () => {
      const worker = new Worker(fileURLToPath(program));
      return new Promise<void>((resolve, reject) => {
        const more = (): void => {
          if (next < batches.length && Date.now() < untilMs) worker.postMessage(batches[next++]);
          else void worker.terminate().then(() => resolve());
        };
        worker.on('error', reject);
        worker.on('message', ({ index, results }: Answer) => {
          answers[index] = results;
          done++;
          say(done, batches.length);
          more();
        });
        more();
      });
    }),
  );
  return answers.slice(0, done).flat();
}
