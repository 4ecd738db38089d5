/** Which notices stay when another one is said? */
import type { PageMessage } from './app-state.ts';

/** Cautions that stay; what can be undone stays whatever comes after it. */
const CAUTIONS_KEPT = 3;

/** The notices with one more, which is the newest; of what was only done nothing stays. */
export function withNotice(
  before: readonly PageMessage[],
  message: PageMessage,
): readonly PageMessage[] {
  const cautions = before.filter((each) => each.isCaution && each.deletion === null);
  const last = cautions.slice(-CAUTIONS_KEPT);
  const stays = before.filter((each) => each.deletion !== null || last.includes(each));
  return [...stays, message];
}
