/** A straight roll or touch at a place nobody knows, in the flight's metres about its first fix. */
export interface RollLine {
  readonly eastM: number;
  readonly northM: number;
  readonly bearingRad: number;
  /** Extent along the bearing from the point. */
  readonly lengthM: number;
  /** Fix at the point. */
  readonly index: number;
  /** True for a roll or a run, false for a low stretch in which the wheels may have touched. */
  readonly rolled: boolean;
}
