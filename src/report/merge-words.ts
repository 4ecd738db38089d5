/**
 * What was not taken when a logbook file came in, in words that a pilot understands.
 *
 * In: what the import listed, and what the logbook knows of flights, strips and aeroplanes. Out: one
 * sentence for each thing: which flight (day, clock time, place), which side said what, what stands.
 * Never an id: what has no name is described.
 */
import type {
  AeroplaneRecord,
  ContactCorrection,
  FactorSetRecord,
  LogSummary,
  PlaceCorrection,
  ShownUnits,
  StripRecord,
  VisitRecord,
} from '../logbook/entry.ts';
import type { Conflict } from '../logbook/merge.ts';
import { notTaken, type NotTaken } from '../logbook/merge-visits.ts';
import type { Conditions } from '../weather/conditions.ts';
import type { EventSummary, FlightSummary } from './flight-summary.ts';
import { figureValue, lengthFigure, NBSP, USUAL_UNITS } from './figure-text.ts';
import { inPilotUnits } from './figures-in-text.ts';
import { clockSecondsText, dayText, UTC, whenText, yearOf, zoneWords } from './local-time.ts';
import { noteSentence } from './note-sentence.ts';
import { differingFields } from './record-differences.ts';
import { titleBlock } from './story/title-block.ts';

/** What the logbook knows, for names and places. */
export interface MergeLookups {
  readonly logs: readonly LogSummary[];
  readonly strips: readonly StripRecord[];
  readonly aeroplanes: readonly AeroplaneRecord[];
  /** The measured flights of a log; none while it is not measured. */
  readonly flightsOf: (logId: string) => readonly FlightSummary[];
  /** The name of a factor set, published or the pilot's own. */
  readonly factorSetName: (id: string) => string;
  readonly units: ShownUnits & { readonly timeZone: string };
}

/** Sentences about one record of which something was not taken; none about results, which are measured anew. */
export function notTakenLines(conflict: Conflict, lookups: MergeLookups): string[] {
  const { kept, other } = conflict;
  if (other.kind === 'result') return [];
  if (other.kind !== 'visit' || kept.kind !== 'visit') return [recordLine(conflict, lookups)];
  const lines = notTaken(other, kept).map((item) => {
    const head = whichFlight(kept, momentOf(item), lookups);
    return noteSentence(`${head}: ${itemWords(item, conflict.otherFrom, lookups)}`);
  });
  return [...new Set(lines)];
}

function recordLine({ kept, other, otherFrom }: Conflict, lookups: MergeLookups): string {
  const { timeZone } = lookups.units;
  const [was, stands] = [other, kept].map(({ changedS }) => whenText(changedS, timeZone));
  const [mine, theirs] = [`that of your logbook`, `that of the file`];
  const [loser, winner] = otherFrom === 'file' ? [theirs, mine] : [mine, theirs];
  const fields = differingFields(other, kept, lookups);
  const where = fields.length === 0 ? '' : `; they differ in ${fields.join(', ')}`;
  const zone = zoneWords(timeZone);
  return noteSentence(
    `${recordName(other, lookups)}: ${winner}, changed ${stands}, stands; ${loser}, changed ${was} ${zone}, was not taken${where}`,
  );
}

function recordName(record: Conflict['other'], lookups: MergeLookups): string {
  switch (record.kind) {
    case 'strip':
      return stripName(record);
    case 'aeroplane':
      return `the aeroplane ${documentName(record)}`;
    case 'factor-set':
      return `the factor set ${documentName(record)}`;
    case 'settings':
      return 'the settings';
    case 'log':
      return `the name of the log of ${whichLog(record, null, lookups)}`;
    default:
      return 'a record';
  }
}

function documentName({ document }: AeroplaneRecord | FactorSetRecord): string {
  const { name } = document;
  return typeof name === 'string' && name.trim() !== '' ? name : 'without a name';
}

/** `Sedgeholt (strip)`. */
function stripName({ versions }: StripRecord): string {
  const properties = (versions[versions.length - 1].feature.properties ?? {}) as {
    readonly name?: unknown;
    readonly kind?: unknown;
  };
  const kind = typeof properties.kind === 'string' ? properties.kind : 'feature';
  const { name } = properties;
  return typeof name === 'string' && name.trim() !== '' ? `${name} (${kind})` : `a ${kind}`;
}

/** The moment that an item speaks of, UTC seconds; null: the whole flight. */
function momentOf(item: NotTaken): number | null {
  if (item.what === 'remark') return item.was.timeS;
  return 'aroundS' in item ? item.aroundS : null;
}

/** `14 Jun 2025 09:53 UTC, Sedgeholt`: the landing at a moment, or the flight's first. */
function whichFlight(visit: VisitRecord, atS: number | null, lookups: MergeLookups): string {
  const { timeZone } = lookups.units;
  const log = lookups.logs.find(({ id }) => id === visit.logId);
  if (log) return whichLog(log, atS ?? visit.landings.at(0)?.aroundS ?? null, lookups);
  const stripId = visit.predictions.at(-1)?.stripId;
  const strip = lookups.strips.find(({ id }) => id === (stripId as string | undefined));
  const place = strip ? `, ${stripName(strip)}` : '';
  const atTime = atS ?? visit.landings.at(0)?.aroundS ?? null;
  if (atTime !== null)
    return `flight of ${whenText(atTime, timeZone)} ${zoneWords(timeZone)}${place}`;
  if (visit.plannedForS === null) return `a flight whose log is not in the logbook${place}`;
  // A planned day is written down at its noon UTC: the same day in words.
  return `visit planned for ${dayText(visit.plannedForS, UTC)} ${yearOf(visit.plannedForS, UTC)}${place}`;
}

function whichLog(log: LogSummary, atS: number | null, lookups: MergeLookups): string {
  const { timeZone } = lookups.units;
  const events = lookups.flightsOf(log.id).flatMap((flight) => flight.events);
  const event = eventAt(events, atS);
  const timeS = atS ?? event?.timeS ?? null;
  if (timeS === null) return `the flight in ${log.fileName}`;
  const when = `${whenText(timeS, timeZone)} ${zoneWords(timeZone)}`;
  return event ? `${when}, ${event.stripName}` : `${when}, the flight in ${log.fileName}`;
}

function eventAt(events: readonly EventSummary[], atS: number | null): EventSummary | null {
  if (atS === null) return events.find(({ kind }) => kind === 'approach') ?? events.at(0) ?? null;
  const away = ({ timeS }: EventSummary): number => Math.abs(timeS - atS);
  return events.toSorted((a, b) => away(a) - away(b)).at(0) ?? null;
}

function itemWords(item: NotTaken, from: Conflict['otherFrom'], lookups: MergeLookups): string {
  const { units } = lookups;
  switch (item.what) {
    case 'remark': {
      const said = ({ text, timeS }: typeof item.was): string =>
        `the remark ${timeS === null ? '' : `at ${clockSecondsText(timeS, units.timeZone)} `}“${text}”`;
      return takenOut(from, said(item.was), item.stands && said(item.stands));
    }
    case 'effort':
      return takenOut(
        from,
        `braking ${item.was.mark}`,
        item.stands && `braking ${item.stands.mark}`,
      );
    case 'touchdown':
    case 'roll-end':
    case 'lift-off': {
      const said = placeWords(item.what, units);
      return takenOut(from, said(item.was), item.stands && said(item.stands));
    }
    case 'contact':
      return takenOut(from, contactWords(item.was), item.stands && contactWords(item.stands));
    case 'flight-conditions': {
      const said = (conditions: Conditions): string | null =>
        fieldWords(item.field, conditions, lookups);
      return notEntered(from, said(item.was) ?? 'an entry', item.stands && said(item.stands));
    }
    case 'aeroplaneId': {
      const said = (id: string | number): string => aeroplaneWords(String(id), lookups);
      return notEntered(from, said(item.was), item.stands === null ? null : said(item.stands));
    }
    case 'plannedForS': {
      const said = (timeS: string | number): string =>
        `the planned day ${dayText(Number(timeS), UTC)} ${yearOf(Number(timeS), UTC)}`;
      return notEntered(from, said(item.was), item.stands === null ? null : said(item.stands));
    }
    case 'logId':
      return 'it was joined to two different logs, and stands with one of them';
  }
}

/** Both sides said something, or one took it out. */
function takenOut(from: Conflict['otherFrom'], was: string, stands: string | null): string {
  if (stands !== null) return bothSaid(from, was, stands);
  return from === 'file'
    ? `the file has ${was}; in your logbook it was taken out, and it stays out`
    : `your logbook had ${was}; in the file it was taken out, and it is out now`;
}

/** Both sides said something, or one left it open. */
function notEntered(from: Conflict['otherFrom'], was: string, stands: string | null): string {
  if (stands !== null) return bothSaid(from, was, stands);
  return from === 'file'
    ? `the file has ${was}; what your logbook has was entered later and is without it, and that stays`
    : `your logbook had ${was}; what the file has was entered later and is without it, and that stands now`;
}

function bothSaid(from: Conflict['otherFrom'], was: string, stands: string): string {
  return from === 'file'
    ? `the file has ${was}; ${stands}, as in your logbook, stays`
    : `your logbook had ${was}; ${stands}, as in the file, stands now`;
}

function contactWords({ corrected }: ContactCorrection): string {
  return corrected === 'touched' ? 'that the wheels touched' : 'that the wheels did not touch';
}

const PLACE_NAMES = {
  touchdown: 'the touchdown',
  'roll-end': 'the end of the roll',
  'lift-off': 'the lift-off',
} as const;

function placeWords(what: PlaceCorrection['what'], units: ShownUnits) {
  const name = PLACE_NAMES[what];
  return ({ corrected: { alongM } }: PlaceCorrection): string => {
    if (alongM === null) return `${name} put by hand at an unknown place`;
    return `${name} put by hand at ${figureValue(lengthFigure(alongM, { ...USUAL_UNITS, ...units }))} from the threshold`;
  };
}

function aeroplaneWords(id: string, { aeroplanes }: MergeLookups): string {
  const record = aeroplanes.find((each) => each.id === (id as typeof each.id));
  return record
    ? `the aeroplane ${documentName(record)}`
    : 'an aeroplane that is not in the logbook';
}

/** One field of conditions as entered; null: not entered. */
function fieldWords(
  field: keyof Conditions,
  conditions: Conditions,
  lookups: MergeLookups,
): string | null {
  if ((conditions[field] ?? null) === null) return null;
  const { units } = lookups;
  const cell = (label: string): string =>
    titleBlock(conditions, 'landing', units).find((each) => each.label === label)?.value ?? '';
  switch (field) {
    case 'wind':
      return `wind ${cell('Wind')}`;
    case 'windReportedAt':
      return `a wind reported at ${conditions.windReportedAt ?? ''}`;
    case 'tempC':
      return `temperature ${cell('Temp')}`;
    case 'qnhHpa':
      return `QNH ${cell('QNH')}`;
    case 'massKg':
      return `mass ${cell('Mass')}`;
    case 'takeOffMassKg':
      return inPilotUnits(`take-off mass ${conditions.takeOffMassKg ?? ''} kg`, units);
    case 'surface':
      return `surface ${cell('Surface')}`;
    case 'flap':
      return `flap ${conditions.flap ?? ''}`;
    case 'aeroplane':
      return aeroplaneWords(conditions.aeroplane ?? '', lookups);
    case 'factorSet':
      return `the factor set ${lookups.factorSetName(conditions.factorSet ?? '')}`;
    case 'effort':
      return `braking ${conditions.effort ?? ''}`;
    case 'gateLimits':
      return limitWords(conditions, units);
  }
}

/** `limits for a final from 300 ft: airspeed 52 to 58 kt`. */
function limitWords({ gateLimits }: Conditions, units: ShownUnits): string {
  if (!gateLimits) return 'limits for a final';
  const { fromFt, airspeedKt, groundSpeedKt, descentRateFpm, pathDeg, crossM } = gateLimits;
  const pair = (name: string, both: readonly [number, number] | null, unit: string): string[] =>
    both ? [`${name} ${both[0]} to ${both[1]}${unit}`] : [];
  const speeds = [
    ...pair('airspeed', airspeedKt, ' kt'),
    ...pair('ground speed', groundSpeedKt, ' kt'),
  ].map((text) => inPilotUnits(text, units));
  const others = [
    ...pair('descent', descentRateFpm, ' ft/min'),
    ...pair('path', pathDeg, '°'),
    ...pair('metres right of the centreline', crossM, ''),
  ];
  return `limits for a final from ${fromFt}${NBSP}ft: ${[...speeds, ...others].join(', ')}`;
}
