/**
 * The logbook's landings: one bar a landing, every strip at one metre scale.
 *
 * In: summaries of flights, the pilot's units. Out: rows, newest first.
 */
import { isUndetermined, type Measured } from '../../result.ts';
import {
  figureValue,
  hasFigure,
  heightFigure,
  lengthFigure,
  ratioFigure,
  type PilotUnits,
} from '../figure-text.ts';
import type { EventSummary } from '../flight-summary.ts';
import type { EventAddress, LoggedFlight } from '../logged-flight.ts';
import { middlePass, type Passes } from './passes.ts';
import { clockText, dayText, yearOf } from '../local-time.ts';
import { OUTCOME_WORDS } from '../outcome-words.ts';
import type { Picture } from './picture.ts';

/** One landing or pass. */
export interface BarRow extends EventAddress {
  readonly timeS: number;
  readonly day: string;
  readonly year: number;
  readonly clock: string;
  /** Null at a place nobody has kept as a strip; then there is no LDA and no bar either. */
  readonly stripId: string | null;
  readonly stripName: string;
  readonly designator: string | null;
  readonly ldaM: number | null;
  readonly passes: Passes | null;
  /** Where the wheels touched, and the latest touchdown point planned for that landing, alongM; null where not known. */
  readonly touchdownM: number | null;
  readonly latestTouchdownM: number | null;
  /** Name of the aeroplane; null where nobody said which. */
  readonly aeroplane: string | null;
  /** Lowest point of a pass, alongM, and in words: `lowest 430 m before the threshold`. */
  readonly lowestM: number | null;
  readonly lowestAt: string | null;
  readonly isTouchAndGo: boolean;
  /** Where a touch-and-go opened power, alongM. */
  readonly powerM: number | null;
  /** Of a landing, to sort by; null where not known. */
  readonly rollM: number | null;
  readonly leftM: number | null;
  readonly ratioValue: number | null;
  /** Figures, or words where there are none. */
  readonly roll: string | null;
  readonly left: string | null;
  readonly ratio: string | null;
  readonly ratioOf: 'roll' | 'whole';
  readonly words: string | null;
  /** The words are a reason why the data cannot tell. */
  readonly isUndetermined: boolean;
  /** The row in a sentence, read out in place of its bar. */
  readonly spoken: string;
}

/** The list's model. */
export interface LandingBarsPicture extends Picture {
  readonly bars: readonly BarRow[];
  /** Longest LDA in the list: the scale of all. */
  readonly longestM: number;
}

/** All approaches, newest first; a pass high over the strip is none. */
export function landingBarsPicture(
  flights: readonly LoggedFlight[],
  units: PilotUnits,
): LandingBarsPicture {
  const bars = flights
    .flatMap(({ id, flightIndex, summary: { events, aeroplane } }) => {
      const name = isUndetermined(aeroplane) ? null : aeroplane.name;
      return events
        .filter(({ kind, outcome }) => kind === 'approach' && outcome !== 'overflight')
        .map((event) => barRow({ logId: id, flightIndex, key: event.key }, event, name, units));
    })
    .sort((a, b) => b.timeS - a.timeS);
  return {
    bars,
    longestM: bars.reduce((longest, { ldaM }) => Math.max(longest, ldaM ?? 0), 0),
    spoken: `${bars.length} landings and passes, newest first, all strips at one scale.`,
    rows: bars.map((bar) => ({ label: dayAndPlace(bar), value: barText(bar) })),
  };
}

type Unspoken = Omit<BarRow, 'spoken'>;

function barText({ roll, left, ratio, ratioOf, words, lowestAt }: Unspoken): string {
  const figures = [
    ...(roll === null ? [] : [`roll ${roll}`]),
    ...(left === null ? [] : [`left ${left}`]),
    ...(ratio === null
      ? []
      : [`ratio ${ratioOf === 'whole' ? 'of whole distances ' : ''}${ratio}`]),
    ...(words === null ? [] : [words]),
    ...(lowestAt === null ? [] : [lowestAt]),
  ];
  return figures.join(', ');
}

function barRow(
  address: EventAddress,
  event: EventSummary,
  aeroplane: string | null,
  units: PilotUnits,
): BarRow {
  const { timeS, stripId, stripName, designator, lengthM, outcome, lowest, passes } = event;
  const isLanding = outcome === 'full-stop' || outcome === 'stop-and-go';
  // Handbooks without rolls: the ratio is that of the whole distance, and says so.
  const isWhole = isUndetermined(event.roll.ratio);
  const ratio = isWhole ? event.whole.ratio : event.roll.ratio;
  const roll = lengthFigure(event.rollM, units);
  const left = lengthFigure(event.leftM, units);
  const ratioText = ratioFigure(ratio);
  const bar = {
    ...address,
    timeS,
    day: dayText(timeS, units.timeZone),
    year: yearOf(timeS, units.timeZone),
    clock: clockText(timeS, units.timeZone),
    stripId,
    stripName,
    designator,
    ldaM: lengthM,
    passes,
    touchdownM: valueOf(event.placeM),
    latestTouchdownM: event.latestTouchdownM,
    aeroplane,
    lowestM: lowest ? valueOf(lowest.alongM) : null,
    lowestAt: lowest ? lowestWords(lowest.alongM, units) : null,
    isTouchAndGo: outcome === 'touch-and-go',
    powerM: outcome === 'touch-and-go' && passes ? middlePass(passes.toM) : null,
    rollM: isLanding ? valueOf(event.rollM) : null,
    leftM: isLanding ? valueOf(event.leftM) : null,
    ratioValue: isLanding ? valueOf(ratio) : null,
    roll: isLanding && hasFigure(roll) ? figureValue(roll) : null,
    left: isLanding && hasFigure(left) ? figureValue(left) : null,
    ratio: isLanding && hasFigure(ratioText) ? figureValue(ratioText) : null,
    ratioOf: isWhole ? ('whole' as const) : ('roll' as const),
    ...wordsOf(event, isLanding && hasFigure(roll), units),
  };
  return { ...bar, spoken: `${dayAndPlace(bar)}: ${barText(bar)}.` };
}

/** Where a pass was lowest: its mark on the bar says no figure, and may lie off it. */
function lowestWords(alongM: Measured, units: PilotUnits): string | null {
  if (isUndetermined(alongM)) return null;
  const distance = figureValue(lengthFigure(Math.abs(alongM.value), units));
  return `lowest ${distance} ${alongM.value < 0 ? 'before' : 'past'} the threshold`;
}

function valueOf(measured: Measured): number | null {
  return isUndetermined(measured) ? null : measured.value;
}

function wordsOf(
  { outcome, lowest, rollM }: EventSummary,
  hasRoll: boolean,
  units: PilotUnits,
): Pick<BarRow, 'words' | 'isUndetermined'> {
  if (isUndetermined(outcome)) return { words: outcome.undetermined, isUndetermined: true };
  if (hasRoll) return { words: null, isUndetermined: false };
  if (outcome === 'full-stop' || outcome === 'stop-and-go') {
    const words = isUndetermined(rollM) ? rollM.undetermined : '';
    return { words, isUndetermined: true };
  }
  const height = lowest ? heightFigure(lowest.aboveM, units) : null;
  const low = height && hasFigure(height) ? `, ${figureValue(height)}` : '';
  return { words: OUTCOME_WORDS[outcome] + low, isUndetermined: false };
}

function dayAndPlace({ day, year, clock, stripName, designator }: Unspoken): string {
  const place = designator === null ? stripName : `${stripName} ${designator}`;
  return `${day} ${year} ${clock} ${place}`;
}
