/** Exit codes, messages and tables of `debrief`, run as a pilot runs it. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { PROJECT, runDebrief } from './run-debrief.ts';
import { FLIGHTS, parseDocument, SAMPLE, SETTINGS } from './sample.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'windrow cli é '));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

function write(name: string, content: string | Uint8Array): string {
  const file = join(folder, name);
  writeFileSync(file, content);
  return file;
}

/** Text on one line: sentences may be broken between words. */
function flat(text: string): string {
  return text.replace(/\s+/g, ' ');
}

const STACK = /\n\s+at |ENOENT|EISDIR|Error:/;

describe('[CLI3] exit code 1: wrong usage', () => {
  test.each([
    ['an unknown option', ['--nonsense'], "'--nonsense'"],
    ['no track', [], 'no track was given'],
    ['an option without its file', ['--strips'], '--strips'],
    ['a flag with a value', ['--json=yes', 'x.gpx'], '--json'],
    [
      'a strips file that is not there',
      ['--strips', 'no.geojson', 'x.gpx'],
      'no.geojson: no such file; expected',
    ],
    [
      'a folder in place of the strips',
      ['--strips', 'src', 'x.gpx'],
      'src: this is a folder; expected',
    ],
    [
      'conditions that are not there',
      ['--conditions', 'no.json', 'x.gpx'],
      'no.json: no such file',
    ],
    ['a track in place of the strips', ['--strips', FLIGHTS[0], 'x.gpx'], 'expected GeoJSON'],
  ] as const)('[CLI3] %s is refused with what was wrong', (_what, args, words) => {
    const run = runDebrief(args);
    expect(run.code, run.stderr).toBe(1);
    expect(flat(run.stderr)).toContain(words);
    expect(run.stderr).toContain('--help');
    expect(run.stderr).not.toMatch(STACK);
    expect(run.stdout).toBe('');
  });

  test('[CLI3] an invalid strips file is refused with its name, the field, what was found and expected', () => {
    const strip = {
      type: 'Feature',
      properties: { kind: 'strip', id: 'reed', name: 'Reed', widthM: 'wide', surface: 'mud' },
      geometry: {
        type: 'LineString',
        coordinates: [
          [2.3, 54.7],
          [2.305, 54.7],
        ],
      },
    };
    const bad = write(
      'bad.geojson',
      JSON.stringify({ type: 'FeatureCollection', features: [strip] }),
    );
    const { code, stderr, stdout } = runDebrief(['--strips', bad, FLIGHTS[0]]);
    expect(code).toBe(1);
    for (const words of [
      'bad.geojson',
      '"reed"',
      'widthM',
      '"wide"',
      'expected a number',
      '"mud"',
      '"grass"',
    ]) {
      expect(flat(stderr)).toContain(words);
    }
    expect(stdout).toBe('');
  });

  test('[CLI3] invalid conditions and aeroplanes are refused with file and field', () => {
    const text = { schema: 1, kind: 'conditions', all: { surface: 'damp', massKg: -3 } };
    const conditions = write('bad conditions.json', JSON.stringify(text));
    const wrong = runDebrief(['--conditions', conditions, FLIGHTS[0]]);
    expect(wrong.code).toBe(1);
    for (const words of ['bad conditions.json', 'all.surface', '"damp"', 'all.massKg', 'kg']) {
      expect(flat(wrong.stderr)).toContain(words);
    }
    const aeroplane = write('bad aeroplane.json', '{"schema":1,"kind":"aeroplane","id":"x"}');
    const incomplete = runDebrief(['--aeroplane', aeroplane, FLIGHTS[0]]);
    expect(incomplete.code).toBe(1);
    expect(flat(incomplete.stderr)).toContain('bad aeroplane.json');
    expect(flat(incomplete.stderr)).toContain('tables');
  });

  test('[CLI3] a word that is no command, and none at all', () => {
    const launch = (...args: string[]) =>
      spawnSync(process.execPath, [join(PROJECT, 'src/cli/launch.mjs'), ...args], {
        encoding: 'utf8',
      });
    const unknown = launch('debreif');
    expect(unknown.status).toBe(1);
    expect(unknown.stderr).toContain("'debreif' is no command");
    expect(launch().status).toBe(1);
    expect(launch('--help').status).toBe(0);
  });
});

describe('[CLI3] exit code 2: a file that could not be read among others', () => {
  test('[CLI3] the others are still printed, and every unread file is listed with its reason', () => {
    const names = [
      write('letter.gpx', 'Dear pilot, the grass is long.'),
      write('empty.igc', ''),
      write(
        'noise.igc',
        Uint8Array.from({ length: 400 }, (_, k) => (k * 151) % 256),
      ),
      join(folder, 'missing.igc'),
      folder,
    ];
    const run = runDebrief(['--json', names[0], FLIGHTS[0], ...names.slice(1)]);
    expect(run.code).toBe(2);
    const document = parseDocument(run.stdout);
    expect(document.flights).toHaveLength(1);
    expect(document.files.map(({ read }) => read)).toEqual([true, ...names.map(() => false)]);
    expect(document.files.map(({ file }) => file)).toEqual([FLIGHTS[0], ...names]);
    const reasons = document.files.slice(1).map(({ problems }) => problems[0].message);
    const expected = ['expected', 'empty', 'binary', 'no such file', 'folder'];
    expected.forEach((words, k) => {
      expect(reasons[k]).toContain(words);
      expect(reasons[k]).toContain('expected');
    });
    for (const name of names) expect(run.stderr).toContain(name);
    expect(run.stderr).not.toMatch(STACK);
  });

  test('[CLI3] the same in tables: the good flight on stdout, the reason on stderr', () => {
    const run = runDebrief([join(folder, 'no such.gpx'), FLIGHTS[0]]);
    expect(run.code).toBe(2);
    expect(run.stdout).toContain('touch-and-go');
    expect(flat(run.stderr)).toContain('no such.gpx error: file: no such file; expected');
  });
});

describe('[CLI4] exit code 0', () => {
  test('[CLI4] the help names every option and exit code', () => {
    for (const args of [['--help'], ['-h'], [FLIGHTS[0], '--help']]) {
      const run = runDebrief(args);
      expect(run.code).toBe(0);
      for (const word of [
        '--strips',
        '--aeroplane',
        '--conditions',
        '--touchdowns',
        '--json',
        '0 when',
        '2 when',
        '1 for',
      ]) {
        expect(run.stdout).toContain(word);
      }
    }
  });

  test('[CLI5] a readable file without a flight is a note, not a failure', () => {
    const points = Array.from({ length: 60 }, (_, i) => {
      const time = new Date(Date.UTC(2025, 5, 1, 9, 0, i)).toISOString();
      return `<trkpt lat="54.7" lon="2.3"><ele>12</ele><time>${time}</time></trkpt>`;
    });
    const gpx = (body: string): string =>
      `<gpx version="1.1"><trk><trkseg>${body}</trkseg></trk></gpx>`;
    const parked = write('parked.gpx', gpx(points.join('')));
    const untimed = write('untimed.gpx', gpx(points.join('').replace(/<time>[^<]*<\/time>/g, '')));
    const run = runDebrief(['--json', parked, untimed]);
    expect(run.code).toBe(0);
    const { flights, files } = parseDocument(run.stdout);
    expect(flights).toHaveLength(0);
    const [still, none] = files.map(({ problems }) => problems.map((each) => each.message).join());
    expect(still).toContain('no flight');
    expect(none).toContain('Without times there is nothing to measure');
    expect(none).toContain('0 usable fixes; expected');
    expect(runDebrief([parked]).stdout).toContain('parked.gpx');
  });
});

describe('[CLI6] the tables', () => {
  test('[CLI6] name what happened, carry the caution, and show what nobody entered as missing', () => {
    const run = runDebrief(['--strips', join(SAMPLE, 'strips.geojson'), FLIGHTS[0]]);
    expect(run.code).toBe(0);
    for (const words of [
      ...['touch-and-go', 'ternholm 25', 'not for use in flight', 'nine times in ten'],
      ...["no aeroplane's handbook figures were given; no conditions were entered", 'left-hand'],
    ]) {
      expect(flat(run.stdout)).toContain(words);
    }
    expect(run.stdout).not.toMatch(/\b(calm|dry|expected|Planned|Own factors)\b/);
  });

  test('[CLI6] of the whole demo: no word of approval, no raw number, no line too wide', () => {
    const run = runDebrief([...SETTINGS, ...FLIGHTS]);
    expect(run.code).toBe(0);
    const lines = run.stdout.split('\n').filter((line) => !line.startsWith('The aeroplane'));
    const approving = /\b(safe|safely|ok|okay|good|fine|passed|approved|cleared|success)\b/i;
    expect(lines.filter((line) => approving.test(line))).toEqual([]);
    const raw = /undefined|null|NaN|Infinity|\[object|-0\b|\d\.\d{4}|✓|✔/;
    expect(lines.filter((line) => raw.test(line))).toEqual([]);
    expect(lines.filter((line) => Array.from(line).length > 165)).toEqual([]);
    expect(run.stdout).not.toMatch(/\n\n\n/);
    expect(lines.filter((line) => line.endsWith(' '))).toEqual([]);
    // A margin below zero stands there as plainly as one above.
    expect(run.stdout).toMatch(/landing +ternholm 25 +\d+ m +LDA 500 m +−\d+ m/);
    expect(run.stdout).toContain('12 May 2024');
    expect(flat(run.stdout)).toContain('That is no permission to plan shorter');
  });

  test('[CLI6] a figure entered for one flight and not another is shown for the one only', () => {
    const entered = { wind: { fromDeg: 250, reference: 'true', speedKt: 8 } };
    const flights = { '2024-05-12-first-visit-sedge.gpx': entered };
    const file = write('wind.json', JSON.stringify({ schema: 1, kind: 'conditions', flights }));
    const aeroplane = join(SAMPLE, 'aeroplanes/marram-160.json');
    const { stdout } = runDebrief([
      '--aeroplane',
      aeroplane,
      '--conditions',
      file,
      FLIGHTS[0],
      FLIGHTS[1],
    ]);
    expect(flat(stdout)).toContain('Marram 160, no prediction: no conditions were entered');
    expect(flat(stdout)).toContain(
      'wind 250° true 8 kt, surface not entered, temperature not entered, QNH not entered, mass not entered',
    );
  });

  test('[CLI7] a reader that stops early does not make it fail loudly', () => {
    const command = `"${process.execPath}" "${PROJECT}/src/cli/launch.mjs" debrief ${FLIGHTS.map((file) => `"${file}"`).join(' ')} | head -1`;
    const { stderr, stdout } = spawnSync('bash', ['-c', command], { encoding: 'utf8' });
    expect(stdout).toContain('nine times in ten');
    expect(stderr).not.toMatch(STACK);
    expect(stderr).not.toContain('EPIPE');
  });

  test('[CLI10] the logs are left as they were', () => {
    const before = readFileSync(FLIGHTS[0]);
    runDebrief([...SETTINGS, FLIGHTS[0]]);
    expect(readFileSync(FLIGHTS[0]).equals(before)).toBe(true);
  });
});
