/**
 * Arguments of the command line.
 *
 * Wrong usage is a `UsageError`: main prints it with the way to the help and ends with code 1.
 */
import { parseArgs } from 'node:util';

/** The user asked for something the command line does not know. */
export class UsageError extends Error {}

/** Options by name; `many` may be given more than once. */
export interface OptionSpec {
  readonly [name: string]: { readonly type: 'string' | 'boolean'; readonly multiple?: boolean };
}

/** What was given. */
export interface ParsedArgs {
  readonly texts: (name: string) => readonly string[];
  readonly flag: (name: string) => boolean;
  readonly rest: readonly string[];
}

/** Parses arguments; throws a UsageError that names what was wrong. */
export function readArgs(args: readonly string[], options: OptionSpec): ParsedArgs {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { ...options, help: { type: 'boolean', short: 'h' } },
      allowPositionals: true,
      strict: true,
    });
    const given = new Map<string, unknown>(Object.entries(values));
    return {
      texts: (name) => [given.get(name)].flat().filter((value) => typeof value === 'string'),
      flag: (name) => given.get(name) === true,
      rest: positionals,
    };
  } catch (error) {
    throw new UsageError(error instanceof Error ? error.message.split('. ')[0] : String(error));
  }
}
