/**
 * What the strip ruler shows: the strip on its tape with everything that was measured or expected
 * there. One shape for a landing, a pass, a take-off and what the data cannot tell.
 *
 * Lengths are alongM, metres from the landing threshold.
 */
import type { FigureText } from '../figure-text.ts';
import type { Passes } from './passes.ts';
import type { Picture } from './picture.ts';
import type { StripGround } from './strip-ground.ts';

/** A place under the tape with its bracket and its words. */
export interface PlaceMark {
  readonly kind:
    'touchdown' | 'stop' | 'roll-end' | 'lift-off' | 'brake-release' | 'lowest' | 'screen';
  readonly atM: number;
  /** The bracket of 90 %. */
  readonly lowM: number;
  readonly highM: number;
  /** `touchdown`, `stopped`, `power opened`... */
  readonly label: string;
  readonly figure: FigureText;
  /** Where it was measured, alongM, when it was put here by hand; absent: as measured. */
  readonly wasM?: number;
}

/** A predicted roll, hung from the touchdown or from brake release. */
export interface Rod {
  readonly kind: 'expected' | 'planned' | 'own';
  readonly fromM: number;
  readonly toM: number;
  /** `expected`, `planned`, `own factor`. */
  readonly label: string;
  readonly figure: FigureText;
  /** `54 m left`, or `12 m too long`. */
  readonly leftText: string;
  readonly isTooLong: boolean;
}

/** The latest touchdown point, in the colour of the roll it comes from. */
export interface Rope {
  readonly of: 'planned' | 'own';
  readonly atM: number;
  readonly label: string;
  readonly figure: FigureText;
}

/** What is left of the strip, as a length of grass. */
export interface StripLeft {
  readonly fromM: number;
  readonly toM: number;
  readonly isOver: boolean;
  /** `m left`, `m past the end`: the words that follow the figure. */
  readonly words: string;
  readonly figure: FigureText;
}

/** A line across the strip with words. */
export interface CrossLine {
  readonly atM: number;
  readonly label: string;
}

/** The strip ruler's model. */
export interface StripPicture extends Picture {
  readonly kind: 'landing' | 'touch-and-go' | 'pass' | 'take-off' | 'undetermined';
  readonly lengthUnit: 'm' | 'ft';
  readonly ground: StripGround;
  /** End of the length that counts here (LDA, TORA), and its words. */
  readonly end: CrossLine;
  /** Start of it: the threshold, or the end where a run begins. */
  readonly start: CrossLine;
  readonly places: readonly PlaceMark[];
  readonly passes: Passes | null;
  /** The roll, written on the passes. */
  readonly roll: FigureText | null;
  /** Words under the roll's figure where it is not a roll seen to its end. */
  readonly rollWords: string | null;
  readonly rods: readonly Rod[];
  readonly rope: Rope | null;
  /** Why there is no rope although a roll was planned, or null. */
  readonly noRope: string | null;
  readonly left: StripLeft | null;
  readonly aimM: number | null;
  /** Lowest point of a pass: where, and how high. */
  readonly lowest: { readonly atM: number; readonly figure: FigureText } | null;
  /** Half of the TORA with the speed there. */
  readonly halfway: CrossLine | null;
  /** Where the peg is drawn out of the ground again, after a touch-and-go. */
  readonly againM: number | null;
  /** Outline of what is not known, from and to, with the reason. */
  readonly unknown: {
    readonly fromM: number;
    readonly toM: number;
    readonly reason: string;
  } | null;
}
