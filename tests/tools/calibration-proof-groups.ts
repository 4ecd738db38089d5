/**
 * Do pooled factors hold as often as they say? Two aeroplanes on dry and on wet grass, for
 * docs/calibration.md.
 */
import type { LogRatio } from '../../src/calibration/log-ratio.ts';
import { predictiveBoundLog, WEAK_PRIOR } from '../../src/calibration/predictive.ts';
import { normalCdf } from '../../src/numeric/distributions.ts';
import { createRandom, type Random } from '../../src/numeric/random.ts';
import type { Cell } from './calibration-proof-cells.ts';

/** A pilot in two aeroplanes on two surfaces: means of the four groups on the log scale. */
interface GroupedPilot {
  readonly mean: number;
  readonly spread: number;
  readonly dayShare: number;
  readonly aeroplane: readonly [number, number];
  readonly surface: readonly [number, number];
}

/** Landings of each group, `aeroplane surface`: the one asked about comes first and has the fewest allowed. */
const GROUPS = [
  { aeroplane: 0, surface: 1, landings: 5 },
  { aeroplane: 0, surface: 0, landings: 15 },
  { aeroplane: 1, surface: 0, landings: 10 },
  { aeroplane: 1, surface: 1, landings: 5 },
] as const;

const [ASKED] = GROUPS;

/** Chances over pilots and groups drawn from the model. */
export function groupsDrawn(pilots: number, seed: number): { pooled: Cell[]; alone: Cell[] } {
  const random = createRandom(seed);
  const both = Array.from({ length: pilots }, () => chances(draw(random), random));
  return { pooled: both.map(([pooled]) => pooled), alone: both.map(([, alone]) => alone) };
}

/** Chances of 20 groups, each with its own truth and flown again and again: the means of each, worst pooled first. */
export function twentyGroups(rounds: number, seed: number): { pooled: Cell; alone: Cell }[] {
  const random = createRandom(seed + 1);
  return Array.from({ length: 20 }, () => {
    const pilot = draw(random);
    const sums = [0, 0];
    for (let k = 0; k < rounds; k++) {
      const [pooled, alone] = chances(pilot, random);
      sums[0] += pooled;
      sums[1] += alone;
    }
    return { pooled: sums[0] / rounds, alone: sums[1] / rounds };
  }).sort((a, b) => a.pooled - b.pooled);
}

function draw(random: Random): GroupedPilot {
  const { meanLog, meanLogSd, spreadMedian, spreadLogSd } = WEAK_PRIOR;
  const groupSd = (): number =>
    WEAK_PRIOR.groupSpreadMedian * Math.exp(WEAK_PRIOR.groupSpreadLogSd * random.normal());
  const [aeroplaneSd, surfaceSd] = [groupSd(), groupSd()];
  return {
    mean: meanLog + meanLogSd * random.normal(),
    spread: spreadMedian * Math.exp(spreadLogSd * random.normal()),
    dayShare: Math.sin((Math.PI / 2) * random.uniform()) ** 2,
    aeroplane: [aeroplaneSd * random.normal(), aeroplaneSd * random.normal()],
    surface: [surfaceSd * random.normal(), surfaceSd * random.normal()],
  };
}

function meanOf(
  { mean, aeroplane, surface }: GroupedPilot,
  group: { readonly aeroplane: 0 | 1; readonly surface: 0 | 1 },
): number {
  return mean + aeroplane[group.aeroplane] + surface[group.surface];
}

/** Every group's landings on days of their own, one to three a day; the asked one on three or more. */
function fly(pilot: GroupedPilot, random: Random): LogRatio[] {
  return GROUPS.flatMap((group, g) => {
    const daySd = pilot.spread * Math.sqrt(pilot.dayShare);
    const ownSd = pilot.spread * Math.sqrt(1 - pilot.dayShare);
    const landings: LogRatio[] = [];
    for (let day = 0; landings.length < group.landings; day++) {
      const dayMean = meanOf(pilot, group) + daySd * random.normal();
      const today = g === 0 ? Math.min(2, group.landings - landings.length) : random.integer(1, 4);
      for (let k = 0; k < today && landings.length < group.landings; k++) {
        const sd = 0.07 + 0.05 * random.uniform();
        landings.push({
          logRatio: dayMean + ownSd * random.normal() + sd * random.normal(),
          ...{ sd, dayKey: `group ${g}, day ${day}`, kind: 'value' },
          groups: [`aeroplane ${group.aeroplane}`, `surface ${group.surface}`],
        });
      }
    }
    return landings;
  });
}

function chances(pilot: GroupedPilot, random: Random): readonly [pooled: Cell, alone: Cell] {
  const landings = fly(pilot, random);
  const own = landings.slice(0, ASKED.landings).map((each) => ({ ...each, groups: [] }));
  const target = [`aeroplane ${ASKED.aeroplane}`, `surface ${ASKED.surface}`];
  return [
    chanceBelow(pilot, predictiveBoundLog(landings, 0.95, WEAK_PRIOR, target)),
    chanceBelow(pilot, predictiveBoundLog(own, 0.95)),
  ];
}

function chanceBelow(pilot: GroupedPilot, bound: number): Cell {
  return 100 * normalCdf((bound - meanOf(pilot, ASKED)) / pilot.spread);
}
