/**
 * Which kept logs must be measured (again), and by what?
 *
 * A result stands while the version of the measuring and the fingerprint of its inputs are the same;
 * otherwise the log is measured anew from its bytes, one after the other, newest change first; those
 * that teach others before those. Which logs recorded one flight shows from the results, whatever they
 * rest on: what was entered about one holds for the other.
 */
import { contextFor, fingerprint, landingMarks, teaches } from '../logbook/debrief-context.ts';
import type { Json, LogSummary, ResultRecord } from '../logbook/entry.ts';
import { put } from '../logbook/logbook-store.ts';
import { isCurrent, makeResult } from '../logbook/make-entry.ts';
import type { Result } from '../result.ts';
import type { Measured } from './analysis-messages.ts';
import type { PageStore } from './page-store.ts';
import type { LogAnalysis } from './app-state.ts';
import { decodeAnalysis } from './decode-analysis.ts';
import { otherLogsOf } from './other-logs.ts';

/** A kept result, and what it holds; null: this page cannot read it. */
interface KeptResult {
  readonly result: ResultRecord;
  readonly analysis: LogAnalysis | null;
}

/** See the file's head. */
export class Measuring {
  readonly #store: PageStore;
  /** Counts the rounds: a newer one ends an older. */
  #round = 0;
  /** Logs that the worker is at. */
  readonly #underWay = new Set<{ readonly logId: string }>();

  constructor(store: PageStore) {
    this.#store = store;
  }

  /**
   * Takes the results that still stand, then measures the other logs: those that teach come first,
   * because what they teach is among the inputs of the others.
   */
  async bringUpToDate(results: readonly ResultRecord[]): Promise<void> {
    const round = ++this.#round;
    const byLog = new Map(
      results.map((result): [string, KeptResult] => [
        result.logId,
        { result, analysis: decodeAnalysis(result.data) },
      ]),
    );
    const kept = (logId: string): LogAnalysis | null => byLog.get(logId)?.analysis ?? null;
    this.#findOtherLogs(kept);
    const { logs, visits, otherLogs } = this.#store.state;
    const isTeacher = (log: LogSummary): boolean =>
      teaches(landingMarks(visits, log, otherLogs.get(log.id)?.ofLandings));
    const taught = logs.filter((log) => !isTeacher(log));
    const teachers = await this.#takeStanding(logs.filter(isTeacher), byLog, round);
    if (teachers.length > 0) {
      // Which others follow shows when these are done: until then it may be all.
      await this.#measureAll(teachers, teachers.length + taught.length, round);
    }
    const stale = await this.#takeStanding(taught, byLog, round);
    await this.#measureAll(stale, stale.length, round);
    // A log measured for the first time may share its flight with another one. What rests on a kept result
    // at the start rests on it here too: one that cannot be measured anew would be news for ever.
    if (round === this.#round && this.#findOtherLogs(kept)) await this.#store.reload();
  }

  /** Finds which logs recorded the same flights; true where that is news. */
  #findOtherLogs(kept: (logId: string) => LogAnalysis | null): boolean {
    const { logs, analyses, otherLogs } = this.#store.state;
    const found = otherLogsOf(logs, (id) => (analyses.get(id) ?? kept(id))?.flights ?? []);
    if (JSON.stringify([...found]) === JSON.stringify([...otherLogs])) return false;
    this.#store.update({ otherLogs: found });
    return true;
  }

  /** Shows the results of these logs that still stand, of the others what was shown before; returns the stale ones. */
  async #takeStanding(
    logs: readonly LogSummary[],
    byLog: ReadonlyMap<string, KeptResult>,
    round: number,
  ): Promise<LogSummary[]> {
    const store = this.#store;
    const found = new Map<string, LogAnalysis>();
    const stale: LogSummary[] = [];
    for (const log of logs) {
      // What the worker is at rests on older records, and the worker will hold it: measured once more.
      const standing = this.#isUnderWay(log) ? null : await this.#standing(log, byLog.get(log.id));
      if (standing) found.set(log.id, standing);
      else stale.push(log);
    }
    if (round !== this.#round) return stale;
    const analyses = new Map<string, LogAnalysis>();
    for (const { id } of store.state.logs) {
      // What is being measured anew stays on show as it was until the new figures are there.
      const shown = found.get(id) ?? store.state.analyses.get(id);
      if (shown) analyses.set(id, shown);
    }
    store.update({ analyses });
    return stale;
  }

  /** Measures these, the first of so many; ends where a newer round began. */
  async #measureAll(stale: readonly LogSummary[], ofAll: number, round: number): Promise<void> {
    const store = this.#store;
    if (round !== this.#round) return;
    store.update({ toMeasure: ofAll });
    for (const [done, log] of stale.entries()) {
      const measured = await this.measure(log);
      if (round !== this.#round) return;
      // Cancelled with an import, whose end begins a new round: nothing to tell.
      if (!measured.ok && !isCancelled(measured)) store.report(measured);
      store.update({ toMeasure: ofAll - done - 1 });
    }
  }

  /**
   * Measures a kept log, shows and keeps the result; not where a newer round began meanwhile, which
   * knows better. Fails: as reading and measuring do.
   */
  async measure(log: LogSummary): Promise<Result<Measured>> {
    const store = this.#store;
    const round = this.#round;
    const work = { logId: log.id };
    this.#underWay.add(work);
    try {
      const bytes = await store.bytesOf(log);
      if (!bytes.ok) return bytes;
      const measured = await store.around.client.measure(log, bytes.value, store.inputs());
      if (measured.ok && round === this.#round) await this.#keep(log, measured.value);
      return measured;
    } finally {
      this.#underWay.delete(work);
    }
  }

  #isUnderWay({ id }: LogSummary): boolean {
    return [...this.#underWay].some(({ logId }) => logId === id);
  }

  async #keep(log: LogSummary, { analysis, inputsSha256 }: Measured): Promise<void> {
    const store = this.#store;
    store.setAnalysis(log.id, analysis);
    const result = makeResult(log, analysis as unknown as Json, inputsSha256, store.around.clock());
    store.report(await store.around.logbook.write([put(result)]));
  }

  async #standing(log: LogSummary, kept: KeptResult | undefined): Promise<LogAnalysis | null> {
    const { result, analysis } = kept ?? { analysis: null };
    if (!result || !analysis) return null;
    const startS = analysis.flights.length > 0 ? analysis.flights[0].startS : log.addedS;
    const context = contextFor(this.#store.inputs(), log, startS);
    if (!context.ok) return null;
    return isCurrent(result, await fingerprint(context.value)) ? analysis : null;
  }
}

function isCancelled({ problems }: Result<unknown>): boolean {
  return problems.some(({ code }) => code === 'cancelled');
}
