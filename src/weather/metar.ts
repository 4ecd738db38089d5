/**
 * What do the wind, temperature and pressure groups of a METAR say?
 *
 * Input: a report as pasted, with or without its heading. Output: the groups a prediction needs, in
 * the units of Conditions. Trends and remarks are not read: they are no observation. A group that is
 * there but cannot be read is an error, never a guess; a group that is missing is a warning.
 *
 * Source: WMO-No. 306, code form FM 15 METAR, and ICAO Annex 3, appendix 3 (forms of the groups and
 * their units, quoted; rules from memory); FMH-1 for pressure in inches of mercury. The wind of a
 * METAR is a mean over 2 or 10 minutes, true, at the aerodrome that reports it: it is not the wind
 * of a strip.
 */
import { failure, problem, success, type Problem, type Result } from '../result.ts';
import { MPS_PER_KMH, MPS_PER_KNOT, PA_PER_HPA, PA_PER_INHG } from '../units/convert.ts';
import type { Conditions, EnteredWind } from './conditions.ts';

/** What a METAR says, as far as a prediction needs it. */
export interface MetarReading {
  /** Location indicator; null where the report was pasted without it. */
  readonly station: string | null;
  /** Day of the month and UTC clock of the observation, `10th, 16:30 UTC`; null without its group. */
  readonly observed: string | null;
  /** Degrees true and knots, to a tenth; null where it is not reported. Calm and variable have no direction. */
  readonly wind: EnteredWind | null;
  /** The wind's direction varied from one to the other, clockwise, degrees true; null: not reported. */
  readonly sectorDeg: readonly [number, number] | null;
  readonly tempC: number | null;
  readonly dewPointC: number | null;
  /** Hectopascals, to a tenth where it was reported in inches. */
  readonly qnhHpa: number | null;
}

/** Longest report that is read, characters; real ones stay below 300. */
const LONGEST = 2000;
/** Ranges as in the conditions of a visit. */
const MOST_WIND_KT = 100;
const MOST_GUST_KT = 130;
const TEMP_RANGE_C = [-50, 60] as const;
const QNH_RANGE_HPA = [850, 1100] as const;
/** QNH and inches in one report are rounded, the one down; beyond this they contradict each other (ours). */
const PRESSURES_AGREE_HPA = 1.5;

const KNOTS_PER = {
  KT: 1,
  MPS: 1 / MPS_PER_KNOT,
  KMH: MPS_PER_KMH / MPS_PER_KNOT,
  KPH: MPS_PER_KMH / MPS_PER_KNOT,
} as const;

const WIND = /^(\d{3}|VRB)(P?)(\d{2,3})(?:G(P?)(\d{2,3}))?(KT|MPS|KMH|KPH)$/;
const NO_WIND = /^[\dVRB/]{3}\/\/(?:G\/\/)?(KT|MPS|KMH|KPH)$|^\/{3}\d{2,3}(KT|MPS|KMH|KPH)$/;
const LIKE_WIND = /(KTS?|MPS|KMH|KPH)$/;
const SECTOR = /^(\d{3})V(\d{3})$/;
const TEMPERATURE = /^(M?\d{2}|\/\/|XX)\/(M?\d{2}|\/\/|XX)?$/;
const LIKE_TEMPERATURE = /^[M-]?\d{1,3}\/[M-]?\d{0,3}$/;
const PRESSURE = /^([QA])(\d{4}|\/{4})$/;
const LIKE_PRESSURE = /^(?:[QA]\d+|QNH.*)$/;
const ENDS_OBSERVATION = new Set(['RMK', 'BECMG', 'TEMPO', 'NOSIG']);

/**
 * Reads a METAR or SPECI.
 *
 * Units: degrees true, knots, degrees Celsius, hectopascals. Fails: names the group that cannot be
 * read, what stands there, and what was expected; also for a forecast, for more than one report, and
 * where nothing of a report is found. A value that is missing is null, with a warning.
 * @example readMetar('METAR LFRS 101630Z AUTO 32007KT 280V340 CAVOK 15/05 Q1027')
 */
export function readMetar(text: string): Result<MetarReading> {
  if (text.length > LONGEST) {
    return refused('report', `found ${text.length} characters, expected up to ${LONGEST}`);
  }
  const tokens = text.toUpperCase().trim().split(/\s+/);
  const kinds = tokens.filter((token) => /^(METAR|SPECI|TAF)$/.test(token));
  if (kinds.includes('TAF')) {
    return refused('TAF', 'found a forecast, expected an observation (METAR or SPECI)');
  }
  const ends = text.trim().replace(/=+$/, '').split('=').length - 1;
  if (kinds.length > 1 || ends > 0) {
    return refused('report', 'found more than one report, expected a single one');
  }
  if (tokens.some((token) => token.replace('=', '') === 'NIL')) {
    return refused('NIL', 'the report says that there is no observation');
  }
  return readGroups(observationOf(tokens));
}

/**
 * Conditions with what a METAR gives, where the pilot entered nothing of his own.
 *
 * The wind so taken is marked as reported elsewhere.
 */
export function withMetar(conditions: Conditions, reading: MetarReading): Conditions {
  const takesWind = conditions.wind === null && reading.wind !== null;
  return {
    ...conditions,
    wind: conditions.wind ?? reading.wind,
    tempC: conditions.tempC ?? reading.tempC,
    qnhHpa: conditions.qnhHpa ?? reading.qnhHpa,
    ...(takesWind ? { windReportedAt: placeOf(reading) } : {}),
  };
}

/** Where the wind was reported, and between which directions it varied: `XXDL, varying 280 to 350`. */
function placeOf({ station, sectorDeg }: MetarReading): string {
  const place = station ?? 'a METAR';
  return sectorDeg ? `${place}, varying ${sectorDeg[0]} to ${sectorDeg[1]}` : place;
}

/** The tokens up to the end of the observation. */
function observationOf(tokens: readonly string[]): readonly string[] {
  const plain = tokens.map((token) => token.replace(/=+$/, '')).filter((token) => token !== '');
  const end = plain.findIndex((token) => ENDS_OBSERVATION.has(token));
  return end < 0 ? plain : plain.slice(0, end);
}

function readGroups(groups: readonly string[]): Result<MetarReading> {
  const found: Problem[] = [];
  const wind = readWind(groups, found);
  const sectorDeg = readSector(groups, found);
  const temperature = readTemperature(groups, found);
  const qnhHpa = readPressure(groups, found);
  if (found.some(({ severity }) => severity === 'error')) {
    return failure(found.filter(({ severity }) => severity === 'error'));
  }
  const { tempC, dewPointC } = temperature;
  if (wind === null && tempC === null && qnhHpa === null) {
    return refused(
      'report',
      'found neither wind, temperature nor pressure, expected a METAR such as "METAR LFRS 101630Z 32007KT CAVOK 15/05 Q1027"',
    );
  }
  const { station, observed } = readHeading(groups);
  return success({ station, observed, wind, sectorDeg, tempC, dewPointC, qnhHpa }, found);
}

function readHeading(groups: readonly string[]): Pick<MetarReading, 'station' | 'observed'> {
  const at = groups.findIndex((group) => /^\d{6}Z$/.test(group));
  if (at < 0) return { station: null, observed: null };
  const [day, hour, minute] = [0, 2, 4].map((from) => groups[at].slice(from, from + 2));
  const name = at > 0 ? groups[at - 1] : '';
  return {
    station: /^[A-Z][A-Z0-9]{3}$/.test(name) ? name : null,
    observed: `day ${Number(day)} of the month, ${hour}:${minute} UTC`,
  };
}

function readWind(groups: readonly string[], found: Problem[]): EnteredWind | null {
  const like = groups.filter((group) => LIKE_WIND.test(group));
  if (like.length > 1) {
    found.push(wrong(like[1], `a second wind group after ${like[0]}, expected one`));
    return null;
  }
  const group = like.at(0);
  if (group === undefined || NO_WIND.test(group)) {
    found.push(missing('wind'));
    return null;
  }
  const match = WIND.exec(group);
  if (match === null) {
    found.push(
      wrong(
        group,
        'expected a wind group: three digits of direction or VRB, two or three of speed, G and the gust where there is one, then KT, MPS or KMH',
      ),
    );
    return null;
  }
  const [, direction, moreThan, speed, gustMoreThan, gust] = match as readonly (
    string | undefined
  )[];
  const unit = match[6] as keyof typeof KNOTS_PER;
  if (moreThan === 'P' || gustMoreThan === 'P') {
    found.push(wrong(group, 'the wind is above what the code can state, expected a figure'));
    return null;
  }
  const speedKt = tenths(Number(speed) * KNOTS_PER[unit]);
  const gustKt = gust === undefined ? null : tenths(Number(gust) * KNOTS_PER[unit]);
  const fromDeg = direction === 'VRB' || speedKt === 0 ? null : Number(direction);
  const said = windFault(fromDeg, speedKt, gustKt);
  if (said !== null) {
    found.push(wrong(group, said));
    return null;
  }
  return { fromDeg, reference: 'true', speedKt, gustKt };
}

function windFault(fromDeg: number | null, speedKt: number, gustKt: number | null): string | null {
  if (fromDeg !== null && fromDeg > 360) {
    return `found a direction of ${fromDeg} degrees, expected 0 to 360`;
  }
  if (speedKt > MOST_WIND_KT) return `found ${speedKt} kt, expected 0 to ${MOST_WIND_KT} kt`;
  if (gustKt === null) return null;
  if (gustKt > MOST_GUST_KT) {
    return `found a gust of ${gustKt} kt, expected up to ${MOST_GUST_KT} kt`;
  }
  return gustKt < speedKt
    ? `found a gust of ${gustKt} kt, expected one at or above the wind of ${speedKt} kt`
    : null;
}

function readSector(groups: readonly string[], found: Problem[]): MetarReading['sectorDeg'] {
  const group = groups.find((each) => SECTOR.test(each));
  if (group === undefined) return null;
  const [from, to] = [Number(group.slice(0, 3)), Number(group.slice(4))];
  if (from <= 360 && to <= 360) return [from, to];
  found.push(wrong(group, 'expected two directions from 0 to 360 degrees'));
  return null;
}

function readTemperature(
  groups: readonly string[],
  found: Problem[],
): Pick<MetarReading, 'tempC' | 'dewPointC'> {
  const nothing = { tempC: null, dewPointC: null };
  const group = groups.find((each) => TEMPERATURE.test(each));
  if (group === undefined) {
    const near = groups.find((each) => LIKE_TEMPERATURE.test(each));
    found.push(
      near === undefined
        ? missing('temperature')
        : wrong(near, 'expected temperature and dew point of two digits each, M for minus: 15/M02'),
    );
    return nothing;
  }
  const [tempC, dewPointC] = group.split('/').slice(0, 2).map(degrees);
  if (group.startsWith('/') || tempC === null) {
    found.push(missing('temperature'));
    return nothing;
  }
  if (tempC < TEMP_RANGE_C[0] || tempC > TEMP_RANGE_C[1]) {
    const [low, high] = TEMP_RANGE_C;
    found.push(wrong(group, `found ${tempC} degrees Celsius, expected ${low} to ${high}`));
    return nothing;
  }
  if (dewPointC !== null && dewPointC > tempC) {
    found.push(wrong(group, 'the dew point lies above the temperature, expected it at or below'));
    return nothing;
  }
  return { tempC, dewPointC };
}

function readPressure(groups: readonly string[], found: Problem[]): number | null {
  const values: number[] = [];
  for (const group of groups.filter((each) => LIKE_PRESSURE.test(each) || PRESSURE.test(each))) {
    const match = PRESSURE.exec(group);
    if (match === null) {
      found.push(wrong(group, 'expected Q and four digits of hPa, or A and four of inches x 100'));
      return null;
    }
    if (match[2].startsWith('/')) continue;
    const figure = Number(match[2]);
    const hpa = match[1] === 'Q' ? figure : tenths((figure / 100) * (PA_PER_INHG / PA_PER_HPA));
    if (hpa < QNH_RANGE_HPA[0] || hpa > QNH_RANGE_HPA[1]) {
      const [low, high] = QNH_RANGE_HPA;
      found.push(wrong(group, `found ${hpa} hPa, expected ${low} to ${high} hPa`));
      return null;
    }
    if (values.length > 0 && Math.abs(values[0] - hpa) > PRESSURES_AGREE_HPA) {
      found.push(wrong(group, `found ${hpa} hPa beside ${values[0]} hPa, expected one pressure`));
      return null;
    }
    values.push(hpa);
  }
  if (values.length === 0) found.push(missing('pressure'));
  return values.at(0) ?? null;
}

/** `M03` is -3; null where it was not reported. M00 is a temperature just below zero. */
function degrees(text: string): number | null {
  if (!/\d/.test(text)) return null;
  const value = Number(text.replace('M', ''));
  return text.startsWith('M') && value !== 0 ? -value : value;
}

function tenths(value: number): number {
  return Math.round(value * 10) / 10;
}

function wrong(group: string, message: string): Problem {
  return problem('metar-group', 'error', `group ${group.slice(0, 30)}`, message);
}

function missing(what: string): Problem {
  const message = `no ${what} is reported; it has to be entered`;
  return problem('metar-missing', 'warning', 'report', message);
}

function refused(where: string, message: string): Result<never> {
  return failure([problem('metar-not-read', 'error', where, message)]);
}
