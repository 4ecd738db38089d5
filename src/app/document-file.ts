/**
 * What does a chosen file hold: an aeroplane, a factor set?
 *
 * In: the file and the reader of its kind of document. Out: the document as it came, and every
 * problem to be told beside the button that it was chosen with.
 */
import { problem, type Problem, type Result } from '../result.ts';
import { parseJson } from '../units/json-text.ts';

/** A file that was chosen and has problems. */
export interface RefusedFile {
  readonly fileName: string;
  readonly problems: readonly Problem[];
}

/** The document, null where the file is none; the problems, null where there are none. */
export interface DocumentFile<Document> {
  readonly document: Document | null;
  readonly refused: RefusedFile | null;
}

/** Larger files are no documents that a pilot writes, bytes. */
const MOST_FILE_BYTES = 2 * 2 ** 20;

/**
 * Reads a chosen file.
 *
 * @param code of the problem of a file that is too large; @param decode the reader, whose problems are
 * told. Never fails: a file of another kind is refused.
 */
export async function readDocumentFile<Document>(
  file: File,
  code: string,
  decode: (text: string) => Result<unknown>,
): Promise<DocumentFile<Document>> {
  const refuse = (problems: readonly Problem[]): RefusedFile | null =>
    problems.length > 0 ? { fileName: file.name, problems } : null;
  if (file.size > MOST_FILE_BYTES) {
    const message = `found ${file.size} bytes, expected at most ${MOST_FILE_BYTES}`;
    return { document: null, refused: refuse([problem(code, 'error', 'file', message)]) };
  }
  const text = await file.text();
  const read = decode(text);
  const document = read.ok ? (parseJson(text) as Document) : null;
  return { document, refused: refuse(read.problems) };
}
