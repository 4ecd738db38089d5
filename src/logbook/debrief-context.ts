/**
 * With which strips, aeroplanes and conditions is a kept log debriefed?
 *
 * In: records as listed, the log, the time it was flown. Out: what the debrief takes, and its
 * fingerprint. A record that its own reader refuses is left out with a warning that names it.
 */

import { aeroplaneFlown } from '../debrief/aeroplane-flown.ts';
import type { DebriefContext } from '../debrief/debrief.ts';
import type { HandPlace, LandingMarks } from '../debrief/hand-corrections.ts';
import { SAME_LANDING_S } from '../debrief/landing-limits.ts';
import { lessonsFor, type LoggedLesson } from '../debrief/who-teaches.ts';
import type { Aeroplane } from '../performance/aeroplane.ts';
import { decodeAeroplane } from '../performance/decode-aeroplane.ts';
import { decodeFactorSet } from '../performance/factor-sets/decode-factor-set.ts';
import type { FactorSet } from '../performance/factor-sets/factor-set.ts';
import { problem, success, undetermined, type Problem, type Result } from '../result.ts';
import { decodeStrips } from '../strips/decode-strips.ts';
import type { StripBook } from '../strips/strip.ts';
import { NO_CONDITIONS, type Conditions } from '../weather/conditions.ts';
import {
  nameOf,
  type AeroplaneRecord,
  type FactorSetRecord,
  type Feature,
  type LandingEntry,
  type LogSummary,
  type PlaceCorrection,
  type StripRecord,
  type VisitRecord,
} from './entry.ts';
import { sha256Hex } from './log-bytes.ts';
import { canonicalText } from './plain-json.ts';
import { contactInForce, correctionInForce, landingNear } from './landing-entries.ts';
import { featureAt } from './strip-versions.ts';

/** Ids of the other logs that recorded a log's flights: what was entered about those holds for it too. */
export interface OtherLogs {
  /** Of any of its flights: their landings are known by the time. */
  readonly ofLandings: readonly string[];
  /** Of all of its flights: conditions are entered for a whole log. */
  readonly ofWhole: readonly string[];
}

/** Records that a debrief rests on. */
export interface KeptInputs {
  readonly strips: readonly StripRecord[];
  readonly aeroplanes: readonly AeroplaneRecord[];
  readonly visits: readonly VisitRecord[];
  /** By log id, of logs whose flights other logs recorded too; absent: none. */
  readonly otherLogs?: ReadonlyMap<string, OtherLogs>;
  /** What touchdowns put by hand taught, of all logs; absent: nothing. */
  readonly lessons?: readonly LoggedLesson[];
  /** Factor sets of the pilot's own; absent: none. */
  readonly factorSets?: readonly FactorSetRecord[];
  /** Id of the set of flights that name none; absent or null: the default one. */
  readonly factorSet?: string | null;
}

/**
 * The context of one log, flown at `timeS`. Lists that were read before are not read again: of many
 * logs each gets the same strips and aeroplanes, as long as the same lists are handed in.
 *
 * Fails: where the good strips do not go together; never because of a single bad record.
 */
export function contextFor(
  inputs: KeptInputs,
  log: LogSummary,
  timeS: number,
): Result<DebriefContext> {
  const strips = stripBookAt(inputs.strips, timeS);
  if (!strips.ok) return strips;
  const aeroplanes = kept(aeroplanesRead, inputs.aeroplanes, () => readAll(inputs.aeroplanes));
  const others = inputs.otherLogs?.get(log.id);
  const entered = flightConditions(inputs.visits, log, others?.ofWhole);
  const all = entered && { ...entered, factorSet: entered.factorSet ?? inputs.factorSet ?? null };
  const conditions = all ? { all, byFile: new Map<string, Conditions>() } : null;
  const landings = landingMarks(inputs.visits, log, others?.ofLandings);
  const factorSets = ownSetCalled(inputs.factorSets ?? [], all?.factorSet ?? null);
  const lessons = lessonsFor(inputs.lessons ?? [], {
    logId: log.id,
    aeroplane: aeroplaneFlown(aeroplanes.value, all ?? undetermined('not entered')),
    teaches: teaches(landings),
  });
  const context = { strips: strips.value, aeroplanes: aeroplanes.value, conditions, landings };
  return success({ ...context, lessons, factorSets: factorSets.value }, [
    ...strips.problems,
    ...aeroplanes.problems,
    ...factorSets.problems,
  ]);
}

/** Whether a log's own touchdowns put by hand teach others: then nothing teaches it. */
export function teaches(landings: readonly LandingMarks[]): boolean {
  return landings.some(({ touchdown, contact }) => touchdown !== null && contact !== false);
}

/** Of the pilot's own factor sets the one that is used, so that another one makes nothing stale. */
function ownSetCalled(
  records: readonly FactorSetRecord[],
  id: string | null,
): { readonly value: readonly FactorSet[]; readonly problems: readonly Problem[] } {
  const record = records.find((each) => each.id === id);
  if (!record) return { value: [], problems: [] };
  const decoded = decodeFactorSet(JSON.stringify(record.document));
  return decoded.ok
    ? { value: [decoded.value], problems: [] }
    : { value: [], problems: leftOut(nameOf(record), decoded.problems) };
}

/** What was read of a list, as long as somebody holds the list. */
const stripsRead = new WeakMap<readonly StripRecord[], Map<string, Result<StripBook>>>();
const aeroplanesRead = new WeakMap<readonly AeroplaneRecord[], Readings>();
const hashes = new WeakMap<object, Promise<string>>();

interface Readings {
  readonly value: readonly Aeroplane[];
  readonly problems: readonly Problem[];
}

function kept<K extends object, V>(memory: WeakMap<K, V>, key: K, make: () => V): V {
  const value = memory.get(key) ?? make();
  memory.set(key, value);
  return value;
}

/** The strips as they lay at a time; one book for all times at which the same versions lay there. */
export function stripBookAt(records: readonly StripRecord[], timeS: number): Result<StripBook> {
  const books = kept(stripsRead, records, () => new Map<string, Result<StripBook>>());
  const features = records.map((strip) => featureAt(strip, timeS));
  const which = records.map(({ versions }, i) =>
    versions.findIndex(({ feature }) => feature === features[i]),
  );
  const key = which.join(' ');
  const book = books.get(key) ?? readBook(records, features);
  books.set(key, book);
  return book;
}

function readBook(
  records: readonly StripRecord[],
  features: readonly Feature[],
): Result<StripBook> {
  const problems: Problem[] = [];
  const good = features.filter((feature, i) => {
    const alone = decodeStrips(collection([feature]));
    if (!alone.ok) problems.push(...leftOut(nameOf(records[i]), alone.problems));
    return alone.ok;
  });
  const strips = decodeStrips(collection(good));
  return strips.ok ? success(strips.value, problems) : strips;
}

function readAll(records: readonly AeroplaneRecord[]): Readings {
  const problems: Problem[] = [];
  const value = records.flatMap((record): Aeroplane[] => {
    const decoded = decodeAeroplane(JSON.stringify(record.document));
    if (!decoded.ok) problems.push(...leftOut(nameOf(record), decoded.problems));
    return decoded.ok ? [decoded.value] : [];
  });
  return { value, problems };
}

/**
 * What was entered about a log's flight. Where two records are about the same log, as after two
 * people's logbooks were merged, the later one's fields win, field by field; its own win over those
 * about `others`, which recorded the same flight.
 */
export function flightConditions(
  visits: readonly VisitRecord[],
  log: LogSummary,
  others: readonly string[] = [],
): Conditions | null {
  const rising = visitsAbout(visits, log, others).toReversed();
  let merged: Conditions | null = null;
  for (const { conditions, aeroplaneId } of rising) {
    const entered = { ...conditions, ...(aeroplaneId === null ? {} : { aeroplane: aeroplaneId }) };
    const given = Object.entries(entered).filter(([, value]) => value !== null);
    if (given.length > 0) merged = { ...(merged ?? NO_CONDITIONS), ...Object.fromEntries(given) };
  }
  return merged;
}

/** Records about a log, the one that wins first: the later of its own, then those about the others. */
function visitsAbout(
  visits: readonly VisitRecord[],
  log: Pick<LogSummary, 'id'>,
  others: readonly string[],
): VisitRecord[] {
  const isOther = (visit: VisitRecord): number => (visit.logId === log.id ? 0 : 1);
  return visits
    .filter(({ logId }) => logId !== null && (logId === log.id || others.includes(logId)))
    .toSorted((a, b) => isOther(a) - isOther(b) || laterFirst(a, b));
}

/** Which of two records about one log wins: the one changed later; in one instant that of the greater id. */
export function laterFirst(a: VisitRecord, b: VisitRecord): number {
  return b.changedS - a.changedS || (a.id < b.id ? 1 : -1);
}

/**
 * What was entered about single landings of a log, and of the same ones in `others`: marks that may
 * count, corrections in force. Entries of one record about one landing are united; of two records what
 * wins in `flightConditions`, field by field. An effort marked with the ratio on screen counts for nothing here.
 */
export function landingMarks(
  visits: readonly VisitRecord[],
  log: LogSummary,
  others: readonly string[] = [],
): LandingMarks[] {
  const placed = (landing: LandingEntry, what: PlaceCorrection['what']): HandPlace | null => {
    const { timeS, alongM } = correctionInForce(landing, what)?.corrected ?? NOWHERE;
    return alongM === null ? null : { timeS, alongM };
  };
  return visitsAbout(visits, log, others)
    .flatMap((visit) =>
      visit.landings.map((landing) => landingNear(visit, landing.aroundS) ?? landing),
    )
    .map((landing) => {
      const word = contactInForce(landing);
      const liftOff = placed(landing, 'lift-off');
      return {
        aroundS: landing.aroundS,
        effort: landing.effort && !landing.effort.ratioShown ? landing.effort.mark : null,
        touchdown: placed(landing, 'touchdown'),
        rollEnd: placed(landing, 'roll-end'),
        // Without these a fingerprint is what it was before there were any.
        ...(word ? { contact: word.corrected === 'touched' } : {}),
        ...(liftOff ? { liftOff } : {}),
      };
    })
    .filter(
      ({ effort, touchdown, rollEnd, contact, liftOff }) =>
        effort !== null || touchdown || rollEnd || contact !== undefined || liftOff,
    )
    .reduce<LandingMarks[]>(withMarks, []);
}

/** One entry for a landing: what one says of it goes before what a later one of the list says. */
function withMarks(all: readonly LandingMarks[], more: LandingMarks): LandingMarks[] {
  const known = all.find(({ aroundS }) => Math.abs(aroundS - more.aroundS) <= SAME_LANDING_S);
  if (!known) return [...all, more];
  const joined = {
    ...more,
    ...known,
    effort: known.effort ?? more.effort,
    touchdown: known.touchdown ?? more.touchdown,
    rollEnd: known.rollEnd ?? more.rollEnd,
  };
  return all.map((each) => (each === known ? joined : each));
}

const NOWHERE = { timeS: 0, alongM: null } as const;

/**
 * SHA-256 over everything a context holds: a kept result made with another one is out of date. Strips
 * and aeroplanes are hashed once, however many logs share them.
 */
export async function fingerprint(context: DebriefContext): Promise<string> {
  const { strips, aeroplanes, conditions, landings = [], lessons = [], factorSets = [] } = context;
  const [stripsSha256, aeroplanesSha256] = await Promise.all([
    kept(hashes, strips, () => hashOf(strips)),
    kept(hashes, aeroplanes, () => hashOf(aeroplanes)),
  ]);
  const byFile = [...(conditions?.byFile ?? [])];
  const all = conditions?.all ?? null;
  // Without entries the fingerprint is what it was before there were any.
  const marked = landings.length === 0 ? {} : { landings };
  const taught = lessons.length === 0 ? {} : { lessons };
  const own = factorSets.length === 0 ? {} : { factorSets };
  return hashOf({ stripsSha256, aeroplanesSha256, all, byFile, ...marked, ...taught, ...own });
}

function hashOf(data: unknown): Promise<string> {
  return sha256Hex(new TextEncoder().encode(canonicalText(data)));
}

function collection(features: readonly Feature[]): string {
  return JSON.stringify({ type: 'FeatureCollection', features });
}

function leftOut(name: string, problems: readonly Problem[]): Problem[] {
  return problems
    .filter(({ severity }) => severity === 'error')
    .map(({ message }) =>
      problem('logbook-left-out', 'warning', name, `left out of this debrief: ${message}`),
    );
}
