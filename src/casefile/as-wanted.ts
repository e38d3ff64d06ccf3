import { decimalDigits, PlainScalar } from './plain-scalar.js';
import type { Wanted } from './wanted.js';

/**
 * Turns parsed YAML into what the record wants at each place, in place: text keeps its characters as written,
 * decimal digits become a number, `yes` and `no` become true and false. What does not fit stays as it is, and the
 * schema then refuses it; nothing is guessed.
 *
 * @example asWanted({ kind: 'text' }, 2086) // → '2086'
 */
export function asWanted(wanted: Wanted, value: unknown): unknown {
  if (value === null || value === undefined) return value;
  switch (wanted.kind) {
    case 'list':
      return Array.isArray(value) ? inPlace(value, () => wanted.of) : plain(value);
    case 'group':
      return isGroup(value) ? inPlace(value, (key) => wanted.keys.get(key)?.wanted) : plain(value);
    case 'named':
      return isGroup(value) ? inPlace(value, () => wanted.of) : plain(value);
    case 'either':
      return asWanted(formFor(wanted.forms, value), value);
    case 'number':
    case 'version':
      return value instanceof PlainScalar && decimalDigits.test(value.source)
        ? Number(value.source)
        : plain(value);
    case 'yes-no':
      return value === 'yes' ? true : value === 'no' ? false : plain(value);
    default:
      return typeof value === 'number' || typeof value === 'boolean' ? String(value) : plain(value);
  }
}

/** The form of several that a value is meant for: a list for a list, a group for a group, else the first that is neither. */
export function formFor(forms: readonly Wanted[], value: unknown): Wanted {
  const fits = (kinds: readonly string[]): Wanted | undefined =>
    forms.find((form) => kinds.includes(form.kind));
  const form = Array.isArray(value) ? fits(['list']) : isGroup(value) ? fits(['group', 'named']) : undefined;
  const [first] = forms;
  if (!first) throw new RangeError('a union without forms');
  return form ?? forms.find((other) => !['list', 'group', 'named'].includes(other.kind)) ?? first;
}

export function isGroup(value: unknown): value is Record<string, unknown> {
  return (
    typeof value === 'object' && value !== null && !Array.isArray(value) && !(value instanceof PlainScalar)
  );
}

function inPlace<T extends object>(collection: T, wantedAt: (key: string) => Wanted | undefined): T {
  const entries = collection as Record<string, unknown>;
  for (const key of Object.keys(entries)) {
    const wanted = wantedAt(key);
    if (wanted && key !== '__proto__') entries[key] = asWanted(wanted, entries[key]);
  }
  return collection;
}

function plain(value: unknown): unknown {
  return value instanceof PlainScalar ? value.source : value;
}
