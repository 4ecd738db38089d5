/** Own factors as text for people: what they are, what they rest on, and when there are too few. */
import type { AeroplaneFactors } from '../debrief/own-factors.ts';
import { isUndetermined } from '../result.ts';
import { DASH, ratio } from './format-quantity.ts';
import { textTable } from './text-table.ts';

/** Lines about every aeroplane's factors; none where nothing was compared. */
export function factorLines(all: readonly AeroplaneFactors[]): string[] {
  return all.flatMap(({ aeroplane, factors, goArounds }) => {
    const rows = factors.map((factor) => {
      const counts = `${factor.counts.counted} on ${factor.counts.days} days`;
      if (factor.kind === 'too-few') {
        return [factor.quantity.replaceAll('-', ' '), counts, 'too few', '', '', ''];
      }
      const bound = factor.toleranceBound;
      return [
        factor.quantity.replaceAll('-', ' '),
        counts,
        factor.factor.toFixed(2),
        ratio(factor.typicalRatio),
        isUndetermined(bound) ? DASH : bound.toFixed(2),
        factor.published === null ? 'none' : factor.published.toFixed(2),
      ];
    });
    const told = factors.flatMap((factor) => (factor.kind === 'own-factor' ? [factor.text] : []));
    return [
      `Own factors, ${aeroplane} (go-arounds in the same flights: ${goArounds})`,
      ...textTable(
        ['distance', 'rests on', 'own factor', 'typical ratio', 'classical bound', 'published'],
        rows,
      ),
      ...told.map((text) => `  ${text}`),
      '',
    ];
  });
}
