/** Entries further than this from a measured touchdown are about another landing, seconds (ours; as in the logbook). */
export const SAME_LANDING_S = 30;
