/** The table of a visit's distances: which cells and columns it has. */
import { expect, test } from 'vitest';
import { figuresTable } from '../../src/app/components/visit-tables.ts';
import type { VisitFigure } from '../../src/report/story/visit-figures.ts';
import { templateText } from '../drawings/template-text.ts';

const METRES = { value: '382', unit: 'm', band: '', spoken: '382 metres' };
const KNOWN: VisitFigure = {
  ...{ kind: 'expected', label: 'expected, from 50 ft', figure: METRES },
  ...{ of: 'LDA 500 m', left: { ...METRES, value: '118' }, isShort: false },
};
const columnsOf = (...rows: VisitFigure[]): string[] =>
  Array.from(
    templateText(figuresTable(rows, 'In')).matchAll(/<th scope="col">(\w+)/g),
    ([, name]) => name,
  );

test('[VI34] where the ends are a guess there is no column for what is left', () => {
  expect(columnsOf(KNOWN)).toEqual(['distance', 'needed', 'of', 'left']);
  expect(columnsOf({ ...KNOWN, left: null })).toEqual(['distance', 'needed', 'of']);
});

test('[PG86] a reason in place of a figure has the whole row', () => {
  const none: VisitFigure = { ...KNOWN, figure: { reason: 'no table' }, left: null };
  const rows = templateText(figuresTable([KNOWN, none], 'In'))
    .split('<tr')
    .slice(2);
  expect(rows.map((row) => row.match(/<td/g)?.length)).toEqual([3, 1]);
  expect(rows[1]).toContain('colspan="3"');
  expect(templateText(figuresTable([none], 'In'))).toContain('colspan="2"');
});
