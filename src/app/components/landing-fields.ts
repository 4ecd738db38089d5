/** What the pilot says of one landing, as fields: whether the wheels touched, how hard it was braked. */
import type { TemplateResult } from 'lit';
import { ALGORITHM_VERSION } from '../../debrief/algorithm-version.ts';
import type {
  ContactCorrection,
  EffortMark,
  LandingEntry,
  VisitRecord,
} from '../../logbook/entry.ts';
import {
  contactInForce,
  landingNear,
  markEffort,
  sayContact,
} from '../../logbook/landing-entries.ts';
import type { ContactEntry } from '../../report/story/landing-entry.ts';
import { EFFORT_CHOICES, MARK_COUNTS } from '../entry/effort-choices.ts';
import { radioField, type Option } from './form-field.ts';

const WORDS: readonly Option[] = [
  { value: '', words: 'as measured' },
  { value: 'touched', words: 'the wheels touched' },
  { value: 'not-touched', words: 'did not touch' },
];

/** What a field needs beside the entry. */
interface LandingFieldParts {
  /** The record in which something of this landing stands, or the one to enter it in. */
  readonly recordWith: (holds: (landing: LandingEntry) => boolean) => VisitRecord;
  /** What the entry is kept by, UTC seconds. */
  readonly aroundS: number;
  readonly nowS: number;
  readonly save: (visit: VisitRecord) => void;
}

/** Whether the wheels touched; `as measured` takes back what was said. */
export function contactField(entry: ContactEntry, parts: LandingFieldParts): TemplateResult {
  const { recordWith, aroundS, nowS, save } = parts;
  const visit = recordWith((landing) => contactInForce(landing) !== null);
  const landing = landingNear(visit, aroundS);
  return radioField({
    id: 'own-contact',
    label: 'Did the wheels touch?',
    // Of the record: what was measured by it follows later.
    value: (landing && contactInForce(landing)?.corrected) ?? '',
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
  { recordWith, aroundS, nowS, save }: LandingFieldParts,
): TemplateResult {
  const visit = recordWith(({ effort }) => effort !== null);
  const ofFlight = visit.conditions?.effort ?? null;
  return radioField({
    id: 'own-effort',
    label: 'Braking of this landing',
    value: landingNear(visit, aroundS)?.effort?.mark ?? '',
    options: ofFlight === null ? EFFORT_CHOICES : withFlights(ofFlight),
    hint: hasRatio
      ? 'The ratio stands on the screen: a mark made now leaves no landing out of your own factor.'
      : MARK_COUNTS,
    onChoose: (value) => {
      const mark: EffortMark | null =
        value === ''
          ? null
          : { mark: value as EffortMark['mark'], markedS: nowS, ratioShown: hasRatio };
      save(markEffort(visit, aroundS, mark, nowS));
    },
  });
}

/** A landing that is not marked on its own has the mark that was entered with the conditions. */
function withFlights(ofFlight: string): readonly Option[] {
  const [none, ...marks] = EFFORT_CHOICES;
  return [{ ...none, note: `as entered with the conditions: ${ofFlight}` }, ...marks];
}
