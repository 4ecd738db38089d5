/**
 * What can be entered about one landing, and what was: the places that may be put by hand.
 *
 * In: a flight, which of its approaches, the pilot's units. Out: each place as measured and, where a
 * correction is in force, as put by hand; null where the wheels were not seen to touch.
 */
import type { Flight } from '../../debrief/debrief.ts';
import type { HandPlace } from '../../debrief/hand-corrections.ts';
import { isUndetermined } from '../../result.ts';
import { lengthFigure, type FigureText, type NoFigure, type PilotUnits } from '../figure-text.ts';
import { ROLL_END_WORDS } from '../pictures/approach-words.ts';

/** A touchdown or an end of roll. */
export interface LandingPlaceEntry {
  readonly what: 'touchdown' | 'roll-end';
  /** `touchdown`, `stopped` ... */
  readonly label: string;
  readonly measured: HandPlace;
  readonly measuredFigure: FigureText | NoFigure;
  /** Null: as measured. */
  readonly byHand: FigureText | NoFigure | null;
  /** Where the log speaks against the place put by hand: what follows. */
  readonly doubt: string | null;
}

/** What the entries of one landing hang on. */
export interface LandingEntryPlaces {
  /** The touchdown as measured, UTC seconds: entries are kept by it. */
  readonly aroundS: number;
  readonly places: readonly LandingPlaceEntry[];
  /** True where the ratio of the roll stands on the screen. */
  readonly hasRatio: boolean;
  /** Where the roll ended, metres from the threshold: no touchdown lies behind it; null: not known. */
  readonly rollEndM: number | null;
}

const RULED_OUT =
  'The log all but rules this place out: one of the two is wrong. It stands, and teaches nothing.';

/** See the file's head. */
export function landingEntryPlaces(
  flight: Flight,
  index: number,
  units: PilotUnits,
): LandingEntryPlaces | null {
  const { marks, measuredTouchdown, measuredRollEnd } = flight.byHand[index];
  if (!measuredTouchdown) return null;
  const { rollEnd, posterior } = flight.events.approaches[index];
  const { roll, whole } = flight.compared.approaches[index];
  const endLabel = isUndetermined(rollEnd) ? 'end of the roll' : ROLL_END_WORDS[rollEnd.kind];
  const place = (
    what: LandingPlaceEntry['what'],
    label: string,
    measured: HandPlace | null,
    put: HandPlace | null | undefined,
  ): LandingPlaceEntry[] =>
    measured
      ? [
          {
            ...{ what, label, measured },
            measuredFigure: lengthFigure(measured.alongM, units),
            byHand: put ? lengthFigure(put.alongM, units) : null,
            doubt: what === 'touchdown' && put && !posterior?.arrival ? RULED_OUT : null,
          },
        ]
      : [];
  return {
    aroundS: measuredTouchdown.timeS,
    places: [
      ...place('touchdown', 'touchdown', measuredTouchdown, marks?.touchdown),
      ...place('roll-end', endLabel, measuredRollEnd, marks?.rollEnd),
    ],
    hasRatio: !isUndetermined(roll.ratio) || !isUndetermined(whole.ratio),
    rollEndM: (marks?.rollEnd ?? measuredRollEnd)?.alongM ?? null,
  };
}
