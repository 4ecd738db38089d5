/**
 * What does the logbook keep?
 *
 * Records of seven kinds, each plain JSON data (the log's bytes apart), each with a kind, an id that is
 * unique within its kind, the time of its last change and a mark for the demonstration. Times are UTC
 * seconds since 1970, lengths metres. The rules stand in docs/spec/logbook.md.
 */

import type { Conditions } from '../weather/conditions.ts';

declare const idOf: unique symbol;

/** Every kind of record, in the order in which they are exported. */
export const ENTRY_KINDS = [
  ...(['log', 'visit', 'strip', 'aeroplane', 'factor-set'] as const),
  ...(['settings', 'result'] as const),
] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];

/** The id of a record of one kind. Made by `entryId`, which is the only cast. */
export type EntryId<K extends EntryKind> = string & { readonly [idOf]: K };
export type LogId = EntryId<'log'>;
export type VisitId = EntryId<'visit'>;
export type StripId = EntryId<'strip'>;
export type AeroplaneId = EntryId<'aeroplane'>;

/** Data that a JSON text can hold and give back. */
export type Json =
  string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** What every record carries. */
interface Kept<K extends EntryKind> {
  readonly kind: K;
  readonly id: EntryId<K>;
  /** When the record was last changed, by the clock of the machine that changed it. */
  readonly changedS: number;
  /** Part of the invented demonstration, removed with it. */
  readonly demo: boolean;
}

/** A track file as it came. Its id is the SHA-256 of its bytes: the same file twice is one log. */
export interface LogRecord extends Kept<'log'> {
  /** The file's own name, without folders. */
  readonly fileName: string;
  /** SHA-256 of the file's bytes, hexadecimal, lower case. */
  readonly sha256: string;
  readonly sizeBytes: number;
  readonly addedS: number;
  /** The file's bytes, packed with gzip. */
  readonly gzip: Uint8Array<ArrayBuffer>;
}

/** A log without its bytes, as it is listed. */
export type LogSummary = Omit<LogRecord, 'gzip'>;

/** How hard the landing was braked, as the pilot says. */
export interface EffortMark {
  readonly mark: 'full' | 'normal' | 'coasted';
  readonly markedS: number;
  /** True where the ratio stood on the screen: such a mark leaves no landing out of a calibration. */
  readonly ratioShown: boolean;
}

/** When and how far from the landing threshold; alongM is null at an unknown place. */
export interface Moment {
  readonly timeS: number;
  readonly alongM: number | null;
}

/** What every correction carries. The measured stays; a correction can be taken back. */
interface CorrectionMade {
  /** The version that measured what stood there before. */
  readonly algorithmVersion: number;
  readonly madeS: number;
  /** When it was taken back; null while it is in force. */
  readonly takenBackS: number | null;
}

/** A touchdown, a roll end or a lift-off moved by hand. */
export interface PlaceCorrection extends CorrectionMade {
  readonly what: 'touchdown' | 'roll-end' | 'lift-off';
  /** What stood there before the hand moved it. */
  readonly measured: Moment;
  readonly corrected: Moment;
}

/** Whether the wheels touched, as the pilot says. */
export interface ContactCorrection extends CorrectionMade {
  readonly what: 'contact';
  /** The probability of contact as measured; null where the fixes were too far apart for one. */
  readonly measured: number | null;
  readonly corrected: 'touched' | 'not-touched';
}

/** Something measured that the pilot knows better. */
export type Correction = PlaceCorrection | ContactCorrection;

/** What was entered about one landing, one pass or one take-off of a flight. */
export interface LandingEntry {
  /** The touchdown, lowest point or lift-off it is about, as found when the first entry was made: later versions find it near here. */
  readonly aroundS: number;
  /** Where they differ from the flight's. */
  readonly conditions: Conditions | null;
  readonly effort: EffortMark | null;
  /** When a mark was last taken off, so that an old copy does not bring it back; null: never. */
  readonly unmarkedS: number | null;
  /** Oldest first; of each `what` the last that was not taken back is in force. */
  readonly corrections: readonly Correction[];
}

/** A remark; `timeS` pins it to a moment, null means the whole visit. */
export interface Remark {
  /** Unique within the visit, so that remarks of two people can be merged. */
  readonly id: string;
  readonly timeS: number | null;
  readonly text: string;
  readonly writtenS: number;
}

/** A remark that was taken out: it does not come back from an old copy written before `removedS`. */
export interface RemovedRemark {
  readonly id: string;
  readonly removedS: number;
}

/** A prediction as it stood when it was saved. Never changed, never recomputed. */
export interface FrozenPrediction {
  readonly savedS: number;
  readonly stripId: StripId;
  readonly designator: string;
  readonly aeroplaneId: AeroplaneId;
  readonly conditions: Conditions;
  readonly algorithmVersion: number;
  readonly prediction: Json;
}

/** What the pilot entered for one flight: before it, with `logId` null, or after it. */
export interface VisitRecord extends Kept<'visit'> {
  readonly logId: LogId | null;
  /**
   * When the planned day, the aeroplane or the conditions were last entered; null: never. A remark
   * written later says nothing about them.
   */
  readonly enteredS: number | null;
  readonly plannedForS: number | null;
  readonly aeroplaneId: AeroplaneId | null;
  readonly conditions: Conditions | null;
  readonly landings: readonly LandingEntry[];
  readonly remarks: readonly Remark[];
  readonly removedRemarks: readonly RemovedRemark[];
  readonly predictions: readonly FrozenPrediction[];
}

/** A GeoJSON feature (RFC 7946), kept whole with every property. */
export type Feature = Readonly<Record<string, Json>>;

/** A feature as it was from a day on; null: as long as anyone knows. */
export interface FeatureVersion {
  readonly fromS: number | null;
  readonly feature: Feature;
}

/**
 * One feature of a strips file: a strip, an obstacle, an area to avoid, an approach path or anything
 * else. A strip's record has the strip's own id.
 */
export interface StripRecord extends Kept<'strip'> {
  /** One or more, rising in `fromS`: a mown line moves. */
  readonly versions: readonly FeatureVersion[];
}

/** An aeroplane document, kept whole. The record has the document's own id. */
export interface AeroplaneRecord extends Kept<'aeroplane'> {
  readonly document: Readonly<Record<string, Json>>;
}

/** A factor set of the pilot's own, its document kept whole. The record has the document's own id. */
export interface FactorSetRecord extends Kept<'factor-set'> {
  readonly document: Readonly<Record<string, Json>>;
}

/** Units in which figures are shown. */
export interface ShownUnits {
  readonly length: 'm' | 'ft';
  readonly height: 'm' | 'ft';
  readonly distance: 'km' | 'NM' | 'mile';
  readonly speed: 'kt' | 'mph' | 'km/h';
  readonly verticalSpeed: 'ft/min' | 'm/s';
  readonly mass: 'kg' | 'lb';
  readonly pressure: 'hPa' | 'inHg';
  readonly temperature: 'C' | 'F';
}

/** The pilot's own limits of being current; null: none set. */
export interface CurrencyLimits {
  readonly landingsIn90Days: number | null;
  readonly daysSinceStripLanding: number | null;
}

/** Settings: one record, whose id is `settings`. */
export interface SettingsRecord extends Kept<'settings'> {
  readonly units: ShownUnits;
  /** Id of the factor set; null: the default one. */
  readonly factorSet: string | null;
  /** `UTC` or a name of the IANA time zone database: local dates and times are shown in it. */
  readonly timeZone: string;
  readonly theme: 'system' | 'light' | 'dark';
  readonly currency: CurrencyLimits;
}

/** The analysis of one log, kept so that it need not be made again. Its id is the log's. */
export interface ResultRecord extends Kept<'result'> {
  readonly logId: LogId;
  readonly algorithmVersion: number;
  /** Fingerprint of the strips, aeroplanes and conditions that it was made with. */
  readonly inputsSha256: string;
  readonly data: Json;
}

interface EntryOfKind {
  readonly log: LogRecord;
  readonly visit: VisitRecord;
  readonly strip: StripRecord;
  readonly aeroplane: AeroplaneRecord;
  readonly 'factor-set': FactorSetRecord;
  readonly settings: SettingsRecord;
  readonly result: ResultRecord;
}

/** The record of a kind. */
export type EntryOf<K extends EntryKind> = EntryOfKind[K];
/** A record of any kind. */
export type Entry = EntryOf<EntryKind>;
/** A record of a kind as it is listed: a log comes without its bytes. */
export type ListedOf<K extends EntryKind> = K extends 'log' ? LogSummary : EntryOf<K>;
/** A listed record of any kind. */
export type Listed = ListedOf<EntryKind>;

/** Which record. */
export interface EntryKey<K extends EntryKind = EntryKind> {
  readonly kind: K;
  readonly id: EntryId<K>;
}

/** A text as the id of a record; the store refuses what is no usable id. */
export function entryId<K extends EntryKind>(_kind: K, text: string): EntryId<K> {
  return text as EntryId<K>;
}

/** The id of the only settings record. */
export const SETTINGS_ID = entryId('settings', 'settings');

/** A record in words, for messages: `visit "abc"`. */
export function nameOf({ kind, id }: { readonly kind: string; readonly id: string }): string {
  return `${kind} "${id.length <= 40 ? id : `${id.slice(0, 37)}...`}"`;
}

/** A log without its bytes; any other record as it is. */
export function listed(entry: Entry | Listed): Listed {
  if (entry.kind !== 'log') return entry;
  const { kind, id, changedS, demo, fileName, sha256, sizeBytes, addedS } = entry;
  return { kind, id, changedS, demo, fileName, sha256, sizeBytes, addedS };
}
