/**
 * Which version of the measuring made a result?
 *
 * A kept result stands beside this number; where it differs, the result is measured anew from the
 * file's bytes. It rises by one with every change that moves a measured or predicted number (a
 * "Results change" in the changelog), and never falls.
 */

/** Version of everything between a file's bytes and its debrief. */
export const ALGORITHM_VERSION = 12;
