/**
 * JSON as the project's formatter leaves it: two spaces, objects open, arrays on one line where they
 * fit in 100 columns and hold no more than one thing that is itself a list or an object.
 */

/** Prints a value with a line end after it. */
export function printJson(value: unknown): string {
  return `${print(value, '', 0)}\n`;
}

const COLUMNS = 100;

function print(value: unknown, indent: string, used: number): string {
  const deeper = `${indent}  `;
  if (Array.isArray(value)) {
    const list = value as unknown[];
    const flat = flatList(list);
    if (flat !== null && used + flat.length < COLUMNS) return flat;
    if (list.every((item) => typeof item === 'number')) return fillNumbers(list, indent);
    const items = list.map((item) => `${deeper}${print(item, deeper, deeper.length)}`);
    return `[\n${items.join(',\n')}\n${indent}]`;
  }
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).filter(([, inner]) => inner !== undefined);
    if (entries.length === 0) return '{}';
    const lines = entries.map(([key, inner]) => {
      const start = `${deeper}${JSON.stringify(key)}: `;
      return `${start}${print(inner, deeper, start.length)}`;
    });
    return `{\n${lines.join(',\n')}\n${indent}}`;
  }
  return JSON.stringify(value);
}

/** The list on one line, or null where the formatter would open it. */
function flatList(list: readonly unknown[]): string | null {
  const nested = list.filter((item) => Array.isArray(item));
  if (list.some((item) => typeof item === 'object' && item !== null && !Array.isArray(item))) {
    return null;
  }
  if (nested.length > 1 && nested.every((item) => item.length > 1)) return null;
  const parts = list.map((item) =>
    Array.isArray(item) ? flatList(item as unknown[]) : JSON.stringify(item),
  );
  return parts.includes(null) ? null : `[${parts.join(', ')}]`;
}

function fillNumbers(list: readonly number[], indent: string): string {
  const lines: string[] = [];
  let line = `${indent}  `;
  list.forEach((number, i) => {
    const text = `${number}${i < list.length - 1 ? ',' : ''}`;
    if (line.trim() !== '' && line.length + text.length > COLUMNS) {
      lines.push(line.trimEnd());
      line = `${indent}  `;
    }
    line += `${text} `;
  });
  lines.push(line.trimEnd());
  return `[\n${lines.join('\n')}\n${indent}]`;
}
