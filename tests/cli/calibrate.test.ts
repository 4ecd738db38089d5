/** `calibrate`, run as a pilot runs it, and its JSON against the published schema. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import Ajv2020 from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { PROJECT } from './run-debrief.ts';
import { FLIGHTS, SETTINGS } from './sample.ts';

function calibrate(...args: string[]) {
  return spawnSync(process.execPath, [`${PROJECT}/src/cli/launch.mjs`, 'calibrate', ...args], {
    cwd: PROJECT,
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
}

/** Visits of one aeroplane to short strips, enough for a length, and one of the other. */
const VISITS = FLIGHTS.filter((file) =>
  /wet-grass|uphill|three-strips|gusty-go-around|last-dry|across-the-wind/.test(file),
);

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
    expect(text).toMatch(/ternholm 25 8 \d+ m \d+ m/);
    expect(text).toContain('last landing at a kept strip 2025-06-29, 2 days ago');
    expect(text).toContain('are few the factor stands');
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
