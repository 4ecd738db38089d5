/**
 * Writes the demo world into tracks-sample/: strips, conditions, logs, truth and the page about them.
 * Files in flights/ that no story makes any more are removed. The aeroplanes are not touched.
 */
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { flyDemo, makeDemoFiles } from '../synthetic/demo/demo-files.ts';

const folder = resolve(process.argv[2] ?? 'tracks-sample');
const files = makeDemoFiles(flyDemo());
mkdirSync(join(folder, 'flights'), { recursive: true });
for (const name of readdirSync(join(folder, 'flights'))) {
  if (!files.has(`flights/${name}`)) rmSync(join(folder, 'flights', name));
}
let bytes = 0;
for (const [name, text] of files) {
  writeFileSync(join(folder, name), text);
  bytes += Buffer.byteLength(text);
}
process.stdout.write(`${files.size} files, ${(bytes / 1e6).toFixed(2)} MB in ${folder}\n`);
