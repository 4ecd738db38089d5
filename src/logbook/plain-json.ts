/**
 * Is a value plain JSON data, and what is its text in a fixed order?
 *
 * Plain JSON is what a JSON text can hold and give back: nothing undefined, no NaN, no dates, no
 * typed arrays. The walk is bounded in depth and size, so that no file can exhaust the program.
 */

/** Levels of lists and objects; our own documents have at most ten. */
const MOST_LEVELS = 64;
/** Values and characters of one document; the longest debriefs have some hundred thousand. */
const MOST_CONTENT = 20_000_000;
/** Steps of a path that are shown; a deeper one is no help to anybody. */
const MOST_SHOWN = 10;

/**
 * The first thing that is not plain JSON, in words, or null where all is plain.
 *
 * @example whyNotPlain({ a: [1, NaN] }) // 'found NaN at a.1'
 */
export function whyNotPlain(value: unknown): string | null {
  const budget = { left: MOST_CONTENT };
  const at = findNotPlain(value, 0, budget);
  if (!at) return null;
  const path = at.path.slice(0, MOST_SHOWN).join('.');
  return path === '' ? `found ${at.found}` : `found ${at.found} at ${path}`;
}

/**
 * The text of plain JSON with the keys of every object sorted: equal for data that differ only in
 * the order of keys (or in the sign of zero).
 */
export function canonicalText(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) => {
    if (!isObject(inner)) return inner;
    const sorted = Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1));
    return Object.fromEntries(sorted);
  });
}

/** An object that is no list, no null and of no class of its own. */
function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

/** What was found and the way to it; the way is only written where something was found. */
interface NotPlain {
  readonly path: readonly (string | number)[];
  readonly found: string;
}

function findNotPlain(value: unknown, level: number, budget: { left: number }): NotPlain | null {
  const here = (found: string): NotPlain => ({ path: [], found });
  budget.left -= typeof value === 'string' ? value.length + 1 : 1;
  if (budget.left < 0) return here(`more than ${MOST_CONTENT} values and characters`);
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return null;
  if (typeof value === 'number') return Number.isFinite(value) ? null : here(String(value));
  if (level === MOST_LEVELS) return here(`over ${MOST_LEVELS} levels of lists and objects`);
  if (Array.isArray(value)) {
    for (let i = 0; i < value.length; i++) {
      const inside = findNotPlain(value[i], level + 1, budget);
      if (inside) return { ...inside, path: [i, ...inside.path] };
    }
    return null;
  }
  if (!isObject(value)) return here(`${typeof value} that JSON does not have`);
  for (const key of Object.keys(value)) {
    budget.left -= key.length;
    const inside = findNotPlain(value[key], level + 1, budget);
    if (inside) return { ...inside, path: [key, ...inside.path] };
  }
  return null;
}
