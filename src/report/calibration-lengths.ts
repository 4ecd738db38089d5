/**
 * Length needed, why rolls differed, how closely touchdowns lie and how current the pilot is, as text.
 *
 * In: parts of the report of `calibrate`. Out: lines ending in an empty one; none where there is nothing
 * to say.
 */
import type { Currency, StripDays } from '../calibration/currency.ts';
import type { DirectionTouchdowns } from '../debrief/flown-days.ts';
import type { ShortLength } from '../debrief/short-lengths.ts';
import type { AeroplaneSplit } from '../debrief/why-roll.ts';
import { metres, metresOnly } from './format-quantity.ts';
import { lengthRestsOn, lengthTooFew } from './factor-length.ts';
import { textTable } from './text-table.ts';
import { wrapText } from './wrap-text.ts';

/** The length that 95 of 100 short landings need, in every direction. */
export function lengthLines(lengths: readonly ShortLength[]): string[] {
  if (lengths.length === 0) return [];
  const found = lengths.flatMap(({ needed, ...last }) =>
    needed.kind === 'length-needed' ? [{ ...last, needed }] : [],
  );
  const aeroplanes = [...new Set(lengths.map(({ aeroplane }) => aeroplane))];
  const notes = aeroplanes.flatMap((aeroplane) => {
    const { needed } = lengths.find((each) => each.aeroplane === aeroplane) ?? lengths[0];
    const said = needed.kind === 'too-few' ? lengthTooFew(needed) : lengthRestsOn(needed);
    return wrapText(`${aeroplane}: ${said}`, '  ');
  });
  const heading = [
    ...['aeroplane', 'strip', 'as on', '95 of 100 need', 'half need', 'LDA', 'left'],
    'planned from 50 ft',
  ];
  const rows = found.map(({ aeroplane, strip, direction, day, plannedFrom50FtM, needed }) => [
    aeroplane,
    `${strip} ${direction}`,
    day,
    metres(needed.lengthM),
    metresOnly(needed.middleM),
    metresOnly(needed.today.ldaM),
    metres(needed.leftM),
    metresOnly(plannedFrom50FtM),
  ]);
  const caution =
    found.length === 0
      ? []
      : wrapText(
          'Counted from the landing threshold to the stop, in the wind and on the surface of the last landing there. 1 in 20 would need more. Landings broken off are not among them. No permission to plan shorter: the planned distance stays.',
          '  ',
        );
  return [
    'Length that 95 of 100 landings meant to be short would need',
    ...textTable(heading, rows),
    ...caution,
    ...notes,
    '',
  ];
}

/** Why the rolls of each aeroplane differed. */
export function splitLines(splits: readonly AeroplaneSplit[]): string[] {
  if (splits.length === 0) return [];
  const heading = ['aeroplane', 'rolls', 'measured / expected', 'touchdown speed', 'slowing down'];
  const rows = splits.map(({ name, brakes, split }) => [
    name,
    String(split.landings),
    split.ratio.toFixed(2),
    `x ${split.touchdownSpeed.toFixed(2)}`,
    brakes ? `x ${split.braking.toFixed(2)}` : 'no brakes: cannot be told',
  ]);
  return [
    'Why rolls differed, in the middle of those that count',
    ...textTable(heading, rows),
    ...wrapText(
      'The two shares multiply to the ratio. Wind, slope and surface are in the expected roll as entered.',
      '  ',
    ),
    '',
  ];
}

/** How closely touchdowns lie in each direction. */
export function dispersionLines(all: readonly DirectionTouchdowns[]): string[] {
  const found = all.flatMap(({ strip, direction, dispersion }) =>
    dispersion ? [{ strip, direction, dispersion }] : [],
  );
  if (found.length === 0) return [];
  const heading = [
    ...['strip', 'touchdowns', 'middle', 'spread along', 'right of centre', 'spread across'],
    'of which the log may be',
  ];
  const rows = found.map(({ strip, direction, dispersion: { touchdowns, along, cross } }) => [
    `${strip} ${direction}`,
    String(touchdowns),
    metres(along.middle),
    metresOnly(along.sd),
    metres(cross.middle),
    metresOnly(cross.sd),
    `${byLog(along)} along, ${byLog(cross)} across`,
  ]);
  return [
    'How closely touchdowns lie (spreads are standard deviations)',
    ...textTable(heading, rows),
    '',
  ];
}

/** What the log's own error may be of a spread: all of it where the log is no better than that. */
function byLog({ sd, measuringSd }: { readonly sd: number; readonly measuringSd: number }): string {
  return measuringSd >= sd ? 'all' : metresOnly(measuringSd);
}

/** How current, and how often each strip was used. */
export function currencyLines({
  today,
  timeZone,
  currency,
  stripDays,
}: {
  readonly today: string;
  readonly timeZone: string;
  readonly currency: Currency;
  readonly stripDays: readonly StripDays[];
}): string[] {
  const { lastStripLanding, landingsIn90Days } = currency;
  const last =
    lastStripLanding === null
      ? 'no landing at a kept strip yet'
      : `last landing at a kept strip ${lastStripLanding.day}, ${lastStripLanding.daysAgo} days ago`;
  const used = stripDays.map(({ stripId, days }) => `${stripId} ${days}`).join(', ');
  return [
    `In these logs, on ${today} (days in ${timeZone}): ${last}; ${landingsIn90Days} landings in the last 90 days`,
    ...(used === '' ? [] : wrapText(`days used in ${today.slice(0, 4)}: ${used}`, '  ')),
    '',
  ];
}
