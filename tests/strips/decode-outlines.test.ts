/** Drawn places, lines and areas; all positions invented. */

import { describe, expect, test } from 'vitest';
import type { OutlineFeature } from '../../src/strips/decode-outlines.ts';
import { decodeOutlines, MAX_OUTLINE_CHARS } from '../../src/strips/decode-outlines.ts';

function decode(text: string) {
  return decodeOutlines(new TextEncoder().encode(text));
}

function features(text: string): readonly OutlineFeature[] {
  const result = decode(text);
  if (!result.ok) throw new Error(result.problems.map((p) => p.message).join('\n'));
  return result.value;
}

const WAYPOINT = '<wpt lat="54.7" lon="2.3"><ele>2</ele><name>Mill &amp; mast</name></wpt>';
const ROUTE =
  '<rte><name>Low Fen</name><rtept lat="54.7" lon="2.3"/><rtept lat="54.7" lon="2.306"/></rte>';
const TRACK =
  '<trk><trkseg><trkpt lat="54.7" lon="2.3"><time>2026-06-07T10:00:00Z</time></trkpt></trkseg></trk>';

describe('outlines', () => {
  test('[OUT1] reads waypoints and routes of a GPX file and leaves recorded tracks out', () => {
    const result = decode(`<gpx xmlns:q="urn:x" q:r="1">${WAYPOINT}${TRACK}${ROUTE}</gpx>`);
    if (!result.ok) throw new Error('not read');
    expect(result.value.map((f) => [f.geometry, (f.properties as { name: string }).name])).toEqual([
      [
        {
          type: 'LineString',
          coordinates: [
            [2.3, 54.7],
            [2.306, 54.7],
          ],
        },
        'Low Fen',
      ],
      [{ type: 'Point', coordinates: [2.3, 54.7, 2] }, 'Mill & mast'],
    ]);
    expect(result.problems.map((p) => p.code)).toEqual(['outline-tracks']);
    expect(result.problems[0].message).toMatch(/^1 points/);
  });

  test('[OUT2] reads points, lines and areas of a KML file', () => {
    const kml = `<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2" xmlns:gx="urn:gx"><Document>
      <Placemark><name>Strip</name><LineString><coordinates>2.3,54.7,0 2.306,54.7,0</coordinates></LineString></Placemark>
      <Placemark><name>Village</name><Polygon><outerBoundaryIs><LinearRing><coordinates>2.3,54.7 2.31,54.7 2.31,54.71 2.3,54.7</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark>
      <Placemark><gx:Track><when>2026-06-07T10:00:00Z</when><gx:coord>2.3 54.7 1</gx:coord></gx:Track></Placemark>
      </Document></kml>`;
    expect(features(kml).map((f) => f.geometry)).toEqual([
      {
        type: 'LineString',
        coordinates: [
          [2.3, 54.7, 0],
          [2.306, 54.7, 0],
        ],
      },
      {
        type: 'Polygon',
        coordinates: [
          [
            [2.3, 54.7],
            [2.31, 54.7],
            [2.31, 54.71],
            [2.3, 54.7],
          ],
        ],
      },
    ]);
  });

  test('[OUT3] leaves out features whose position cannot be, and names them', () => {
    const kml =
      '<kml><Document><Placemark><name>Far</name><Point><coordinates>2.3,95</coordinates></Point></Placemark>' +
      '<Placemark><name>Odd</name><Point><coordinates>x,y</coordinates></Point></Placemark></Document></kml>';
    const result = decode(kml);
    expect(result.ok && result.value).toEqual([]);
    const told = result.problems.map((p) => p.message).join('\n');
    expect(told).toContain('"Far"');
    expect(told).toContain('beyond 90');
    expect(result.problems.map((p) => p.code)).toContain('no-outlines');
  });

  test('[OUT4] never expands entities', () => {
    const gpx = `<!DOCTYPE gpx [<!ENTITY a "boom"><!ENTITY b SYSTEM "file:///etc/passwd">]><gpx><wpt lat="54.7" lon="2.3"><name>&a;&b;&lt;i&gt;</name></wpt></gpx>`;
    expect((features(gpx)[0].properties as { name: string }).name).toBe('&a;&b;<i>');
  });

  test('[OUT5] reads a file of 20 MB that is all track but for one waypoint', () => {
    const tracks = TRACK.repeat(Math.ceil(20e6 / TRACK.length));
    expect(features(`<gpx>${tracks}${WAYPOINT}</gpx>`)).toHaveLength(1);
  });

  test('[OUT6] refuses more than 2 MB of anything else, at once', () => {
    const began = performance.now();
    const result = decode(`<gpx>${WAYPOINT.repeat(MAX_OUTLINE_CHARS / 50)}</gpx>`);
    expect(result.problems.map((p) => p.code)).toEqual(['outlines-too-large']);
    // Reading 2 MB takes some 100 ms; building a tree of it would take seconds.
    expect(performance.now() - began).toBeLessThan(3000);
  });

  const refused = [
    ['text', 'hello', 'not-outlines'],
    ['a web page', '<html></html>', 'not-outlines'],
    ['a cut-off file', `<gpx>${WAYPOINT}<wpt lat="5`, 'xml-not-well-formed'],
    ['endless nesting', `<gpx>${'<a>'.repeat(1e5)}`, 'xml-too-deep'],
    ['names a tree cannot take', '<gpx><a:1b/></gpx>', 'outlines-unreadable'],
  ] as const;
  for (const [name, text, code] of refused) {
    test(`[OUT7] refuses ${name} with a problem of severity error`, () => {
      const result = decode(text);
      expect(result.ok).toBe(false);
      const told = result.problems.filter((p) => p.severity === 'error').map((p) => p.code);
      expect(told).toEqual([code]);
    });
  }
});
