/**
 * The debrief of one file as text for people.
 *
 * In: a debrief. Out: lines: what the file is, what happened when, how much was used and expected,
 * what to know about the file.
 */
import type { Debrief, Flight } from '../debrief/debrief.ts';
import { intervalWords, isCoarse } from '../events/coarse-log.ts';
import { isUndetermined, type Problem } from '../result.ts';
import { circuitLines } from './circuit-table.ts';
import { enteredTexts } from './conditions-text.ts';
import { eventTables } from './event-table.ts';
import { finalsLines } from './finals-table.ts';
import { utcDate, utcTime } from './format-quantity.ts';
import { noteLines } from './note-lines.ts';
import { plannedTable } from './planned-table.ts';
import { surroundingsLines } from './surroundings-table.ts';
import { wrapText } from './wrap-text.ts';

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
    .flatMap(({ severity, where, message }) => wrapText(`${severity}: ${where}: ${message}`, '  '));
}

function flightLines(flight: Flight): string[] {
  const { source, track } = flight;
  const first = track.timeS[0];
  const last = track.timeS[track.length - 1];
  const interval = source.medianIntervalS;
  const title = `${fileName(source.file)}   ${utcDate(first)}, ${utcTime(first)} to ${utcTime(last)} UTC, ${source.usedFixes} fixes, one every ${Number(interval.toFixed(2))} s`;
  const tables = eventTables(flight);
  const flown = circuitLines(flight);
  const finals = finalsLines(flight);
  const passed = surroundingsLines(flight);
  const notes = noteLines(flight);
  return [
    title,
    ...wrapText(conditionsText(flight), '  '),
    ...(tables.length === 0 ? [`  ${nothingFound(interval)}`] : ['', ...tables]),
    ...plannedTable(flight),
    ...(flown.length > 0 ? ['', ...flown] : []),
    ...(finals.length > 0 ? ['', ...finals] : []),
    ...(passed.length > 0 ? ['', ...passed] : []),
    ...(notes.length > 0 ? ['', ...notes] : []),
  ];
}

/** What was not found may have happened all the same. */
function nothingFound(intervalS: number): string {
  const found = 'no take-off or landing was found in this recording';
  if (!isCoarse(intervalS)) return found;
  return `${found}; one fix every ${intervalWords(intervalS)} may not show them`;
}

/** Conditions as entered; what nobody entered is named as missing. */
function conditionsText({ conditions, aeroplane }: Flight): string {
  const missing = [aeroplane, conditions].flatMap((each) =>
    isUndetermined(each) ? [each.undetermined] : [],
  );
  return [
    ...(isUndetermined(aeroplane) ? [] : [aeroplane.name]),
    ...(isUndetermined(conditions) ? [] : enteredTexts(conditions)),
    ...(missing.length > 0 ? [`no prediction: ${missing.join('; ')}`] : []),
  ].join(', ');
}

function fileName(path: string): string {
  return path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
}
