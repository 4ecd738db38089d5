/**
 * The contract of `debrief`: arguments, exit codes, JSON alone on stdout, valid by its schema.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { Ajv } from 'ajv';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { PROJECT, runDebrief } from './run-debrief.ts';

const SAMPLE = join(PROJECT, 'tracks-sample');
const FLIGHTS = readdirSync(join(SAMPLE, 'flights')).map((name) => join(SAMPLE, 'flights', name));
const SETTINGS = [
  ['--strips', join(SAMPLE, 'strips.geojson')],
  ['--aeroplane', join(SAMPLE, 'aeroplanes/marram-160.json')],
  ['--aeroplane', join(SAMPLE, 'aeroplanes/eelgrass-450.json')],
  ['--conditions', join(SAMPLE, 'conditions.json')],
].flat();

interface Document {
  readonly schema: number;
  readonly caution: string;
  readonly flights: readonly {
    readonly source: { readonly file: string };
    readonly approaches: readonly { readonly prediction: object; readonly ratio: object }[];
  }[];
  readonly files: readonly {
    readonly file: string;
    readonly read: boolean;
    readonly problems: readonly { readonly message: string }[];
  }[];
}

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'windrow cli é '));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

function parse(text: string): Document {
  return JSON.parse(text) as Document;
}

describe('[CLI1] the JSON document', () => {
  test('[CLI1] of the whole demo set is valid by docs/schema/debrief.schema.json', () => {
    const run = runDebrief([...SETTINGS, '--json', ...FLIGHTS]);
    expect(run.code).toBe(0);
    const document = parse(run.stdout);
    const schema = JSON.parse(
      readFileSync(join(PROJECT, 'docs/schema/debrief.schema.json'), 'utf8'),
    ) as object;
    const ajv = new Ajv({ allErrors: true, allowUnionTypes: true });
    const validate = ajv.compile(schema);
    expect(validate(document), JSON.stringify(validate.errors?.slice(0, 3))).toBe(true);
    expect(document.flights).toHaveLength(FLIGHTS.length);
    expect(document.flights.map(({ source }) => source.file)).toEqual(FLIGHTS);
    const predicted = document.flights.flatMap(({ approaches }) =>
      approaches.filter(({ prediction }) => 'expectedFrom50FtM' in prediction),
    );
    expect(predicted.length).toBeGreaterThan(30);
  });

  test('[CLI1] the schema refuses a document that lost a field or a band', () => {
    const schema = JSON.parse(
      readFileSync(join(PROJECT, 'docs/schema/debrief.schema.json'), 'utf8'),
    ) as object;
    const validate = new Ajv({ allowUnionTypes: true }).compile(schema);
    const text = runDebrief([...SETTINGS, '--json', FLIGHTS[0]]).stdout;
    expect(validate(JSON.parse(text))).toBe(true);
    for (const name of ['touchdown', 'circuits', 'windEstimate', 'groundRollM', 'outcome']) {
      expect(validate(JSON.parse(text.replace(`"${name}"`, `"x${name}"`))), name).toBe(false);
    }
    expect(validate(JSON.parse(text.replace('"low":', '"lower":')))).toBe(false);
  });

  test('[CLI2] npm runs it from another folder, with paths of that folder and JSON alone on stdout', () => {
    writeFileSync(join(folder, 'a flight.gpx.gz'), gzipSync(readFileSync(FLIGHTS[0])));
    const args = ['--prefix', PROJECT, 'run', '--silent', 'debrief', '--', '--json'];
    const { status, stdout } = spawnSync('npm', [...args, 'a flight.gpx.gz'], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(status).toBe(0);
    const { flights } = parse(stdout);
    expect(flights[0].source.file).toBe('a flight.gpx.gz');
    expect(flights[0].approaches.length).toBeGreaterThan(0);
  });
});

describe('[CLI3] exit codes', () => {
  test('[CLI3] 1 for wrong usage, with what was wrong', () => {
    for (const [args, words] of [
      [['--nonsense'], "'--nonsense'"],
      [[], 'no track was given'],
      [['--strips', 'nowhere.geojson', 'x.gpx'], 'nowhere.geojson: no such file'],
      [['--strips', FLIGHTS[0], 'x.gpx'], 'error'],
    ] as const) {
      const run = runDebrief(args);
      expect(run.code, run.stderr).toBe(1);
      expect(run.stderr).toContain(words);
      expect(run.stderr).not.toMatch(/\n\s+at /);
      expect(run.stdout).toBe('');
    }
  });

  test('[CLI3] 2 where a file could not be read; the others are still printed and the file is listed', () => {
    const bad = join(folder, 'letter.gpx');
    writeFileSync(bad, 'Dear pilot, the grass is long.');
    const run = runDebrief(['--json', bad, FLIGHTS[0], join(folder, 'missing.igc'), folder]);
    expect(run.code).toBe(2);
    const document = parse(run.stdout);
    expect(document.flights).toHaveLength(1);
    expect(document.files.map(({ read }) => read)).toEqual([true, false, false, false]);
    const messages = document.files.flatMap(({ problems }) => problems.map((each) => each.message));
    expect(messages.join(' | ')).toContain('IGC or GPX');
    expect(messages.join(' | ')).toContain('no such file');
    expect(messages.join(' | ')).toContain('folder');
    expect(run.stderr).toContain('letter.gpx');
  });

  test('[CLI4] 0 and the help for --help', () => {
    const run = runDebrief(['--help']);
    expect(run.code).toBe(0);
    for (const option of ['--strips', '--aeroplane', '--conditions', '--json']) {
      expect(run.stdout).toContain(option);
    }
  });

  test('[CLI5] a readable file without a flight is a note, not a failure', () => {
    const still = join(folder, 'parked.gpx');
    const points = Array.from({ length: 60 }, (_, i) => {
      const time = new Date(Date.UTC(2025, 5, 1, 9, 0, i)).toISOString();
      return `<trkpt lat="54.7" lon="2.3"><ele>12</ele><time>${time}</time></trkpt>`;
    });
    writeFileSync(still, `<gpx version="1.1"><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`);
    const run = runDebrief(['--json', still]);
    expect(run.code).toBe(0);
    const document = parse(run.stdout);
    expect(document.flights).toHaveLength(0);
    expect(document.files[0].problems.map((each) => each.message).join()).toContain('no flight');
  });
});

describe('[CLI6] the tables', () => {
  test('[CLI6] name what happened, carry the caution, and show what nobody entered as missing', () => {
    const run = runDebrief(['--strips', join(SAMPLE, 'strips.geojson'), FLIGHTS[0]]);
    expect(run.code).toBe(0);
    expect(run.stdout).toContain('touch-and-go');
    expect(run.stdout).toContain('ternholm 25');
    expect(run.stdout).toContain('not for use in flight');
    expect(run.stdout).toContain('no conditions were entered');
    expect(run.stdout).not.toMatch(/\b(safe|ok|good|approved to|cleared)\b/i);
  });

  test('[CLI7] a reader that stops early does not make it fail loudly', () => {
    const command = `"${process.execPath}" "${PROJECT}/src/cli/launch.mjs" debrief "${FLIGHTS[0]}" | head -6`;
    const { stderr, stdout } = spawnSync('bash', ['-c', command], { encoding: 'utf8' });
    expect(stdout).toContain('20 Apr 2024');
    expect(stderr).not.toContain('EPIPE');
  });
});
