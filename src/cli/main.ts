/** The command line: chooses the command, prints wrong usage, sets the exit code. */
import { UsageError } from './args.ts';
import { CALIBRATE_HELP, runCalibrate } from './commands/calibrate.ts';
import { DEBRIEF_HELP, runDebrief } from './commands/debrief.ts';
import { PREDICT_HELP, runPredict } from './commands/predict.ts';
import { runStrips, STRIPS_HELP } from './commands/strips.ts';

const HELP = `Commands (npm run --silent COMMAND -- ...):

${DEBRIEF_HELP}

${CALIBRATE_HELP}

${PREDICT_HELP}

${STRIPS_HELP}`;

// A reader that has seen enough closes the pipe; that is no fault of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit(0);
});

const [command, ...args] = process.argv.slice(2);
try {
  process.exitCode = await run(command, args);
} catch (error) {
  if (!(error instanceof UsageError)) throw error;
  process.stderr.write(`${error.message}\nSee --help.\n`);
  process.exitCode = 1;
}

async function run(name: string | undefined, rest: readonly string[]): Promise<number> {
  if (name === 'debrief') return runDebrief(rest);
  if (name === 'strips') return runStrips(rest);
  if (name === 'predict') return runPredict(rest);
  if (name === 'calibrate') return runCalibrate(rest);
  if (name === undefined || name === '--help' || name === '-h') {
    process.stdout.write(`${HELP}\n`);
    return name === undefined ? 1 : 0;
  }
  throw new UsageError(`'${name}' is no command; expected debrief, calibrate, predict or strips`);
}
