/**
 * What elements does this XML hold, in the order of the file, without building a tree?
 *
 * The one place that touches the XML parser (saxes). Reads bytes in chunks, so memory stays flat;
 * never expands an entity, never follows a reference; stops with a fault at nesting or single
 * pieces no log needs. Where the text is not well-formed, everything before the fault has been
 * reported and the fault names its line: truncated files are common and their first part is good.
 * Input: bytes. Output: calls of the handlers, and how the reading ended.
 */

import { SaxesParser } from 'saxes';
import type { Problem } from '../result.ts';
import { problem } from '../result.ts';
import { detectXmlEncoding } from './xml-encoding.ts';

/** Attributes by name as written, prefix included. */
export type XmlAttributes = Readonly<Record<string, string>>;

/**
 * What the caller wants to hear. Names are local names: the prefix is cut off, because loggers
 * bind prefixes badly or not at all. Lines count from 1.
 */
export interface XmlHandlers {
  /** An element begins; `line` is where its tag begins. */
  readonly open: (name: string, attributes: XmlAttributes, line: number) => void;
  /** An element ends. `text` is the text since the last tag: the whole text of an element without children. */
  readonly close: (name: string, text: string, line: number) => void;
  /** Text and CDATA as they come, between any two tags; only for a caller who copies the document. */
  readonly text?: (text: string) => void;
}

/** How the reading ended. */
export interface XmlReading {
  /** Local name of the outermost element; empty where there was none. */
  readonly root: string;
  /** The problem that stopped the reading, or null where the document was read to its end. */
  readonly fault: Problem | null;
  /** Things noticed that did not stop it: entities left alone, an odd encoding. */
  readonly problems: readonly Problem[];
}

/** Deepest nesting: the deepest element that GPX and KML define is about 12 deep. */
export const MAX_DEPTH = 100;
/** Longest single tag, text or comment, in characters; a fix needs some hundreds. */
export const MAX_PIECE_CHARS = 1 << 20;

const CHUNK_BYTES = 1 << 16;
/** The five entities of XML itself and character references; every other one stays as written. */
const OWN_ENTITY = /&(?!(?:amp|lt|gt|quot|apos|#[0-9]{1,7}|#x[0-9a-fA-F]{1,6});)/g;
/** Longest reference that OWN_ENTITY can match, so that no chunk ends inside one. */
const REFERENCE_CHARS = 10;

/**
 * Reads XML from bytes and tells the handlers what it meets.
 *
 * Fails: never throws for bad input; `fault` (severity warning, `where` naming the line) says what
 * stopped it. An exception thrown by a handler passes through.
 */
export function readXml(bytes: Uint8Array, handlers: XmlHandlers): XmlReading {
  const encoding = detectXmlEncoding(bytes);
  const reading = new Reading(handlers);
  if (encoding.doubt !== null) {
    reading.problems.push(problem('xml-encoding', 'warning', 'line 1', encoding.doubt));
  }
  const decoder = new TextDecoder(encoding.label);
  try {
    for (let at = encoding.skip; at < bytes.length; at += CHUNK_BYTES) {
      reading.write(decoder.decode(bytes.subarray(at, at + CHUNK_BYTES), { stream: true }));
    }
    reading.write(decoder.decode());
    reading.end();
  } catch (stop) {
    if (!(stop instanceof StopReading)) throw stop;
  }
  return reading.result();
}

/** Thrown inside the parser's callbacks to leave it at the first fault; never leaves this file. */
class StopReading extends Error {}

/** Prefixes are not looked up: loggers bind them badly or not at all. */
interface PlainXml {
  xmlns: false;
  position: false;
}

class Reading {
  readonly problems: Problem[] = [];
  private readonly parser = new SaxesParser<PlainXml>({ xmlns: false, position: false });
  private root = '';
  private depth = 0;
  private tagLine = 1;
  private text = '';
  private fault: Problem | null = null;
  private heldBack = '';
  private charsSinceEvent = 0;
  private started = false;
  private foreignEntities = 0;
  private readonly localNames = new Map<string, string>();

  constructor(handlers: XmlHandlers) {
    const { open, close } = handlers;
    const passText = handlers.text;
    const parser = this.parser;
    parser.on('opentagstart', () => {
      this.tagLine = parser.line;
    });
    parser.on('opentag', (tag) => {
      const name = this.localName(tag.name);
      if (this.root === '') this.root = name;
      this.charsSinceEvent = 0;
      this.depth += 1;
      if (this.depth > MAX_DEPTH) {
        this.stop(
          'xml-too-deep',
          `elements are nested more than ${MAX_DEPTH} deep; a track log needs about 12`,
        );
      }
      this.text = '';
      open(name, tag.attributes, this.tagLine);
    });
    parser.on('closetag', (tag) => {
      this.charsSinceEvent = 0;
      this.depth -= 1;
      close(this.localName(tag.name), this.text, parser.line);
      this.text = '';
    });
    const hear = (text: string) => {
      this.charsSinceEvent = 0;
      if (this.text.length + text.length > MAX_PIECE_CHARS) this.stopTooLong();
      this.text += text;
      passText?.(text);
    };
    parser.on('text', hear);
    parser.on('cdata', hear);
    parser.on('error', (error) => {
      const found = error.message.replace(/^[\d:\s]*/, '').replace(/\.$/, '');
      this.stop('xml-not-well-formed', `the XML is not well-formed here: ${found}`);
    });
  }

  write(decoded: string): void {
    let chunk = this.heldBack + decoded;
    this.heldBack = '';
    if (!this.started) {
      // White space before the declaration is a fault to the letter, and harmless.
      const trimmed = chunk.trimStart();
      this.parser.line += countNewlines(chunk.slice(0, chunk.length - trimmed.length));
      chunk = trimmed;
      if (chunk === '') return;
      this.started = true;
    }
    const lastAmpersand = chunk.lastIndexOf('&');
    if (lastAmpersand !== -1) {
      if (decoded !== '' && chunk.length - lastAmpersand < REFERENCE_CHARS) {
        this.heldBack = chunk.slice(lastAmpersand);
        chunk = chunk.slice(0, lastAmpersand);
      }
      chunk = this.leaveEntitiesAlone(chunk);
    }
    this.charsSinceEvent += chunk.length;
    this.parser.write(chunk);
    if (this.charsSinceEvent > MAX_PIECE_CHARS) this.stopTooLong();
  }

  end(): void {
    this.parser.close();
  }

  result(): XmlReading {
    if (this.foreignEntities > 0) {
      this.problems.push(
        problem(
          'xml-entities',
          'note',
          'file',
          `${this.foreignEntities} "&" or entity references beyond the five of XML were found; entities are never expanded, so they stay as written.`,
        ),
      );
    }
    return { root: this.root, fault: this.fault, problems: this.problems };
  }

  /** Escapes the ampersand of every foreign entity, so that it can neither expand nor swallow text. */
  private leaveEntitiesAlone(chunk: string): string {
    return chunk.replace(OWN_ENTITY, () => {
      this.foreignEntities += 1;
      return '&amp;';
    });
  }

  private localName(name: string): string {
    let local = this.localNames.get(name);
    if (local === undefined) {
      local = name.slice(name.lastIndexOf(':') + 1);
      // Hostile files could name each element differently; real ones use a few dozen names.
      if (this.localNames.size < 1000) this.localNames.set(name, local);
    }
    return local;
  }

  private stopTooLong(): never {
    this.stop(
      'xml-piece-too-long',
      `one tag, text or comment is longer than ${MAX_PIECE_CHARS} characters; a fix needs some hundreds`,
    );
  }

  private stop(code: string, found: string): never {
    const line = this.parser.line;
    this.fault ??= problem(
      code,
      'warning',
      `line ${line}`,
      `${found}. What stands before it was read; the rest was not.`,
    );
    throw new StopReading();
  }
}

function countNewlines(text: string): number {
  return text.split('\n').length - 1;
}
