/** Runs the real command line as a pilot would, in a process of its own. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The project's folder. */
export const PROJECT = fileURLToPath(new URL('../..', import.meta.url));

/** What a run gave. */
export interface Run {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs `debrief` with these arguments in a folder, the project's by default. */
export function runDebrief(args: readonly string[], folder = PROJECT): Run {
  return runCommand('debrief', args, folder);
}

/** Runs any command in the same way. */
export function runCommand(command: string, args: readonly string[], folder = PROJECT): Run {
  const launcher = `${PROJECT}/src/cli/launch.mjs`;
  const { status, stdout, stderr } = spawnSync(process.execPath, [launcher, command, ...args], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
  return { code: status, stdout, stderr };
}
