/**
 * The worker: reads, measures and draws up debriefs, so that the page never stands still.
 *
 * Keeps the last few measured logs, so that choosing another event of a flight costs nothing.
 */
import { eventDebrief } from '../report/story/event-debrief.ts';
import { problem } from '../result.ts';
import type { EventRequest, MeasureRequest, WorkAnswer, WorkRequest } from './analysis-messages.ts';
import { measureLog, type MeasuredLog } from './measure-log.ts';

/** Measured logs that are held at once; one of an hour at 1 Hz is some megabytes. */
const MOST_HELD = 6;
const held = new Map<string, MeasuredLog>();

self.onmessage = ({ data }: MessageEvent<WorkRequest>) => {
  const work = data.kind === 'measure' ? measure(data) : showEvent(data);
  work.catch((error: unknown) => {
    const words = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
    const message = `found a mistake in Windrow itself (${words}), expected none. Nothing was lost; please report it`;
    answer({
      kind: 'fault',
      number: data.number,
      problem: problem('fault', 'error', 'program', message),
    });
  });
};

async function measure({ number, log, bytes, inputs }: MeasureRequest): Promise<void> {
  answer({ kind: 'stage', number, stage: 'reading' });
  const result = await measureLog(log, bytes, inputs, () =>
    answer({ kind: 'stage', number, stage: 'measuring' }),
  );
  if (!result.ok) {
    answer({ kind: 'measured', number, result });
    return;
  }
  hold(log.id, result.value);
  const { analysis, inputsSha256 } = result.value;
  answer({ kind: 'measured', number, result: { ...result, value: { analysis, inputsSha256 } } });
}

function hold(id: string, measured: MeasuredLog): void {
  held.delete(id);
  held.set(id, measured);
  for (const oldest of held.keys()) {
    if (held.size <= MOST_HELD) break;
    held.delete(oldest);
  }
}

async function showEvent(request: EventRequest): Promise<void> {
  const { number, logId, flight, key, options } = request;
  // A fault in here must become an answer too, as in measuring.
  await Promise.resolve();
  const measured = held.get(logId);
  const chosen = measured?.debrief.flights[flight];
  const event = measured && chosen ? eventDebrief(chosen, key, measured.strips, options) : null;
  answer({ kind: 'event', number, event });
}

function answer(message: WorkAnswer): void {
  self.postMessage(message);
}
