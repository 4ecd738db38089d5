/**
 * How hard was it braked? The choices of a mark, the same wherever one is made.
 *
 * A mark counts only where it was made before the ratio of the landing was on the screen: who sees the
 * ratio may be tempted to call a long landing coasted.
 */
import type { Conditions } from '../../weather/conditions.ts';
import type { AppState } from '../app-state.ts';
import { isUndetermined } from '../../result.ts';

/** One effort; the empty one says nothing. */
export interface EffortChoice {
  readonly value: '' | NonNullable<Conditions['effort']>;
  readonly words: string;
  readonly note?: string;
}

/** Not marked first. */
export const EFFORT_CHOICES: readonly EffortChoice[] = [
  { value: '', words: 'not marked' },
  { value: 'full', words: 'full', note: 'as hard as the surface allowed' },
  { value: 'normal', words: 'normal', note: 'as on any day' },
  { value: 'coasted', words: 'coasted', note: 'let it run, it could have been shorter' },
];

/** Said where a mark may still count. */
export const MARK_COUNTS =
  'Marked before the ratio is on the screen, it may count in your own factor.';

/** True where the page has a ratio to show of any landing of a log. */
export function hasAnyRatio({ analyses }: Pick<AppState, 'analyses'>, logId: string): boolean {
  const flights = analyses.get(logId)?.flights ?? [];
  return flights.some(({ events }) =>
    events.some(
      ({ kind, roll, whole }) =>
        kind === 'approach' && !(isUndetermined(roll.ratio) && isUndetermined(whole.ratio)),
    ),
  );
}
