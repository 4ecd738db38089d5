/** The streaming reader against small documents written here. */

import { describe, expect, test } from 'vitest';
import type { XmlReading } from '../../src/xml/xml-reader.ts';
import { MAX_DEPTH, readXml } from '../../src/xml/xml-reader.ts';
import { detectXmlEncoding } from '../../src/xml/xml-encoding.ts';

function read(bytes: Uint8Array): { events: string[]; reading: XmlReading } {
  const events: string[] = [];
  const reading = readXml(bytes, {
    open: (name, attributes, line) => {
      const written = Object.entries(attributes).map(([key, value]) => `${key}=${value}`);
      events.push(`${line} <${[name, ...written].join(' ')}>`);
    },
    close: (name, text, line) => events.push(`${line} </${name}> ${text.trim()}`.trim()),
  });
  return { events, reading };
}

function readText(text: string) {
  return read(new TextEncoder().encode(text));
}

function utf16(text: string, bigEndian: boolean, mark: boolean): Uint8Array {
  const marked = (mark ? '\ufeff' : '') + text;
  const units = Array.from(marked, (c) => c.charCodeAt(0));
  return Uint8Array.from(units.flatMap((u) => (bigEndian ? [u >> 8, u & 255] : [u & 255, u >> 8])));
}

describe('reading XML', () => {
  test('[XML1] tells elements, attributes, texts and the lines on which tags begin', () => {
    const { events, reading } = readText(
      '<a>\n<p:b x="1"\n  y="2">t &amp; &#65;<![CDATA[<u>]]></p:b>\n<c/></a>',
    );
    expect(events).toEqual([
      '1 <a>',
      '2 <b x=1 y=2>',
      '3 </b> t & A<u>',
      '4 <c>',
      '4 </c>',
      '4 </a>',
    ]);
    expect(reading.root).toBe('a');
    expect(reading.fault).toBeNull();
    expect(reading.problems).toEqual([]);
  });

  test('[XML2] reads the same whatever the chunks: text longer than a chunk, entities at its edge', () => {
    for (let shift = 0; shift < 12; shift++) {
      const long = `${'x'.repeat(65_536 - 3 - shift)}&amp;y&nbsp;z`;
      const { events } = readText(`<a>${long}</a>`);
      expect(events[1]).toBe(`1 </a> ${'x'.repeat(65_536 - 3 - shift)}&y&nbsp;z`);
    }
  });

  const encodings: readonly (readonly [string, Uint8Array])[] = [
    ['UTF-8', new TextEncoder().encode('<a>\u00f6</a>')],
    ['UTF-8 with byte order mark', new TextEncoder().encode('\ufeff<a>\u00f6</a>')],
    ['UTF-16 little-endian with byte order mark', utf16('<a>\u00f6</a>', false, true)],
    ['UTF-16 big-endian with byte order mark', utf16('<a>\u00f6</a>', true, true)],
    ['UTF-16 little-endian without mark', utf16('<a>\u00f6</a>', false, false)],
    ['UTF-16 big-endian without mark', utf16('<a>\u00f6</a>', true, false)],
    [
      'ISO-8859-1 by declaration',
      Uint8Array.from('<?xml version="1.0" encoding="ISO-8859-1"?><a>\u00f6</a>', (c) =>
        c.charCodeAt(0),
      ),
    ],
    [
      'windows-1251 by declaration',
      Uint8Array.from('<?xml version="1.0" encoding=\'windows-1251\'?><a>\u00f6</a>', (c) =>
        c.charCodeAt(0),
      ),
    ],
  ];
  for (const [name, bytes] of encodings) {
    test(`[XML3] reads ${name}`, () => {
      // Byte F6 is o-umlaut in Latin-1 and the Cyrillic letter tse in windows-1251.
      const letter = name.startsWith('windows') ? '\u0446' : '\u00f6';
      expect(read(bytes).events).toEqual(['1 <a>', `1 </a> ${letter}`]);
    });
  }

  test('[XML4] reads an encoding that cannot be as UTF-8 and says so', () => {
    for (const declared of ['UTF-16', 'klingon']) {
      const text = `<?xml version="1.0" encoding="${declared}"?><a/>`;
      expect(detectXmlEncoding(new TextEncoder().encode(text)).label).toBe('utf-8');
      expect(readText(text).reading.problems.map((p) => p.code)).toEqual(['xml-encoding']);
    }
  });

  test('[XML5] leaves every entity but the five of XML as written, and counts them', () => {
    const { events, reading } = readText(
      '<!DOCTYPE a [<!ENTITY e "boom"><!ENTITY f SYSTEM "file:///etc/passwd">]><a b="&e;">&f; & &lt;</a>',
    );
    expect(events).toEqual(['1 <a b=&e;>', '1 </a> &f; & <']);
    expect(reading.problems.map((p) => p.code)).toEqual(['xml-entities']);
    expect(reading.problems[0].message).toMatch(/^3 /);
  });

  test('[XML6] stops at the first fault and names its line', () => {
    const { events, reading } = readText('<a>\n<b>1</b>\n<c>\n</d>\n<b>2</b></a>');
    // The parser closes what is open on the way to a wrong end tag.
    expect(events).toEqual(['1 <a>', '2 <b>', '2 </b> 1', '3 <c>', '4 </c>']);
    expect(reading.fault?.code).toBe('xml-not-well-formed');
    expect(reading.fault?.where).toBe('line 4');
  });

  test('[XML7] reads down to the deepest allowed element and not beyond', () => {
    const nested = (depth: number) => '<x>'.repeat(depth) + '</x>'.repeat(depth);
    expect(readText(nested(MAX_DEPTH)).reading.fault).toBeNull();
    expect(readText(nested(MAX_DEPTH + 1)).reading.fault?.code).toBe('xml-too-deep');
  });

  test('[XML8] forgives blank lines before the declaration, and counts them', () => {
    const { events, reading } = readText('\n\n<?xml version="1.0"?>\n<a/>');
    expect(events).toEqual(['4 <a>', '4 </a>']);
    expect(reading.fault).toBeNull();
  });

  test('[XML9] finds a fault, not an exception, in text that is not XML', () => {
    for (const text of ['', '   ', 'hello', '<', '<a', '</a>', '<a></a><b/>', '\u0000']) {
      expect(readText(text).reading.fault?.code, text).toBe('xml-not-well-formed');
    }
  });
});
