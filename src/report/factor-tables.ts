/**
 * Own factors as text for people: what they are, what they rest on, and when there are too few.
 *
 * In: factors of every aeroplane. Out: lines; none about an aeroplane of which nothing was compared.
 */
import {
  FEWEST_DAYS,
  FEWEST_LANDINGS,
  ownFactorText,
  type OwnFactor,
  type TooFew,
} from '../calibration/calibrate.ts';
import type { AeroplaneFactors } from '../debrief/own-factors.ts';
import { isUndetermined } from '../result.ts';
import { factorLeansOn, factorRestsOn, LEANING_CAUTION } from './factor-words.ts';
import { DASH, ratio } from './format-quantity.ts';
import { textTable } from './text-table.ts';
import { wrapText } from './wrap-text.ts';

const HEADING = [
  'distance',
  'ground',
  'rests on',
  'own factor',
  'alone',
  'with every one in',
  'typical ratio',
  'classical bound',
  'published',
  'plan with',
];

/** Lines about every aeroplane's factors, ending in an empty one. */
export function factorLines(all: readonly AeroplaneFactors[]): string[] {
  return all.flatMap(({ name, factors, goArounds }) => {
    const compared = factors.filter(({ counts }) => countAll(counts) > 0);
    if (compared.length === 0) return [];
    return [
      `Own factors, ${name} (${plural(goArounds, 'go-around')} in the same flights: landings broken off are not among these)`,
      ...textTable(HEADING, compared.map(factorRow)),
      ...compared.flatMap(ownText),
      ...(compared.some((each) => factorLeansOn(each) !== null)
        ? wrapText(LEANING_CAUTION, '  ')
        : []),
      ...(compared.some((each) => each.kind === 'own-factor' && each.isFloor)
        ? wrapText(FLOOR, '  ')
        : []),
      ...(compared.some(({ kind }) => kind === 'too-few') ? [TOO_FEW] : []),
      '',
    ];
  });
}

const WORDS = {
  'landing-from-50-ft': 'landing from 50 ft',
  'landing-roll': 'landing roll',
  'take-off-to-50-ft': 'take-off to 50 ft',
  'take-off-roll': 'take-off roll',
} as const;

function factorRow(factor: OwnFactor | TooFew): string[] {
  const start = [WORDS[factor.quantity], factor.surface, countsText(factor.counts)];
  if (factor.kind === 'too-few') return [...start, 'too few', '', '', '', '', '', ''];
  const { toleranceBound, published, planWith } = factor;
  return [
    ...start,
    `${ownFactorText(factor.factor, published)}${factor.isFloor ? ' *' : ''}`,
    factor.alone.toFixed(2),
    factor.withEveryLanding.toFixed(2),
    ratio(factor.typicalRatio),
    isUndetermined(toleranceBound) ? DASH : toleranceBound.toFixed(2),
    published === null ? 'none' : published.toFixed(2),
    planWith === null ? 'not for planning' : ownFactorText(planWith, published),
  ];
}

function ownText(factor: OwnFactor | TooFew): string[] {
  if (factor.kind === 'too-few') return [];
  const said = [factor.text, factorRestsOn(factor), factorLeansOn(factor)].filter(
    (each) => each !== null,
  );
  return wrapText(`${WORDS[factor.quantity]}, ${factor.surface}: ${said.join(' ')}`, '  ');
}

const FLOOR =
  '* the published factor (1 for a roll): on wet or soft ground leaning on other landings takes nothing off it.';

const TOO_FEW = `  too few: a factor needs ${FEWEST_LANDINGS} or more that count, on ${FEWEST_DAYS} days or more`;

/** `24 on 16 days; 2 upper bounds; 3 left out`. */
function countsText({ counted, days, upperBounds, leftOut }: OwnFactor['counts']): string {
  return [
    `${counted} on ${plural(days, 'day')}`,
    ...(upperBounds > 0 ? [plural(upperBounds, 'upper bound')] : []),
    ...(leftOut > 0 ? [`${leftOut} left out`] : []),
  ].join('; ');
}

function countAll({ counted, upperBounds, leftOut }: OwnFactor['counts']): number {
  return counted + upperBounds + leftOut;
}

function plural(howMany: number, what: string): string {
  return `${howMany} ${what}${howMany === 1 ? '' : 's'}`;
}
