/** `predict`, run as a pilot runs it, and its JSON against the published schema. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import Ajv2020 from 'ajv/dist/2020.js';
import { afterAll, describe, expect, test } from 'vitest';
import { UsageError } from '../../src/cli/args.ts';
import { runPredict } from '../../src/cli/commands/predict.ts';
import { UK_LEAFLET } from '../../src/performance/factor-sets/uk-leaflet.ts';
import { expectNear } from '../expect-near.ts';
import { PROJECT, runCommand, type Run } from './run-debrief.ts';
import { SAMPLE, SETTINGS, VISITS } from './sample.ts';

const FOLDER = mkdtempSync(join(tmpdir(), 'windrow-predict-'));
afterAll(() => {
  rmSync(FOLDER, { recursive: true });
});

const RECORDS = [
  ...['--strips', join(SAMPLE, 'strips.geojson')],
  ...['--aeroplane', join(SAMPLE, 'aeroplanes/marram-160.json')],
];
const DAY = [
  ...['--wind', '220/13G21', '--surface', 'grass-dry', '--temp', '18', '--qnh', '1009'],
  ...['--mass', '945', '--take-off-mass', '965'],
];

const predict = (...args: string[]): Run => runCommand('predict', [...RECORDS, ...args]);

interface Use {
  readonly plannedFrom50FtM: number;
  readonly expectedFrom50FtM: number;
  readonly plannedTo50FtM: number;
  readonly ownFrom50FtM?: number;
  readonly ownMarginM?: number;
  readonly marginM: number;
  readonly chain: { readonly planned: readonly { readonly source: string }[] };
}
interface PredictDocument {
  conditions: { wind: object; windReportedAt?: string; tempC: number; qnhHpa: number };
  caution: string;
  directions: {
    designator: string;
    declared: { ldaM: number };
    landing: Use;
    takeOff: Use;
    sensitivity: { id: string }[];
    obstaclesAhead: { name: string }[];
  }[];
}

interface WithLogs {
  readonly ownFactors: { readonly landing: number };
  readonly directions: readonly {
    readonly landing: { readonly ownFrom50FtM: number };
    readonly lengthNeeded: {
      readonly lengthM: { readonly value: number };
      readonly leftM: { readonly value: number };
      readonly today: { readonly forecastLogSd: number };
    };
  }[];
}

function schemaCheck() {
  const text = readFileSync(`${PROJECT}/docs/schema/predict.schema.json`, 'utf8');
  return new Ajv2020({ allErrors: true }).compile(JSON.parse(text) as object);
}

function documentOf(...args: string[]): PredictDocument {
  const run = predict(...args, '--json');
  expect(run.code, run.stderr).toBe(0);
  return JSON.parse(run.stdout) as PredictDocument;
}

test('[VI34] nothing is held against the lengths of a strip whose ends are a guess', () => {
  const strips = readFileSync(join(SAMPLE, 'strips.geojson'), 'utf8');
  const guessed = join(FOLDER, 'guessed.geojson');
  writeFileSync(
    guessed,
    strips.replace('"id": "ternholm",', '"id": "ternholm", "endsGuessed": true,'),
  );
  const there = ['--strips', guessed, '--strip', 'ternholm', '--direction', '25', ...DAY];
  const document = documentOf(...there, '--own-factor', '1.6', '--own-take-off-factor', '1.4');
  const check = schemaCheck();
  check(document);
  expect(check.errors).toBeNull();
  const none = { undetermined: "the strip's ends are guessed from where wheels were seen" };
  const [{ landing, takeOff }] = document.directions;
  expect(landing).toMatchObject({ marginM: none, latestTouchdownAlongM: none, ownMarginM: none });
  expect(takeOff).toMatchObject({ marginM: none, rollMarginM: none, ownMarginM: none });
  const withLogs = predict(...there, '--conditions', join(SAMPLE, 'conditions.json'), ...VISITS);
  expect(withLogs.stdout).toContain(`no length needed: ${none.undetermined}`);
  expect(withLogs.stdout).not.toContain('of the LDA');
});

describe('[CLI30] predict', () => {
  test('[CLI30] JSON alone on stdout, as the schema says, both directions', () => {
    const document = documentOf('--strip', 'ternholm', ...DAY, '--own-factor', '1.6');
    const check = schemaCheck();
    check(document);
    expect(check.errors).toBeNull();
    expect(document.directions.map(({ designator }) => designator)).toEqual(['07', '25']);
    const { landing, declared } = document.directions[1];
    expectNear(landing.ownFrom50FtM ?? NaN, 1.6 * landing.expectedFrom50FtM, 1e-9);
    expectNear(landing.marginM, declared.ldaM - landing.plannedFrom50FtM, 1e-9);
    expect(landing.ownMarginM).toBeLessThan(landing.marginM);
    const { caution, ...without } = document;
    expect(caution).toContain('flight manual');
    expect(check(without)).toBe(false);
    Object.assign(document.directions[1].landing, { plannedFrom50FtM: '584 m' });
    expect(check(document)).toBe(false);
  });

  test('[CLI31] the conditions noted for a flight give what its debrief plans with', () => {
    const flight = '2024-07-14-gusty-go-around-sedge.gpx';
    const noted = ['--conditions', join(SAMPLE, 'conditions.json'), '--flight', flight];
    const [sedge] = documentOf('--strip', 'sedge', '--direction', '20', ...noted).directions;
    const run = runCommand('debrief', [
      ...[...RECORDS, '--conditions', join(SAMPLE, 'conditions.json'), '--json'],
      join(SAMPLE, 'flights', flight),
    ]);
    const { flights } = JSON.parse(run.stdout) as {
      flights: { approaches: { direction: string; prediction: Use }[] }[];
    };
    const debriefed = flights[0].approaches.find(({ direction }) => direction === '20');
    expectNear(
      sedge.landing.plannedFrom50FtM,
      debriefed?.prediction.plannedFrom50FtM ?? NaN,
      // The document of a debrief is rounded to a tenth of a millimetre.
      1e-4,
    );
  });

  test("[CLI32] a METAR gives wind, temperature and QNH; options win over it; its wind is no strip's", () => {
    const metar = 'METAR XXDL 101630Z 20008KT 9999 15/05 Q1021';
    const args = ['--strip', 'sedge', '--direction', '20', '--metar', metar];
    const rest = ['--temp', '-2', '--surface', 'grass-dry', '--mass', '940'];
    const { conditions, directions } = documentOf(...args, ...rest);
    expect(conditions).toMatchObject({ tempC: -2, qnhHpa: 1021, windReportedAt: 'XXDL' });
    expect(directions[0].sensitivity.map(({ id }) => id)).toContain('headwind-5-more');
    const text = predict(...args, ...rest).stdout;
    expect(text).toContain("the wind is that of XXDL, which is not the strip's wind");
    expect(text).toContain('five knots more headwind');
  });

  test("[CLI33] a factor set of one's own, from a file", () => {
    const mine = structuredClone(UK_LEAFLET) as unknown as Record<string, unknown>;
    const safety = { factor: 2, source: 'Club rules, 3rd edition', reading: 'read', why: 'Twice.' };
    Object.assign(mine, { schema: 1, kind: 'factor-set', id: 'mine', name: 'club rules' });
    Object.assign(mine.landing as object, { safety });
    const file = join(FOLDER, 'mine.json');
    writeFileSync(file, JSON.stringify(mine));
    const args = ['--strip', 'sedge', '--direction', '20', ...DAY];
    const own = documentOf(...args, '--factor-set', file).directions[0].landing;
    const usual = documentOf(...args).directions[0].landing;
    expectNear(own.plannedFrom50FtM, (usual.plannedFrom50FtM * 2) / 1.43, 1e-9);
    expect(own.chain.planned.map(({ source }) => source)).toContain(
      'Club rules, 3rd edition (read)',
    );
    const unknown = predict(...args, '--factor-set', 'club');
    expect(unknown.code).toBe(1);
    expect(unknown.stderr).toContain("no factor set is called 'club'; expected one of uk-leaflet");
  });

  test('[CLI34] the text shows margins, also negative ones, working with sources, obstacles and the caution', () => {
    const run = predict(
      '--strip',
      'ternholm',
      '--surface',
      'grass-wet',
      '--wind',
      'calm',
      '--temp',
      '12',
      '--mass',
      '950',
    );
    expect(run.code, run.stderr).toBe(0);
    const text = run.stdout;
    expect(text).toMatch(/planned, from 50 ft +\d+ m +LDA 500 m +−\d+ m/);
    expect(text).toMatch(/short wet grass +× 1\.35 +whole distance +\d+ m +\[[a-z]\] Wet grass/);
    expect(text).toContain('January 2013, section 8 (from memory)');
    expect(text).toMatch(/Osier row 5 ft, \d+ m from brakes off: 50 ft are planned/);
    expect(text).toContain("The aeroplane's approved flight manual, the strip's operator");
    expect(text).not.toMatch(/✓|\b(OK|safe|fits|enough|approved to)\b/);
  });
});

describe('[CLI35] wrong usage of predict says what was found and what was expected, on stderr alone', () => {
  const SEDGE = ['--strip', 'sedge'];
  test.each([
    ['no strip', [...DAY], 'no strip was given; expected --strip with one of ternholm, sedge'],
    ['another strip', ['--strip', 'x', ...DAY], '--strip: found "x", expected one of ternholm'],
    [
      'another direction',
      [...SEDGE, '--direction', '09', ...DAY],
      '--direction: found "09", expected one of 02, 20',
    ],
    [
      'nothing entered',
      SEDGE,
      'no prediction without the wind (calm has to be said), the temperature, the mass and the surface (dry has to be said)',
    ],
    [
      'wind 500',
      [...SEDGE, ...DAY, '--wind', '240/500'],
      '--wind speedKt: found 500, expected a number from 0 to 100 kt',
    ],
    [
      'wind in words',
      [...SEDGE, ...DAY, '--wind', 'brisk'],
      '--wind: found "brisk", expected 240/12G20 (true)',
    ],
    [
      'temperature 200',
      [...SEDGE, ...DAY, '--temp', '200'],
      '--temp: found 200, expected a number from -50 to 60',
    ],
    [
      'mass 0',
      [...SEDGE, ...DAY, '--mass', '0'],
      '--mass: found 0, expected a number from 50 to 10000 kg',
    ],
    ['mass NaN', [...SEDGE, ...DAY, '--mass', 'NaN'], '--mass: found "NaN", expected a number'],
    [
      'QNH Infinity',
      [...SEDGE, ...DAY, '--qnh', 'Infinity'],
      '--qnh: found "Infinity", expected a number from 850',
    ],
    [
      'surface mud',
      [...SEDGE, ...DAY, '--surface', 'mud'],
      '--surface: found "mud", expected one of hard-dry',
    ],
    [
      'a METAR misprinted',
      [...SEDGE, '--metar', 'XXDL 101630Z 2408KT'],
      '--metar: group 2408KT: expected a wind group',
    ],
    [
      'own factor 12',
      [...SEDGE, ...DAY, '--own-factor', '12'],
      '--own-factor: found "12", expected a number from 0.3 to 5',
    ],
    [
      'a day of words',
      [...SEDGE, ...DAY, '--day', 'today'],
      '--day: found "today", expected YYYY-MM-DD',
    ],
    [
      'conditions of no such flight',
      [...SEDGE, ...DAY, '--flight', 'a.gpx'],
      'the conditions file notes nothing for "a.gpx"',
    ],
  ])('[CLI35] %s', async (_what, args, message) => {
    await expect(runPredict([...RECORDS, ...args])).rejects.toThrow(UsageError);
    await expect(runPredict([...RECORDS, ...args])).rejects.toThrow(message);
  });

  test.each([
    ['snow', ['--surface', 'snow']],
    ['28 kt from behind', ['--wind', '020/28']],
    ['90 kt from ahead', ['--wind', '200/90']],
  ])('[CLI47] code 2 where nothing could be predicted: %s', (_what, change) => {
    const run = predict('--strip', 'sedge', '--direction', '20', ...DAY, ...change);
    expect(run.stdout).toContain('no landing distances');
    expect(run.stdout).toContain('no take-off distances');
    expect(run.code).toBe(2);
  });

  test('[CLI35] with code 1', () => {
    const run = predict(...SEDGE, ...DAY, '--temp', '200');
    expect([run.code, run.stdout]).toEqual([1, '']);
    expect(run.stderr).toContain('--temp: found 200');
  });

  test('[CLI37] logs of past landings give the own factors and the length needed, before the flight', () => {
    const conditions = ['--conditions', join(SAMPLE, 'conditions.json')];
    const strip = ['--strip', 'sedge', '--direction', '20'];
    const args = [...strip, ...DAY, ...conditions, '--json', ...VISITS, 'no.gpx'];
    const run = predict(...args);
    expect(run.code).toBe(2);
    expect(run.stderr).toContain('no such file');
    const document = JSON.parse(run.stdout) as WithLogs;
    const check = schemaCheck();
    check(document);
    expect(check.errors).toBeNull();
    const [{ lengthNeeded: found }] = document.directions;
    expect(found.today.forecastLogSd).toBeGreaterThan(0.1);
    expectNear(found.leftM.value, 355 - found.lengthM.value, 1e-9, 'left of the LDA');
    expect(document.ownFactors.landing).toBeGreaterThan(0.9);
  });

  test('[CLI39] an own factor below the published rules is no permission, and one that is missing says why', () => {
    const oneLine = (...args: string[]): string => predict(...args).stdout.replace(/\s+/g, ' ');
    const small = oneLine(...SEDGE, ...DAY, '--own-factor', '1.1');
    expect(small).toContain('1.10 of the expected distance, gives less than the published rules');
    expect(small).toContain('no permission to plan shorter');
    expect(oneLine(...SEDGE, ...DAY, '--own-factor', '2.5')).toContain('plan with it');
    const conditions = ['--conditions', join(SAMPLE, 'conditions.json')];
    const wet = oneLine(...SEDGE, ...DAY, '--surface', 'grass-wet', ...conditions, ...VISITS);
    expect(wet).toMatch(/No own factor on wet ground yet: \d that count/);
    expect(wet).not.toContain('own factor, from 50 ft');
    expect(oneLine(...SEDGE, ...DAY)).not.toContain('Your own factor');
    // Sedge 20 has 355 m, the planned roll 393 m.
    expect(small).toContain('38 m before the threshold: no touchdown on the strip leaves it');
  });

  test('[CLI46] with another factor set the own factor is the one found with that set', () => {
    const conditions = ['--conditions', join(SAMPLE, 'conditions.json')];
    const strip = ['--strip', 'sedge', '--direction', '20'];
    const ownWith = (...set: string[]): { landing: number; ownM: number } => {
      const run = predict(...strip, ...DAY, ...conditions, ...set, '--json', ...VISITS);
      const { ownFactors, directions } = JSON.parse(run.stdout) as WithLogs;
      return { landing: ownFactors.landing, ownM: directions[0].landing.ownFrom50FtM };
    };
    // The leaflet with two thirds more for dry grass: it expects so much more of every landing.
    const grass = UK_LEAFLET.landing.surface['grass-dry'];
    const landing = {
      ...UK_LEAFLET.landing,
      surface: { ...UK_LEAFLET.landing.surface, 'grass-dry': { ...grass, factor: 1.92 } },
    };
    const mine = join(FOLDER, 'mine.json');
    const set = { ...UK_LEAFLET, id: 'mine', name: 'mine', landing };
    writeFileSync(mine, JSON.stringify({ schema: 1, kind: 'factor-set', ...set }));
    const calibrated = (set: string): { factor?: number; published?: number } => {
      const args = [...SETTINGS, '--json', '--factor-set', set, ...VISITS];
      const { ownFactors } = JSON.parse(runCommand('calibrate', args).stdout) as {
        ownFactors: {
          aeroplane: string;
          factors: { quantity: string; surface: string; factor?: number; published?: number }[];
        }[];
      };
      const found = ownFactors
        .find(({ aeroplane }) => aeroplane === 'marram-160')
        ?.factors.find((each) => each.quantity === 'take-off-to-50-ft' && each.surface === 'dry');
      return found ?? {};
    };
    const leaflet = ownWith();
    const other = ownWith('--factor-set', mine);
    // What was flown stays what it was in metres: the factor falls as the expected distance grows.
    expectNear(other.landing, (leaflet.landing * 1.15) / 1.92, 0.05, 'own factor');
    expectNear(other.ownM / leaflet.ownM, 1, 0.07, 'own distance');
    expect(calibrated('uk-leaflet').published).toBe(1.33);
    // CAT.POL.A.305(b).
    expect(calibrated('class-b').published).toBe(1.25);
  });

  test('[CLI38] the pilot’s own forecasts take the place of the stated 4 kt, from five on', () => {
    const flown = JSON.parse(readFileSync(join(SAMPLE, 'conditions.json'), 'utf8')) as {
      flights: Record<string, { wind?: { fromDeg: number; speedKt: number } }>;
    };
    const offBy = (speedKt: number, most: number): string => {
      const files = VISITS.map((path) => basename(path)).slice(0, most);
      const flights = Object.fromEntries(
        files.map((file) => {
          const { fromDeg, speedKt: met } = flown.flights[file].wind ?? { fromDeg: 0, speedKt: 0 };
          return [file, { wind: { fromDeg, reference: 'true', speedKt: met + speedKt } }];
        }),
      );
      const path = join(FOLDER, `forecast-${speedKt}-${most}.json`);
      writeFileSync(path, JSON.stringify({ schema: 1, kind: 'conditions', flights }));
      return path;
    };
    const conditions = ['--conditions', join(SAMPLE, 'conditions.json')];
    const strip = ['--strip', 'sedge', '--direction', '20'];
    const logSd = (...more: string[]): number => {
      const args = [...strip, ...DAY, ...conditions, '--json', ...more, ...VISITS];
      const run = predict(...args);
      expect(run.stderr).toBe('');
      const document = JSON.parse(run.stdout) as WithLogs;
      return document.directions[0].lengthNeeded.today.forecastLogSd;
    };
    const stated = logSd('--forecast', offBy(12, 4));
    // 4 kt at a touchdown of 49 kt in 12 kt of wind: 2 x 4 / 37.
    expectNear(stated, 8 / 37, 0.02, 'stated');
    expect(logSd('--forecast', offBy(1, 6))).toBeLessThan(0.7 * stated);
  });

  test('[CLI36] exit code 2 where nothing could be predicted, with the reason on stdout', () => {
    const run = predict(...SEDGE, ...DAY, '--temp', '45');
    expect(run.code).toBe(2);
    expect(run.stdout).toContain(
      "temperature 45 degrees Celsius lies outside the handbook's table",
    );
    const edge = predict(...SEDGE, ...DAY, '--temp', '45', '--nearest-edge');
    expect(edge.code).toBe(0);
    expect(edge.stdout).toMatch(/its\s+nearest edge was used, as asked/);
  });
});
