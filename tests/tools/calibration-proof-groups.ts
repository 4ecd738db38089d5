/**
 * Do factors that lean on other groups hold as often as they say? One aeroplane on one kind of ground with
 * five landings, three other groups beside it, for docs/calibration.md.
 */
import type { LogRatio } from '../../src/calibration/log-ratio.ts';
import { predictiveBoundLog, WEAK_PRIOR } from '../../src/calibration/predictive.ts';
import { normalCdf } from '../../src/numeric/distributions.ts';
import { createRandom, type Random } from '../../src/numeric/random.ts';
import type { Cell } from './calibration-proof-cells.ts';

/** A pilot's groups on the log scale, the one asked about first. */
export interface GroupedPilot {
  readonly means: readonly number[];
  readonly spreads: readonly number[];
  readonly dayShare: number;
}

/** What leaning on the others gives, and what the group's own landings give. */
export interface LeaningCell {
  readonly leaning: Cell;
  readonly alone: Cell;
  /** The bound over the group's true middle, a plain ratio. */
  readonly leaningLength: number;
  readonly aloneLength: number;
}

/** Landings of each group; the one asked about has the fewest allowed. */
const LANDINGS = [5, 15, 10, 5] as const;

/** Chances over pilots and groups drawn from the model. */
export function groupsDrawn(pilots: number, seed: number): LeaningCell[] {
  const random = createRandom(seed);
  return Array.from({ length: pilots }, () => cellOf(draw(random), random));
}

/** Chances of 20 drawn groups, each flown again and again: the means of each, worst leaning first. */
export function twentyGroups(rounds: number, seed: number): LeaningCell[] {
  const random = createRandom(seed + 1);
  return Array.from({ length: 20 }, () => {
    const pilot = draw(random);
    return meanCell(Array.from({ length: rounds }, () => cellOf(pilot, random)));
  }).sort((a, b) => a.leaning - b.leaning);
}

/** A group that is unlike three others that are alike: longer by a ratio, and more or less scattered. */
export function unlikeGroup(
  { longer, spread, othersSpread }: Record<'longer' | 'spread' | 'othersSpread', number>,
  rounds: number,
  seed: number,
): LeaningCell {
  const random = createRandom(seed);
  return meanCell(
    Array.from({ length: rounds }, () => {
      const middle = 0.25 * random.normal();
      const pilot = {
        means: LANDINGS.map((_, g) => middle + (g === 0 ? Math.log(longer) : 0)),
        spreads: LANDINGS.map((_, g) => (g === 0 ? spread : othersSpread)),
        dayShare: 0.3,
      };
      return cellOf(pilot, random);
    }),
  );
}

function draw(random: Random): GroupedPilot {
  const { meanLog, meanLogSd, spreadMedian, spreadLogSd, groupMeanSd, groupSpreadLogSd } =
    WEAK_PRIOR;
  const middle = meanLog + meanLogSd * random.normal();
  const spread = spreadMedian * Math.exp(spreadLogSd * random.normal());
  const othersSpread = spread * Math.exp(groupSpreadLogSd * random.normal());
  return {
    means: LANDINGS.map(() => middle + groupMeanSd * random.normal()),
    spreads: LANDINGS.map((_, g) => (g === 0 ? spread : othersSpread)),
    dayShare: Math.sin((Math.PI / 2) * random.uniform()) ** 2,
  };
}

/** Every group's landings on days of their own, one to three a day; those asked about on three or more. */
function fly({ means, spreads, dayShare }: GroupedPilot, random: Random): LogRatio[][] {
  return LANDINGS.map((count, g) => {
    const daySd = spreads[g] * Math.sqrt(dayShare);
    const ownSd = spreads[g] * Math.sqrt(1 - dayShare);
    const landings: LogRatio[] = [];
    for (let day = 0; landings.length < count; day++) {
      const dayMean = means[g] + daySd * random.normal();
      const today = g === 0 ? Math.min(2, count - landings.length) : random.integer(1, 4);
      for (let k = 0; k < today && landings.length < count; k++) {
        const sd = 0.07 + 0.05 * random.uniform();
        const logRatio = dayMean + ownSd * random.normal() + sd * random.normal();
        landings.push({ logRatio, sd, dayKey: `day ${day}`, kind: 'value' });
      }
    }
    return landings;
  });
}

function cellOf(pilot: GroupedPilot, random: Random): LeaningCell {
  const [own, ...others] = fly(pilot, random);
  const leaning = predictiveBoundLog(own, 0.95, WEAK_PRIOR, others);
  const alone = predictiveBoundLog(own, 0.95);
  const [mean] = pilot.means;
  const [spread] = pilot.spreads;
  return {
    leaning: 100 * normalCdf((leaning - mean) / spread),
    alone: 100 * normalCdf((alone - mean) / spread),
    leaningLength: Math.exp(leaning - mean),
    aloneLength: Math.exp(alone - mean),
  };
}

function meanCell(cells: readonly LeaningCell[]): LeaningCell {
  const mean = (of: (cell: LeaningCell) => number): number =>
    cells.reduce((sum, cell) => sum + of(cell), 0) / cells.length;
  return {
    leaning: mean(({ leaning }) => leaning),
    alone: mean(({ alone }) => alone),
    leaningLength: mean(({ leaningLength }) => leaningLength),
    aloneLength: mean(({ aloneLength }) => aloneLength),
  };
}
