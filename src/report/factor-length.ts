/**
 * What does the length needed say, before all figures?
 *
 * In: the length, or too few. Out: sentences; figures in the pilot's units.
 */
import type { LengthNeeded, TooFewShort } from '../calibration/length-needed.ts';
import { SHORT_STRIP } from '../calibration/short-landing.ts';
import { isUndetermined, type Undetermined } from '../result.ts';
import { figureValue, lengthFigure, USUAL_UNITS, type PilotUnits } from './figure-text.ts';
import { plainSpaces, wrapText } from './wrap-text.ts';

/** The sentence: what 95 of 100 need, and that 1 in 20 needs more, against the LDA. */
export function lengthSentence({ lengthM, leftM, today }: LengthNeeded, units: PilotUnits): string {
  const shown = (metres: number): string => figureValue(lengthFigure(metres, units));
  const against =
    leftM.value < 0
      ? `${shown(-leftM.value)} more than the LDA of ${shown(today.ldaM)}`
      : `the LDA is ${shown(today.ldaM)}`;
  return `95 of 100 such landings would need up to ${shown(lengthM.value)} from the threshold, ${against}. 1 in 20 would need more.`;
}

/** What it rests on, in one sentence. */
export function lengthRestsOn({ landings, days, correlation, today }: LengthNeeded): string {
  const together =
    Math.abs(correlation) < LITTLE_TOGETHER
      ? 'a late touchdown said little about the roll'
      : correlation < 0
        ? 'late touchdowns went with shorter rolls'
        : 'late touchdowns went with longer rolls';
  const wind = today.forecastLogSd > 0 ? '; how far the wind may be off the forecast is in it' : '';
  return `It rests on ${landings} landings meant to be short on ${days} days; ${together}${wind}.`;
}

/** Correlations nearer to nothing than this are told as none (ours). */
const LITTLE_TOGETHER = 0.25;

/** Why there is none. */
export function lengthTooFew({ reason }: TooFewShort): string {
  return `too few landings meant to be short (marked as full effort, or on a strip of less than ${SHORT_STRIP} planned distances): ${reason}`;
}

/** What stands beside it wherever it stands. */
export const LENGTH_CAUTION =
  'Counted from the landing threshold to the stop, from landings that were made: those broken off are not among them. It is no permission to plan shorter: the planned distance stays.';

/** The length before a visit, as lines for the command line. */
export function lengthText(needed: LengthNeeded | TooFewShort | Undetermined): string[] {
  if (isUndetermined(needed)) return wrapText(`no length needed: ${needed.undetermined}`, '  ');
  if (needed.kind === 'too-few') return wrapText(`no length needed: ${lengthTooFew(needed)}`, '  ');
  const shown = (metres: number): string => figureValue(lengthFigure(metres, USUAL_UNITS));
  const { lengthM, leftM } = needed;
  const band = `Its band is ${shown(lengthM.low)} to ${shown(lengthM.high)}, which leaves ${shown(leftM.high)} to ${shown(leftM.low)} of the LDA.`;
  const said = [lengthSentence(needed, USUAL_UNITS), band, lengthRestsOn(needed), LENGTH_CAUTION];
  return ['', ...wrapText(plainSpaces(said.join(' ')), '  ')];
}
