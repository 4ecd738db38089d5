/**
 * The course of the pilot's ratios, as text for people.
 *
 * In: courses. Out: lines; none where nothing was compared.
 */
import type { RatioCourse } from '../debrief/ratio-courses.ts';
import { QUANTITY_WORDS } from './factor-words.ts';
import { textTable } from './text-table.ts';
import { wrapText } from './wrap-text.ts';

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
