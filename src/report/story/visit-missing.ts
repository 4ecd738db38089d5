/**
 * What must still be entered before a visit can be predicted?
 *
 * In: what was chosen and entered so far. Out: words for each thing that is missing. Nothing is
 * assumed in its place: calm and dry have to be said.
 */
import type { Conditions } from '../../weather/conditions.ts';

/** What was chosen so far; null: not chosen. */
export interface VisitChoices {
  readonly stripId: string | null;
  readonly landing: string | null;
  readonly takeOff: string | null;
  readonly aeroplaneId: string | null;
  readonly conditions: Conditions | null;
}

/** Everything that is missing, in the order in which it is asked for. */
export function missingForVisit(choices: VisitChoices): string[] {
  const { conditions } = choices;
  const lacking: readonly (readonly [boolean, string])[] = [
    [choices.stripId === null, 'the strip'],
    [
      choices.stripId !== null && choices.landing === null && choices.takeOff === null,
      'a direction to land or to take off in',
    ],
    [choices.aeroplaneId === null, 'the aeroplane'],
    [!conditions?.wind, 'the wind (calm has to be said)'],
    [typeof conditions?.tempC !== 'number', 'the temperature'],
    [typeof conditions?.massKg !== 'number', 'the mass'],
    [!conditions?.surface, 'the surface (dry has to be said)'],
  ];
  return lacking.flatMap(([isMissing, words]) => (isMissing ? [words] : []));
}

/** `the wind (calm has to be said), the mass and the surface`. */
export function listWords(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}
