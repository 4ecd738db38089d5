/**
 * The three ways a value can be missing or doubtful, shared by every floor.
 *
 * - Bad input: a `Result` whose problems say what was found, where, and what was expected.
 * - The data cannot tell: an `Undetermined` with its reason, in the place of an `Estimate`.
 * - A programmer's mistake: an exception, never one of these.
 */

/** How much a problem matters: a note informs, a warning costs accuracy, an error costs the file. */
export type Severity = 'note' | 'warning' | 'error';

/** One thing found in the input: `where` names the line, index or field; `message` says what was found and expected. */
export interface Problem {
  readonly code: string;
  readonly severity: Severity;
  readonly where: string;
  readonly message: string;
}

/** The outcome of reading input: a value, or none; problems accompany both. */
export type Result<T> =
  | { readonly ok: true; readonly value: T; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** A measured quantity with its 90 % interval, all three in the unit that the field's name states. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A quantity that the data cannot give, and why. */
export interface Undetermined {
  readonly undetermined: string;
}

/** A quantity with its band, or the reason why there is none. */
export type Measured = Estimate | Undetermined;

/** A success with the problems met on the way. */
export function success<T>(value: T, problems: readonly Problem[] = []): Result<T> {
  return { ok: true, value, problems };
}

/** A failure; at least one problem says why. */
export function failure<T>(problems: readonly Problem[]): Result<T> {
  if (problems.length === 0) throw new Error('a failure needs at least one problem');
  return { ok: false, problems };
}

/** Makes a problem; arguments in the order of its fields. */
export function problem(code: string, severity: Severity, where: string, message: string): Problem {
  return { code, severity, where, message };
}

/** The data cannot tell, and why: one short clause that a pilot understands. */
export function undetermined(reason: string): Undetermined {
  return { undetermined: reason };
}

/** True where a quantity (or any value that may be undetermined) has no value. */
export function isUndetermined(value: unknown): value is Undetermined {
  return typeof value === 'object' && value !== null && 'undetermined' in value;
}

/** True of what was put by hand: a value without a band. */
export function isExact(quantity: Measured): boolean {
  return !isUndetermined(quantity) && quantity.low === quantity.high;
}

/** A band about a value from a standard deviation: value +/- 1.6449 sd, the central 90 % of a normal. */
export function normalEstimate(value: number, sd: number): Estimate {
  return { value, low: value - Z90 * sd, high: value + Z90 * sd };
}

/** A quantity that cannot be less than a limit: value and band are cut there. */
export function cutBelow({ value, low, high }: Estimate, least: number): Estimate {
  return {
    value: Math.max(value, least),
    low: Math.max(low, least),
    high: Math.max(high, least),
  };
}

/** Half-width in standard deviations of the central 90 % of a normal distribution (standard tables). */
export const Z90 = 1.6448536269514722;
