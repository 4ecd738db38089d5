/**
 * Long text as lines of a readable width.
 *
 * In: one sentence or more. Out: lines broken at spaces; those after the first are indented further.
 */

/** Widest line that we print, in characters; a table may need more. */
const WIDTH = 120;

/** Breaks a text into lines; a word longer than a line is left whole. */
export function wrapText(text: string, indent: string): string[] {
  const lines: string[] = [];
  let line = indent;
  let isEmpty = true;
  for (const word of text.split(/\s+/)) {
    if (!isEmpty && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = `${indent}  `;
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
  }
  return [...lines, line];
}

/** No-break spaces as plain ones: a terminal does not break lines, and people search for `570 m`. */
export function plainSpaces(text: string): string {
  return text.replaceAll('\u00a0', ' ');
}
