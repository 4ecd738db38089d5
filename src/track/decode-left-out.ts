/**
 * Which lines of the file were not used, and why?
 *
 * Collects them as runs: neighbouring fixes left out for the same reason are one entry with the
 * line of the first, so that a track of ten thousand fixes without time is one entry and ten bad
 * lines in ten places are ten. Inputs: one call per fix or record. Output: LeftOut entries.
 */

import type { LeftOut } from './track.ts';

/** Entries of one reason before all further ones are joined into a last entry. */
const ENTRIES_PER_REASON = 20;
/** Different reasons before all further ones are joined: hostile lines must not grow the list. */
const REASONS = 50;

interface Run {
  line: number;
  count: number;
  readonly reason: string;
}

/** The growing list of what was left out of one file. */
export class LeftOutList {
  private readonly runs: Run[] = [];
  private readonly entries = new Map<string, number>();
  private readonly overflow = new Map<string, Run>();
  private last: Run | null = null;
  private lastKept = -1;

  /**
   * Adds one fix or record. `line` counts from 1; `keptSoFar` is how many fixes were kept before it,
   * by which a run of neighbours is known. Fails: never.
   */
  add(line: number, reason: string, keptSoFar: number): void {
    if (this.last !== null && this.last.reason === reason && this.lastKept === keptSoFar) {
      this.last.count += 1;
      return;
    }
    this.lastKept = keptSoFar;
    this.last = this.runFor(line, reason);
    this.last.count += 1;
  }

  /** All entries in the order of their lines. */
  list(): LeftOut[] {
    return [...this.runs, ...this.overflow.values()]
      .map((run) => ({ line: run.line, count: run.count, reason: run.reason }))
      .sort((a, b) => a.line - b.line);
  }

  private runFor(line: number, reason: string): Run {
    const used = this.entries.get(reason);
    if (used === undefined && this.entries.size >= REASONS) {
      return this.overflowRun(line, 'further lines left out for other reasons');
    }
    if (used !== undefined && used >= ENTRIES_PER_REASON) {
      return this.overflowRun(line, `${reason} (further ones together)`);
    }
    this.entries.set(reason, (used ?? 0) + 1);
    const run = { line, count: 0, reason };
    this.runs.push(run);
    return run;
  }

  private overflowRun(line: number, reason: string): Run {
    let run = this.overflow.get(reason);
    if (run === undefined) {
      run = { line, count: 0, reason };
      this.overflow.set(reason, run);
    }
    return run;
  }
}
