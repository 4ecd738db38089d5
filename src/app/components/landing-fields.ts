/** What the pilot says of one landing, as fields: whether the wheels touched, how hard it was braked. */
import type { TemplateResult } from 'lit';
import { ALGORITHM_VERSION } from '../../debrief/algorithm-version.ts';
import type { ContactCorrection, EffortMark, VisitRecord } from '../../logbook/entry.ts';
import { landingNear, markEffort, sayContact } from '../../logbook/landing-entries.ts';
import type { ContactEntry } from '../../report/story/landing-entry.ts';
import { radioField, type Option } from './form-field.ts';

const WORDS: readonly Option[] = [
  { value: '', words: 'as measured' },
  { value: 'touched', words: 'the wheels touched' },
  { value: 'not-touched', words: 'did not touch' },
];

const EFFORTS: readonly Option[] = [
  { value: '', words: 'not marked' },
  { value: 'full', words: 'full', note: 'as hard as the surface allowed' },
  { value: 'normal', words: 'normal', note: 'as on any day' },
  { value: 'coasted', words: 'coasted', note: 'let it run, it could have been shorter' },
];

/** What a field needs beside the entry. */
interface LandingFieldParts {
  readonly visit: VisitRecord;
  /** What the entry is kept by, UTC seconds. */
  readonly aroundS: number;
  readonly nowS: number;
  readonly save: (visit: VisitRecord) => void;
}

/** Whether the wheels touched; `as measured` takes back what was said. */
export function contactField(entry: ContactEntry, parts: LandingFieldParts): TemplateResult {
  const { visit, aroundS, nowS, save } = parts;
  return radioField({
    id: 'own-contact',
    label: 'Did the wheels touch?',
    value: entry.said ?? '',
    options: WORDS,
    hint: entry.hint,
    onChoose: (value) => {
      const word =
        value === ''
          ? null
          : {
              measured: entry.measuredProbability,
              algorithmVersion: ALGORITHM_VERSION,
              corrected: value as ContactCorrection['corrected'],
              madeS: nowS,
            };
      save(sayContact(visit, aroundS, word, nowS));
    },
  });
}

/** How hard the landing was braked; `hasRatio`: its ratio stands on the screen. */
export function effortField(
  hasRatio: boolean,
  { visit, aroundS, nowS, save }: LandingFieldParts,
): TemplateResult {
  return radioField({
    id: 'own-effort',
    label: 'Braking of this landing',
    value: landingNear(visit, aroundS)?.effort?.mark ?? '',
    options: EFFORTS,
    hint: hasRatio
      ? 'The ratio stands on the screen: a mark made now leaves no landing out of your own factor.'
      : 'Marked before the ratio is on the screen, it may count in your own factor.',
    onChoose: (value) => {
      const mark: EffortMark | null =
        value === ''
          ? null
          : { mark: value as EffortMark['mark'], markedS: nowS, ratioShown: hasRatio };
      save(markEffort(visit, aroundS, mark, nowS));
    },
  });
}
