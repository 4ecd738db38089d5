/**
 * The pilot's own factors by aeroplane and surface, and their course, as text for people.
 *
 * In: pooled factors and courses. Out: lines; none where nothing was compared.
 */
import type { PooledFactor } from '../calibration/pooled-factor.ts';
import type { RatioCourse } from '../debrief/grouped-factors.ts';
import { QUANTITY_WORDS } from './factor-words.ts';
import { ratio } from './format-quantity.ts';
import { textTable } from './text-table.ts';
import { wrapText } from './wrap-text.ts';

/** Lines about every group, ending in an empty one. */
export function pooledLines(factors: readonly PooledFactor[]): string[] {
  if (factors.length === 0) return [];
  const heading = [
    'aeroplane',
    'surface',
    'distance',
    'count',
    'days',
    'pooled',
    'alone',
    'middle',
  ];
  const rows = factors.map(
    ({ aeroplane, surface, quantity, counts, factor, alone, typicalRatio, isFloor }) => [
      aeroplane,
      surface,
      QUANTITY_WORDS[quantity],
      String(counts.counted),
      String(counts.days),
      factor === null ? 'too few' : `${factor.toFixed(2)}${isFloor ? ' *' : ''}`,
      alone === null ? 'too few' : alone.toFixed(2),
      typicalRatio === null ? '' : ratio(typicalRatio),
    ],
  );
  return [
    'By aeroplane and surface: 19 of 20 next ones on a new day stay below the pooled ratio',
    ...textTable(heading, rows),
    ...wrapText(
      'Pooled: leans on the other aeroplanes and surfaces as far as the landings show them alike. Alone: from this group only. Over many groups a pooled ratio holds 19 times in 20, for a group of rare ratios less often. It plans nothing.',
      '  ',
    ),
    ...(factors.some(({ isFloor }) => isFloor)
      ? wrapText(
          '* the published factor (1 for a roll): on wet or soft ground leaning on other landings takes nothing off it.',
          '  ',
        )
      : []),
    '',
  ];
}

/** Lines about every course, ending in an empty one. */
export function courseLines(courses: readonly RatioCourse[]): string[] {
  if (courses.length === 0) return [];
  const heading = [
    'aeroplane',
    'distance',
    'count',
    'middle',
    'limits',
    'beyond',
    'course',
    'drift',
  ];
  const rows = courses.map(
    ({ aeroplane, quantity, ratios, middle, lower, upper, course, drift }) => [
      aeroplane,
      QUANTITY_WORDS[quantity],
      String(ratios.length),
      middle.toFixed(2),
      `${lower.toFixed(2)} to ${upper.toFixed(2)}`,
      String(ratios.filter((each) => each.ratio > upper || each.ratio < lower).length),
      `${course.last.toFixed(2)} (${course.lower.toFixed(2)} to ${course.upper.toFixed(2)})`,
      drift === null ? 'too few days' : `by chance ${(100 * drift.chance).toFixed(0)} in 100`,
    ],
  );
  return [
    'In the order flown: ratios, measured over expected',
    ...textTable(heading, rows),
    ...wrapText(
      'Course: weighted mean after the last one, and the limits within which it wanders where nothing changes. Drift: how often steady flying would rise or fall as steadily as this.',
      '  ',
    ),
    '',
  ];
}
