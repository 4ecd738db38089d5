/**
 * Which files of an import need a look, and which can be told by their number?
 *
 * In: the files on their way. Out: those that stand open, in their order, and the others in groups.
 * What went wrong is never put away; a few files of any kind are listed as they are.
 */
import type { ImportJob } from '../app-state.ts';

/** Files told by their number. */
export interface ImportGroup {
  /** `178 files taken in`. */
  readonly words: string;
  readonly jobs: readonly ImportJob[];
}

/** See the file's head. */
export interface ImportList {
  readonly open: readonly ImportJob[];
  readonly folded: readonly ImportGroup[];
}

/** So many of a kind are still listed one by one. */
const FEW = 4;

/** Sorts the files of an import. */
export function importGroups(imports: readonly ImportJob[]): ImportList {
  const kinds: readonly [string, (job: ImportJob) => boolean][] = [
    ['taken in', (job) => isGood(job) && !isKnown(job)],
    ['in the logbook already', (job) => isGood(job) && isKnown(job)],
    ['waiting', ({ stage }) => stage === 'waiting'],
    ['cancelled', ({ stage }) => stage === 'cancelled'],
  ];
  const groups = kinds.map(([words, is]) => {
    const jobs = imports.filter(is);
    return { words: `${jobs.length} files ${words}`, jobs };
  });
  const folded = groups.filter(({ jobs }) => jobs.length > FEW);
  const hidden = new Set(folded.flatMap(({ jobs }) => jobs));
  return { open: imports.filter((job) => !hidden.has(job)), folded };
}

/** Taken in, with notes at most. */
function isGood({ stage, problems }: ImportJob): boolean {
  return stage === 'done' && problems.every(({ severity }) => severity === 'note');
}

function isKnown({ problems }: ImportJob): boolean {
  return problems.some(({ code }) => code === 'log-known');
}
