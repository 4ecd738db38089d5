/**
 * In which fields do two versions of one record differ, in words?
 *
 * In: the version that was not taken, the one that stands. Out: short texts, each a field named as in
 * its file, with both values where they are short. Of lists only the name: a table has no short text.
 */
import type { Json, Listed, SettingsRecord, StripRecord } from '../logbook/entry.ts';
import { canonicalText } from '../logbook/plain-json.ts';
import { dayText, yearOf } from './local-time.ts';

/** More than anybody reads of one record. */
const MOST_FIELDS = 6;
/** Longer texts are named, not quoted. */
const LONGEST_VALUE = 60;

/** In which zone days are said, and what factor sets are called. */
interface Naming {
  readonly units: { readonly timeZone: string };
  readonly factorSetName: (id: string) => string;
}

/** See the file's head. */
export function differingFields(was: Listed, stands: Listed, naming: Naming): string[] {
  const all = fieldsOf(was, stands, naming);
  const more = all.length - MOST_FIELDS;
  return more > 0 ? [...all.slice(0, MOST_FIELDS), `${more} more`] : all;
}

function fieldsOf(was: Listed, stands: Listed, naming: Naming): string[] {
  if (was.kind === 'strip' && stands.kind === 'strip') {
    return ofStrips(was, stands, naming.units.timeZone);
  }
  if (was.kind === 'settings' && stands.kind === 'settings') {
    return differing(settingsShown(was, naming), settingsShown(stands, naming));
  }
  if (was.kind === 'log' && stands.kind === 'log') {
    return differing({ name: was.fileName }, { name: stands.fileName });
  }
  return 'document' in was && 'document' in stands ? differing(was.document, stands.document) : [];
}

function ofStrips(was: StripRecord, stands: StripRecord, timeZone: string): string[] {
  const from = (fromS: number | null): string =>
    fromS === null ? '' : ` from ${dayText(fromS, timeZone)} ${yearOf(fromS, timeZone)}`;
  return was.versions.flatMap(({ fromS, feature }) => {
    const same = stands.versions.find((each) => each.fromS === fromS);
    if (!same) return [`how it lay${from(fromS)}, which is not there now`];
    return differing(feature, same.feature).map((field) => `${field}${from(fromS)}`);
  });
}

/** Settings under the names that the page gives them. */
function settingsShown(settings: SettingsRecord, { factorSetName }: Naming): Record<string, Json> {
  const { units, factorSet, timeZone, theme, currency } = settings;
  return {
    ...Object.fromEntries(
      Object.entries(units).map(([of, unit]) => [
        `unit of ${UNIT_WORDS[of as keyof typeof units]}`,
        unit,
      ]),
    ),
    'factor set': factorSet === null ? null : factorSetName(factorSet),
    'time zone': timeZone,
    'light or dark': theme,
    'landings in 90 days': currency.landingsIn90Days,
    'days since a strip landing': currency.daysSinceStripLanding,
  };
}

const UNIT_WORDS: Readonly<Record<keyof SettingsRecord['units'], string>> = {
  length: 'lengths',
  height: 'heights',
  distance: 'distances',
  speed: 'speeds',
  verticalSpeed: 'vertical speeds',
  mass: 'masses',
  pressure: 'pressures',
  temperature: 'temperatures',
};

function differing(was: Json, stands: Json | undefined, path = ''): string[] {
  if (isObject(was) && isObject(stands)) {
    const names = [...new Set([...Object.keys(was), ...Object.keys(stands)])];
    return names.flatMap((name) => {
      const [before, now] = [was[name] ?? null, stands[name] ?? null];
      // Every pilot's strip is of these; what lies in them is what was entered.
      const inner = path === '' && name === 'properties' ? '' : `${path}${name}`;
      if (name === 'geometry' && path === '') {
        return differing(before, now, '').length > 0 ? ['the line drawn'] : [];
      }
      return differing(
        before,
        now,
        isObject(before) && isObject(now) && inner ? `${inner}.` : inner,
      );
    });
  }
  if (canonicalText(was) === canonicalText(stands ?? null)) return [];
  const [before, now] = [shortText(was), shortText(stands ?? null)];
  const isShort = before !== null && now !== null;
  return [isShort ? `${path} (${before}; now ${now})` : path];
}

function shortText(value: Json): string | null {
  if (value === null) return 'none';
  if (typeof value === 'object') return null;
  const text = String(value);
  return text.length > LONGEST_VALUE ? null : text;
}

function isObject(value: Json | undefined): value is { readonly [key: string]: Json } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
