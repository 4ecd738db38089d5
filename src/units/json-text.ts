/** JSON in a file: text editors of some systems put a byte order mark before it. */

/** The value that a text of JSON stands for; a byte order mark before it is passed over. Throws a SyntaxError where it is no JSON. */
export function parseJson(text: string): unknown {
  return JSON.parse(text.replace(/^\uFEFF/, ''));
}
