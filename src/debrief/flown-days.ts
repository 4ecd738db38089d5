/**
 * When and where did the flights use strips, and where did the wheels touch?
 *
 * In: debriefed flights, and which day a moment falls on. Out: days for currency and for counts of use;
 * the dispersion of touchdowns in each direction.
 */
import type { UsedDay } from '../calibration/currency.ts';
import { touchdownDispersion, type Dispersion } from '../calibration/touchdown-dispersion.ts';
import type { Approach, TakeOff } from '../events/flight-event.ts';
import { isUndetermined, type Measured } from '../result.ts';
import type { Flight } from './debrief.ts';

/** Days of landings, and days of any use: flown over is not used. */
export interface FlownDays {
  readonly landings: readonly UsedDay[];
  readonly uses: readonly UsedDay[];
}

/** The touchdowns of one direction. */
export interface DirectionTouchdowns {
  readonly strip: string;
  readonly direction: string;
  readonly touchdowns: number;
  /** Null: fewer than five. */
  readonly dispersion: Dispersion | null;
}

/** Days of use; `dayOf` gives the ISO day of a moment in the pilot's zone. */
export function flownDays(flights: readonly Flight[], dayOf: (timeS: number) => string): FlownDays {
  const approaches = flights.flatMap(({ events, motion }) =>
    events.approaches.map((approach) => ({
      outcome: approach.outcome,
      stripId: approach.strip,
      day: dayOf(timeOf(approach) ?? motion.timeS[approach.from]),
    })),
  );
  const takeOffs = flights.flatMap(({ events, motion }) =>
    events.takeOffs.map((takeOff) => ({
      stripId: takeOff.strip,
      day: dayOf(liftOffOf(takeOff) ?? motion.timeS[takeOff.from]),
    })),
  );
  return {
    landings: approaches.filter(({ outcome }) => isLanding(outcome)).map(usedDay),
    uses: [...approaches.filter(({ outcome }) => outcome !== 'overflight'), ...takeOffs].map(
      usedDay,
    ),
  };
}

/** Touchdowns of every direction of a kept strip with a landing. */
export function directionTouchdowns(flights: readonly Flight[]): DirectionTouchdowns[] {
  const found = flights
    .flatMap(({ events }) => events.approaches)
    .flatMap(({ strip, direction, touchdown, outcome }) => {
      if (strip === null || direction === null || !isLanding(outcome)) return [];
      if (isUndetermined(touchdown)) return [];
      const { alongM, crossM } = touchdown;
      if (isUndetermined(alongM) || isUndetermined(crossM)) return [];
      return [{ strip, direction, place: { alongM, crossM } }];
    });
  const keyOf = ({ strip, direction }: (typeof found)[number]): string => `${strip}\n${direction}`;
  return [...new Set(found.map(keyOf))].sort().map((key) => {
    const own = found.filter((each) => keyOf(each) === key);
    const [{ strip, direction }] = own;
    const dispersion = touchdownDispersion(own.map(({ place }) => place));
    return { strip, direction, touchdowns: own.length, dispersion };
  });
}

function isLanding(outcome: Approach['outcome']): boolean {
  return outcome === 'full-stop' || outcome === 'touch-and-go' || outcome === 'stop-and-go';
}

function timeOf({ touchdown, goAround }: Approach): number | null {
  return valueOf(isUndetermined(touchdown) ? goAround?.lowestTimeS : touchdown.timeS);
}

function liftOffOf({ liftOff }: TakeOff): number | null {
  return isUndetermined(liftOff) ? null : valueOf(liftOff.timeS);
}

function valueOf(timeS: Measured | undefined): number | null {
  return timeS === undefined || isUndetermined(timeS) ? null : timeS.value;
}

function usedDay({ day, stripId }: UsedDay): UsedDay {
  return { day, stripId };
}
