/**
 * From the bytes of a kept log to its debrief and what the logbook remembers of it.
 *
 * In: a log's bytes and the records it rests on. Out: the debrief, its summary, the fingerprint of
 * the inputs. Used by the worker and by the build of the demonstration.
 */
import { debriefTrack, type Debrief } from '../debrief/debrief.ts';
import { contextFor, fingerprint, type KeptInputs } from '../logbook/debrief-context.ts';
import type { LogSummary } from '../logbook/entry.ts';
import { summariseFlight } from '../report/flight-summary.ts';
import { success, type Problem, type Result } from '../result.ts';
import type { StripBook } from '../strips/strip.ts';
import { decodeTrack } from '../track/decode-track.ts';
import type { Measured } from './analysis-messages.ts';

/** A debrief with the strips it was measured against. */
export interface MeasuredLog extends Measured {
  readonly debrief: Debrief;
  readonly strips: StripBook;
}

/**
 * Measures one log.
 *
 * Fails: where the bytes are no track, or the strips do not go together.
 */
export async function measureLog(
  log: LogSummary,
  bytes: Uint8Array<ArrayBuffer>,
  inputs: KeptInputs,
  onMeasuring: () => void = () => undefined,
): Promise<Result<MeasuredLog>> {
  const decoded = await decodeTrack(bytes, log.fileName);
  if (!decoded.ok) return decoded;
  onMeasuring();
  const { timeS } = decoded.value.track;
  const context = contextFor(inputs, log, timeS.length > 0 ? timeS[0] : log.addedS);
  if (!context.ok) return context;
  const debrief = debriefTrack(decoded.value, log.fileName, log.sha256, context.value);
  const problems: Problem[] = [...decoded.problems, ...context.problems, ...debrief.problems];
  const flights = debrief.flights.map(summariseFlight);
  return success({
    debrief,
    strips: context.value.strips,
    analysis: { flights, problems },
    inputsSha256: await fingerprint(context.value),
  });
}
