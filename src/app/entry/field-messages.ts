/** What is said beside the fields of a form: a message for each wrong one, and all of them in short. */

/** A message by the name of its field. */
export type FieldMessages<F extends string = string> = Partial<Record<F, string>>;

/**
 * One line over the form when it could not be taken.
 *
 * @param labels the labels of the fields with a message, in the order of the form
 * @example summaryOf(['Gust', 'QNH']) // 2 fields need another look: Gust, QNH. Nothing is lost.
 */
export function summaryOf(labels: readonly string[]): string {
  if (labels.length === 0) return '';
  const count = labels.length === 1 ? 'One field needs' : `${labels.length} fields need`;
  return `${count} another look: ${labels.join(', ')}. Nothing is lost.`;
}
