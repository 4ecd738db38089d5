/** `--touchdowns`: places known from outside the log, run as a pilot runs it. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { PROJECT, runCommand, runDebrief } from './run-debrief.ts';
import { FLIGHTS, SETTINGS } from './sample.ts';

/** What these tests read of the document. */
interface Document {
  readonly flights: readonly {
    readonly approaches: readonly {
      readonly outcome: string;
      readonly touchdown: { readonly timeS: Band; readonly alongM: Band };
      readonly rollEnd: { readonly alongM: Band };
      readonly groundRollM: Band;
      readonly notes: readonly string[];
    }[];
  }[];
}

interface Band {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Its full stop truly touched at 31.0 m, 12:58:44 UTC (truth.json). */
const MARKED = logOf('2024-07-14-gusty-go-around-sedge');
/** Others of the same aeroplane, and one of another. */
const TAUGHT = [logOf('2024-05-12-first-visit-sedge'), logOf('2024-07-14-gusty-home-straight-in')];
const OTHER = logOf('2024-06-16-microlight-to-sedge');
const LOGS = [...TAUGHT, MARKED, OTHER];
const MARK = { time: '2024-07-14T12:58:50Z', alongM: 31 };
const TAUGHT_NOTE =
  'one touchdown put by hand in other logs of this aeroplane helped to measure this one';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'windrow touchdowns '));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

function logOf(story: string): string {
  const found = FLIGHTS.find((file) => file.includes(story));
  if (found === undefined) throw new Error(`no ${story}`);
  return found;
}

/** The option with a file that holds these touchdowns. */
function known(touchdowns: unknown): string[] {
  const file = join(folder, 'marks.json');
  writeFileSync(file, JSON.stringify({ schema: 1, kind: 'touchdowns', touchdowns }));
  return ['--touchdowns', file];
}

/** Text on one line: sentences may be broken between words. */
function flat(text: string): string {
  return text.replace(/\s+/g, ' ');
}

function read(args: readonly string[]): Document {
  const run = runDebrief([...SETTINGS, '--json', ...args]);
  expect(run.code, run.stderr).toBe(0);
  return JSON.parse(run.stdout) as Document;
}

describe('[CLI40] debrief --touchdowns', () => {
  test('[CLI40] puts the touchdown there, says what was measured, and teaches the other logs of the aeroplane', () => {
    const before = read(LOGS).flights;
    const run = runDebrief([...SETTINGS, ...known([MARK]), '--json', ...LOGS]);
    expect(run.code).toBe(0);
    expect(run.stderr).toBe('');
    const schema = readFileSync(join(PROJECT, 'docs/schema/debrief.schema.json'), 'utf8');
    const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true });
    const validate = ajv.compile(JSON.parse(schema) as object);
    validate(JSON.parse(run.stdout));
    expect(validate.errors).toBeNull();
    const after = (JSON.parse(run.stdout) as Document).flights;

    const [was, now] = [before[2], after[2]].map(({ approaches }) => approaches[1]);
    expect(now.touchdown.alongM).toEqual({ value: 31, low: 31, high: 31 });
    expect(was.touchdown.alongM.value).not.toBe(31);
    // The file's time only names the landing: the track says when 31 m were passed.
    const earlierS = was.touchdown.timeS.value - now.touchdown.timeS.value;
    const flownM = was.touchdown.alongM.value - 31;
    expect(flownM / earlierS).toBeGreaterThan(15);
    expect(flownM / earlierS).toBeLessThan(22);
    expect(now.groundRollM.value).toBeCloseTo(was.rollEnd.alongM.value - 31, 3);
    const { value, low, high } = was.touchdown.alongM;
    // A band that begins before the threshold is written with "to": a dash would look like a minus.
    const begins = Math.floor(low);
    const from = begins < 0 ? `−${-begins} to ` : `${begins}–`;
    expect(now.notes[0]).toBe(
      `touchdown put by hand 31 m from the threshold; measured ${value.toFixed(0)} m ${from}${Math.ceil(high)}`,
    );
    // The pass before it in the same log stays as measured.
    expect(after[2].approaches[0]).toEqual(before[2].approaches[0]);

    for (const k of [0, 1]) {
      const [alone, taught] = [before[k], after[k]].map(({ approaches }) => approaches.at(-1));
      expect(taught?.notes).toContain(TAUGHT_NOTE);
      expect(taught?.touchdown).not.toEqual(alone?.touchdown);
    }
    expect(after[3]).toEqual(before[3]);
  });

  test('[CLI40] two logs that teach do not teach each other', () => {
    const home = { time: '2024-07-14T15:11:27Z', alongM: 32.4 };
    const both = read([...known([MARK, home]), ...LOGS]).flights;
    const alone = read([...known([MARK]), MARKED]).flights;
    expect(both[2]).toEqual(alone[0]);
    const notes = both.map(({ approaches }) => approaches.flatMap((each) => each.notes).join());
    expect(notes[0]).toContain('2 touchdowns put by hand in other logs');
    expect(notes[1]).toContain('touchdown put by hand 32 m');
    expect(notes[1]).not.toContain('helped to measure');
  });

  test('[CLI40] the tables say the same, an exact place without a band', () => {
    const run = runDebrief([...SETTINGS, ...known([MARK]), MARKED]);
    expect(flat(run.stdout)).toMatch(/12:58:44 full stop sedge 20 31 m \d+ m \d+–\d+ stopped/);
    expect(flat(run.stdout)).toMatch(
      /note: 12:58:44 touchdown put by hand 31 m from the threshold; measured \d+ m (−\d+ to |\d+–)\d+/,
    );
  });

  test('[CLI41] a file that names no touchdown changes not a byte', () => {
    for (const format of [[], ['--json']]) {
      const without = runDebrief([...SETTINGS, ...format, ...LOGS]);
      expect(without.stdout.length).toBeGreaterThan(1000);
      expect(runDebrief([...SETTINGS, ...known([]), ...format, ...LOGS])).toEqual(without);
    }
  });
});

describe('[CLI42] an entry that cannot serve is warned of, and the exit code stays', () => {
  test.each([
    [
      'no landing near its time',
      [{ ...MARK, time: '2024-07-14T13:58:50Z', note: 'by the gate' }],
      '2024-07-14T13:58:50Z: not used: found no landing at a kept strip within 30 s of it in these logs (by the gate)',
    ],
    [
      'a second mark for the same landing',
      [MARK, { time: '2024-07-14T12:58:20Z', alongM: 40 }],
      '2024-07-14T12:58:20Z: not used: another touchdown of the file is nearer to that landing',
    ],
    [
      'a place behind the end of the roll',
      [{ ...MARK, alongM: 300 }],
      '2024-07-14T12:58:50Z: not used: that landing did not pass 300 m from the threshold before its roll ended',
    ],
    [
      'a place that the log all but rules out',
      [{ ...MARK, alongM: 200 }],
      'gusty-go-around-sedge.gpx: 1 of 1 put there by hand teach nothing: the log all but rules the place out',
    ],
  ])('[CLI42] %s', (_what, touchdowns, words) => {
    const run = runDebrief([...SETTINGS, ...known(touchdowns), MARKED, OTHER]);
    expect(run.code).toBe(0);
    expect(flat(run.stderr)).toContain('marks.json warning: ');
    expect(flat(run.stderr)).toContain(words);
    expect(run.stdout).toContain('full stop');
  });

  test('[CLI42] an aeroplane that nobody named: the place stands, and no other log is taught', () => {
    const [option, strips] = SETTINGS;
    const run = runDebrief([option, strips, ...known([MARK]), ...LOGS]);
    expect(run.code).toBe(0);
    expect(flat(run.stderr)).toContain(
      "teaches no other log: no aeroplane's handbook figures were given",
    );
    expect(flat(run.stdout)).toContain('touchdown put by hand 31 m');
    expect(flat(run.stdout)).not.toContain('helped to measure');
    // With one log alone there is nobody to teach.
    expect(runDebrief([option, strips, ...known([MARK]), MARKED]).stderr).toBe('');
  });

  test('[CLI3] a touchdowns file that is wrong or missing is refused with file and field', () => {
    const wrong = runDebrief([...SETTINGS, ...known([{ ...MARK, alongM: '31 m' }]), MARKED]);
    expect(wrong.code).toBe(1);
    expect(wrong.stdout).toBe('');
    for (const words of ['marks.json', 'touchdowns.0.alongM', '"31 m"', 'expected a number']) {
      expect(flat(wrong.stderr)).toContain(words);
    }
    const missing = runDebrief(['--touchdowns', 'no.json', MARKED]);
    expect(missing.code).toBe(1);
    expect(flat(missing.stderr)).toContain('no.json: no such file');
  });
});

describe('[CLI43] calibrate --touchdowns', () => {
  test('[CLI43] counts the landing from where the wheels touched', () => {
    const calibrate = (...args: string[]) => {
      const run = runCommand('calibrate', [...SETTINGS, '--day', '2025-01-01', '--json', ...args]);
      expect(run.code, run.stderr).toBe(0);
      const { rollSplits } = JSON.parse(run.stdout) as {
        readonly rollSplits: readonly { readonly ratio: number }[];
      };
      return rollSplits[0].ratio;
    };
    const [was] = read([MARKED]).flights;
    const { groundRollM, rollEnd } = was.approaches[1];
    const bare = calibrate(MARKED);
    expect(bare).toBeGreaterThan(0.5);
    expect(calibrate(...known([]), MARKED)).toBe(bare);
    // The ratio of the one landing grows as its roll does.
    const longer = (rollEnd.alongM.value - 31) / groundRollM.value;
    expect(longer).toBeGreaterThan(1.02);
    expect(calibrate(...known([MARK]), MARKED) / bare).toBeCloseTo(longer, 4);
  });

  test('[CLI43] its help names the option', () => {
    expect(runCommand('calibrate', ['--help']).stdout).toContain('--touchdowns FILE');
  });
});
