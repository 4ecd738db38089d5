/** Picture models of the demo world: real demo flights, debriefed. */
import type { Flight } from '../../src/debrief/debrief.ts';
import { USUAL_UNITS, type PilotUnits } from '../../src/report/figure-text.ts';
import { approachPicture } from '../../src/report/pictures/approach-picture.ts';
import { circuitPicture, type CircuitPicture } from '../../src/report/pictures/circuit-picture.ts';
import { summariseFlight } from '../../src/report/flight-summary.ts';
import { ownFactorsOf } from '../../src/report/logged-factors.ts';
import type { LoggedFlight } from '../../src/report/logged-flight.ts';
import type { SurfaceClass } from '../../src/calibration/surface-class.ts';
import { factorOn } from '../../src/debrief/own-factors.ts';
import { factorEntries, otherGroups } from '../../src/report/pictures/factor-entries.ts';
import { factorPicture, type FactorPicture } from '../../src/report/pictures/factor-picture.ts';
import { finalPicture, type FinalPicture } from '../../src/report/pictures/final-picture.ts';
import {
  individualsPicture,
  type IndividualsPicture,
} from '../../src/report/pictures/individuals-picture.ts';
import {
  landingBarsPicture,
  type LandingBarsPicture,
} from '../../src/report/pictures/landing-bars-picture.ts';
import {
  mownFieldPicture,
  type MownFieldPicture,
} from '../../src/report/pictures/mown-field-picture.ts';
import { makeSettings } from '../../src/logbook/make-entry.ts';
import {
  sideBySidePicture,
  type SideBySidePicture,
} from '../../src/report/pictures/side-by-side-picture.ts';
import {
  smallCircuitsPicture,
  type SmallCircuitsPicture,
} from '../../src/report/pictures/small-circuits-picture.ts';
import { eventDebrief } from '../../src/report/story/event-debrief.ts';
import type { StripPicture } from '../../src/report/pictures/strip-picture.ts';
import { takeOffPicture } from '../../src/report/pictures/take-off-picture.ts';
import {
  touchdownChancePicture,
  type TouchdownChancePicture,
} from '../../src/report/pictures/touchdown-chance-picture.ts';
import { predictAtStrip } from '../../src/debrief/predict-at-strip.ts';
import { stripPlaceOf, type StripPlace } from '../../src/debrief/strip-place.ts';
import { UK_LEAFLET } from '../../src/performance/factor-sets/uk-leaflet.ts';
import type { Prediction } from '../../src/performance/prediction.ts';
import {
  landingPlanPicture,
  takeOffPlanPicture,
  type OwnForVisit,
} from '../../src/report/pictures/visit-pictures.ts';
import { isUndetermined, undetermined, type Undetermined } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import { NO_CONDITIONS } from '../../src/weather/conditions.ts';
import type { GateLimits } from '../../src/weather/gate-limits.ts';
import { debriefDemo, demoContext, DEMO_FILES } from '../debrief/demo-flights.ts';

const context = demoContext();

/** The strips of the demo. */
export const DEMO_STRIPS = context.strips;

/** The one flight of a demo log. */
export async function flightOf(file: string): Promise<Flight> {
  const debrief = await debriefDemo(file, context);
  return debrief.flights[0];
}

/** A landing as of a log that begins over the strip: the touchdown is not known, the end of the roll is. */
export function begunOverStrip(flight: Flight, index: number): Flight {
  const unknown = undetermined('the log begins over the strip: the wheels may have touched before');
  const approaches = flight.events.approaches.map((approach, k) =>
    k === index
      ? { ...approach, touchdown: unknown, groundRollM: unknown, posterior: null }
      : approach,
  );
  return { ...flight, events: { ...flight.events, approaches } };
}

/** The same in a logbook without strips. */
export async function unkeptFlightOf(file: string): Promise<Flight> {
  const debrief = await debriefDemo(file, { ...context, strips: EMPTY_STRIP_BOOK });
  return debrief.flights[0];
}

/** The same with limits of a made-up pilot: some in, some out, some that nobody can tell. */
export async function limitedFlightOf(file: string): Promise<Flight> {
  const gateLimits: GateLimits = {
    fromFt: 300,
    airspeedKt: [54, 58],
    groundSpeedKt: [40, 47],
    descentRateFpm: [250, 450],
    pathDeg: [3, 5],
    crossM: [-10, 10],
  };
  const all = context.conditions?.all ?? NO_CONDITIONS;
  const byFile = new Map(context.conditions?.byFile);
  byFile.set(file, { ...(byFile.get(file) ?? NO_CONDITIONS), gateLimits });
  const debrief = await debriefDemo(file, { ...context, conditions: { all, byFile } });
  return debrief.flights[0];
}

/** All demo flights in order. */
export async function allFlights(): Promise<LoggedFlight[]> {
  const logged: LoggedFlight[] = [];
  for (const file of DEMO_FILES) {
    const flight = await flightOf(file);
    logged.push({ id: file, flightIndex: 0, summary: summariseFlight(flight) });
  }
  return logged;
}

/** Throws where a model of the demo is undetermined. */
export function determined<T extends object>(value: T | Undetermined): T {
  if (isUndetermined(value)) throw new Error(value.undetermined);
  return value;
}

/** The ruler of an approach. */
export function approachOf(
  flight: Flight,
  index: number,
  options: { ownRollFactor?: number | null; aimM?: number | null; units?: PilotUnits } = {},
): StripPicture {
  const { ownRollFactor = null, aimM = null, units = USUAL_UNITS } = options;
  return determined(approachPicture(flight, index, DEMO_STRIPS, { units, ownRollFactor, aimM }));
}

/** The ruler of a take-off. */
export function takeOffOf(flight: Flight, index: number, units = USUAL_UNITS): StripPicture {
  return determined(takeOffPicture(flight, index, DEMO_STRIPS, { units }));
}

/** Both profiles of an approach. */
export function finalOf(flight: Flight, index: number, units = USUAL_UNITS): FinalPicture {
  return determined(finalPicture(flight, index, DEMO_STRIPS, units));
}

/** The plan of an approach. */
export function circuitOf(flight: Flight, index: number, units = USUAL_UNITS): CircuitPicture {
  return determined(circuitPicture(flight, index, DEMO_STRIPS, units));
}

/** The touchdown's heap. */
export function chanceOf(
  flight: Flight,
  index: number,
  units = USUAL_UNITS,
): TouchdownChancePicture {
  return determined(touchdownChancePicture(flight, index, units));
}

/** The rulers of a visit that is planned: in and out. */
export function visitOf(
  place: { stripId: string; landing: string; takeOff: string },
  options: { windKt?: number; own?: OwnForVisit; units?: PilotUnits; endsGuessed?: boolean } = {},
): { landing: StripPicture; takeOff: StripPicture } {
  const { windKt = 8, own = NO_OWN, units = USUAL_UNITS, endsGuessed = false } = options;
  const kept = DEMO_STRIPS.strips.find(({ id }) => id === place.stripId);
  const strip = kept && { ...kept, endsGuessed };
  const [aeroplane] = context.aeroplanes.filter(({ id }) => id === 'marram-160');
  const conditions = {
    wind: { fromDeg: 210, reference: 'true' as const, speedKt: windKt, gustKt: null },
    ...{ tempC: 19, qnhHpa: 1016, massKg: 900, takeOffMassKg: null },
    ...{
      surface: 'grass-dry' as const,
      flap: null,
      aeroplane: null,
      factorSet: null,
      effort: null,
    },
  };
  const at = (designator: string): { where: StripPlace; made: Prediction } => {
    const where = strip && stripPlaceOf(strip, designator);
    if (!where) throw new Error(`no ${place.stripId} ${designator}`);
    const given = { aeroplane, conditions, factorSet: UK_LEAFLET, timeS: 1_750_000_000 };
    return { where, made: determined(predictAtStrip(where, given)) };
  };
  const into = at(place.landing);
  const out = at(place.takeOff);
  const landing = determined(into.made.landing);
  const takeOff = determined(out.made.takeOff);
  return {
    landing: landingPlanPicture(into.where, landing, own, DEMO_STRIPS, units),
    takeOff: takeOffPlanPicture(out.where, takeOff, own, DEMO_STRIPS, units),
  };
}

const NO_OWN: OwnForVisit = { landingWhole: null, landingRoll: null, takeOffWhole: null };

/** Approaches of one flight laid over each other. */
export function sideBySideOf(
  flight: Flight,
  indices: readonly number[],
  units = USUAL_UNITS,
): SideBySidePicture {
  const shown = { ...makeSettings(0).units, ...units };
  const events = indices.map((index) =>
    eventDebrief(flight, `approach-${index}`, DEMO_STRIPS, { units: shown, ownRollFactor: null }),
  );
  return determined(sideBySidePicture(events, units));
}

/** Their circuits, small. */
export function smallCircuitsOf(
  flight: Flight,
  indices: readonly number[],
  units = USUAL_UNITS,
): SmallCircuitsPicture {
  const shown = { ...makeSettings(0).units, ...units };
  const events = indices.map((index) =>
    eventDebrief(flight, `approach-${index}`, DEMO_STRIPS, { units: shown, ownRollFactor: null }),
  );
  return determined(smallCircuitsPicture(events, units));
}

/** The list of all landings, and one strip's field. */
export function logbookOf(
  flights: readonly LoggedFlight[],
  place: { stripId: string; designator: string },
): { bars: LandingBarsPicture; field: MownFieldPicture } {
  const bars = landingBarsPicture(flights, USUAL_UNITS);
  const field = mownFieldPicture(bars.bars, place, USUAL_UNITS);
  if (!field) throw new Error(`no landing at ${place.stripId} ${place.designator}`);
  return { bars, field };
}

/** The factor of one aeroplane; of whole distances unless said otherwise. */
export function factorOf(
  flights: readonly LoggedFlight[],
  aeroplane: string,
  quantity: 'landing-from-50-ft' | 'landing-roll' = 'landing-from-50-ft',
  surface: SurfaceClass | null = null,
): FactorPicture {
  const own = ownFactorsOf(flights).find((each) => each.aeroplane === aeroplane);
  if (!own) throw new Error(`no calibration of ${aeroplane}`);
  const result = factorOn(own, quantity, surface);
  const entries = factorEntries(flights, aeroplane, quantity, result.surface);
  const others = otherGroups(flights, aeroplane, quantity, result.surface);
  return factorPicture(entries, result, undefined, others);
}

/** The ratios of one aeroplane in the order flown. */
export function individualsOf(
  flights: readonly LoggedFlight[],
  aeroplane: string,
  quantity: 'landing-from-50-ft' | 'landing-roll' = 'landing-from-50-ft',
  surface: SurfaceClass | null = null,
): IndividualsPicture | Undetermined {
  return individualsPicture(factorEntries(flights, aeroplane, quantity, surface));
}
