/**
 * Reads and debriefs the given files one after the other; none stops the others.
 *
 * In: names of files and how to debrief one. Out: what was read, and what could not be with reasons.
 */
import { readFile } from 'node:fs/promises';
import type { Debrief } from '../debrief/debrief.ts';
import type { ReadFile, UnreadFile } from '../report/debrief-json.ts';
import { problem, type Result } from '../result.ts';

/** Debriefs the bytes of one file. */
export type DebriefBytes = (
  bytes: Uint8Array<ArrayBuffer>,
  file: string,
) => Promise<Result<Debrief>>;

/** The files that were read and those that were not, each in the order given. Never fails. */
export async function debriefFiles(
  files: readonly string[],
  debrief: DebriefBytes,
): Promise<{ read: ReadFile[]; unread: UnreadFile[] }> {
  const read: ReadFile[] = [];
  const unread: UnreadFile[] = [];
  for (const file of files) {
    const result = await debriefOne(file, debrief);
    if ('debrief' in result) read.push(result);
    else unread.push(result);
  }
  return { read, unread };
}

async function debriefOne(file: string, debrief: DebriefBytes): Promise<ReadFile | UnreadFile> {
  let bytes: Uint8Array<ArrayBuffer>;
  try {
    bytes = new Uint8Array(await readFile(file));
  } catch (error) {
    return { file, problems: [problem('not-readable', 'error', 'file', whyUnread(error))] };
  }
  return debriefGuarded(bytes, file, debrief);
}

/** Debriefs the bytes of one file; a fault of the program is told as such, like a file that is no track. */
export async function debriefGuarded(
  bytes: Uint8Array<ArrayBuffer>,
  file: string,
  debrief: DebriefBytes,
): Promise<ReadFile | UnreadFile> {
  try {
    const result = await debrief(bytes, file);
    return result.ok
      ? { debrief: result.value, problems: result.problems }
      : { file, problems: result.problems };
  } catch (error) {
    // A fault of ours in one log must not cost a pilot the other hundred.
    const words = error instanceof Error ? error.message : String(error);
    const message = `the program failed on this file (${words}); that is a fault of the program, not of the file: please report it`;
    return { file, problems: [problem('program-fault', 'error', 'file', message)] };
  }
}

/** Why a file could not be read, in plain words. */
export function whyUnread(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : '';
  if (code === 'ENOENT') return 'no such file; expected the path of a readable file';
  if (code === 'EISDIR') return 'this is a folder; expected a file, or all its files as FOLDER/*';
  if (code === 'EACCES') return 'the file may not be read; expected read permission';
  return error instanceof Error ? error.message : String(error);
}
