/**
 * On which kind of ground was it, as far as landings there are alike?
 */
import type { SurfaceState } from '../weather/conditions.ts';

/** Surface as far as landings on it are alike. */
export type SurfaceClass = 'dry' | 'wet' | 'soft' | 'not known';

/** In the order they are listed. */
export const SURFACE_CLASSES: readonly SurfaceClass[] = ['dry', 'wet', 'soft', 'not known'];

/** Long grass that nobody called wet is dry; what has no published factor is never compared. */
export function surfaceClass(surface: SurfaceState | null): SurfaceClass {
  if (surface === null) return 'not known';
  if (surface === 'soft') return 'soft';
  return surface.includes('wet') ? 'wet' : 'dry';
}
