/** `calibrate`, run as a pilot runs it, and its JSON against the published schema. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import Ajv2020 from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { PROJECT } from './run-debrief.ts';
import { FLIGHTS, SETTINGS, VISITS } from './sample.ts';

function calibrate(...args: string[]) {
  return spawnSync(process.execPath, [`${PROJECT}/src/cli/launch.mjs`, 'calibrate', ...args], {
    cwd: PROJECT,
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
}

describe('[CLI20] calibrate', () => {
  test('[CLI20] JSON alone on stdout, as the schema says', () => {
    const { status, stdout } = calibrate(...SETTINGS, '--json', ...VISITS);
    expect(status).toBe(0);
    const schema = JSON.parse(
      readFileSync(`${PROJECT}/docs/schema/calibrate.schema.json`, 'utf8'),
    ) as object;
    const check = new Ajv2020({ allErrors: true }).compile(schema);
    const document = JSON.parse(stdout) as {
      groups?: unknown[];
      lengthsNeeded: { needed: { kind: string } }[];
    };
    check(document);
    expect(check.errors).toBeNull();
    expect(document.groups?.length).toBeGreaterThan(0);
    const kinds = document.lengthsNeeded.map(({ needed }) => needed.kind);
    expect(kinds).toContain('length-needed');
    delete document.groups;
    expect(check(document)).toBe(false);
  });

  test('[CLI22] tells length needed, why rolls differed, touchdowns and currency, with their cautions', () => {
    const { status, stdout } = calibrate(...SETTINGS, '--day', '2025-07-01', ...VISITS);
    expect(status).toBe(0);
    const text = stdout.replace(/\s+/g, ' ');
    expect(text).toMatch(/marram-160 sedge 20 2025-09-21 \d+ m \d+–\d+ \d+ m 355 m −\d+ m/);
    expect(text).toContain('1 in 20 would need more');
    expect(text).toContain('No permission to plan shorter');
    expect(text).toMatch(/Marram 160 \d+ 1\.\d\d x \d\.\d\d x \d\.\d\d/);
    expect(text).toMatch(/ternholm 25 8 \d+ m \d+–\d+ \d+ m/);
    expect(text).toContain('last landing at a kept strip 2025-06-29, 2 days ago');
    expect(text).toContain('are few the factor stands');
  });

  test('[CLI25] forecasts against what was met, in text and in JSON, with what stands in for few', () => {
    const folder = mkdtempSync(join(tmpdir(), 'windrow-forecast-'));
    const file = join(folder, 'forecasts.json');
    const conditions = JSON.parse(
      readFileSync(`${PROJECT}/tracks-sample/conditions.json`, 'utf8'),
    ) as { flights: Record<string, { wind: { speedKt: number } }> };
    const [first, second] = VISITS.map((path) => basename(path));
    const { wind } = conditions.flights[first];
    const flights = {
      [first]: { wind: { ...wind, speedKt: wind.speedKt + 4 } },
      [second]: { wind: conditions.flights[second].wind },
    };
    writeFileSync(file, JSON.stringify({ schema: 1, kind: 'conditions', flights }));
    const args = [...SETTINGS, '--forecast', file, VISITS[0], VISITS[1]];
    const { forecast } = JSON.parse(calibrate(...args, '--json').stdout) as {
      forecast: {
        sdMps: number;
        pairs: number;
        own: boolean;
        flights: { file: string; forecastMps: number; actualMps: number }[];
      };
    };
    // The second was planned with the very wind that was entered: no observation.
    expect(forecast).toMatchObject({ pairs: 1, own: false });
    expect(forecast.flights).toHaveLength(1);
    const [{ forecastMps, actualMps }] = forecast.flights;
    expect(forecastMps / actualMps).toBeCloseTo((wind.speedKt + 4) / wind.speedKt, 6);
    // A stated 4 kt stands in (one knot is 0.514444 m/s).
    expect(forecast.sdMps).toBeCloseTo(4 * 0.514444, 5);
    const text = calibrate(...args).stdout.replace(/\s+/g, ' ');
    expect(text).toContain('Wind along the strip, planned with and met');
    expect(text).toContain('1 of 5: too few');
    expect(calibrate(...SETTINGS, VISITS[0]).stdout).not.toContain('planned with and met');
  });

  test('[CLI23] a day or a zone that is none is wrong usage', () => {
    expect(calibrate('--day', '1 July', FLIGHTS[0]).stderr).toContain('expected YYYY-MM-DD');
    expect(calibrate('--time-zone', 'Doggerland', FLIGHTS[0]).stderr).toContain('--time-zone');
  });

  test('[CLI24] a factor set of the command line goes before the one of the conditions', () => {
    const args = [...SETTINGS, '--json', FLIGHTS[4]];
    const planned = (...more: string[]): unknown[] =>
      (
        JSON.parse(calibrate(...args, ...more).stdout) as {
          lengthsNeeded: { plannedFrom50FtM: unknown }[];
        }
      ).lengthsNeeded.map(({ plannedFrom50FtM }) => plannedFrom50FtM);
    const byConditions = planned();
    expect(byConditions.length).toBeGreaterThan(0);
    expect(planned('--factor-set', 'handbook-only')).not.toEqual(byConditions);
    const { status, stderr } = calibrate(...args, '--factor-set', 'mine');
    expect(status).toBe(1);
    expect(stderr).toContain('uk-leaflet, class-b, handbook-only, or a .json file');
  });

  test('[CLI20] without settings it says what is needed; an unread file gives code 2', () => {
    const { status, stdout, stderr } = calibrate(FLIGHTS[0], 'no.gpx');
    expect(status).toBe(2);
    expect(stdout).toContain('Nothing could be compared');
    expect(stdout).toContain('promises nothing');
    expect(stderr).toContain('no such file');
  });

  test('[CLI20] no track is wrong usage; the help names the exit codes', () => {
    expect(calibrate().status).toBe(1);
    expect(calibrate('--help').stdout).toContain('Exit code');
  });
});
