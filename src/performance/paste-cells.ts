/**
 * Rows of cells and numbers out of text pasted from a spreadsheet.
 *
 * Tabs part cells where there are any, else semicolons, else commas; a cell in quotes may hold any of
 * them. Where commas do not part cells they may be decimal commas. A number that can be read in two
 * ways is not read at all.
 */

/** Cells of one line, with its number in the text, from 1. */
export interface CellRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/** A number as read: its value, or why there is none. */
export type CellNumber = { readonly value: number } | { readonly why: string };

/** Spaces of all widths that stand in numbers. */
const SPACES = /[\s\u00a0\u2009\u202f]/g;

/** The rows that hold anything, cells trimmed. */
export function cellRows(text: string): CellRow[] {
  const separator = ['\t', ';'].find((each) => text.includes(each)) ?? ',';
  return text
    .split(/\r\n|\r|\n/)
    .map((line, k) => ({ line: k + 1, cells: splitCells(line, separator) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
}

function splitCells(line: string, separator: string): string[] {
  const cells: string[] = [];
  let cell = '';
  let isQuoted = false;
  for (const character of line) {
    if (character === '"') isQuoted = !isQuoted;
    else if (character === separator && !isQuoted) {
      cells.push(cell.trim());
      cell = '';
    } else cell += character;
  }
  return [...cells, cell.trim()];
}

/**
 * Reads a number with a decimal point or comma, and spaces or the other mark between thousands.
 *
 * Fails: `1,115` and `1.115` may be one thousand or one and a bit: no value, and why.
 * @example cellNumber('1 115,5') // { value: 1115.5 }
 */
export function cellNumber(text: string): CellNumber {
  const plain = text.replace(SPACES, '').replace('\u2212', '-');
  if (/^[+-]?[1-9]\d{0,2}[.,]\d{3}$/.test(plain)) {
    const [whole, rest] = plain.split(/[.,]/);
    return { why: `found "${text}", which may mean ${whole}${rest} or ${whole}.${rest}` };
  }
  const marks = plain.replace(/[^.,]/g, '');
  const last = marks.at(-1);
  // The last mark is the decimal one where it stands alone or after the other.
  const isGrouped = /^(,+\.|\.+,)$/.test(marks) || /^(,{2,}|\.{2,})$/.test(marks);
  const grouped = isGrouped ? withoutThousands(plain, marks) : plain;
  const normal = grouped.replace(last === ',' ? ',' : '.', '.');
  return /^[+-]?\d+(\.\d+)?$/.test(normal)
    ? { value: Number(normal) }
    : { why: `found "${text.slice(0, 40)}", expected a number` };
}

/** The thousands' marks taken out where each stands before three digits; else the text as it was. */
function withoutThousands(plain: string, marks: string): string {
  const mark = marks.startsWith(',') ? ',' : '\\.';
  const decimal = mark === ',' ? '\\.' : ',';
  const shape = new RegExp(`^[+-]?\\d{1,3}(${mark}\\d{3})+(${decimal}\\d+)?$`);
  return shape.test(plain) ? plain.replace(new RegExp(mark, 'g'), '') : plain;
}
