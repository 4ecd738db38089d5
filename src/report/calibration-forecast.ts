/**
 * How far were the pilot's forecasts off along the strip, as text?
 *
 * In: headwinds planned with and met. Out: lines ending in an empty one; none where nothing was said of
 * what the flights were planned with.
 */
import { FEWEST_PAIRS, forecastSpread, STATED_SPREAD_KT } from '../calibration/forecast-spread.ts';
import type { FlownForecast } from '../debrief/forecast-pairs.ts';
import { MPS_PER_KNOT } from '../units/convert.ts';
import { plain } from './format-quantity.ts';
import { textTable } from './text-table.ts';
import { wrapText } from './wrap-text.ts';

/** The pairs, and what they say before the next flight. */
export function forecastLines(forecasts: readonly FlownForecast[]): string[] {
  if (forecasts.length === 0) return [];
  const rows = forecasts.map(({ day, strip, direction, forecastMps, actualMps }) => [
    day,
    `${strip} ${direction}`,
    knotsAlong(forecastMps),
    knotsAlong(actualMps),
    knotsAlong(actualMps - forecastMps),
  ]);
  return [
    'Wind along the strip, planned with and met (a tailwind is negative)',
    ...textTable(['day', 'strip', 'planned with', 'met', 'more than planned'], rows),
    ...wrapText(forecastWords(forecasts), '  '),
    '',
  ];
}

/** What the pairs say of the next forecast. */
function forecastWords(forecasts: readonly FlownForecast[]): string {
  const { own, pairs, sdMps } = forecastSpread(forecasts);
  const sd = (sdMps / MPS_PER_KNOT).toFixed(1);
  return own
    ? `Before a flight the length needed counts with a wind along the strip that is ${sd} kt off (standard deviation): the root mean square of these ${pairs}, somewhat widened because they are few.`
    : `${pairs} of ${FEWEST_PAIRS}: too few to say how far forecasts are off. Before a flight the length needed counts with a stated ${STATED_SPREAD_KT} kt.`;
}

function knotsAlong(mps: number): string {
  return `${plain((mps / MPS_PER_KNOT).toFixed(0))} kt`;
}
