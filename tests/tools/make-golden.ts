/**
 * Writes tests/golden/<sample>.expected.json for every log of tracks-sample/flights, and says what moved.
 * Files of logs that are gone are removed. A renewal is a "Results change" in docs/CHANGELOG.md.
 */
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { debriefDemo, demoContext, DEMO_FILES } from '../debrief/demo-flights.ts';
import { goldenText, summarise } from '../debrief/golden-summary.ts';

const ENDING = '.expected.json';
const folder = resolve('tests/golden');
const context = demoContext();
let moved = 0;
for (const name of readdirSync(folder).filter((each) => each.endsWith(ENDING))) {
  if (!DEMO_FILES.includes(name.slice(0, -ENDING.length))) rmSync(join(folder, name));
}
for (const file of DEMO_FILES) {
  const { flights } = await debriefDemo(file, context);
  const text = goldenText(flights.map(summarise));
  const target = join(folder, `${file}${ENDING}`);
  const before = existsSync(target) ? readFileSync(target, 'utf8') : '';
  if (text === before) continue;
  moved++;
  const known = new Set(before.split('\n'));
  const lines = text.split('\n').filter((line) => !known.has(line));
  process.stdout.write(`${[file, ...lines].join('\n')}\n`);
  writeFileSync(target, text);
}
process.stdout.write(`${moved} of ${DEMO_FILES.length} files changed\n`);
