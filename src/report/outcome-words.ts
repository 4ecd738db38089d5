/** How an approach or a take-off ended, in the trade's words: hyphens where the trade has them, none elsewhere. */
import type { EventSummary } from './flight-summary.ts';

type Told = Extract<EventSummary['outcome'], string>;

/** The words of each outcome; the values of documents stay as they are. */
export const OUTCOME_WORDS: Readonly<Record<Told, string>> = {
  'full-stop': 'full stop',
  'touch-and-go': 'touch-and-go',
  'stop-and-go': 'stop-and-go',
  'go-around': 'go-around',
  'low-pass': 'low pass',
  overflight: 'overflight',
  'take-off': 'take-off',
  rejected: 'rejected take-off',
};
