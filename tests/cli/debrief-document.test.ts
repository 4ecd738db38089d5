/**
 * The JSON document of `debrief --json`: valid by its schema, alone on stdout, nothing lost.
 *
 * The schema is checked by ajv, an independent validator.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { expectNear } from '../expect-near.ts';
import { PROJECT, runDebrief } from './run-debrief.ts';
import { FLIGHTS, parseDocument, SAMPLE, SETTINGS, type DebriefDocument } from './sample.ts';

const schemaText = readFileSync(join(PROJECT, 'docs/schema/debrief.schema.json'), 'utf8');
const schema = JSON.parse(schemaText) as Record<string, unknown>;
const validate = new Ajv2020({ allErrors: true, allowUnionTypes: true }).compile(schema);

let folder = '';
let document: DebriefDocument;
let text = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'windrow cli é '));
  const run = runDebrief([...SETTINGS, '--json', ...FLIGHTS]);
  expect(run.code, run.stderr).toBe(0);
  text = run.stdout;
  document = parseDocument(text);
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('[CLI1] the JSON document', () => {
  test('[CLI1] of the whole demo set is valid by docs/schema/debrief.schema.json', () => {
    expect(validate(document), JSON.stringify(validate.errors?.slice(0, 3))).toBe(true);
    expect(document.flights).toHaveLength(FLIGHTS.length);
    expect(document.flights.map(({ source }) => source.file)).toEqual(FLIGHTS);
    expect(document.files.map(({ file }) => file)).toEqual(FLIGHTS);
    const predicted = document.flights.flatMap(({ approaches }) =>
      approaches.filter(({ prediction }) => 'expectedFrom50FtM' in prediction),
    );
    expect(predicted.length).toBeGreaterThan(30);
  });

  test('[CLI1] holds no field that the schema does not describe', () => {
    // A second validator, made from the same schema, that refuses whatever is not described.
    const closed = JSON.parse(schemaText, (key, value: unknown) => {
      const isObject = typeof value === 'object' && value !== null;
      return isObject && key !== 'properties' && 'properties' in value
        ? { ...value, additionalProperties: false }
        : value;
    }) as Record<string, unknown>;
    const strict = new Ajv2020({ allErrors: true, allowUnionTypes: true }).compile(closed);
    expect(strict(document), JSON.stringify(strict.errors?.slice(0, 5))).toBe(true);
    expect(strict(JSON.parse(text.replace('"notes":', '"surplus":1,"notes":')))).toBe(false);
  });

  test('[CLI1] every field that the schema describes says what it means', () => {
    const silent: string[] = [];
    const walk = (node: unknown, path: string): void => {
      if (typeof node !== 'object' || node === null) return;
      if ('properties' in node && typeof node.properties === 'object' && node.properties !== null) {
        for (const [name, field] of Object.entries(node.properties) as [string, object][]) {
          const isTold = 'description' in field && field.description !== '';
          if (!isTold && !('$ref' in field) && !('const' in field)) silent.push(`${path}/${name}`);
        }
      }
      for (const [name, child] of Object.entries(node)) walk(child, `${path}/${name}`);
    };
    walk(schema, '');
    expect(silent).toEqual([]);
    expect(schemaText.match(/"description"/g)?.length).toBeGreaterThan(100);
  });

  test('[CLI1] the schema refuses a document that lost a fixed field or half a band', () => {
    const one = runDebrief([...SETTINGS, '--json', FLIGHTS[0]]).stdout;
    expect(validate(JSON.parse(one))).toBe(true);
    const fixed = [
      ...['schema', 'flights', 'source', 'problems', 'takeOffs', 'approaches', 'circuits', 'joins'],
      ...['windEstimate', 'file', 'format', 'sha256', 'fixes', 'usedFixes', 'medianIntervalS'],
      ...['kind', 'strip', 'direction', 'brakeRelease', 'liftOff', 'groundRollM', 'screen'],
      ...['outcome', 'thresholdCrossing', 'touchdown', 'rollEnd', 'fullStopRollM', 'stripLeftM'],
      ...['hardestBrakingRollM', 'goAround', 'gates', 'prediction', 'ratio', 'side', 'legs'],
      ...['crossM', 'aboveM', 'alongM', 'timeS', 'groundSpeedMps', 'startTimeS', 'endTimeS'],
      ...['expectedRollM', 'plannedRollM', 'expectedFrom50FtM', 'plannedFrom50FtM', 'chain'],
    ];
    for (const name of fixed) {
      expect(one, name).toContain(`"${name}":`);
      expect(validate(JSON.parse(one.replace(`"${name}":`, `"x${name}":`))), name).toBe(false);
    }
    expect(validate(JSON.parse(one.replace('"low":', '"lower":')))).toBe(false);
    expect(validate(JSON.parse(one.replace('"outcome":"', '"outcome":"un')))).toBe(false);
  });

  test('[CLI1] no band is upside down, and no number is missing or outlandish', () => {
    let bands = 0;
    JSON.parse(text, (_key, value: unknown) => {
      if (typeof value === 'object' && value !== null && 'low' in value) {
        const { low, value: middle, high } = value as Record<string, number>;
        expectNear(middle, (low + high) / 2, (high - low) / 2 + 1e-3, 'value in its band');
        bands++;
      }
      return value;
    });
    expect(bands).toBeGreaterThan(2000);
  });

  test('[CLI2] npm runs it from another folder, with paths of that folder and JSON alone on stdout', () => {
    writeFileSync(join(folder, 'a flight.gpx.gz'), gzipSync(readFileSync(FLIGHTS[0])));
    const args = ['--prefix', PROJECT, 'run', '--silent', 'debrief', '--', '--json'];
    const { status, stdout } = spawnSync('npm', [...args, 'a flight.gpx.gz'], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(status).toBe(0);
    const { flights } = parseDocument(stdout);
    expect(flights[0].source.file).toBe('a flight.gpx.gz');
    expect(flights[0].approaches.length).toBeGreaterThan(0);
  });

  test('[CLI8] conditions by file name reach their flight, and only that one; each names its aeroplane', () => {
    const [marram, eelgrass] = ['first-visit-sedge', 'microlight-to-sedge'].map((story) => {
      const flight = document.flights.find(({ source }) => source.file.includes(story));
      if (!flight) throw new Error(`no ${story}`);
      return flight;
    });
    expect(marram.aeroplane).toBe('marram-160');
    expect(eelgrass.aeroplane).toBe('eelgrass-450');
    const book = JSON.parse(readFileSync(join(SAMPLE, 'conditions.json'), 'utf8')) as {
      readonly flights: Readonly<Record<string, { readonly wind: object }>>;
    };
    for (const { source, conditions } of [marram, eelgrass]) {
      expect(conditions).toMatchObject({ wind: book.flights[basename(source.file)].wind });
    }
    // A copy under a name that the conditions do not know has none: nothing is guessed.
    const copy = join(folder, 'Flug über Schilf 1.gpx');
    writeFileSync(copy, readFileSync(FLIGHTS[1]));
    const only = join(folder, 'one.json');
    const { wind } = book.flights[basename(FLIGHTS[1])];
    const entered = { [basename(FLIGHTS[1])]: { wind, surface: 'grass-dry', tempC: 15 } };
    writeFileSync(
      only,
      `\uFEFF${JSON.stringify({ schema: 1, kind: 'conditions', flights: entered })}`,
    );
    const run = runDebrief(['--json', '--conditions', only, copy, FLIGHTS[1]]);
    const [unknown, known] = parseDocument(run.stdout).flights;
    expect(unknown.source.file).toBe(copy);
    expect(unknown.conditions).toMatchObject({
      undetermined: expect.stringContaining('entered') as string,
    });
    expect(known.conditions).toMatchObject({ surface: 'grass-dry', massKg: null, qnhHpa: null });
  });

  test('[CLI9] plain and gzipped, any name: the same measured figures', () => {
    const names = ['flight.gpx', 'flight.gpx.gz', 'no ending at all'];
    const bytes = readFileSync(FLIGHTS[1]);
    names.forEach((name, k) => {
      writeFileSync(join(folder, name), k === 1 ? gzipSync(bytes) : bytes);
    });
    const run = runDebrief(['--json', ...SETTINGS.slice(0, 2), ...names], folder);
    expect(run.code).toBe(0);
    const flights = parseDocument(run.stdout).flights;
    expect(flights).toHaveLength(3);
    // The same flight three times counts once, which is no measured figure.
    const measured = flights.map(({ approaches }) =>
      approaches.map((approach) => ({ ...approach, counts: null })),
    );
    for (const approaches of measured) expect(approaches).toEqual(measured[0]);
    const counting = flights.map(({ approaches }) => approaches.map(({ counts }) => counts));
    expect(counting.map((each) => each.every(Boolean))).toEqual([true, false, false]);
    expect(counting.flat().filter(Boolean).length).toBe(flights[0].approaches.length);
  });
});
