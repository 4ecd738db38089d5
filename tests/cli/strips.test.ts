/** The command `strips`, run as a pilot runs it. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { decodeStrips } from '../../src/strips/decode-strips.ts';
import { runCommand } from './run-debrief.ts';

const STRIPS = 'tracks-sample/strips.geojson';
const TRACKS = [
  'tracks-sample/flights/2024-05-12-first-visit-sedge.gpx',
  'tracks-sample/flights/2024-05-12-home-from-sedge.igc',
];

interface Feature {
  readonly properties: Readonly<Record<string, unknown>>;
}

function featuresOf(text: string): readonly Feature[] {
  return (JSON.parse(text) as { features: readonly Feature[] }).features;
}

describe('[CLI20] the command strips', () => {
  test('[CLI20] writes a strips file: refined strips with what the rolls say, everything else as it was', () => {
    const run = runCommand('strips', ['--strips', STRIPS, '--json', ...TRACKS]);
    expect(run.code, run.stderr).toBe(0);
    const decoded = decodeStrips(run.stdout);
    if (!decoded.ok) throw new Error(decoded.problems[0].message);
    const before = featuresOf(readFileSync(STRIPS, 'utf8'));
    const after = featuresOf(run.stdout);
    const ids = (features: readonly Feature[]) =>
      features.map(({ properties }) => String(properties.id ?? properties.name)).sort();
    expect(ids(after)).toEqual(ids(before));
    const sedge = after.find(({ properties }) => properties.id === 'sedge')?.properties;
    expect(sedge?.learned).toMatchObject({ visits: 2 });
    expect(sedge?.invented).toBe(true);
    const untouched = after.find(({ properties }) => properties.id === 'mereling');
    expect(untouched).toEqual(before.find(({ properties }) => properties.id === 'mereling'));
  });

  test('[CLI20] proposes strips where none is known, in a table with the caution', () => {
    const run = runCommand('strips', TRACKS);
    expect(run.code, run.stderr).toBe(0);
    // Ternholm lies at 071 true, sedge at 023 (tracks-sample/strips.geojson); either way round.
    expect(run.stdout).toMatch(/place-1 \(proposed\) +\d+ of 2 visits +(07|25)\d\.\d°/);
    expect(run.stdout).toMatch(/place-2 \(proposed\) +\d+ of 2 visits +(02|20)\d\.\d°/);
    expect(run.stdout).toContain('An aid to debriefing');
  });

  test('[CLI20] says what is wrong with its usage', () => {
    const run = runCommand('strips', []);
    expect(run.code).toBe(1);
    expect(run.stderr).toContain('no track was given');
    expect(run.stdout).toBe('');
  });
});
