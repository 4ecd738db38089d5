/**
 * A table as aligned text.
 *
 * In: a heading and rows of cells. Out: lines; columns two spaces apart, as wide as their widest
 * cell, columns empty in every row left out.
 */

/** Lays out the table; no lines where there are no rows. */
export function textTable(
  heading: readonly string[],
  rows: readonly (readonly string[])[],
  indent = '  ',
): string[] {
  if (rows.length === 0) return [];
  const used = heading.map((_, c) => rows.some((row) => row[c] !== ''));
  const all = [heading, ...rows].map((row) => row.filter((_, c) => used[c]));
  const widths = all[0].map((_, c) => Math.max(...all.map((row) => width(row[c]))));
  return all.map((row) =>
    (
      indent + row.map((cell, c) => cell + ' '.repeat(widths[c] - width(cell))).join('  ')
    ).trimEnd(),
  );
}

/** Characters a cell takes; combining marks do not occur in our texts. */
function width(cell: string): number {
  return Array.from(cell).length;
}
