/**
 * A lit template as text, for tests and plates made in Node.
 *
 * In: a template result, or anything a template may hold. Out: markup as a browser would be given
 * it. Event and property bindings leave no trace; an attribute bound to `nothing` is left out.
 */
import { nothing } from 'lit';

interface Result {
  readonly _$litType$: number;
  readonly strings: readonly string[];
  readonly values: readonly unknown[];
}

/** Renders it. Throws on a value that has no text: an object, a function where none may stand. */
export function templateText(value: unknown): string {
  if (value === nothing || value === null || value === undefined) return '';
  if (Array.isArray(value)) return value.map(templateText).join('');
  if (isResult(value)) return resultText(value);
  if (typeof value === 'string' || typeof value === 'number') return escaped(String(value));
  throw new Error(`a template cannot hold a ${typeof value}`);
}

function isResult(value: unknown): value is Result {
  return typeof value === 'object' && value !== null && '_$litType$' in value;
}

/** An attribute that ends at a binding: its name, and its quote where it has one. */
const ATTRIBUTE = /\s([@.?]?[\w:-]+)=("?)$/;

function resultText({ strings, values }: Result): string {
  let text = '';
  let rest = strings[0];
  values.forEach((value, i) => {
    const next = strings[i + 1];
    const attribute = ATTRIBUTE.exec(rest);
    if (!attribute) {
      text += rest + templateText(value);
      rest = next;
      return;
    }
    const [whole, name, quote] = attribute;
    text += rest.slice(0, rest.length - whole.length);
    text += attributeText(name, value);
    rest = quote === '' ? next : next.slice(1);
  });
  return text + rest;
}

function attributeText(name: string, value: unknown): string {
  if (name.startsWith('@') || name.startsWith('.')) return '';
  if (name.startsWith('?')) return value === true ? ` ${name.slice(1)}=""` : '';
  if (value === nothing || value === undefined || value === null) return '';
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new Error(`attribute ${name} is ${value}`);
  }
  if (typeof value !== 'string' && typeof value !== 'number') {
    throw new Error(`attribute ${name} cannot hold a ${typeof value}`);
  }
  return ` ${name}="${escaped(String(value))}"`;
}

function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
