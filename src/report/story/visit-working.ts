/**
 * The working of a prediction, as it would stand written with a pencil.
 *
 * In: a chain of steps and the pilot's units. Out: lines: what, by how much, why, from where, and the
 * running distance as a figure and as a share of the longest line, for a bar.
 */
import type { ChainStep } from '../../performance/prediction.ts';
import {
  figureValue,
  lengthFigure,
  NBSP,
  numberText,
  shownDifferenceM,
  type PilotUnits,
} from '../figure-text.ts';
import { workingInPilotUnits } from '../figures-in-text.ts';

/** One line. */
export interface WorkingLine {
  readonly name: string;
  /** What it acts on; empty on the lines that only state a figure. */
  readonly actsOn: string;
  readonly why: string;
  readonly source: string;
  /** `× 1.35`, `−198 m`; empty where nothing changes. */
  readonly by: string;
  readonly running: string;
  /** Running distance against the longest of the chain, 0 to 1. */
  readonly share: number;
  /** True where another quantity begins: the air part, the ground roll. */
  readonly isNewPart: boolean;
}

/** All lines of a chain, in order; `longestM` sets several chains to one scale. */
export function workingLines(
  steps: readonly ChainStep[],
  longestM: number,
  units: PilotUnits,
): WorkingLine[] {
  return steps.map((step, k) => ({
    name: step.name,
    actsOn: step.actsOn,
    why: trueMinus(workingInPilotUnits(step.why, units)),
    source: step.source,
    by: byText(step, k > 0 ? steps[k - 1] : null, units),
    running: figureValue(lengthFigure(step.runningM, units)),
    share: longestM > 0 ? Math.min(1, Math.max(0, step.runningM / longestM)) : 0,
    isNewPart: k > 0 && steps[k - 1].actsOn !== step.actsOn,
  }));
}

/** The longest running distance of several chains, metres. */
export function longestOf(chains: readonly (readonly ChainStep[])[]): number {
  return Math.max(0, ...chains.flat().map(({ runningM }) => runningM));
}

function byText(step: ChainStep, before: ChainStep | null, units: PilotUnits): string {
  const { factor, addM, runningM } = step;
  if (factor !== null) return factor === 1 ? '' : `×${NBSP}${factorText(factor)}`;
  if (addM === null) return '';
  const isAdded = before !== null && Math.abs(before.runningM + addM - runningM) < 1e-6;
  // As the two running lengths are shown: a pencil adds what it reads.
  const shownM = isAdded ? shownDifferenceM(runningM, before.runningM, units) : addM;
  return `${shownM < 0 ? '' : '+'}${figureValue(lengthFigure(shownM, units))}`;
}

/** Two decimals where they are the factor, else as many as a pencil needs to come to the same metre. */
function factorText(factor: number): string {
  const isPlain = Math.abs(factor - Math.round(factor * 100) / 100) < 0.00005;
  return numberText(factor, isPlain ? 2 : 4);
}

/** The lower floors write numbers for machines. */
function trueMinus(text: string): string {
  return text.replace(/(?<=^|[\s(])-(?=\d)/g, '\u2212');
}
