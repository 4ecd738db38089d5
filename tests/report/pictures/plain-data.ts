/** Whether a value is plain data: what a store and another thread can hold. */

/** Paths of what is not plain: functions, classes, missing values. None where all is plain. */
export function notPlain(value: unknown, path = ''): string[] {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return [];
  if (typeof value === 'number') return [];
  if (value instanceof Float64Array) return [];
  if (Array.isArray(value)) return value.flatMap((each, i) => notPlain(each, `${path}[${i}]`));
  if (typeof value !== 'object') return [`${path} is a ${typeof value}`];
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype) return [`${path} has a class of its own`];
  return Object.entries(value).flatMap(([key, each]) => notPlain(each, `${path}.${key}`));
}
