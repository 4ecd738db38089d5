/**
 * The whole flight as one line of height against time, with its events to choose from.
 *
 * In: a flight and the pilot's units. Out: columns of time and height, stretches on the ground and
 * rolls, the events with their words, the names of the legs flown.
 *
 * Heights count from the lowest point of the log, so that a log without any datum draws alike.
 */
import type { Flight } from '../../debrief/debrief.ts';
import type { Approach, TakeOff } from '../../events/flight-event.ts';
import { isUndetermined, type Measured, type Undetermined } from '../../result.ts';
import {
  figureValue,
  hasFigure,
  heightFigure,
  type FigureText,
  type PilotUnits,
} from '../figure-text.ts';
import { clockText, UTC, zoneWords } from '../local-time.ts';
import { OUTCOME_WORDS } from '../outcome-words.ts';
import type { Picture } from './picture.ts';

/** A stretch of time, UTC seconds. */
export interface TimeSpan {
  readonly fromS: number;
  readonly toS: number;
}

/** One event to choose. */
export interface LineEvent {
  /** `approach-0`, `take-off-1`: the event's place in the flight's lists. */
  readonly key: string;
  readonly mark: 'peg' | 'peg-out' | 'dip' | 'unknown';
  readonly atS: number;
  /** End of the roll, where there was one. */
  readonly stopS: number | null;
  /** The stretch that belongs to it. */
  readonly stretch: TimeSpan;
  /** `09:53 full stop`, and shorter. */
  readonly text: string;
  readonly shortText: string;
  /** Where: read out with the text. */
  readonly place: string;
}

/** The flight line's model. */
export interface FlightLinePicture extends Picture {
  readonly timeS: Float64Array;
  /** Zone in which its clocks are read. */
  readonly timeZone: string;
  /** Above the lowest point of the log, metres; NaN in a hole of the log. */
  readonly heightM: Float64Array;
  readonly highest: FigureText | null;
  readonly events: readonly LineEvent[];
  /** On the ground and not in a roll or a run. */
  readonly taxiing: readonly TimeSpan[];
  readonly legs: readonly (TimeSpan & { readonly name: string })[];
}

/** Points drawn at most: more than the pixels of a wide screen show nothing new. */
const MOST_POINTS = 900;
/** A pause between fixes that breaks the line, seconds. */
const HOLE_S = 30;

/** The flight line of one flight. */
export function flightLinePicture(flight: Flight, units: PilotUnits): FlightLinePicture {
  const { motion, events, circuits } = flight;
  const clock = (atS: number): string => clockText(atS, units.timeZone);
  const zone = zoneWords(units.timeZone);
  const points = Math.min(MOST_POINTS, motion.length);
  const step = (motion.length - 1) / Math.max(1, points - 1);
  const timeS = new Float64Array(points);
  const heightM = new Float64Array(points);
  let lowest = Infinity;
  let highest = -Infinity;
  for (let k = 0; k < points; k++) {
    const i = Math.round(k * step);
    timeS[k] = motion.timeS[i];
    const isHole = i > 0 && motion.timeS[i] - motion.timeS[i - 1] > HOLE_S;
    heightM[k] = isHole ? NaN : motion.smoothHeightM[i];
    if (heightM[k] < lowest) lowest = heightM[k];
    if (heightM[k] > highest) highest = heightM[k];
  }
  for (let k = 0; k < points; k++) heightM[k] -= lowest;
  const rise = heightFigure(highest - lowest, units);
  const found = [
    ...events.takeOffs.flatMap((takeOff, k) => takeOffEvent(takeOff, k, flight, units)),
    ...events.approaches.flatMap((approach, k) => approachEvent(approach, k, flight, units)),
  ].sort((a, b) => a.atS - b.atS);
  return {
    timeS,
    timeZone: units.timeZone ?? UTC,
    heightM,
    highest: hasFigure(rise) ? rise : null,
    events: found,
    taxiing: taxiing(found, motion.timeS[0], motion.timeS[motion.length - 1]),
    legs: circuits.circuits.flatMap(({ legs }) =>
      legs.map(({ leg, startTimeS, endTimeS }) => ({
        name: leg.replace('-', ' '),
        fromS: startTimeS,
        toS: endTimeS,
      })),
    ),
    spoken: spokenOf(found, timeS, units.timeZone),
    rows: [
      { label: 'log', value: `${clock(timeS[0])} to ${clock(timeS[points - 1])} ${zone}` },
      ...(hasFigure(rise)
        ? [{ label: 'highest, over the lowest point of the log', value: figureValue(rise) }]
        : []),
      ...found.map(({ text, place }) => ({ label: text, value: place })),
      ...circuits.joins.map(({ kind, timeS: atS }) => ({
        label: `${clock(atS)} joined`,
        value: kind.replace('-', ' '),
      })),
    ],
  };
}

function spokenOf(events: readonly LineEvent[], timeS: Float64Array, timeZone = UTC): string {
  const clock = (atS: number): string => clockText(atS, timeZone);
  const span = `Flight from ${clock(timeS[0])} to ${clock(timeS[timeS.length - 1])} ${zoneWords(timeZone)}`;
  if (events.length === 0) return `${span}. No take-off or landing found.`;
  return `${span}: ${events.map(({ text, place }) => `${text} at ${place}`).join('; ')}.`;
}

function placeOf(flight: Flight, { strip, direction }: Approach | TakeOff): string {
  if (strip === null) return 'a place not kept yet';
  const view = flight.events.views.find(({ stripId }) => stripId === strip);
  return `${view?.strip.name ?? strip} ${direction ?? ''}`.trim();
}

function takeOffEvent(takeOff: TakeOff, k: number, flight: Flight, units: PilotUnits): LineEvent[] {
  const { motion } = flight;
  const { brakeRelease, liftOff, screen } = takeOff;
  const releaseS = timeOf(brakeRelease);
  const liftS = timeOf(liftOff);
  const atS = liftS ?? releaseS ?? motion.timeS[takeOff.from];
  const words = OUTCOME_WORDS[takeOff.kind];
  return [
    {
      key: `take-off-${k}`,
      mark: 'peg-out',
      atS,
      stopS: null,
      stretch: { fromS: releaseS ?? atS - 10, toS: timeOf(screen) ?? atS + 20 },
      text: `${clockText(atS, units.timeZone)} ${words}`,
      shortText: words,
      place: placeOf(flight, takeOff),
    },
  ];
}

/** The final that belongs to a landing, seconds before it. */
const FINAL_S = 75;

function approachEvent(
  approach: Approach,
  k: number,
  flight: Flight,
  units: PilotUnits,
): LineEvent[] {
  const { touchdown, goAround, rollEnd, outcome, thresholdCrossing } = approach;
  const touchS = timeOf(touchdown);
  const lowestS = goAround ? timeOf({ timeS: goAround.lowestTimeS }) : null;
  const atS = touchS ?? lowestS ?? timeOf(thresholdCrossing) ?? middleTime(flight, approach);
  const stopS = touchS === null ? null : timeOf(rollEnd);
  const words = isUndetermined(outcome) ? 'undetermined' : OUTCOME_WORDS[outcome];
  const lowest = goAround ? heightFigure(goAround.lowestAboveM, units) : null;
  const low = lowest && hasFigure(lowest) ? `, lowest ${figureValue(lowest)}` : '';
  const mark = touchS !== null ? 'peg' : goAround ? 'dip' : 'unknown';
  return [
    {
      key: `approach-${k}`,
      mark,
      atS,
      stopS,
      stretch: { fromS: atS - FINAL_S, toS: stopS ?? atS + 15 },
      text: `${clockText(atS, units.timeZone)} ${words}${low}`,
      shortText: words,
      place: placeOf(flight, approach),
    },
  ];
}

function middleTime({ motion }: Flight, { from, to }: Approach): number {
  return (motion.timeS[from] + motion.timeS[to - 1]) / 2;
}

function timeOf(part: { readonly timeS: Measured } | Undetermined): number | null {
  if (isUndetermined(part) || isUndetermined(part.timeS)) return null;
  return part.timeS.value;
}

/** From the log's start to the first run, from each roll's end to the next run, and to the log's end. */
function taxiing(events: readonly LineEvent[], startS: number, endS: number): TimeSpan[] {
  const spans: TimeSpan[] = [];
  let groundS: number | null = startS;
  for (const event of events) {
    if (event.mark === 'peg-out') {
      const fromS = event.stretch.fromS;
      if (groundS !== null && fromS > groundS) spans.push({ fromS: groundS, toS: fromS });
      groundS = null;
    } else groundS = event.stopS;
  }
  if (groundS !== null && events.length > 0) spans.push({ fromS: groundS, toS: endS });
  return spans;
}
