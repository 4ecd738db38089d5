/**
 * Which of the pilot's own factors go with a visit on this ground, and why is one missing?
 *
 * In: the aeroplane's own factors, the surface entered, the visit's factor set. Out: factors, and a
 * sentence for each missing one. An own factor is a multiple of what one set expects: of what another
 * expects it would be the wrong one.
 */
import type { OwnFactor, TooFew } from '../calibration/calibrate.ts';
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

/** Own factors on the ground of a visit, by its factor set's id. `own`: null where the logs know nothing of the aeroplane. */
export function ownForVisit(
  own: AeroplaneFactors | null,
  surface: SurfaceState | null,
  factorSetId: string,
): { readonly own: OwnForVisit; readonly missing: MissingOwn } {
  const ground = surfaceClass(surface);
  const factor = (quantity: ComparedQuantity): number | null =>
    own && factorWith(factorOn(own, quantity, ground), factorSetId);
  const missing = (quantity: ComparedQuantity): string | null => {
    const found = own && factorOn(own, quantity, ground);
    if (!found) return null;
    if (found.kind === 'too-few') {
      return `No own factor on ${SURFACE_WORDS[ground]} yet: ${found.reason}. Landings on other ground are no substitute.`;
    }
    if (factorWith(found, factorSetId) !== null) return null;
    const sets = found.factorSets.map(({ name }) => name).join(' and ');
    return `No own factor: yours was found with ${sets}, and it multiplies what that expects, not what the factor set of this visit does.`;
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

/** The factor of what a set expects; null where there are too few, or it was found with another set. */
export function factorWith(found: OwnFactor | TooFew, factorSetId: string): number | null {
  if (found.kind === 'too-few') return null;
  return found.factorSets.every(({ id }) => id === factorSetId) ? found.factor : null;
}
