/** Notes as sentences of the page. */
import { expect, test } from 'vitest';
import { noteSentence, problemSentence } from '../../src/report/note-sentence.ts';

test('[DN1] a note begins with a capital, ends with a stop and has a true minus', () => {
  expect(noteSentence('slope: no credit is taken')).toBe('Slope: no credit is taken.');
  expect(noteSentence('Is it so?')).toBe('Is it so?');
  expect(noteSentence('(altitude -169, 12-14)')).toBe('(altitude \u2212169, 12-14).');
});

test('[DN1] a unit stays on the line of its figure, a word does not', () => {
  expect(noteSentence('no credit for slope (0.4 % downhill; 12 kt)')).toBe(
    'No credit for slope (0.4\u00a0% downhill; 12\u00a0kt).',
  );
  expect(noteSentence('23 fixes, 3 strips, 5 minutes')).toBe('23 fixes, 3 strips, 5 minutes.');
});

test('[DN1] what was found in a file has its place, unless it is the whole file', () => {
  const message = 'the track has 1 usable fix';
  const code = 'few-fixes';
  expect(problemSentence({ code, where: 'file', message })).toBe('The track has 1 usable fix.');
  expect(problemSentence({ code, where: 'line 5', message })).toBe(
    'Line 5: the track has 1 usable fix.',
  );
});

test('[DN7] a field has its name as it stands in the file', () => {
  const message = 'found -3 kg, expected a number from 1 to 6000 kg';
  expect(problemSentence({ code: 'aeroplane-field', where: 'massKg.max', message })).toBe(
    'massKg.max: found \u22123\u00a0kg, expected a number from 1 to 6000\u00a0kg.',
  );
  expect(problemSentence({ code: 'strip-property', where: 'features[3]', message: 'no' })).toBe(
    'features[3]: no.',
  );
  expect(problemSentence({ code: 'aeroplane-field', where: 'document', message: 'no' })).toBe(
    'Document: no.',
  );
});
