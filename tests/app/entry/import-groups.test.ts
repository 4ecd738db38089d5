/** Which files of an import stand open. */
import { describe, expect, test } from 'vitest';
import type { ImportJob } from '../../../src/app/app-state.ts';
import { importGroups } from '../../../src/app/entry/import-groups.ts';
import type { Problem } from '../../../src/result.ts';

let number = 0;
const job = (stage: ImportJob['stage'], ...problems: Problem[]): ImportJob => ({
  ...{ number: ++number, fileName: `${number}.igc`, stage, problems },
  logId: stage === 'done' ? `log-${number}` : null,
});
const found = (severity: Problem['severity'], code = 'c'): Problem => ({
  ...{ code, severity, where: 'file', message: 'found a, expected b' },
});
const many = (count: number, make: () => ImportJob) => Array.from({ length: count }, make);

describe('[IM1] the files of an import', () => {
  test('[IM1] that went well are told by their number, what went wrong stays open', () => {
    const good = many(178, () => job('done', found('note')));
    const wrong = [job('failed', found('error')), job('done', found('warning'))];
    const { open, folded } = importGroups([...good.slice(0, 90), ...wrong, ...good.slice(90)]);
    expect(open).toEqual(wrong);
    expect(folded).toEqual([{ words: '178 files taken in', jobs: good }]);
  });

  test('[IM1] are listed one by one while they are few', () => {
    const few = [...many(4, () => job('done')), job('failed'), ...many(3, () => job('waiting'))];
    expect(importGroups(few)).toEqual({ open: few, folded: [] });
  });

  test('[IM1] that wait, were known already or were cancelled stand in groups of their own', () => {
    const running = job('measuring');
    const { open, folded } = importGroups([
      ...many(6, () => job('done', found('note', 'log-known'))),
      ...many(5, () => job('done')),
      running,
      ...many(70, () => job('waiting')),
      ...many(9, () => job('cancelled')),
    ]);
    expect(open).toEqual([running]);
    expect(folded.map(({ words }) => words)).toEqual([
      '5 files taken in',
      '6 files in the logbook already',
      '70 files waiting',
      '9 files cancelled',
    ]);
  });
});
