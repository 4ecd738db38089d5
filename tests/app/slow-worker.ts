/** A page's store whose worker keeps its answers back until a test lets them go; and two tabs. */
import { vi } from 'vitest';
import { AnalysisClient, type WorkerLike } from '../../src/app/analysis-client.ts';
import type { WorkAnswer } from '../../src/app/analysis-messages.ts';
import { AppStore } from '../../src/app/app-store.ts';
import type { NoticeListener } from '../../src/logbook/change-notices.ts';
import type { LogbookStore } from '../../src/logbook/logbook-store.ts';
import { smallDemo, standInWorker, type StandIn } from './page-store.ts';

/** What a test works with. */
export interface SlowBench {
  readonly store: AppStore;
  readonly standIn: StandIn;
  /** From now on measured logs are kept back, in the order in which they were finished. */
  hold(): void;
  /** Settles when so many answers are kept back. */
  held(count: number): Promise<void>;
  /** Lets one of those kept back go, counted from the first. */
  release(place: number): void;
}

/** A store over a logbook that is there already; its worker does the real work. */
export async function slowStore(logbook: LogbookStore): Promise<SlowBench> {
  const { standIn, make } = standInWorker();
  const answers: (() => void)[] = [];
  let isHolding = false;
  const makeSlow = (): WorkerLike => {
    const inner = make();
    const outer: WorkerLike = {
      onmessage: null,
      onerror: null,
      postMessage: (request) => inner.postMessage(request),
      terminate: () => inner.terminate(),
    };
    inner.onmessage = (event: MessageEvent<WorkAnswer>) => {
      const pass = (): void => outer.onmessage?.(event);
      if (isHolding && event.data.kind === 'measured') answers.push(pass);
      else pass();
    };
    inner.onerror = (event) => outer.onerror?.(event);
    return outer;
  };
  let nowS = Date.UTC(2026, 0, 1) / 1000;
  const store = new AppStore({
    logbook,
    client: new AnalysisClient(makeSlow),
    clock: () => (nowS += 1),
    fetchDemo: smallDemo,
    saveFile: () => undefined,
  });
  await store.open();
  return {
    store,
    standIn,
    hold: () => (isHolding = true),
    held: (count) => until(() => answers.length >= count),
    release: (place) => {
      answers[place]();
    },
  };
}

/** Settles when `isTrue` is; fails after some seconds. */
export async function until(isTrue: () => boolean): Promise<void> {
  await vi.waitFor(
    () => {
      if (!isTrue()) throw new Error('not yet');
    },
    { interval: 5, timeout: 20_000 },
  );
}

/** One logbook as two tabs see it: each is told of its own writes as `here`, of the other's as `elsewhere`. */
export function twoTabs(logbook: LogbookStore): readonly [LogbookStore, LogbookStore] {
  let writing: LogbookStore | null = null;
  const tab = (): LogbookStore => {
    const own: LogbookStore = {
      ...logbook,
      write: async (changes) => {
        writing = own;
        return logbook.write(changes).finally(() => (writing = null));
      },
      subscribe: (listener: NoticeListener) =>
        logbook.subscribe(({ changed }) =>
          listener({ changed, from: writing === own ? 'here' : 'elsewhere' }),
        ),
    };
    return own;
  };
  return [tab(), tab()];
}
