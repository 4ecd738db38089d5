/**
 * What does the logbook know of a strip?
 *
 * In: the flights of the logbook, what was entered about them, the strip, the pilot's units. Out: the
 * last landing there with its wind, touchdown, roll and strip left, and the remarks written after
 * it; null where nobody landed there yet.
 */
import type { VisitRecord } from '../../logbook/entry.ts';
import { lengthFigure, type FigureText, type NoFigure, type PilotUnits } from '../figure-text.ts';
import type { EventSummary } from '../flight-summary.ts';
import { longDay, yearOf } from '../local-time.ts';
import type { EventAddress, LoggedFlight } from '../logged-flight.ts';
import { landingsOf } from '../logbook-words.ts';
import { windText } from './title-block.ts';
import type { ShownUnits } from '../../logbook/entry.ts';

/** The last landing at a strip. */
export interface LastTimeHere {
  readonly address: EventAddress;
  /** `Saturday 1 June 2025`. */
  readonly day: string;
  readonly direction: string;
  readonly rows: readonly { readonly label: string; readonly figure: FigureText | NoFigure }[];
  /** As entered for that flight; null: nobody did. */
  readonly wind: string | null;
  readonly remarks: readonly string[];
  /** Landings at this strip in all, and in the year of `nowS`. */
  readonly landings: number;
  readonly landingsThisYear: number;
}

/** The last landing at a strip before `nowS`, in any direction. */
export function lastTimeHere(
  flights: readonly LoggedFlight[],
  visits: readonly VisitRecord[],
  stripId: string,
  nowS: number,
  units: ShownUnits & PilotUnits,
): LastTimeHere | null {
  const isHere = ({ stripId: at, timeS }: EventSummary): boolean => at === stripId && timeS <= nowS;
  const all = landingsOf(flights).filter(isHere);
  const last = all.reduce<EventSummary | null>(
    (best, each) => (best && best.timeS >= each.timeS ? best : each),
    null,
  );
  const flight = flights.find(({ summary }) => last && summary.events.includes(last));
  if (!last || !flight) return null;
  const own = visits.filter(({ logId }) => logId === flight.id);
  const wind = own.map(({ conditions }) => conditions?.wind ?? null).find((each) => each !== null);
  const year = yearOf(nowS, units.timeZone);
  return {
    address: { logId: flight.id, flightIndex: flight.flightIndex, key: last.key },
    day: longDay(last.timeS, units.timeZone),
    direction: last.designator ?? '',
    rows: [
      { label: 'touchdown', figure: lengthFigure(last.placeM, units) },
      { label: 'ground roll', figure: lengthFigure(last.rollM, units) },
      { label: 'strip left', figure: lengthFigure(last.leftM, units) },
    ],
    wind: wind ? windText(wind, units) : null,
    remarks: own.flatMap(({ remarks }) => remarks.map(({ text }) => text)),
    landings: all.length,
    landingsThisYear: all.filter(({ timeS }) => yearOf(timeS, units.timeZone) === year).length,
  };
}
