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

describe('[CLI20] calibrate', () => {
  test('[CLI20] JSON alone on stdout, as the schema says', () => {
    const { status, stdout } = calibrate(...SETTINGS, '--json', ...FLIGHTS.slice(0, 9));
    expect(status).toBe(0);
    const schema = JSON.parse(
      readFileSync(`${PROJECT}/docs/schema/calibrate.schema.json`, 'utf8'),
    ) as object;
    const check = new Ajv2020({ allErrors: true }).compile(schema);
    const document = JSON.parse(stdout) as { groups?: unknown[] };
    check(document);
    expect(check.errors).toBeNull();
    expect(document.groups?.length).toBeGreaterThan(0);
    delete document.groups;
    expect(check(document)).toBe(false);
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
