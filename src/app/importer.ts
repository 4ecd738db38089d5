/**
 * Files on their way into the logbook, one after the other, with progress and cancelling.
 *
 * Track files are measured before they are kept: what cannot be read is not kept, and its problems
 * stay on the page. A strips file, an aeroplane document and a logbook file are known by their content
 * and taken where they belong.
 */
import { entryId } from '../logbook/entry.ts';
import { MOST_LOG_BYTES } from '../logbook/log-bytes.ts';
import { put } from '../logbook/logbook-store.ts';
import {
  makeAeroplane,
  makeFactorSet,
  makeLog,
  makeResult,
  makeStrips,
} from '../logbook/make-entry.ts';
import type { Json, StripRecord } from '../logbook/entry.ts';
import { failure, problem, success, type Problem, type Result } from '../result.ts';
import type { PageStore } from './page-store.ts';
import type { ImportJob } from './app-state.ts';
import { kindOfFile, otherJson } from './file-kind.ts';
import { overKnown, takeLogbook, unreadable } from './keep-records.ts';

/** What became of a file: the log it is now, or null for another kind. */
type Taken = Result<{ readonly logId: string | null }>;

/** See the file's head. */
export class Importer {
  readonly #store: PageStore;
  #lastNumber = 0;
  /** Counts cancellings: work begun before one ends at its next step. */
  #cancelled = 0;
  #queue: Promise<void> = Promise.resolve();

  constructor(store: PageStore) {
    this.#store = store;
  }

  /** Takes files in order; settles when all are done, failed or cancelled. */
  take(files: readonly File[]): Promise<void> {
    const jobs = files.map((file): ImportJob => ({
      number: ++this.#lastNumber,
      fileName: file.name,
      stage: 'waiting',
      logId: null,
      problems: [],
    }));
    this.#store.update({ imports: [...this.#store.state.imports, ...jobs] });
    const round = this.#cancelled;
    const work = async (): Promise<void> => {
      for (const [k, job] of jobs.entries()) await this.#run(job, files[k], round);
      await this.#store.reload();
    };
    // Also where the files before it ended with a fault.
    this.#queue = this.#queue.then(work, work);
    return this.#queue;
  }

  /** Ends what runs and what waits. What was kept stays. */
  cancel(): void {
    const { imports } = this.#store.state;
    // The worker may be measuring kept logs anew, which nobody wants to end.
    if (imports.every(isSettled)) return;
    this.#cancelled++;
    this.#store.around.client.cancelAll();
    this.#store.update({
      imports: imports.map((job) => (isSettled(job) ? job : { ...job, stage: 'cancelled' })),
    });
  }

  async #run(job: ImportJob, file: File, round: number): Promise<void> {
    if (round !== this.#cancelled) return;
    const change = (part: Partial<ImportJob>): void => {
      if (round !== this.#cancelled) return;
      const imports = this.#store.state.imports.map((each) =>
        each.number === job.number ? { ...each, ...part } : each,
      );
      this.#store.update({ imports });
    };
    change({ stage: 'reading' });
    const taken = await this.#read(file, round, change).catch((error: unknown): Taken =>
      failure([unreadable(file, error, 'a track')]),
    );
    const problems = taken.problems;
    if (taken.ok) change({ stage: 'done', logId: taken.value.logId, problems });
    else change({ stage: 'failed', problems });
  }

  async #read(
    file: File,
    round: number,
    change: (part: Partial<ImportJob>) => void,
  ): Promise<Taken> {
    if (file.size > MOST_LOG_BYTES) return failure([tooLarge(file)]);
    const bytes = new Uint8Array(await file.arrayBuffer());
    if (round !== this.#cancelled) return failure([cancelledLate(file.name)]);
    switch (kindOfFile(bytes, file.name)) {
      case 'logbook': {
        const taken = await takeLogbook(this.#store, file);
        return taken.ok ? success({ logId: null }, taken.problems) : taken;
      }
      case 'strips': {
        const made = await makeStrips(new TextDecoder().decode(bytes), this.#making());
        const over = (record: StripRecord): StripRecord => overKnown(record, this.#store);
        return this.#keep(made.ok ? success(made.value.map(over), made.problems) : made);
      }
      case 'aeroplane': {
        const made = makeAeroplane(new TextDecoder().decode(bytes), this.#making());
        return this.#keep(made.ok ? success([made.value], made.problems) : made);
      }
      case 'factor-set': {
        const made = makeFactorSet(new TextDecoder().decode(bytes), this.#making());
        return this.#keep(made.ok ? success([made.value], made.problems) : made);
      }
      case 'other-json':
        return failure([otherJson(bytes)]);
      default:
        return this.#track(file.name, bytes, round, change);
    }
  }

  #making(): { readonly nowS: number; readonly demo: boolean } {
    return { nowS: this.#store.around.clock(), demo: false };
  }

  async #keep(made: Result<readonly Parameters<typeof put>[0][]>): Promise<Taken> {
    if (!made.ok) return made;
    const written = await this.#store.around.logbook.write(made.value.map(put));
    if (!written.ok) return written;
    // The logs behind it in the queue are measured with it.
    await this.#store.reload();
    return success({ logId: null }, made.problems);
  }

  async #track(
    fileName: string,
    bytes: Uint8Array<ArrayBuffer>,
    round: number,
    change: (part: Partial<ImportJob>) => void,
  ): Promise<Taken> {
    const store = this.#store;
    const log = await makeLog(fileName, bytes, this.#making());
    if (!log.ok) return log;
    const { id } = log.value;
    const known = store.state.logs.find((each) => each.id === id);
    if (known) return success({ logId: id }, [alreadyThere(fileName, known.fileName)]);
    const { client, logbook, clock } = store.around;
    const measured = await client.measure(log.value, bytes, store.inputs(), (stage) =>
      change({ stage }),
    );
    if (!measured.ok) return measured;
    if (round !== this.#cancelled) return failure([cancelledLate(fileName)]);
    const { analysis, inputsSha256 } = measured.value;
    // Nothing flew in it: there is nothing to keep, and the problems say why.
    if (analysis.flights.length === 0) return failure(analysis.problems);
    const result = makeResult(log.value, analysis as unknown as Json, inputsSha256, clock());
    const written = await logbook.write([put(log.value), put(result)]);
    if (!written.ok) return written;
    const listing = await logbook.list('log');
    if (listing.ok) store.update({ logs: listing.value });
    store.setAnalysis(id, analysis);
    return success({ logId: entryId('log', id) }, analysis.problems);
  }
}

function isSettled({ stage }: ImportJob): boolean {
  return stage === 'done' || stage === 'failed' || stage === 'cancelled';
}

function tooLarge({ name, size }: File): Problem {
  const message = `found ${size} bytes, expected at most ${MOST_LOG_BYTES}`;
  return problem('file-large', 'error', name, message);
}

function alreadyThere(fileName: string, known: string): Problem {
  const as = fileName === known ? '' : ` as ${known}`;
  return problem('log-known', 'note', fileName, `this log is in the logbook already${as}`);
}

function cancelledLate(fileName: string): Problem {
  return problem('cancelled', 'note', fileName, 'cancelled before it was kept');
}
