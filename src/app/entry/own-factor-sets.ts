/**
 * The pilot's own factor sets for the page: read, named, laid out figure by figure.
 *
 * In: records of the logbook. Out: sets, their names, a line for every figure with what it rests on.
 * A record that its reader refuses is left out here; the list of sets says why.
 */
import type { FactorSetRecord } from '../../logbook/entry.ts';
import { decodeFactorSet } from '../../performance/factor-sets/decode-factor-set.ts';
import {
  sourceOf,
  type FactorSet,
  type PhaseFactors,
  type PublishedFactor,
  type SteppedFactor,
} from '../../performance/factor-sets/factor-set.ts';
import { PUBLISHED_SETS } from '../../performance/factor-sets/published.ts';
import type { SurfaceState } from '../../weather/conditions.ts';
import { showNumber } from './number-text.ts';
import { SURFACE_WORDS } from './surface-choices.ts';

const read = new WeakMap<readonly FactorSetRecord[], readonly FactorSet[]>();

/** The sets that can be used. Read once for each list. */
export function readFactorSets(records: readonly FactorSetRecord[]): readonly FactorSet[] {
  const before = read.get(records);
  if (before) return before;
  const sets = records.flatMap((record) => {
    const decoded = decodeFactorSet(JSON.stringify(record.document));
    return decoded.ok ? [decoded.value] : [];
  });
  read.set(records, sets);
  return sets;
}

/** What a set is called; its id where it is none of those there are. */
export function factorSetName(id: string, own: readonly FactorSet[]): string {
  return [...PUBLISHED_SETS, ...own].find((set) => set.id === id)?.name ?? id;
}

/** One figure of a set in words. */
export interface FactorFigure {
  /** `landing: for each 1000 ft of altitude`. */
  readonly what: string;
  readonly factor: string;
  /** Document, edition and place, and how the figure came here. */
  readonly source: string;
  readonly why: string;
}

/** Every figure of a set with what it rests on, landing first. */
export function factorFigures(set: FactorSet): FactorFigure[] {
  return [...phaseFigures('landing', set.landing), ...phaseFigures('take-off', set.takeOff)];
}

/** A document to begin an own set with: the default set under a name of one's own. */
export function factorSetToBeginWith(): string {
  const document = {
    schema: 1,
    kind: 'factor-set',
    ...PUBLISHED_SETS[0],
    id: 'my-factors',
    name: 'My factors',
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

function phaseFigures(phase: string, factors: PhaseFactors): FactorFigure[] {
  const line = (what: string, published: PublishedFactor): FactorFigure => ({
    what: `${phase}: ${what}`,
    factor: showNumber(published.factor, 3),
    source: sourceOf(published),
    why: published.why,
  });
  const step = (factor: SteppedFactor | null | undefined, words: (size: string) => string) =>
    factor ? [line(words(showNumber(factor.step, 3)), factor)] : [];
  const share = (factor: SteppedFactor | null | undefined, words: string) =>
    factor ? [line(`for each ${showNumber(factor.step * 100, 2)} % ${words}`, factor)] : [];
  const isLanding = phase === 'landing';
  const surfaces = Object.entries(factors.surface) as [SurfaceState, PublishedFactor][];
  return [
    ...share(factors.massShare, 'more mass'),
    ...step(factors.altitudeFt, (size) => `for each ${size} ft of altitude`),
    ...step(factors.tempC, (size) => `for each ${size} °C warmer`),
    ...share(
      factors.tailwindShare,
      `of the ${isLanding ? 'landing' : 'lift-off'} speed as tailwind`,
    ),
    ...share(factors.slopeRatio, `of slope ${isLanding ? 'downhill' : 'uphill'}`),
    ...share(factors.slopeCredit, `of slope ${isLanding ? 'uphill' : 'downhill'}, a credit`),
    ...surfaces.map(([state, factor]) => line(SURFACE_WORDS[state], factor)),
    line('safety factor', factors.safety),
  ];
}
