/**
 * How exact is a strip learned from its visits? `npm run accuracy-strips` writes
 * docs/accuracy-strips.md.
 *
 *   npm run accuracy-strips [-- --strips 150]
 */
import { parseArgs } from 'node:util';
import { isUndetermined, type Measured } from '../../src/result.ts';
import { learnStrip, type LearnedStrip } from '../../src/strips/learn-strip.ts';
import { visitStrip, type Visits } from '../strips/simulated-visits.ts';
import { independentStrips } from './independent-strips.ts';
import { tableHead, tableRow } from './accuracy-tally.ts';
import { writeMarkdown } from './write-markdown.ts';

const { values } = parseArgs({ options: { strips: { type: 'string', default: '150' } } });
const STRIPS = Number(values.strips);
const FIRST_SEED = 7_000;

interface Quantity {
  readonly name: string;
  readonly unit: string;
  readonly digits: number;
  readonly of: (learned: LearnedStrip) => Measured;
  readonly truth: (visits: Visits, learned: LearnedStrip) => number;
}

const middle = ({ usedFromM, usedToM }: LearnedStrip): number =>
  (usedFromM.value + usedToM.value) / 2;

const QUANTITIES: readonly Quantity[] = [
  {
    name: 'beside the line drawn',
    unit: 'm',
    digits: 1,
    of: (learned) => learned.rightM,
    truth: (visits, learned) => visits.trueRightM(middle(learned)),
  },
  {
    name: 'turned from it',
    unit: '°',
    digits: 2,
    of: (learned) => learned.turnedDeg,
    truth: (visits) => visits.trueTurnedDeg,
  },
  {
    name: 'first place used',
    unit: 'm',
    digits: 1,
    of: (learned) => learned.usedFromM,
    truth: (visits) => visits.trueUsedM[0],
  },
  {
    name: 'last place used',
    unit: 'm',
    digits: 1,
    of: (learned) => learned.usedToM,
    truth: (visits) => visits.trueUsedM[1],
  },
  {
    name: 'slope',
    unit: '%',
    digits: 2,
    of: ({ slopeRatio }) => percent(slopeRatio),
    truth: (visits, { usedFromM, usedToM }) =>
      (100 * (visits.trueElevationM(usedToM.value) - visits.trueElevationM(usedFromM.value))) /
      (usedToM.value - usedFromM.value),
  },
  {
    name: 'rise to the middle',
    unit: 'm',
    digits: 2,
    of: (learned) => middlePoint(learned).riseM,
    truth: (visits, learned) =>
      visits.trueElevationM(middlePoint(learned).fromAM) -
      visits.trueElevationM(learned.usedFromM.value),
  },
  {
    name: 'elevation',
    unit: 'm',
    digits: 1,
    of: (learned) => learned.elevationM,
    truth: (visits, learned) => visits.trueElevationM(learned.usedFromM.value),
  },
];

function middlePoint({ profile }: LearnedStrip): LearnedStrip['profile'][number] {
  return profile[profile.length >> 1];
}

function percent(ratio: Measured): Measured {
  if (isUndetermined(ratio)) return ratio;
  return { value: 100 * ratio.value, low: 100 * ratio.low, high: 100 * ratio.high };
}

/** Errors, widths and coverage of one quantity. */
function cellsOf(
  { of, truth, unit, digits }: Quantity,
  learned: readonly { readonly visits: Visits; readonly learned: LearnedStrip }[],
): string[] {
  const errors: number[] = [];
  const widths: number[] = [];
  let held = 0;
  for (const each of learned) {
    const found = of(each.learned);
    if (isUndetermined(found)) continue;
    const right = truth(each.visits, each.learned);
    errors.push(Math.abs(found.value - right));
    widths.push(found.high - found.low);
    if (found.low <= right && right <= found.high) held++;
  }
  const share = held / errors.length;
  const doubt = Math.sqrt((share * (1 - share)) / errors.length);
  const at = (list: readonly number[], p: number): string =>
    list.toSorted((a, b) => a - b)[Math.floor(p * list.length)].toFixed(digits);
  return [
    String(errors.length),
    `${at(errors, 0.5)} / ${at(errors, 0.9)} ${unit}`,
    `${(100 * share).toFixed(0)} % ± ${(100 * doubt).toFixed(0)}`,
    `${at(widths, 0.5)} ${unit}`,
  ];
}

const lines = [
  '# How exact a learned strip is',
  '',
  `Made by \`npm run accuracy-strips -- --strips ${STRIPS}\`. Errors are median / 90th percentile; "holds" is how often the 90 % band holds the truth, with its standard error.`,
  '',
  '## Simulated visits',
  '',
  `All invented: strips of 300 to 700 m with slopes up to 2.5 % and an uneven surface, drawn by seed from ${FIRST_SEED} on, each drawn on the map up to 9 m beside and 1.5° turned from where it lies. Every visit is a flight of its own with a receiver of its own, logged once a second as IGC above sea level; two in three are landings, one is a take-off, and each roll lies evenly within 3.5 m of the middle.`,
  '',
];
for (const count of [1, 3, 10]) {
  const learned = Array.from({ length: STRIPS }, (_, k) => visitStrip(FIRST_SEED + k, count))
    .map((visits) => ({ visits, learned: learnStrip(visits.drawn, visits.traces) }))
    .flatMap((each) =>
      isUndetermined(each.learned) ? [] : [{ visits: each.visits, learned: each.learned }],
    );
  lines.push(
    `### ${count} ${count === 1 ? 'visit' : 'visits'}`,
    '',
    tableHead(['quantity', 'strips', 'error', 'holds', 'width']),
    ...QUANTITIES.map((quantity) => tableRow([quantity.name, ...cellsOf(quantity, learned)])),
    '',
  );
}
lines.push(
  'A place used is the furthest that rolls and runs surely reached, not the end of the strip. One visit says little about a slope: the receiver drifts by metres of height while the aircraft rolls.',
  '',
  ...independentStrips(),
);
await writeMarkdown('docs/accuracy-strips.md', lines.join('\n'));
