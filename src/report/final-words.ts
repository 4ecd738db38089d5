/** Words of a final that tables and the page share. */
import type { PathFollowed } from '../events/preferred-path.ts';

/** Whether a preferred path was kept to. */
export const PATH_WORDS: Readonly<Record<PathFollowed['found'], string>> = {
  followed: 'kept to',
  left: 'not kept to',
  'cannot-tell': 'perhaps kept to',
};
