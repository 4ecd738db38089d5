/** Two logs of one flight on the command line: each landing counts once, in every command. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { flyDemoFile, logText, recordFlight } from '../synthetic/recorders.ts';
import { PROJECT, runCommand, runDebrief } from './run-debrief.ts';
import { FLIGHTS, parseDocument, SETTINGS, VISITS } from './sample.ts';

const STORY = '2025-09-21-last-dry-day-sedge.gpx';
const TABLET = join(PROJECT, 'tracks-sample', 'flights', STORY);
let folder = '';
let recorder = '';
let settings: string[] = [];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'windrow recorders '));
  recorder = join(folder, 'recorder.igc');
  const logged = recordFlight(flyDemoFile(STORY), {
    ...{ format: 'igc', seed: 5, intervalS: 2, fromS: 30 },
  });
  writeFileSync(recorder, logText(logged));
  // The same conditions noted for both logs: otherwise the second has nothing to be compared with.
  const noted = JSON.parse(readFileSync(`${PROJECT}/tracks-sample/conditions.json`, 'utf8')) as {
    flights: Record<string, unknown>;
  };
  noted.flights['recorder.igc'] = noted.flights[STORY];
  const conditions = join(folder, 'conditions.json');
  writeFileSync(conditions, JSON.stringify(noted));
  settings = [...SETTINGS.slice(0, -2), '--conditions', conditions];
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

const inOneLine = (text: string): string => text.replace(/\s+/g, ' ');
const NOTED = new RegExp(`also recorded by ${STORY}, which counts: `);

describe('[TWICE10] two logs of one flight', () => {
  test('change nothing in what calibrate prints, and are named on stderr', () => {
    const day = ['--day', '2025-10-01'];
    const alone = runCommand('calibrate', [...settings, ...day, ...VISITS]);
    const both = runCommand('calibrate', [...settings, ...day, ...VISITS, recorder]);
    expect(VISITS).toContain(TABLET);
    expect(both.code).toBe(0);
    expect(both.stdout).toBe(alone.stdout);
    expect(alone.stderr).not.toContain('also recorded');
    expect(inOneLine(both.stderr)).toMatch(NOTED);
    // The recorder's log by itself has landings that would have counted.
    const rest = VISITS.filter((file) => file !== TABLET);
    const other = runCommand('calibrate', [...settings, ...day, ...rest, recorder]);
    expect(other.stdout).not.toBe(runCommand('calibrate', [...settings, ...day, ...rest]).stdout);
  });

  test('are both printed by debrief, with a note, and each landing is in one factor', () => {
    const document = parseDocument(runDebrief(['--json', ...settings, TABLET, recorder]).stdout);
    const alone = parseDocument(runDebrief(['--json', ...settings, TABLET]).stdout);
    expect(document.flights).toHaveLength(2);
    expect(document).toHaveProperty(
      'ownFactors',
      (alone as unknown as { ownFactors: unknown }).ownFactors,
    );
    const [tablet, second] = document.flights;
    expect(tablet.approaches.map(({ counts }) => counts)).toEqual(
      tablet.approaches.map(() => true),
    );
    expect(second.approaches.map(({ counts }) => counts)).toEqual(
      second.approaches.map(() => false),
    );
    expect(second.approaches.length).toBeGreaterThan(0);
    expect(document.files[1].problems.map(({ message }) => message).join()).toMatch(NOTED);
    const text = inOneLine(runDebrief([...settings, TABLET, recorder]).stdout);
    expect(text).toMatch(NOTED);
    expect(text).toContain('also recorded by recorder.igc, which does not count: this log does');
  });

  test('the log with conditions counts, whatever else speaks for the other', () => {
    const noted = join(folder, 'only-recorder.json');
    const all = JSON.parse(readFileSync(settings[settings.length - 1], 'utf8')) as {
      flights: Record<string, unknown>;
    };
    writeFileSync(
      noted,
      JSON.stringify({ ...all, flights: { 'recorder.igc': all.flights[STORY] } }),
    );
    const args = [...SETTINGS.slice(0, -2), '--conditions', noted, TABLET, recorder];
    const { flights } = parseDocument(runDebrief(['--json', ...args]).stdout);
    const countingLandings = flights.map(
      ({ approaches }) =>
        approaches.filter(({ counts, ratio }) => counts && 'value' in ratio).length,
    );
    expect(countingLandings[0]).toBe(0);
    expect(countingLandings[1]).toBeGreaterThan(0);
  });

  test('teach others once, as the log that counts does alone', () => {
    const touchdowns = join(folder, 'marks.json');
    const { flights } = JSON.parse(runDebrief(['--json', ...settings, TABLET]).stdout) as {
      flights: {
        approaches: {
          outcome: string;
          touchdown: { timeS: { value: number }; alongM: { value: number } };
        }[];
      }[];
    };
    const stop = flights[0].approaches.find(({ outcome }) => outcome === 'full-stop');
    const { timeS, alongM } = stop?.touchdown ?? { timeS: { value: NaN }, alongM: { value: NaN } };
    const time = new Date(Math.round(timeS.value) * 1000).toISOString().replace('.000Z', 'Z');
    const known = [{ time, alongM: alongM.value + 8 }];
    writeFileSync(touchdowns, JSON.stringify({ schema: 1, kind: 'touchdowns', touchdowns: known }));
    const taught = FLIGHTS.filter((file) => file.includes('2024-05-12-first-visit'));
    const run = (...logs: string[]): unknown =>
      parseDocument(
        runDebrief(['--json', ...settings, '--touchdowns', touchdowns, ...taught, ...logs]).stdout,
      ).flights[0].approaches;
    const alone = run(TABLET);
    expect(JSON.stringify(alone)).toContain('one touchdown put by hand');
    expect(run(TABLET, recorder)).toEqual(alone);
    expect(run(recorder, TABLET)).toEqual(alone);
  });

  test('teach a strip as one visit, and a visit ahead nothing more', () => {
    const visits = (...logs: string[]): string =>
      runCommand('strips', [...SETTINGS.slice(0, 2), ...logs]).stdout;
    expect(visits(TABLET, recorder)).toBe(visits(TABLET));
    expect(visits(recorder)).not.toBe(visits(TABLET));
    const visit = [
      ...settings,
      '--strip',
      'sedge',
      '--flight',
      STORY,
      '--day',
      '2025-10-01',
      ...VISITS,
    ];
    const alone = runCommand('predict', visit);
    expect(alone.code).toBe(0);
    expect(runCommand('predict', [...visit, recorder]).stdout).toBe(alone.stdout);
  });
});
