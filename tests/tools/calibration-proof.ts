/**
 * Does the own factor hold as often as it says? `npm run calibration-proof` flies simulated pilots
 * and writes the tables of docs/calibration.md.
 *
 *   npm run calibration-proof [-- --pilots 10000] [--only prior|common|fixed|tolerance|length|groups|unlike] [--print]
 *
 * The chance that the next true ratio on a new day stays below a pilot's bound is exact (a normal
 * probability), so only the pilots are sampled. With --print, writes nothing.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { COMMON_SHARES } from '../../src/calibration/repeated-error.ts';
import {
  predictiveBoundLog,
  predictNextRatio,
  WEAK_PRIOR,
} from '../../src/calibration/predictive.ts';
import { toleranceBound } from '../../src/calibration/tolerance.ts';
import { normalCdf, normalQuantile } from '../../src/numeric/distributions.ts';
import { createRandom, type Random } from '../../src/numeric/random.ts';
import { isUndetermined } from '../../src/result.ts';
import { flyLandings, type Pilot } from '../calibration/simulated-pilot.ts';
import { meanText } from './calibration-proof-cells.ts';
import { groupsDrawn, twentyGroups, unlikeGroup } from './calibration-proof-groups.ts';
import { lengthCoverage } from './calibration-proof-length.ts';
import { writeMarkdown } from './write-markdown.ts';

const { values } = parseArgs({
  options: {
    pilots: { type: 'string', default: '10000' },
    only: { type: 'string' },
    print: { type: 'boolean' },
  },
});
const PILOTS = Number(values.pilots);
const SEED = 20_260_501;
const COUNTS = [5, 10, 20, 50];
const DAY_SHARES = [0, 0.3, 0.6];
const SPREADS = [0.08, 0.12, 0.18, 0.25, 0.35];
const DOCUMENT = 'docs/calibration.md';

/** Mean chance, per cent, that the next true ratio on a new day stays below the bound, and its standard error. */
function coverage(n: number, random: Random, draw: () => Pilot): string {
  const chances = Array.from({ length: PILOTS }, () => {
    const pilot = draw();
    const bound = predictiveBoundLog(flyLandings(pilot, n, random), 0.95);
    return 100 * normalCdf((bound - pilot.mean) / pilot.spread);
  });
  return meanText(chances);
}

function drawMean(random: Random): number {
  return WEAK_PRIOR.meanLog + WEAK_PRIOR.meanLogSd * random.normal();
}

/** A pilot of the prior, the day share too. */
function drawPilot(random: Random): Pilot {
  return {
    mean: drawMean(random),
    spread: WEAK_PRIOR.spreadMedian * Math.exp(WEAK_PRIOR.spreadLogSd * random.normal()),
    dayShare: Math.sin((Math.PI / 2) * random.uniform()) ** 2,
  };
}

function overPrior(): string[] {
  return COUNTS.map((n) => {
    const cells = DAY_SHARES.map((dayShare) => {
      const random = createRandom(SEED + n);
      return coverage(n, random, () => ({
        mean: drawMean(random),
        spread: WEAK_PRIOR.spreadMedian * Math.exp(WEAK_PRIOR.spreadLogSd * random.normal()),
        dayShare,
      }));
    });
    const random = createRandom(SEED + n);
    const drawn = coverage(n, random, () => drawPilot(random));
    return row([String(n), drawn, ...cells]);
  });
}

/** Half of the measuring error the same at every landing: taken so, and taken as each landing's own. */
function withCommonError(): string[] {
  return COUNTS.map((n) => {
    const random = createRandom(SEED + n);
    const pilots = Array.from({ length: PILOTS }, () => {
      const pilot = drawPilot(random);
      const landings = flyLandings(pilot, n, random, undefined, COMMON_SHARES.along);
      return { pilot, landings, alone: landings.map((each) => ({ ...each, commonShare: 0 })) };
    });
    const cells = (['landings', 'alone'] as const).flatMap((taken) => {
      const found = pilots.map(({ pilot, [taken]: landings }) => {
        const next = predictNextRatio(landings);
        const { low, high } = next.typicalRatio;
        const middle = Math.exp(pilot.mean);
        const bound = Math.log(next.quantile(0.95));
        return {
          held: low <= middle && middle <= high ? 100 : 0,
          stays: 100 * normalCdf((bound - pilot.mean) / pilot.spread),
        };
      });
      return [meanText(found.map(({ held }) => held)), meanText(found.map(({ stays }) => stays))];
    });
    return row([String(n), ...cells]);
  });
}

function atFixedSpreads(): string[] {
  return COUNTS.flatMap((n) =>
    DAY_SHARES.map((dayShare) => {
      const cells = SPREADS.map((spread) => {
        const random = createRandom(SEED + n);
        return coverage(n, random, () => ({ mean: drawMean(random), spread, dayShare }));
      });
      return row([String(n), String(dayShare), ...cells]);
    }),
  );
}

/** Share of samples whose classical bound covers 95 % of the pilot's landings: that is its confidence. */
function toleranceConfidence(): string[] {
  return COUNTS.map((n) => {
    const cells = [0, 0.09].map((measuringSd) => {
      const random = createRandom(SEED + n);
      const samples = 4 * PILOTS;
      let covering = 0;
      for (let i = 0; i < samples; i++) {
        const logs = Array.from(
          { length: n },
          () => 0.2 * random.normal() + measuringSd * random.normal(),
        );
        const bound = toleranceBound(logs);
        if (!isUndetermined(bound) && Math.log(bound) >= 0.2 * normalQuantile(0.95)) covering++;
      }
      return ((100 * covering) / samples).toFixed(2);
    });
    return row([String(n), ...cells]);
  });
}

/** A length takes some forty times as long as a factor: a twentieth of the pilots. */
const LENGTH_PILOTS = PILOTS / 20;

function lengths(): string[] {
  return COUNTS.map((n) => {
    const cells = [0, FORECAST_LOG_SD].map((sd) =>
      meanText(lengthCoverage(n, LENGTH_PILOTS, SEED, sd)),
    );
    return row([String(n), ...cells]);
  });
}

/** 4 kt at a touchdown of 45 kt: 2 x 4 / 45. */
const FORECAST_LOG_SD = 0.18;

/** Groups drawn; and twenty groups, each flown a tenth as often as there are pilots. */
function groups(): string[] {
  const drawn = groupsDrawn(PILOTS, SEED);
  const twenty = twentyGroups(PILOTS / 10, SEED);
  const worstAlone = Math.min(...twenty.map((each) => each.alone));
  return [
    row([
      'over groups drawn from the model',
      meanText(drawn.map(({ leaning }) => leaning)),
      meanText(drawn.map(({ alone }) => alone)),
    ]),
    row([
      'the group of 20 that fares worst leaning',
      twenty[0].leaning.toFixed(2),
      twenty[0].alone.toFixed(2),
    ]),
    row(['the eleventh of them', twenty[10].leaning.toFixed(2), twenty[10].alone.toFixed(2)]),
    row(['the worst of 20 alone', '', worstAlone.toFixed(2)]),
  ];
}

/** Spreads of the group asked about and of the others. */
const SCATTERS = [
  [0.12, 0.12],
  [0.25, 0.25],
  [0.25, 0.12],
  [0.35, 0.12],
  [0.12, 0.25],
] as const;

/** One group unlike the rest, flown a fifth as often as there are pilots. */
const UNLIKE_ROUNDS = PILOTS / 5;

function unlike(): string[] {
  return SCATTERS.flatMap(([spread, othersSpread]) =>
    [1, 1.5, 2].map((longer) => {
      const { leaning, alone, leaningLength, aloneLength } = unlikeGroup(
        { longer, spread, othersSpread },
        UNLIKE_ROUNDS,
        SEED,
      );
      return row([
        ...[longer, spread, othersSpread].map(String),
        ...[leaning, alone].map((chance) => chance.toFixed(1)),
        ...[leaningLength, aloneLength].map((length) => length.toFixed(2)),
      ]);
    }),
  );
}

function row(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}

function table(heading: readonly string[], rows: readonly string[]): string {
  return [row(heading), row(heading.map(() => '---')), ...rows].join('\n');
}

const SECTIONS: Readonly<Record<string, () => string>> = {
  prior: () =>
    table(
      ['landings', 'day share drawn too', ...DAY_SHARES.map((d) => `day share ${d}`)],
      overPrior(),
    ),
  common: () =>
    table(
      [
        ...['landings', 'common: middle held', 'common: next below the factor'],
        ...["each one's own: middle held", "each one's own: next below the factor"],
      ],
      withCommonError(),
    ),
  fixed: () =>
    table(['landings', 'day share', ...SPREADS.map((s) => `spread ${s}`)], atFixedSpreads()),
  length: () =>
    table(['landings', 'wind at the landing', 'forecast off by 18 % of the roll'], lengths()),
  groups: () => table(['', 'leaning on the others', 'from the group alone'], groups()),
  unlike: () =>
    table(
      [
        ...['times as long', 'its spread', 'spread of the others'],
        ...['leaning', 'alone', 'leaning: times its middle', 'alone: times its middle'],
      ],
      unlike(),
    ),
  tolerance: () =>
    table(['landings', 'no measuring error', 'measuring error 9 %'], toleranceConfidence()),
};

/** Pilots a cell where they are fewer. */
const PILOTS_OF = new Map([
  ['length', LENGTH_PILOTS],
  ['unlike', UNLIKE_ROUNDS],
]);

const startedMs = Date.now();
for (const [name, make] of Object.entries(SECTIONS)) {
  if (values.only !== undefined && values.only !== name) continue;
  const made = make();
  const seconds = ((Date.now() - startedMs) / 1000).toFixed(0);
  const pilots = PILOTS_OF.get(name) ?? PILOTS;
  console.log(`${name}, ${pilots} pilots a cell\n${made}\n${seconds} s so far`);
  if (!values.print) await writeSection(name, `${pilots} pilots a cell.\n\n${made}`);
}

async function writeSection(name: string, made: string): Promise<void> {
  const document = readFileSync(DOCUMENT, 'utf8');
  const [start, end] = [`<!-- ${name} -->\n`, `\n<!-- end ${name} -->`];
  const from = document.indexOf(start);
  const to = document.indexOf(end);
  if (from < 0 || to < from) throw new Error(`${DOCUMENT} has no place for ${name}`);
  const before = document.slice(0, from + start.length);
  await writeMarkdown(DOCUMENT, `${before}\n${made}\n${document.slice(to)}`);
}
