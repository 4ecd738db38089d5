/** Is a ground speed at a gate within the pilot's own limits? In, out, or cannot tell. */

/** The pilot's own limits of ground speed at one gate, m/s. */
export interface GateLimit {
  readonly heightFt: number;
  readonly lowMps: number;
  readonly highMps: number;
}

/** In, out, or cannot tell where the band straddles a limit. Speeds in m/s. */
export function judgeGate(
  { low, high }: { readonly low: number; readonly high: number },
  { lowMps, highMps }: GateLimit,
): 'in' | 'out' | 'cannot tell' {
  if (low >= lowMps && high <= highMps) return 'in';
  return high < lowMps || low > highMps ? 'out' : 'cannot tell';
}
