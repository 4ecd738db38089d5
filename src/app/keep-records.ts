/**
 * Records that come from forms, files and the demonstration, written to the logbook.
 *
 * In: the store and what is to be kept. Out: results whose problems the store says aloud.
 */
import { loadDemo } from '../logbook/demo-logbook.ts';
import type {
  AeroplaneRecord,
  Entry,
  FactorSetRecord,
  Feature,
  StripRecord,
} from '../logbook/entry.ts';
import { importLogbook, type ImportReport } from '../logbook/import-logbook.ts';
import { put } from '../logbook/logbook-store.ts';
import { makeAeroplane, makeFactorSet, makeStrips } from '../logbook/make-entry.ts';
import { readLogbookFile } from '../logbook/read-logbook-file.ts';
import { addVersion } from '../logbook/strip-versions.ts';
import { failure, problem, success, type Problem, type Result } from '../result.ts';
import type { PageStore } from './page-store.ts';
import type { AppAction } from './app-state.ts';

/** Brings the demonstration; records that are there stay. Fails: where its file cannot be had. */
export async function bringDemo({ around }: PageStore): Promise<Result<unknown>> {
  let bytes: Uint8Array<ArrayBuffer>;
  try {
    bytes = await around.fetchDemo();
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    const message = `found no demonstration to load (${words}), expected its file beside the page`;
    return failure([problem('no-demo', 'error', 'demonstration', message)]);
  }
  const entries = await readLogbookFile(bytes);
  return entries.ok ? loadDemo(around.logbook, entries.value) : entries;
}

/** Keeps an aeroplane document. Fails: as its reader does. */
export async function keepAeroplane(
  { around, state }: PageStore,
  document: AeroplaneRecord['document'],
): Promise<Result<unknown>> {
  const nowS = around.clock();
  const made = makeAeroplane(JSON.stringify(document), { nowS, demo: false });
  if (!made.ok) return made;
  const before = state.aeroplanes.find(({ id }) => id === made.value.id);
  return around.logbook.write([put({ ...made.value, demo: before?.demo ?? false })]);
}

/** Keeps a factor set of the pilot's own. Fails: as its reader does. */
export async function keepFactorSet(
  { around }: PageStore,
  document: FactorSetRecord['document'],
): Promise<Result<unknown>> {
  const making = { nowS: around.clock(), demo: false };
  const made = makeFactorSet(JSON.stringify(document), making);
  return made.ok ? around.logbook.write([put(made.value)]) : made;
}

type FeaturesAction = Extract<AppAction, { readonly type: 'save-features' }>;

/**
 * Keeps features. What is there already gets a further version from `fromS` on, or, with null, is
 * replaced as it always was.
 */
export async function keepFeatures(
  { around, state }: PageStore,
  { features, fromS }: FeaturesAction,
): Promise<Result<unknown>> {
  const nowS = around.clock();
  const collection = { type: 'FeatureCollection', features: features.map((each) => each.feature) };
  const made = await makeStrips(JSON.stringify(collection), { nowS, demo: false });
  if (!made.ok) return made;
  const replaced = new Map(features.map(({ feature, recordId }) => [feature, recordId]));
  const records = made.value.map((record): Entry => {
    const { feature } = record.versions[0];
    const given = [...replaced].find(([each]) => sameFeature(each, feature))?.[1] ?? record.id;
    const before = state.strips.find(({ id }) => id === given);
    if (!before) return record;
    if (fromS !== null) return addVersion(before, fromS, feature, nowS);
    return { ...before, changedS: nowS, versions: lastReplaced(before, feature) };
  });
  return around.logbook.write(records.map(put));
}

function lastReplaced({ versions }: StripRecord, feature: Feature): StripRecord['versions'] {
  return [...versions.slice(0, -1), { ...versions[versions.length - 1], feature }];
}

function sameFeature(a: Feature, b: Feature): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/**
 * A strip that comes in a strips file, over what is kept of it: its latest version is replaced, how it
 * lay on earlier days stays. A strip that is new stays as it came.
 */
export function overKnown(record: StripRecord, { state }: PageStore): StripRecord {
  const before = state.strips.find(({ id }) => id === record.id);
  if (!before) return record;
  return { ...record, versions: lastReplaced(before, record.versions[0].feature) };
}

/** Takes in a logbook file and says what came of it. */
export async function takeLogbook(store: PageStore, file: File): Promise<Result<ImportReport>> {
  let bytes: Uint8Array<ArrayBuffer>;
  try {
    bytes = new Uint8Array(await file.arrayBuffer());
  } catch (error) {
    return failure([unreadable(file, error, 'a logbook')]);
  }
  const report = await importLogbook(bytes, store.around.logbook);
  if (!report.ok) return report;
  const { added, unchanged, completed } = report.value;
  const conflicts = report.value.conflicts.filter(({ other }) => other.kind !== 'result');
  const records = `${added.length} ${added.length === 1 ? 'record' : 'records'} added`;
  const words = [
    `${file.name}: ${records}, ${unchanged.length} there already`,
    ...(completed.length > 0 ? [`${completed.length} completed or made newer`] : []),
    ...(conflicts.length > 0
      ? ['what was not taken is listed in the logbook and the settings']
      : []),
  ];
  if (conflicts.length > 0) {
    store.update({ notTaken: [...store.state.notTaken, { fileName: file.name, conflicts }] });
  }
  store.say(`${words.join('; ')}.`, null, conflicts.length > 0);
  return success(report.value, report.problems);
}

/** What is wrong where the browser does not give a file's content, as when it was moved meanwhile. */
export function unreadable({ name }: File, error: unknown, expected: string): Problem {
  const words = error instanceof Error ? error.message : String(error);
  const message = `found a file that the browser cannot read (${words}), expected ${expected}`;
  return problem('unreadable', 'error', name, message);
}
