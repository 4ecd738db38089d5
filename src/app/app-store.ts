/**
 * The page's one store: holds the state, carries out actions, tells who listens.
 *
 * In: a logbook, the worker's client, and what the browser gives (clock, names, the demonstration's
 * file, saving a file). Out: states. Components never write anything themselves.
 */
import type { KeptInputs } from '../logbook/debrief-context.ts';
import { removeDemo } from '../logbook/demo-logbook.ts';
import { stampEdited } from '../logbook/entered-fields.ts';
import { exportLogbook } from '../logbook/export.ts';
import { entryId, type LogSummary, type ResultRecord } from '../logbook/entry.ts';
import { logBytes } from '../logbook/log-bytes.ts';
import { put, putIf, type Change } from '../logbook/logbook-store.ts';
import { makeSettings } from '../logbook/make-entry.ts';
import type { EventDebrief } from '../report/story/event-debrief.ts';
import { failure, success, type Problem, type Result } from '../result.ts';
import type { EventQuestion } from './analysis-client.ts';
import type { AppAction, AppState, LogAnalysis } from './app-state.ts';
import { shownIn, unitedWith, withVisit, type Edited } from './edits.ts';
import { emptyState } from './empty-state.ts';
import {
  bringDemo,
  keepAeroplane,
  keepFactorSet,
  keepFeatures,
  takeLogbook,
} from './keep-records.ts';
import { Importer } from './importer.ts';
import { keptLessons, noSuchEvent, notThere } from './logged-flights.ts';
import { Measuring } from './measuring.ts';
import { changesWithLogs } from './other-logs.ts';
import { withNotice } from './notices.ts';
import { JOINED_WORDS, joinPlannedVisit } from './join-planned-visit.ts';
import type { PageStore, Surroundings } from './page-store.ts';

/** See the file's head. */
export class AppStore implements PageStore {
  state: AppState;
  readonly around: Surroundings;
  readonly #listeners = new Set<(state: AppState) => void>();
  readonly #importer: Importer;
  readonly #measuring: Measuring;
  #lastMessage = 0;
  #turn: Promise<unknown> = Promise.resolve();
  /** Edits that are on show and not written yet: how many of each record. */
  readonly #unwritten = new Map<string, number>();
  /** Settings and visits as they were last read from the logbook. */
  #read: ReadonlyMap<string, Edited> = new Map();

  constructor(around: Surroundings) {
    this.around = around;
    this.state = emptyState(around.clock());
    this.#importer = new Importer(this);
    this.#measuring = new Measuring(this);
    around.logbook.subscribe(({ from }) => {
      if (from === 'elsewhere') void this.reload();
    });
  }

  /** Calls `listener` after each change of the state; gives the function that ends it. */
  subscribe(listener: (state: AppState) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Reads the logbook; the first time of all it brings the demonstration. */
  async open(): Promise<void> {
    const settings = await this.around.logbook.get('settings', entryId('settings', 'settings'));
    if (settings.ok && settings.value === null) {
      await this.around.logbook.write([put(makeSettings(this.around.clock()))]);
      this.report(await bringDemo(this));
    }
    await this.reload();
  }

  /** Carries out what a page asks for. Never throws: what goes wrong becomes a message. */
  async dispatch(action: AppAction): Promise<void> {
    const { logbook, saveFile } = this.around;
    switch (action.type) {
      case 'import-files':
        return this.#importer.take(action.files);
      case 'cancel-imports':
        this.#importer.cancel();
        return;
      case 'clear-imports':
        this.update({ imports: [] });
        return;
      case 'remove':
        return this.#remove(
          action.keys.map((key) => ({ remove: key })),
          action.words,
        );
      case 'undo':
        this.#forgetUndo(action.deletion);
        return this.#after(await logbook.putBack(action.deletion));
      case 'dismiss':
        this.update({
          messages: this.state.messages.filter(({ number }) => number !== action.number),
        });
        return;
      case 'save-settings':
        return this.#edit(action.settings);
      case 'save-visit':
        await this.#edit(action.visit);
        if (action.words !== undefined) this.say(action.words);
        return;
      case 'draft-visit':
        this.update({ visitDraft: action.draft });
        return;
      case 'join-visit':
        return this.#after(await joinPlannedVisit(this, action), JOINED_WORDS);
      case 'save-aeroplane':
        return this.#after(await keepAeroplane(this, action.document));
      case 'save-factor-set':
        return this.#after(await keepFactorSet(this, action.document), 'The factor set was kept.');
      case 'save-features':
        return this.#after(await keepFeatures(this, action), `${action.words} was kept.`);
      case 'download':
        saveFile(action.fileName, new Blob([action.text], { type: action.mediaType }));
        return;
      case 'export-logbook':
        return this.#export();
      case 'import-logbook':
        return this.#after(await takeLogbook(this, action.file));
      case 'clear-not-taken':
        this.update({ notTaken: [] });
        return;
      case 'load-demo':
        return this.#after(await bringDemo(this), 'The demonstration is back.');
      case 'remove-demo':
        return this.#removeDemo();
    }
  }

  /** One event of a log for the debrief; measures the log first where the worker does not hold it. */
  async event(question: EventQuestion): Promise<Result<EventDebrief>> {
    const log = this.state.logs.find(({ id }) => id === question.logId);
    if (!log) return failure([notThere(question.logId)]);
    const analysis = this.state.analyses.get(log.id);
    const missing = analysis ? noSuchEvent(analysis, question) : null;
    if (missing) return failure([missing]);
    const first = await this.around.client.event(question);
    if (!first.ok) return first;
    if (first.value) return success(first.value);
    const measured = await this.#measuring.measure(log);
    if (!measured.ok) return measured;
    const second = await this.around.client.event(question);
    if (!second.ok) return second;
    return second.value ? success(second.value) : failure([notThere(question.logId)]);
  }

  inputs(): KeptInputs {
    const { strips, aeroplanes, visits, otherLogs, factorSets, settings } = this.state;
    const lessons = keptLessons(this.state);
    const { factorSet } = settings;
    return { strips, aeroplanes, visits, otherLogs, lessons, factorSets, factorSet };
  }

  async bytesOf(log: LogSummary): Promise<Result<Uint8Array<ArrayBuffer>>> {
    const record = await this.around.logbook.get('log', log.id);
    if (!record.ok) return record;
    return record.value ? logBytes(record.value) : failure([notThere(log.id)]);
  }

  update(part: Partial<AppState>): void {
    this.state = { ...this.state, ...part, nowS: this.around.clock() };
    for (const listener of [...this.#listeners]) listener(this.state);
  }

  setAnalysis(logId: string, analysis: LogAnalysis): void {
    const analyses = new Map(this.state.analyses).set(logId, analysis);
    this.update({ analyses });
  }

  say(text: string, deletion: number | null = null, isCaution = false): void {
    const message = { number: ++this.#lastMessage, text, isCaution, deletion };
    this.update({ messages: withNotice(this.state.messages, message) });
  }

  report({ problems, ok }: { readonly ok: boolean; readonly problems: readonly Problem[] }): void {
    const said = problems.filter(({ severity }) => !ok || severity !== 'note');
    for (const { where, message } of said.slice(0, 3)) this.say(`${where}: ${message}`, null, true);
    const more = said.length - 3;
    if (more > 0) this.say(`and ${more} more ${more === 1 ? 'problem' : 'problems'}`, null, true);
  }

  /** Reads all records anew, then measures what is out of date. */
  async reload(): Promise<void> {
    await this.#measuring.bringUpToDate(await this.#readRecords());
  }

  async #readRecords(): Promise<readonly ResultRecord[]> {
    const { logbook } = this.around;
    const problems: Problem[] = [];
    const take = <T>(listing: Result<readonly T[]>): readonly T[] => {
      problems.push(...listing.problems);
      return listing.ok ? listing.value : [];
    };
    const logs = take(await logbook.list('log'));
    const visits = take(await logbook.list('visit'));
    const strips = take(await logbook.list('strip'));
    const aeroplanes = take(await logbook.list('aeroplane'));
    const factorSets = take(await logbook.list('factor-set'));
    const results = take(await logbook.list('result'));
    const settings = take(await logbook.list('settings')).at(0);
    const hasDemo = [...logs, ...visits, ...strips, ...aeroplanes].some(({ demo }) => demo);
    const edited: readonly Edited[] = settings ? [settings, ...visits] : visits;
    this.#read = new Map(edited.map((record) => [record.id, record]));
    // What was chosen and is still to be written is not taken back from the screen.
    const isUnwritten = ({ id }: { readonly id: string }): boolean => this.#unwritten.has(id);
    this.update({
      phase: 'ready',
      settings: isUnwritten(this.state.settings)
        ? this.state.settings
        : (settings ?? makeSettings(this.around.clock())),
      visits: this.state.visits.filter(isUnwritten).reduce(withVisit, visits),
      ...{ logs, strips, aeroplanes, factorSets, hasDemo },
    });
    this.report({ ok: problems.length === 0, problems });
    return results;
  }

  /**
   * Puts an edited record, unless another tab changed it since it was read here. Edits come one after
   * the other, and each is shown at once, so that the next is made from it even before it is written.
   */
  async #edit(record: Edited): Promise<void> {
    const { id } = record;
    const shown = shownIn(this.state, record);
    // Always newer than what it was made from, whatever the clock says.
    const changedS = Math.max(this.around.clock(), (shown?.changedS ?? 0) + 0.001);
    const edited = stampEdited({ ...record, changedS }, shown);
    this.#unwritten.set(id, (this.#unwritten.get(id) ?? 0) + 1);
    if (edited.kind === 'settings') this.update({ settings: edited });
    else this.update({ visits: withVisit(this.state.visits, edited) });
    const work = async (): Promise<readonly ResultRecord[]> => {
      const known = this.#read.get(id) ?? null;
      const next = unitedWith(edited, shown, known);
      this.report(await this.around.logbook.write([putIf(next, known)]));
      const left = (this.#unwritten.get(id) ?? 1) - 1;
      if (left > 0) this.#unwritten.set(id, left);
      else this.#unwritten.delete(id);
      return this.#readRecords();
    };
    const written = this.#turn.then(work, work);
    this.#turn = written;
    await this.#measuring.bringUpToDate(await written);
  }

  async #after(done: Result<unknown>, words?: string): Promise<void> {
    this.report(done);
    if (done.ok && words !== undefined) this.say(words);
    await this.reload();
  }

  async #remove(changes: readonly Change[], words: string): Promise<void> {
    const logIds = changes.flatMap((change) =>
      'remove' in change && change.remove.kind === 'log' ? [change.remove.id as string] : [],
    );
    const ofLogs = changesWithLogs(this.state, logIds);
    const written = await this.around.logbook.write([...changes, ...ofLogs]);
    this.report(written);
    // Gone already, as when it was asked for twice: that was said, with its way back.
    if (written.ok && written.value.deletion !== null) {
      this.say(`${words} was taken out of the logbook.`, written.value.deletion);
    }
    await this.reload();
  }

  #forgetUndo(deletion: number): void {
    const messages = this.state.messages.filter((each) => each.deletion !== deletion);
    this.update({ messages });
  }

  async #removeDemo(): Promise<void> {
    const removed = await removeDemo(this.around.logbook);
    this.report(removed);
    if (removed.ok) this.say('The demonstration was taken away.', removed.value);
    await this.reload();
  }

  async #export(): Promise<void> {
    const exported = await exportLogbook(this.around.logbook);
    this.report(exported);
    if (!exported.ok) return;
    const day = new Date(this.around.clock() * 1000).toISOString().slice(0, 10);
    this.around.saveFile(`windrow-logbook-${day}.windrow`, new Blob([exported.value]));
  }
}
