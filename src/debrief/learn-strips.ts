/**
 * What do the flights say about the strips they used, and about places that are no strip yet?
 *
 * In: debriefed flights and the strips as kept. Out: for each strip used, what its rolls say and the
 * strip as refined by it; for each unknown place, a proposed strip. The line as drawn and the rolls
 * are weighed by their errors; the drawn ends stay, because rolls only show what was used.
 */
import { groundTraces, type StripTrace } from '../events/learn-traces.ts';
import { signedDifferenceDeg } from '../geo/angles.ts';
import { createLocalFrame } from '../geo/local-frame.ts';
import { isUndetermined, Z90, type Measured } from '../result.ts';
import { completeDirections } from '../strips/declared-distances.ts';
import type { GroundTrace } from '../strips/ground-trace.ts';
import { learnedNotes } from '../strips/learned-notes.ts';
import { learnStrip, type LearnedStrip } from '../strips/learn-strip.ts';
import { placeSdM, positionErrorOfSdM } from '../strips/place-error.ts';
import { createStripFrame } from '../strips/strip-frame.ts';
import type { Strip, StripBook } from '../strips/strip.ts';
import type { Flight } from './debrief.ts';

/** One strip or place with what was learned of it. */
export interface LearnedPlace {
  /** False for a place that is proposed as a new strip. */
  readonly known: boolean;
  /** Refined or proposed, with a property `learned` that holds what the rolls say. */
  readonly strip: Strip;
  readonly learned: LearnedStrip;
  readonly notes: readonly string[];
}

/** Learns from all flights together; strips in the order of the book, then proposed ones. */
export function learnStrips(flights: readonly Flight[], book: StripBook): LearnedPlace[] {
  const drawn = flights.flatMap(({ source, motion, track, events }) =>
    groundTraces(motion, events, `${source.file} ${track.timeS[0]}`),
  );
  const known = book.strips.flatMap((strip) => {
    const traces = drawn.filter((each) => each.known && each.strip.id === strip.id);
    return learnPlace(
      strip,
      true,
      traces.map(({ trace }) => trace),
    );
  });
  const places = samePlaces(drawn.filter((each) => !each.known));
  const taken = new Set(book.strips.map(({ id }) => id));
  const proposed = places.flatMap(([first, ...rest]) => {
    const strip = { ...first.strip, ...freeName(taken) };
    return learnPlace(
      strip,
      false,
      [first, ...rest].map(({ trace }) => trace),
    );
  });
  return [...known, ...proposed];
}

/** The book with learned strips in the place of those as drawn, and proposed ones behind them. */
export function bookWithLearned(book: StripBook, places: readonly LearnedPlace[]): StripBook {
  const byId = new Map(places.map(({ strip }) => [strip.id, strip]));
  const strips = book.strips.map((strip) => byId.get(strip.id) ?? strip);
  const fresh = places.filter(({ known }) => !known).map(({ strip }) => strip);
  return { ...book, strips: [...strips, ...fresh] };
}

function learnPlace(
  reference: Strip,
  known: boolean,
  traces: readonly GroundTrace[],
): LearnedPlace[] {
  const learned = learnStrip(reference, traces);
  if (isUndetermined(learned)) return [];
  const strip = known ? refinedStrip(reference, learned) : proposedStrip(reference, learned);
  const notes = known ? learnedNotes(reference, learned) : [];
  const properties = { ...strip.properties, learned: learnedProperty(learned, notes) };
  return [{ known, learned, notes, strip: { ...strip, properties } }];
}

/** The line drawn, each position moved towards the learned axis by their errors; elevations only where none were kept. */
function refinedStrip(reference: Strip, learned: LearnedStrip): Strip {
  const any = reference.directions[0];
  const frame = createStripFrame(reference, { ...any, from: 'A', displacedM: 0 });
  const columns = [reference.latDeg, reference.lonDeg].map((each) => Float64Array.from(each));
  const { alongM } = frame.toAlongCross(columns[0], columns[1]);
  const drawnVar = placeSdM(reference) ** 2;
  const [atA, atB] = learned.rightAtEndsM;
  const points = Array.from(alongM, (along) => {
    const share = along / frame.lengthM;
    const rightM = atA.value + share * (atB.value - atA.value);
    const halfM = (1 - share) * (atA.high - atA.value) + share * (atB.high - atB.value);
    const learnedVar = (halfM / Z90) ** 2;
    const weight = drawnVar / (drawnVar + learnedVar);
    return { ...frame.pointAt(along, weight * rightM), sdM: Math.sqrt(weight * learnedVar) };
  });
  const elevation = elevationOf(learned, 0, frame.lengthM);
  return {
    ...reference,
    latDeg: points.map(({ latDeg }) => latDeg),
    lonDeg: points.map(({ lonDeg }) => lonDeg),
    positionErrorM: tenth(
      positionErrorOfSdM(Math.max(LEAST_SD_M, ...points.map(({ sdM }) => sdM))),
    ),
    elevationM: reference.elevationM ?? (reference.profile ? null : elevation),
  };
}

/** However many visits: one pilot's receiver and habits share an error, metres (one sd). */
const LEAST_SD_M = 1;

/** A new strip from where wheels were seen to where they were seen last. */
function proposedStrip(place: Strip, learned: LearnedStrip): Strip {
  const line = {
    ...place,
    elevationM: elevationOf(learned, learned.usedFromM.value, learned.usedToM.value),
    latDeg: learned.latDeg.map(sevenDecimals),
    lonDeg: learned.lonDeg.map(sevenDecimals),
  };
  // The distances are those of the line as written, which is not as long to the last millimetre.
  const { lengthM } = createStripFrame(line, { ...place.directions[0], from: 'A', displacedM: 0 });
  return {
    ...line,
    positionErrorM: tenth(
      positionErrorOfSdM(
        Math.max(LEAST_SD_M, (learned.rightM.high - learned.rightM.low) / (2 * Z90)),
      ),
    ),
    endsGuessed: true,
    directions: completeDirections(null, lengthM, learned.bearingDeg.value),
  };
}

/** Elevations at two distances along the line, where the level and the slope are both known. */
function elevationOf(learned: LearnedStrip, aM: number, bM: number): [number, number] | null {
  const { elevationM, slopeRatio, usedFromM } = learned;
  if (isUndetermined(elevationM) || isUndetermined(slopeRatio)) return null;
  const at = (alongM: number): number =>
    tenth(elevationM.value + slopeRatio.value * (alongM - usedFromM.value));
  return [at(aM), at(bM)];
}

/** What the rolls say, as a property of the feature: bands in metres, degrees and per cent. */
function learnedProperty(learned: LearnedStrip, notes: readonly string[]): object {
  const slope = learned.slopeRatio;
  const percent: Measured = isUndetermined(slope)
    ? slope
    : { value: 100 * slope.value, low: 100 * slope.low, high: 100 * slope.high };
  return {
    visits: learned.visits,
    traces: learned.traces,
    bearingDeg: rounded(learned.bearingDeg),
    rightOfLineM: rounded(learned.rightM),
    usedFromM: rounded(learned.usedFromM),
    usedToM: rounded(learned.usedToM),
    usedLengthM: rounded(learned.usedLengthM),
    slopePercent: rounded(percent),
    elevationM: rounded(learned.elevationM),
    profile: learned.profile.map(({ fromAM, riseM }) => ({
      fromAM: tenth(fromAM),
      riseM: rounded(riseM),
    })),
    notes,
  };
}

function rounded(measured: Measured): Measured {
  if (isUndetermined(measured)) return measured;
  const { value, low, high } = measured;
  return { value: hundredth(value), low: hundredth(low), high: hundredth(high) };
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
const hundredth = (value: number): number => Math.round(value * 100) / 100;
/** A centimetre. */
const sevenDecimals = (value: number): number => Math.round(value * 1e7) / 1e7;

/** Traces at unknown places of all flights, grouped by line. */
function samePlaces(drawn: readonly StripTrace[]): StripTrace[][] {
  const groups: StripTrace[][] = [];
  for (const each of drawn) {
    const group = groups.find(([first]) => sameLine(first.strip, each.strip));
    if (group) group.push(each);
    else groups.push([each]);
  }
  return groups;
}

/** Provisional lines of one place: their middles near each other across the line, one bearing either way round. */
function sameLine(a: Strip, b: Strip): boolean {
  const frame = createLocalFrame(a.latDeg[0], a.lonDeg[0]);
  const [aEnd, bStart, bEnd] = [
    frame.toEastNorthPoint(a.latDeg[1], a.lonDeg[1]),
    frame.toEastNorthPoint(b.latDeg[0], b.lonDeg[0]),
    frame.toEastNorthPoint(b.latDeg[1], b.lonDeg[1]),
  ];
  const bearing = Math.atan2(aEnd.eastM, aEnd.northM);
  const other = Math.atan2(bEnd.eastM - bStart.eastM, bEnd.northM - bStart.northM);
  const turnedDeg = Math.abs(
    signedDifferenceDeg((bearing * 180) / Math.PI, (other * 180) / Math.PI),
  );
  if (Math.min(turnedDeg, 180 - turnedDeg) > SAME_DEG) return false;
  const east = (bStart.eastM + bEnd.eastM) / 2;
  const north = (bStart.northM + bEnd.northM) / 2;
  const acrossM = east * Math.cos(bearing) - north * Math.sin(bearing);
  const alongM = east * Math.sin(bearing) + north * Math.cos(bearing);
  return (
    Math.abs(acrossM) < SAME_ACROSS_M &&
    alongM > -SAME_REACH_M &&
    alongM < Math.hypot(aEnd.eastM, aEnd.northM) + SAME_REACH_M
  );
}

/** Two rolls are on one line within these limits: degrees, metres. */
const SAME_DEG = 12;
const SAME_ACROSS_M = 40;
const SAME_REACH_M = 300;

/** The next place's id and name that no strip has. */
function freeName(taken: Set<string>): { id: string; name: string } {
  let k = 1;
  while (taken.has(`place-${k}`)) k++;
  taken.add(`place-${k}`);
  return { id: `place-${k}`, name: `Place ${k}` };
}
