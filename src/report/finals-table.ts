/**
 * Gates against the pilot's own limits, preferred paths and commit points, for people.
 *
 * In: a flight. Out: a table of gates where limits were entered, each limited figure with in, out or
 * cannot tell behind it, a line a path, a line a go-around
 * at a commit point; no lines where there is nothing to tell.
 */
import type { Final } from '../debrief/finals.ts';
import type { Flight } from '../debrief/debrief.ts';
import type { CommitCheck } from '../events/commit-point.ts';
import type { Approach } from '../events/flight-event.ts';
import type { LimitedFigure } from '../events/gate-check.ts';
import type { PathFollowed } from '../events/preferred-path.ts';
import { isUndetermined } from '../result.ts';
import { airspeedWindWords } from './airspeed-wind-words.ts';
import { placeText } from './event-table.ts';
import { PATH_WORDS } from './final-words.ts';
import {
  angle,
  feetPerMinute,
  knots,
  metres,
  negated,
  percent,
  utcTime,
} from './format-quantity.ts';
import { textTable } from './text-table.ts';

const HEADING = [
  'UTC',
  'final',
  'gate',
  'airspeed (est.)',
  'ground speed',
  'descent, ft/min',
  'path',
  'right of centre',
];

/** All of it. */
export function finalsLines({ events, finals }: Flight): string[] {
  const each = events.approaches.map((approach, k) => ({ approach, final: finals[k] }));
  const rows = each.flatMap(({ approach, final }) => gateRows(approach, final));
  const winds = each.flatMap(({ final }) => (final.airspeedWind ? [final.airspeedWind] : []));
  return [
    ...textTable(HEADING, rows),
    ...(rows.length > 0
      ? ['  in, out, cannot tell: against own limits', `  ${airspeedNote(winds)}`]
      : []),
    ...each.flatMap(({ approach, final: { preferredPath } }) =>
      preferredPath ? [pathLine(approach, preferredPath)] : [],
    ),
    ...each.flatMap(({ approach, final: { commitPoint } }) =>
      commitPoint ? [commitLine(approach, commitPoint)] : [],
    ),
  ];
}

function gateRows(approach: Approach, { gates }: Final): string[][] {
  return approach.gates.flatMap((gate, k) => {
    const { estimatedAirspeedMps, limits } = gates[k];
    if (limits.length === 0) return [];
    const cell = (of: LimitedFigure, text: string): string => {
      const found = limits.find((each) => each.of === of)?.found ?? '';
      return `${text} ${found.replace('-', ' ')}`.trim();
    };
    return [
      [
        utcTime(gate.timeS),
        placeText(approach),
        `${gate.heightFt} ft`,
        cell('estimatedAirspeedMps', knots(estimatedAirspeedMps)),
        cell('groundSpeedMps', knots(gate.groundSpeedMps)),
        cell('descentRateMps', feetPerMinute(gate.descentRateMps)),
        cell('pathDeg', angle(gate.pathDeg)),
        cell('crossM', metres(gate.crossM)),
      ],
    ];
  });
}

/** The finals of one flight share what is known of the wind. */
function airspeedNote(winds: readonly NonNullable<Final['airspeedWind']>[]): string {
  const from = winds.at(0);
  if (!from) return 'no airspeed: neither the track nor the conditions tell a wind';
  const wind = airspeedWindWords(from);
  return `airspeeds are estimated by ${wind}, to about 5 kt; they say nothing about a margin over the stall`;
}

function pathLine(approach: Approach, path: PathFollowed): string {
  const what = `  preferred path of ${placeText(approach)} ${PATH_WORDS[path.found]} within ${path.withinM} m`;
  if (isUndetermined(path.greatestOffM)) return `${what}: ${path.greatestOffM.undetermined}`;
  return `${what}: at most ${metres(path.greatestOffM)} off, ${metres(path.meanOffM)} on the mean`;
}

function commitLine(approach: Approach, { beforeM, beforeProbability }: CommitCheck): string {
  const what = `  go-around at ${placeText(approach)}`;
  if (isUndetermined(beforeM))
    return `${what}, before or past the commit point: ${beforeM.undetermined}`;
  const before = beforeM.value >= 0;
  const place = before ? `${metres(beforeM)} before` : `${metres(negated(beforeM))} past`;
  // A far one needs no such word, and none is certain.
  const open = beforeProbability !== null && beforeProbability > 0.01 && beforeProbability < 0.99;
  const chance = open ? `; before it with ${percent(beforeProbability)}` : '';
  return `${what} begun ${place} the commit point${chance}`;
}
