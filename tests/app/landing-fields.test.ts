/** Whether the wheels touched, as a field; rule HC13 in docs/spec/page.md. */
import { expect, test } from 'vitest';
import { contactField } from '../../src/app/components/landing-fields.ts';
import { entryId, type VisitRecord } from '../../src/logbook/entry.ts';
import { makeVisit } from '../../src/logbook/make-entry.ts';
import { NOW_S, OWN } from '../logbook/invented-entries.ts';

const CHOICES = ['', 'touched', 'not-touched'] as const;
const T = NOW_S - 900;
/** As measured before anything was said: so it stands until the log is measured anew. */
const ENTRY = { measuredProbability: 0.4, hint: 'By the log a touch was 40 % likely.' };

interface Choice {
  readonly value: string;
  readonly isChosen: boolean;
  readonly choose: () => void;
}

/** The choices of the field for a record, with what each saves. */
function choicesOf(visit: VisitRecord, save: (changed: VisitRecord) => void): Choice[] {
  const field = contactField(ENTRY, { recordWith: () => visit, aroundS: T, nowS: NOW_S, save });
  const found: Choice[] = [];
  const walk = (part: unknown): void => {
    if (Array.isArray(part)) {
      part.forEach(walk);
      return;
    }
    if (typeof part !== 'object' || part === null || !('values' in part)) return;
    const { values } = part as { readonly values: readonly unknown[] };
    const choose = values.find((value) => typeof value === 'function');
    const live = values.find(
      (value): value is { readonly values: readonly [boolean] } =>
        typeof value === 'object' && value !== null && '_$litDirective$' in value,
    );
    if (choose && live) {
      const value = String(values.find((each) => CHOICES.some((known) => known === each)));
      found.push({ value, isChosen: live.values[0], choose: choose as () => void });
    } else values.forEach(walk);
  };
  walk(field);
  return found;
}

test('[HC13] the choice stands at once, before the log is measured by it, and is taken back at once', () => {
  let visit = makeVisit(entryId('visit', 'v'), null, OWN);
  const save = (changed: VisitRecord): void => void (visit = changed);
  const chosen = (): string[] =>
    choicesOf(visit, save).flatMap(({ value, isChosen }) => (isChosen ? [value] : []));
  const choose = (which: (typeof CHOICES)[number]): void =>
    choicesOf(visit, save)
      .find(({ value }) => value === which)
      ?.choose();
  expect(choicesOf(visit, save).map(({ value }) => value)).toEqual(CHOICES);
  expect(chosen()).toEqual(['']);
  choose('touched');
  expect(chosen()).toEqual(['touched']);
  choose('not-touched');
  expect(chosen()).toEqual(['not-touched']);
  choose('');
  expect(chosen()).toEqual(['']);
});
