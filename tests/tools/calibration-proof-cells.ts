/** Chances of many simulated pilots as a cell of a table. */

/** A chance in per cent. */
export type Cell = number;

/** Mean and its standard error: `94.79 ± 0.16`. */
export function meanText(chances: readonly Cell[]): string {
  const n = chances.length;
  const mean = chances.reduce((sum, chance) => sum + chance, 0) / n;
  const squares = chances.reduce((sum, chance) => sum + (chance - mean) ** 2, 0);
  return `${mean.toFixed(2)} ± ${Math.sqrt(squares / (n - 1) / n).toFixed(2)}`;
}
