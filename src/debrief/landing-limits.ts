/** What an entry about a landing may be off by, and may say. */

/**
 * An entry further than this from a measured touchdown is about another landing, seconds: so far may a later
 * version of the measuring move one. Two landings of one flight are minutes apart; ours, no source.
 */
export const SAME_LANDING_S = 30;

/** A place further from the threshold is none of a landing, metres; ours, no source. */
export const FARTHEST_M = 5000;
