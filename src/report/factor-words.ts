/**
 * What does the own factor say, before all figures?
 *
 * In: a calibration. Out: the sentence of the room, the line below it, the caution beside it, and the
 * rows that say how the bound was found.
 */
import { ownFactorText, type OwnFactor, type TooFew } from '../calibration/calibrate.ts';
import type { ComparedQuantity } from '../calibration/comparison.ts';
import { commonShareOf } from '../calibration/repeated-error.ts';
import type { SurfaceClass } from '../calibration/surface-class.ts';
import { PUBLISHED_SETS } from '../performance/factor-sets/published.ts';
import { isUndetermined } from '../result.ts';
import { ratioFigure, type FigureText, type NoFigure } from './figure-text.ts';
import { inWords } from './logbook-words.ts';

/** The four distances in words. */
export const QUANTITY_WORDS: Readonly<Record<ComparedQuantity, string>> = {
  'landing-from-50-ft': 'landing distance from 50 ft',
  'landing-roll': 'landing ground roll',
  'take-off-to-50-ft': 'take-off distance to 50 ft',
  'take-off-roll': 'take-off ground roll',
};

/** The sentence. An own factor that is larger than the published one is said loudly. */
export function factorSentence(result: OwnFactor | TooFew): string {
  const what = eventName(result);
  if (result.kind === 'too-few') {
    const { counted } = result.counts;
    if (counted === 0) return `No ${what} counts yet, so there is no factor of your own.`;
    return `Too few ${what}s: ${inWords(counted)} ${counted === 1 ? 'counts' : 'count'}, no factor yet.`;
  }
  const own = ownText(result);
  const { published, verdict } = result;
  if (published === null) return `19 in 20 stay below ${own} times the expected roll.`;
  return verdict === 'exceeds-published'
    ? `Your own factor is ${own}. The published ${published} is too short for how you fly.`
    : `Your own factor is ${own}. The published ${published} stays.`;
}

/** The line below the sentence. */
export function factorMeaning(result: OwnFactor | TooFew): string {
  const { counted, upperBounds, leftOut, days } = result.counts;
  const bounds = upperBounds === 1 ? 'an upper bound' : 'upper bounds';
  const coasted = upperBounds > 0 ? `, ${upperBounds} coasted as ${bounds}` : '';
  const from = `${counted} that count on ${days} ${days === 1 ? 'day' : 'days'}${coasted}; ${leftOut} left out.`;
  if (result.kind === 'too-few') return `${from} A factor needs 5 or more on 3 or more days.`;
  const what = QUANTITY_WORDS[result.quantity];
  return `95 of 100 ${eventName(result)}s on another day should need less than ${ownText(result)} times the expected ${what}. From ${from}`;
}

/** What the factor rests on, in one sentence; null where there is none. */
export function factorRestsOn(result: OwnFactor | TooFew): string | null {
  if (result.kind === 'too-few') return null;
  const { counts, typicalRatio, spread, factor } = result;
  const { counted, days } = counts;
  const what = `${eventName(result)}s`;
  const middle = typicalRatio.value.toFixed(2);
  const within = `${Math.round(100 * (Math.exp(spread.value) - 1))} %`;
  // The same bound for a pilot whose middle and scatter were known for certain.
  const wereAllKnown = typicalRatio.value * Math.exp(Z95 * spread.value);
  const forFew = factor - wereAllKnown;
  const alike =
    commonShareOf(result.quantity) > 0 ? ', and their logs may all be wrong in the same way,' : '';
  const few =
    forFew < 0.005
      ? 'and their number adds nothing to it'
      : `and because ${counted} are few${alike} the factor stands ${forFew.toFixed(2)} higher than it otherwise would`;
  return `It rests on ${counted} ${what} on ${days} days: the middle one took ${middle} times the expected distance, two in three lie within ${within} of that, ${few}.`;
}

/** What it leans on besides, and what it would be without; null where there is nothing to lean on. */
export function factorLeansOn(result: OwnFactor | TooFew): string | null {
  if (result.kind === 'too-few') return null;
  const { counts, restsOn, alone, surface, isFloor } = result;
  const others = restsOn.counted + restsOn.upperBounds - counts.counted - counts.upperBounds;
  if (others === 0) return null;
  const what = eventName(result);
  if (isFloor) {
    return `On ${surface} ground the ${others} other ${what}s take nothing off the published factor.`;
  }
  return `It leans on ${others} other ${what}s of yours, in another aeroplane or on other ground, for how much they scatter; from its own alone it would be ${ownFactorText(alone, result.published)}.`;
}

/** Measured: docs/calibration.md, groups unlike the rest. */
export const LEANING_CAUTION =
  'Where such landings or take-offs scatter three times as much as the others, a figure that leans holds for 18 in 20 of them and not for 19.';

/** In few words, what a factor is from. */
export function factorWhy({ restsOn, counts, isFloor, surface }: OwnFactor): string {
  return isFloor
    ? `${surface} ground: leaning on other landings takes nothing off the published factor`
    : `from ${restsOn.counted} that count on ${restsOn.days} days, ${counts.counted} of them this aeroplane's on this surface`;
}

/** The kind of ground in words. */
export const SURFACE_WORDS: Readonly<Record<SurfaceClass, string>> = {
  dry: 'dry ground',
  wet: 'wet ground',
  soft: 'soft ground',
  'not known': 'ground not known',
};

/** 19 of 20 lie below so many standard deviations above the middle (normal distribution, standard tables). */
const Z95 = 1.6448536269514722;

/** The caution beside the picture: heading and text. */
export function factorCaution(result: OwnFactor | TooFew): {
  readonly head: string;
  readonly text: string;
} {
  const what = eventName(result);
  if (result.kind === 'too-few') {
    return {
      head: 'Plan with the published factors.',
      text: `Until there are enough ${what}s nothing here says anything about the next one.`,
    };
  }
  const { published, verdict } = result;
  if (published === null) {
    return { head: 'Never plan a length of strip with a roll alone.', text: ROLL_ALONE[what] };
  }
  if (verdict === 'exceeds-published') {
    return {
      head: `Plan with ${ownText(result)}, not with ${published}.`,
      text: `Your own ${what}s need more room than the published factor allows.${whoseFactor(result)}`,
    };
  }
  return {
    head: `Plan with the published ${published}.`,
    text: `Your own ${ownText(result)} is no permission to plan shorter.${whoseFactor(result)}`,
  };
}

/** Whose factor an own one is held against, where it is not the default set's. */
function whoseFactor({ factorSets }: OwnFactor): string {
  if (factorSets.every(({ id }) => id === PUBLISHED_SETS[0].id)) return '';
  const names = factorSets.map(({ name }) => name).join(' and ');
  return factorSets.length === 1
    ? ` It is held against the factor of ${names}.`
    : ` The distances were expected with ${names}; it is held against the largest factor of these.`;
}

const ROLL_ALONE = {
  landing:
    'The roll counts from wherever the wheels touch. Only the whole distance, touchdown and roll together, is held against a published factor.',
  'take-off':
    'The roll ends where the wheels leave the ground, with all of the climb still to come. Only the whole distance to 50 ft is held against a published factor.',
} as const;

/** What is counted: landings or take-offs. */
export function eventName({ quantity }: OwnFactor | TooFew): 'landing' | 'take-off' {
  return quantity.startsWith('take-off') ? 'take-off' : 'landing';
}

function ownText({ factor, published }: OwnFactor): string {
  return ownFactorText(factor, published);
}

/** What the ratio of whole landings rests on; null where nothing needs saying. */
export function factorBasis(quantity: ComparedQuantity): string | null {
  return quantity === 'landing-from-50-ft'
    ? 'Measured from 50 ft, or from the threshold where it was crossed lower; the expected distance always counts from 50 ft. Crossing the threshold low makes this ratio small without any shorter landing.'
    : null;
}

/** One row of how the bound was found. */
export interface FactorRow {
  readonly label: string;
  readonly figure: FigureText | NoFigure;
}

/** How the bound was found; empty where there is none. */
export function factorRows(result: OwnFactor | TooFew, goArounds: number): FactorRow[] {
  const lost = result.quantity.startsWith('landing')
    ? [{ label: 'go-arounds, which no ratio holds', figure: plain(String(goArounds)) }]
    : [];
  if (result.kind === 'too-few') return lost;
  const { typicalRatio, spread, dayShare, withEveryLanding, toleranceBound, alone } = result;
  const what = eventName(result);
  return [
    { label: 'middle of the ratios', figure: ratioFigure(typicalRatio) },
    {
      label: `spread from ${what} to ${what} (standard deviation of the logarithm)`,
      figure: ratioFigure(spread),
    },
    { label: 'share of it that a day has in common', figure: ratioFigure(dayShare) },
    { label: `the factor from these ${what}s alone`, figure: ratioFigure(alone) },
    { label: `the factor with every ${what} in`, figure: ratioFigure(withEveryLanding) },
    {
      label: 'one-sided tolerance bound, content 95 %, confidence 95 %',
      figure: isUndetermined(toleranceBound)
        ? { reason: toleranceBound.undetermined }
        : ratioFigure(toleranceBound),
    },
    ...lost,
  ];
}

function plain(value: string): FigureText {
  return { value, unit: '', band: '', spoken: value };
}
