import type { FormValues } from './field.js';

/**
 * A visit as the answers of a form: what a browser would send had somebody filled it in so.
 *
 * Checked: tests/form/any-visit.test.ts
 * @example valuesOfVisit({ date: '2026-03-03', found: { a: { top: 21 } } }) // → date: 2026-03-03, found.a.top: 21
 */
export function valuesOfVisit(
  draft: Readonly<Record<string, unknown>>,
  declares: Readonly<Record<string, unknown>> = {},
): FormValues {
  const values = new Map<string, string[]>();
  const put = (name: string, value: unknown): void => {
    if (value === undefined) return;
    if (Array.isArray(value) && value.every((one) => typeof one === 'string')) values.set(name, value);
    else if (typeof value === 'object' && value !== null)
      for (const [key, inner] of Object.entries(value)) put(name === '' ? key : `${name}.${key}`, inner);
    else if (typeof value === 'boolean') values.set(name, [value ? 'yes' : 'no']);
    else if (typeof value === 'string' || typeof value === 'number') values.set(name, [String(value)]);
  };
  put('', draft);
  put('', declares);
  return values;
}
