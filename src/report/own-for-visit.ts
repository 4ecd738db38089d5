/**
 * Which of the pilot's own factors go with a visit on this ground, and why is one missing?
 *
 * In: the aeroplane's own factors, the surface entered. Out: factors, and a sentence for each missing one.
 */
import { surfaceClass } from '../calibration/surface-class.ts';
import type { ComparedQuantity } from '../calibration/comparison.ts';
import { factorOn, type AeroplaneFactors } from '../debrief/own-factors.ts';
import type { SurfaceState } from '../weather/conditions.ts';
import { SURFACE_WORDS } from './factor-words.ts';
import type { OwnForVisit } from './pictures/visit-pictures.ts';

/** Why there is no own factor of the whole distance; null: there is one, or nothing to say. */
export interface MissingOwn {
  readonly landing: string | null;
  readonly takeOff: string | null;
}

/** Own factors on the ground of a visit. `own`: null where the logs know nothing of the aeroplane. */
export function ownForVisit(
  own: AeroplaneFactors | null,
  surface: SurfaceState | null,
): { readonly own: OwnForVisit; readonly missing: MissingOwn } {
  const ground = surfaceClass(surface);
  const factor = (quantity: ComparedQuantity): number | null => {
    const found = own && factorOn(own, quantity, ground);
    return found?.kind === 'own-factor' ? found.factor : null;
  };
  const missing = (quantity: ComparedQuantity): string | null => {
    const found = own && factorOn(own, quantity, ground);
    if (found?.kind !== 'too-few') return null;
    return `No own factor on ${SURFACE_WORDS[ground]} yet: ${found.reason}. Landings on other ground are no substitute.`;
  };
  return {
    own: {
      landingWhole: factor('landing-from-50-ft'),
      landingRoll: factor('landing-roll'),
      takeOffWhole: factor('take-off-to-50-ft'),
    },
    missing: { landing: missing('landing-from-50-ft'), takeOff: missing('take-off-to-50-ft') },
  };
}
