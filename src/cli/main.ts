/** The command line: reads arguments, runs one command, sets the exit code. */
import { readFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { debriefFile } from '../debrief/debrief.ts';
import { debriefDocument } from '../report/debrief-json.ts';
import { decodeStrips } from '../strips/decode-strips.ts';
import { EMPTY_STRIP_BOOK } from '../strips/strip.ts';

const { values, positionals } = parseArgs({
  args: process.argv.slice(3),
  options: {
    strips: { type: 'string' },
    aeroplane: { type: 'string' },
    conditions: { type: 'string' },
    json: { type: 'boolean' },
  },
  allowPositionals: true,
});
let strips = EMPTY_STRIP_BOOK;
if (values.strips) {
  const decoded = decodeStrips(await readFile(values.strips, 'utf8'));
  if (decoded.ok) strips = decoded.value;
  else console.error(decoded.problems);
}
const debriefs = [];
const unread = [];
for (const file of positionals) {
  const bytes = new Uint8Array(await readFile(file));
  const started = performance.now();
  const result = await debriefFile(bytes, file, { strips });
  if (process.env.WINDROW_TIMES) console.error(file, (performance.now() - started).toFixed(0), 'ms');
  if (result.ok) debriefs.push({ debrief: result.value, problems: result.problems });
  else unread.push({ file, problems: result.problems });
}
process.stdout.write(`${JSON.stringify(debriefDocument(debriefs, unread))}\n`);
