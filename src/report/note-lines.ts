/**
 * What to know about the figures of one flight, each thing said once.
 *
 * In: a flight, or one event of it. Out: lines: landings short of the threshold, passes that may have touched, slow
 * take-offs at half way, notes of the events and of the prediction; refused credits in one line. For a
 * terminal also what was put or said by hand, which the page shows where they lie.
 */
import type { Flight } from '../debrief/debrief.ts';
import type { Phase } from '../performance/aeroplane.ts';
import { isExact, isUndetermined } from '../result.ts';
import { approachMoment, takeOffMoment } from './event-table.ts';
import { percent, utcTime } from './format-quantity.ts';
import { handNotes, liftOffNotes } from './hand-notes.ts';
import { notesOf, predictionNoteLines } from './prediction-notes.ts';
import { wrapText } from './wrap-text.ts';

/** Below this share of the lift-off speed at half the TORA: FAA guidance on half-way signs, from memory. */
const HALFWAY_SHARE = 0.7;

/** A pass that touched with a probability between these is worth a word. */
const DOUBTFUL = { from: 0.1, to: 0.95 };

/** All notes of one flight, wrapped for a terminal. */
export function noteLines(flight: Flight): string[] {
  return [...putByHand(flight), ...eventNotes(flight)].flatMap((note) =>
    wrapText(`note: ${note}`, '  '),
  );
}

/** One take-off, or one approach, of a flight. */
export interface EventPlace {
  readonly use: Phase;
  readonly index: number;
}

/** All notes of one flight, one a line; of predictions only that of one event, where it is given. */
export function eventNotes(flight: Flight, only?: EventPlace): string[] {
  const notes = new Set([
    ...shortLandings(flight),
    ...doubtfulPasses(flight),
    ...slowHalfways(flight),
    ...launches(flight),
    ...[...flight.events.takeOffs, ...flight.events.approaches].flatMap(({ notes }) => notes),
    ...predictionNotes(flight, only),
  ]);
  return [...notes].map(trueMinus);
}

/** The notes come from floors that write numbers for machines. */
function trueMinus(text: string): string {
  return text.replace(/(?<=^|[\s(])-(?=\d)/g, '−');
}

function putByHand({ events, byHand, liftOffsByHand }: Flight): string[] {
  return [
    ...events.takeOffs.flatMap((takeOff, k) =>
      liftOffNotes(liftOffsByHand[k]).map((note) => `${utcTime(takeOffMoment(takeOff))} ${note}`),
    ),
    ...events.approaches.flatMap((approach, k) =>
      handNotes(byHand[k], approach).map((note) => `${utcTime(approachMoment(approach))} ${note}`),
    ),
  ];
}

function shortLandings({ events }: Flight): string[] {
  return events.approaches.flatMap((approach) => {
    const { touchdown } = approach;
    if (isUndetermined(touchdown) || touchdown.shortProbability < 0.5) return [];
    const time = utcTime(approachMoment(approach));
    const chance = isExact(touchdown.alongM)
      ? ''
      : ` (probability ${percent(touchdown.shortProbability)})`;
    return [`${time} touchdown short of the threshold${chance}`];
  });
}

function launches({ events }: Flight): string[] {
  return events.takeOffs.flatMap((takeOff) => {
    if (takeOff.launch === null) return [];
    const how = takeOff.launch === 'winch' ? 'launched by a winch' : 'towed: no engine was heard';
    return [`${utcTime(takeOffMoment(takeOff))} ${how}; compared with nothing`];
  });
}

function doubtfulPasses({ events }: Flight): string[] {
  return events.approaches.flatMap((approach) => {
    const { contactProbability, outcome } = approach;
    const isPass = isUndetermined(outcome) || outcome === 'go-around' || outcome === 'low-pass';
    const isDoubtful = contactProbability > DOUBTFUL.from && contactProbability < DOUBTFUL.to;
    if (!isPass || !isDoubtful) return [];
    const time = utcTime(approachMoment(approach));
    return [`${time} the wheels may have touched (probability ${percent(contactProbability)})`];
  });
}

function slowHalfways({ events }: Flight): string[] {
  return events.takeOffs.flatMap((takeOff) => {
    const { halfway } = takeOff;
    if (isUndetermined(halfway) || isUndetermined(halfway.shareOfLiftOff)) return [];
    const { value } = halfway.shareOfLiftOff;
    if (value >= HALFWAY_SHARE) return [];
    const time = utcTime(takeOffMoment(takeOff));
    return [
      `${time} at half the TORA the ground speed was ${percent(value)} of that at lift-off; below ${percent(HALFWAY_SHARE)} is, by the rule of thumb, a reason to stop`,
    ];
  });
}

/** Reasons why there is no prediction that the head does not give, and what the predictor assumed. */
function predictionNotes(flight: Flight, only?: EventPlace): string[] {
  const { compared, events, aeroplane, conditions } = flight;
  const isSaid = [aeroplane, conditions].some(isUndetermined);
  const predicted = [
    ...compared.takeOffs.map(({ prediction }, index) => {
      return { use: 'take-off' as const, index, prediction, strip: events.takeOffs[index].strip };
    }),
    ...compared.approaches.map(({ prediction }, index) => {
      return { use: 'landing' as const, index, prediction, strip: events.approaches[index].strip };
    }),
  ].filter(({ use, index }) => !only || (use === only.use && index === only.index));
  const none = predicted.flatMap(({ prediction, strip }) =>
    isUndetermined(prediction) && strip !== null && !isSaid
      ? [`no prediction: ${prediction.undetermined}`]
      : [],
  );
  const notes = predicted.flatMap(({ prediction, use }) =>
    isUndetermined(prediction) ? [] : notesOf(prediction, use),
  );
  return [...none, ...predictionNoteLines(notes)];
}
