/**
 * The debrief of one file as text for people.
 *
 * In: a debrief. Out: lines: what the file is, what happened when, how much was used and expected,
 * what to know about the file.
 */
import type { ComparedEvent } from '../debrief/compare-events.ts';
import type { Debrief, Flight } from '../debrief/debrief.ts';
import type { Approach, TakeOff } from '../events/flight-event.ts';
import type { Figure } from '../performance/prediction.ts';
import { isUndetermined, type Measured, type Problem } from '../result.ts';
import type { Conditions } from '../weather/conditions.ts';
import {
  DASH,
  degrees,
  height,
  knots,
  metres,
  metresOnly,
  ratio,
  utcDate,
  utcTime,
} from './format-quantity.ts';
import { textTable } from './text-table.ts';

/** All lines of one file. */
export function debriefLines(debrief: Debrief, problems: readonly Problem[]): string[] {
  const lines = debrief.flights.flatMap(flightLines);
  if (debrief.flights.length === 0) lines.push(fileName(debrief.source.file));
  return [...lines, ...problemLines(problems)];
}

/** Problems of a file, one a line, the grave ones first. */
export function problemLines(problems: readonly Problem[]): string[] {
  const order = { error: 0, warning: 1, note: 2 };
  return problems
    .toSorted((a, b) => order[a.severity] - order[b.severity])
    .map(({ severity, where, message }) => `  ${severity}: ${where}: ${message}`);
}

function flightLines(flight: Flight): string[] {
  const { source, track, events, compared } = flight;
  const first = track.timeS[0];
  const last = track.timeS[track.length - 1];
  const interval = source.medianIntervalS;
  const title = `${fileName(source.file)}   ${utcDate(first)}, ${utcTime(first)} to ${utcTime(last)} UTC, ${source.usedFixes} fixes, one every ${Number(interval.toFixed(2))} s`;
  const rows = [
    ...events.takeOffs.map((takeOff, k) => takeOffRow(takeOff, compared.takeOffs[k])),
    ...events.approaches.map((approach, k) => approachRow(approach, compared.approaches[k])),
  ].toSorted((a, b) => (a[0] < b[0] ? -1 : 1));
  return [
    title,
    `  ${conditionsText(flight)}`,
    ...(rows.length === 0 ? ['  no take-off or landing in this recording'] : []),
    ...textTable(HEADING, rows),
    ...circuitLines(flight),
    ...noteLines(flight),
  ];
}

const HEADING = [
  'UTC',
  'what',
  'strip',
  'from',
  'to',
  'speed',
  'roll',
  'strip left',
  'lowest',
  'expected',
  'ratio',
];

function approachRow(approach: Approach, compared: ComparedEvent): string[] {
  const { touchdown, rollEnd, outcome, goAround } = approach;
  const touched = !isUndetermined(touchdown);
  const { prediction } = compared;
  const landing = isUndetermined(prediction) ? prediction : prediction.landing;
  return [
    utcTime(momentOf(approach)),
    isUndetermined(outcome) ? 'touch or pass?' : WORDS[outcome],
    placeText(approach),
    touched ? metres(touchdown.alongM) : '',
    isUndetermined(rollEnd) ? '' : `${metres(rollEnd.alongM)} ${rollEnd.kind}`,
    touched ? knots(touchdown.groundSpeedMps) : '',
    touched ? metres(approach.groundRollM) : '',
    touched ? metres(approach.stripLeftM) : '',
    goAround ? height(goAround.lowestAboveM) : '',
    ...(touched && !isUndetermined(landing)
      ? comparedCells(compared, landing.expectedRollM, landing.expectedFrom50FtM)
      : ['', '']),
  ];
}

/** Expected figure and ratio: of the ground roll, or of the whole distance where the handbook gives no roll. */
function comparedCells(compared: ComparedEvent, rollM: Figure, wholeM: Figure): string[] {
  if (typeof rollM === 'number') return [metresOnly(rollM), ratio(compared.roll.ratio)];
  return [`${metresOnly(wholeM)} over 50 ft`, ratio(compared.whole.ratio)];
}

const WORDS = {
  'full-stop': 'full stop',
  'touch-and-go': 'touch-and-go',
  'stop-and-go': 'stop-and-go',
  'go-around': 'go-around',
  'low-pass': 'low pass',
  overflight: 'overflight',
} as const;

function takeOffRow(takeOff: TakeOff, compared: ComparedEvent): string[] {
  const { brakeRelease, liftOff, kind } = takeOff;
  const { prediction } = compared;
  const run = isUndetermined(prediction) ? prediction : prediction.takeOff;
  const left = !isUndetermined(liftOff);
  const moment = left ? liftOff.timeS : isUndetermined(brakeRelease) ? null : brakeRelease.timeS;
  return [
    moment ? utcTime(moment) : DASH,
    kind === 'rejected' ? 'rejected take-off' : 'take-off',
    placeText(takeOff),
    isUndetermined(brakeRelease) ? '' : metres(brakeRelease.alongM),
    left ? metres(liftOff.alongM) : '',
    left ? knots(liftOff.groundSpeedMps) : '',
    left ? metres(takeOff.groundRollM) : '',
    left ? metres(takeOff.stripLeftM) : '',
    '',
    ...(left && !isUndetermined(run)
      ? comparedCells(compared, run.expectedRollM, run.expectedTo50FtM)
      : ['', '']),
  ];
}

/** The moment an approach is listed under: touchdown, lowest point, threshold or the roll's end. */
function momentOf(approach: Approach): Measured {
  const { touchdown, goAround, thresholdCrossing, rollEnd } = approach;
  if (!isUndetermined(touchdown)) return touchdown.timeS;
  if (goAround) return goAround.lowestTimeS;
  if (!isUndetermined(thresholdCrossing)) return thresholdCrossing.timeS;
  return isUndetermined(rollEnd) ? rollEnd : rollEnd.timeS;
}

function placeText({
  strip,
  direction,
}: {
  strip: string | null;
  direction: string | null;
}): string {
  return strip === null ? 'unknown place' : `${strip} ${direction ?? ''}`.trim();
}

/** Conditions as entered; what nobody entered is named as missing. */
function conditionsText({ conditions, aeroplane }: Flight): string {
  const name = isUndetermined(aeroplane)
    ? `no prediction: ${aeroplane.undetermined}`
    : aeroplane.name;
  if (isUndetermined(conditions)) return `${name}; ${conditions.undetermined}`;
  return [
    name,
    windText(conditions),
    conditions.surface === null ? 'surface not entered' : conditions.surface.replaceAll('-', ' '),
    conditions.tempC === null ? 'temperature not entered' : `${conditions.tempC} °C`,
    conditions.massKg === null ? 'mass not entered' : `${conditions.massKg} kg`,
  ].join(', ');
}

function windText({ wind }: Conditions): string {
  if (wind === null) return 'wind not entered';
  if (wind.speedKt === 0) return 'calm';
  const from = wind.fromDeg === null ? 'variable' : `${String(wind.fromDeg).padStart(3, '0')}°`;
  const gust = wind.gustKt === null ? '' : ` gusting ${wind.gustKt}`;
  return `wind ${from} ${wind.reference} ${wind.speedKt} kt${gust}`;
}

/** Joins, circuits and the wind that the track implies, a line each. */
function circuitLines({ circuits, wind }: Flight): string[] {
  const joins = circuits.joins.map(
    (join) => `  ${utcTime(join.timeS)}  joined ${placeText(join)}: ${join.kind}`,
  );
  const flown = circuits.circuits.map((circuit) => {
    const legs = circuit.legs.map(({ leg }) => leg).join(', ');
    const figures = [
      ['downwind', circuit.downwindSpacingM],
      ['final', circuit.finalLengthM],
    ] as const;
    const told = figures.flatMap(([name, figure]) =>
      isUndetermined(figure) ? [] : [`${name} ${metres(figure)}`],
    );
    return `  ${utcTime(circuit.startTimeS)}  ${circuit.side}-hand circuit: ${legs}; ${told.join(', ')}`;
  });
  const lines = [...joins, ...flown].sort();
  if (isUndetermined(wind)) return lines;
  const from = isUndetermined(wind.fromDeg) ? '' : `from ${degrees(wind.fromDeg)} true, `;
  return [
    ...lines,
    `  wind that the track implies, at the heights flown: ${from}${knots(wind.speedMps)}`,
  ];
}

/** Notes of the events and reasons why no figure stands, each said once; refused credits in one line. */
function noteLines({ events, compared }: Flight): string[] {
  const notes = new Set<string>();
  const credits = new Set<string>();
  for (const event of [...events.takeOffs, ...events.approaches]) {
    for (const note of event.notes) notes.add(note);
  }
  for (const { prediction } of [...compared.approaches, ...compared.takeOffs]) {
    if (isUndetermined(prediction)) {
      notes.add(`no prediction: ${prediction.undetermined}`);
      continue;
    }
    for (const { text } of prediction.notes) {
      const at = text.indexOf(NO_CREDIT);
      if (at < 0) notes.add(text);
      else credits.add(`${text.slice(0, at)}${text.slice(at + NO_CREDIT.length)}`);
    }
  }
  if (credits.size > 0) notes.add(`no credit is taken for ${[...credits].join('; ')}`);
  return [...notes].map((note) => `  note: ${note}`);
}

/** Words of the predictor's notes about what would shorten a distance and is not counted. */
const NO_CREDIT = 'no credit is taken for ';

function fileName(path: string): string {
  return path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
}
