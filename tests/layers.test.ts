/**
 * The house: which floor may import which, and how files are kept.
 */

import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ESLint } from 'eslint';
import { afterAll, describe, expect, test } from 'vitest';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const CRUISER = join(ROOT, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
const CONFIG = join(ROOT, 'tests/layers.dependency-cruiser.cjs');
/** The limit of a source file, lines. */
const LONGEST_FILE = 300;

interface Cruise {
  readonly summary: {
    readonly totalCruised: number;
    readonly violations: readonly {
      readonly from: string;
      readonly to: string;
      readonly rule: { readonly name: string };
    }[];
  };
}

/** Imports of the src folder in `folder`, and the rules that they break. */
function cruise(folder: string): Cruise['summary'] {
  const args = [CRUISER, '--config', CONFIG, '--output-type', 'json', 'src'];
  const json = execFileSync(process.execPath, args, {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 1e9,
  });
  return (JSON.parse(json) as Cruise).summary;
}

function filesUnder(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(ROOT.length));
}

const sources = filesUnder('src').filter((file) => /\.(ts|mjs)$/.test(file));

describe('imports', () => {
  test('[HOUSE1] point down only, without cycles', () => {
    const { totalCruised, violations } = cruise(ROOT);
    expect(violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`)).toEqual([]);
    // Without a TypeScript that it knows, the tool reads no file and finds no fault.
    const written = sources.filter((file) => !file.endsWith('.d.ts')).length;
    expect(written).toBeGreaterThan(30);
    expect(totalCruised).toBeGreaterThanOrEqual(written);
  });

  describe('that break a rule', () => {
    const folder = mkdtempSync(join(tmpdir(), 'windrow-layers-'));
    afterAll(() => rmSync(folder, { recursive: true, force: true }));
    const put = (path: string, text: string) => {
      mkdirSync(join(folder, dirname(path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    };
    put('tsconfig.json', readFileSync(join(ROOT, 'tsconfig.json'), 'utf8'));
    put('package.json', '{ "type": "module", "devDependencies": { "fast-check": "4" } }');
    put('node_modules/fast-check/package.json', '{ "main": "index.js", "version": "4.0.0" }');
    put('node_modules/fast-check/index.js', 'export {};');
    put('tests/fake.ts', 'export const fake = 1;');
    const value = (name: string, from: string) =>
      `import { ${name} } from '${from}';\nexport const mine = ${name};\n`;
    put('src/result.ts', 'export const result = 1;');
    put('src/geo/good.ts', value('result', '../result.ts'));
    put('src/geo/up.ts', value('mine', '../track/one.ts'));
    put('src/track/one.ts', 'export const mine = 1;\nexport interface Kind { a: 1 }\n');
    put(
      'src/strips/sideways.ts',
      "import type { Kind } from '../track/one.ts';\nexport type Mine = Kind;\n",
    );
    put('src/events/pair.ts', value('mine', '../performance/one.ts'));
    put('src/performance/one.ts', 'export const mine = 1;');
    put('src/debrief/a.ts', value('mine', './b.ts'));
    put('src/debrief/b.ts', "import { mine } from './a.ts';\nexport { mine };\n");
    put('src/report/disk.ts', value('readFileSync', 'node:fs'));
    put('src/calibration/dev.ts', value('fake', 'fast-check'));
    put('src/calibration/test.ts', value('fake', '../../tests/fake.ts'));
    put('src/calibration/lost.ts', value('mine', './nowhere.ts'));
    put('src/attic/box.ts', 'export const mine = 1;');
    put('src/app/main.ts', value('mine', '../cli/main.ts'));
    put('src/cli/main.ts', value('mine', '../attic/box.ts'));

    const found = () => cruise(folder).violations.map(({ rule, from }) => `${rule.name}: ${from}`);

    test('[HOUSE2] are all reported, and the good ones not', () => {
      expect(found().sort()).toEqual(
        [
          'app-stands-apart: src/app/main.ts',
          'events-stands-apart: src/events/pair.ts',
          'floor-0-imports-down: src/geo/up.ts',
          'no-cycle: src/debrief/a.ts',
          'nothing-missing: src/calibration/lost.ts',
          'nothing-outside-src: src/calibration/test.ts',
          'only-known-rooms: src/cli/main.ts',
          'only-what-users-install: src/calibration/dev.ts',
          'pure-below-the-top: src/report/disk.ts',
          'strips-stands-apart: src/strips/sideways.ts',
        ].sort(),
      );
    });
  });

  test('[HOUSE3] the linter keeps the page, the clock and chance out below the top floor', async () => {
    const eslint = new ESLint({ cwd: ROOT });
    const rulesFor = async (file: string) => {
      const config = (await eslint.calculateConfigForFile(join(ROOT, file))) as {
        rules: Record<string, unknown[]>;
      };
      const names = ['no-restricted-globals', 'no-restricted-syntax', 'no-restricted-properties'];
      return JSON.stringify(names.map((name) => config.rules[name] ?? []))
        .replaceAll('"object":"Date","property":"now"', 'Date.now')
        .replaceAll('"object":"Math","property":"random"', 'Math.random');
    };
    for (const word of ['document', 'fetch', 'Date.now', 'Math.random']) {
      expect(await rulesFor('src/events/touchdown.ts')).toContain(word);
    }
    expect(await rulesFor('src/app/main.ts')).not.toContain('document');
  });
});

describe('files', () => {
  test('[HOUSE4] of src stay under 300 lines', () => {
    const long = sources
      .map((file) => [file, readFileSync(join(ROOT, file), 'utf8').split('\n').length - 1] as const)
      .filter(([, lines]) => lines > LONGEST_FILE);
    expect(long).toEqual([]);
  });

  test('[HOUSE5] have names that say what they hold', () => {
    const vague = /^(utils?|helpers?|common|misc|shared|managers?|services?)([.-]|$)/;
    const all = [...sources, ...filesUnder('tests')];
    const parts = (file: string) => file.split('/').slice(1);
    expect(all.filter((file) => parts(file).some((part) => vague.test(part)))).toEqual([]);
    const kebab = /^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9-]+)*\.(ts|mjs)$/;
    expect(sources.filter((file) => !kebab.test(basename(file)))).toEqual([]);
  });

  test('[HOUSE6] are named exports: no default export, no barrel', () => {
    const guilty = sources.filter((file) => {
      const text = readFileSync(join(ROOT, file), 'utf8');
      return !file.endsWith('.d.ts') && /^export (default|\*)/m.test(text);
    });
    expect(guilty).toEqual([]);
  });

  test('[HOUSE7] begin with a comment that says what they answer', () => {
    const written = sources.filter((file) => !file.endsWith('.d.ts'));
    const bare = written.filter(
      (file) => !/^\/\*\*\s/.test(readFileSync(join(ROOT, file), 'utf8')),
    );
    expect(bare).toEqual([]);
  });

  test("[HOUSE8] name no folder of somebody's machine and no package registry", () => {
    // Put together here, so that this file does not find itself.
    const words = ['ho' + 'me', 'Us' + 'ers', 'wo' + 'rk', 'ro' + 'ot', 'tm' + 'p']
      .map((folder) => `/${folder}/`)
      .concat('registry' + '.');
    const top = readdirSync(ROOT, { withFileTypes: true }).filter((entry) => entry.isFile());
    const places = top
      .map((entry) => entry.name)
      .concat(['src', 'tests', 'docs', 'tracks-sample'].flatMap(filesUnder));
    const texts = places.filter((file) =>
      /\.(md|ts|js|mjs|cjs|json|css|html|gpx|igc)$/i.test(file),
    );
    expect(texts.length).toBeGreaterThan(60);
    const found = texts.flatMap((file) => {
      const text = readFileSync(join(ROOT, file), 'utf8');
      return words.filter((word) => text.includes(word)).map((word) => `${file}: ${word}`);
    });
    expect(found).toEqual([]);
  });
});
