import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { bundleEntry } from './bundle-entry.mjs';

const run = promisify(execFile);
const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'windrow-bundle-'));
const job = {
  rootFolder: folder,
  entry: 'src/cli/main.ts',
  outFolder: 'dist/cli',
  sourceFolders: ['src'],
};

beforeAll(() => {
  mkdirSync(join(folder, 'src/cli'), { recursive: true });
  writeFileSync(join(folder, 'package-lock.json'), '{}');
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
  writeFileSync(join(folder, 'src/word.ts'), "export const word: string = 'first';\n");
  writeFileSync(
    join(folder, 'src/cli/main.ts'),
    "import { word } from '../word.ts';\nconsole.log(word, process.argv.slice(2).join());\n",
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function output(program: string, ...args: string[]) {
  const { stdout } = await run(process.execPath, [program, ...args]);
  return stdout.trim();
}

test('[BLD1] bundles what Node can run, once for the same sources', async () => {
  const program = await bundleEntry(job);
  expect(await output(program, 'a', 'b')).toBe('first a,b');
  const builtAt = statSync(program).mtimeMs;
  expect(await bundleEntry(job)).toBe(program);
  expect(statSync(program).mtimeMs).toBe(builtAt);
});

test('[BLD2] bundles anew when a source or the lock file changed', async () => {
  const before = await bundleEntry(job);
  writeFileSync(join(folder, 'src/word.ts'), "export const word: string = 'third';\n");
  const after = await bundleEntry(job);
  expect(after).not.toBe(before);
  expect(await output(after)).toBe('third');
  // A process may still be running from the old one.
  expect(await output(before)).toBe('first');
  writeFileSync(join(folder, 'package-lock.json'), '{ "lockfileVersion": 3 }');
  expect(await bundleEntry(job)).not.toBe(after);
});

test('[BLD3] several at once all get a whole bundle, and leave no rubbish', async () => {
  writeFileSync(join(folder, 'src/word.ts'), "export const word: string = 'fourth';\n");
  const caller = join(folder, 'caller.mjs');
  const bundler = new URL('./bundle-entry.mjs', import.meta.url).href;
  writeFileSync(
    caller,
    `import { bundleEntry } from '${bundler}';\n` +
      `await import(await bundleEntry(${JSON.stringify(job)}));\n`,
  );
  const outputs = await Promise.all(
    [1, 2, 3].map(async () => (await run(process.execPath, [caller])).stdout.trim()),
  );
  // The build itself writes to stderr only.
  expect(outputs).toEqual(['fourth', 'fourth', 'fourth']);
  const left = readdirSync(join(folder, 'dist/cli')).filter((name) => name.includes('unfinished'));
  expect(left).toEqual([]);
});

test('[BLD4] the launcher works from any folder, keeps stdout clean and hands the exit code on', async () => {
  const project = mkdtempSync(join(tmpdir(), 'windrow-launch-'));
  try {
    for (const path of ['src/cli', 'tests/tools', 'elsewhere', 'node_modules']) {
      mkdirSync(join(project, path), { recursive: true });
    }
    for (const path of [
      'package.json',
      'tests/tools/bundle-entry.mjs',
      'tests/tools/ensure-installed.mjs',
      'src/cli/launch.mjs',
    ]) {
      copyFileSync(join(ROOT, path), join(project, path));
    }
    // Installed, as far as the launcher can see, with the one package that it needs.
    writeFileSync(join(project, 'package-lock.json'), '{}');
    const hash = createHash('sha256').update('{}').digest('hex');
    writeFileSync(join(project, 'node_modules/.installed-from'), hash);
    symlinkSync(join(ROOT, 'node_modules/vite'), join(project, 'node_modules/vite'), 'junction');
    writeFileSync(
      join(project, 'src/cli/main.ts'),
      'const folder: string = process.cwd();\n' +
        'console.log(JSON.stringify({ folder, args: process.argv.slice(2) }));\n' +
        'process.exitCode = 2;\n',
    );
    const args = ['--prefix', project, 'run', '--silent', 'debrief', '--', 'a b', '--json'];
    const failed: unknown = await run('npm', args, {
      cwd: join(project, 'elsewhere'),
      shell: process.platform === 'win32',
    }).catch((error: unknown) => error);
    expect(failed).toMatchObject({ code: 2 });
    const { stdout } = failed as { stdout: string };
    const said = JSON.parse(stdout) as { folder: string; args: string[] };
    expect(said.folder.endsWith('elsewhere')).toBe(true);
    expect(said.args).toEqual(['debrief', 'a b', '--json']);
  } finally {
    rmSync(project, { recursive: true, force: true });
  }
});
