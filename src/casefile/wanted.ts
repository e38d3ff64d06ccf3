import { z } from 'zod';
import { calendarDay } from '../record/calendar-day.js';
import { type KeyPlace, placesOf } from '../record/key.js';
import { longText, shortName, slug, text, timeOfDay } from '../record/measures.js';
import { decimalDigits, PlainScalar } from './plain-scalar.js';
import { messageOf } from '../problem/message.js';
import type { Finding, RecordPath } from '../problem/problem.js';

/** What a place in a file may hold, in the words of the case format: the record's schema, read for explaining. */
export type Wanted =
  | {
      readonly kind: 'text' | 'free-text' | 'time' | 'slug' | 'short-name' | 'yes-no';
    }
  /** `ahead`: without a year the next such day is meant, else the latest. */
  | { readonly kind: 'day' | 'day-or-unknown'; readonly ahead?: true }
  | { readonly kind: 'version'; readonly version: number }
  | {
      readonly kind: 'number';
      readonly whole: boolean;
      readonly most: number | undefined;
      readonly unit?: string;
    }
  | { readonly kind: 'word'; readonly words: readonly string[] }
  | { readonly kind: 'list'; readonly of: Wanted }
  | { readonly kind: 'group'; readonly keys: ReadonlyMap<string, WantedKey> }
  /** Entries under names of the user's own choice. */
  | { readonly kind: 'named'; readonly names: 'short-name' | 'digits'; readonly of: Wanted }
  | { readonly kind: 'either'; readonly forms: readonly Wanted[] };

export interface WantedKey {
  readonly wanted: Wanted;
  readonly required: boolean;
}

const known = new Map<z.core.$ZodType, Wanted>([
  [text, { kind: 'text' }],
  [longText, { kind: 'free-text' }],
  [calendarDay, { kind: 'day' }],
  [timeOfDay, { kind: 'time' }],
  [slug, { kind: 'slug' }],
  [shortName, { kind: 'short-name' }],
]);

/** Worked out once a schema. A schema of a kind not met before is a slip of ours and throws. */
export function wantedBy(schema: z.core.$ZodType): Wanted {
  const before = known.get(schema);
  if (before) return before;
  const wanted = work(schema);
  known.set(schema, wanted);
  return wanted;
}

function work(schema: z.core.$ZodType): Wanted {
  if (schema instanceof z.ZodOptional) return wantedBy(schema.unwrap());
  if (schema instanceof z.ZodBoolean) return { kind: 'yes-no' };
  if (schema instanceof z.ZodNumber) {
    const most = schema.maxValue ?? Infinity;
    const whole = schema.format === 'safeint';
    return { kind: 'number', whole, most: most >= Number.MAX_SAFE_INTEGER ? undefined : most };
  }
  if (schema instanceof z.ZodEnum) return { kind: 'word', words: schema.options.map(String) };
  if (schema instanceof z.ZodLiteral) {
    const [only] = schema.values;
    return typeof only === 'number'
      ? { kind: 'version', version: only }
      : { kind: 'word', words: [...schema.values].map(String) };
  }
  if (schema instanceof z.ZodArray) return { kind: 'list', of: wantedBy(schema.element) };
  if (schema instanceof z.ZodObject) return wantedGroup(schema);
  if (schema instanceof z.ZodRecord) {
    const { keyType } = schema;
    const of = wantedBy(schema.valueType);
    if (keyType instanceof z.ZodEnum)
      return group(keyType.options.map((key) => [String(key), { wanted: of, required: false }]));
    return { kind: 'named', names: keyType === shortName ? 'short-name' : 'digits', of };
  }
  if (schema instanceof z.ZodUnion) {
    const forms = schema.options.map((option) => wantedBy(option));
    const isDayOrWord = forms[0]?.kind === 'day' && forms[1]?.kind === 'word';
    return isDayOrWord ? { kind: 'day-or-unknown' } : { kind: 'either', forms };
  }
  throw new TypeError(`no words for a schema of the kind ${schema._zod.def.type}`);
}

function wantedGroup(schema: z.ZodObject): Wanted {
  return group(
    Object.entries(schema.shape).map(([key, of]) => {
      const wanted = placed(wantedBy(of), placesOf(schema)[key]);
      return [key, { wanted, required: !(of instanceof z.ZodOptional) }];
    }),
  );
}

function group(keys: readonly (readonly [string, WantedKey])[]): Wanted {
  return { kind: 'group', keys: new Map(keys) };
}

/** With what the place of its key says of it. */
function placed(wanted: Wanted, { unit, ahead }: KeyPlace = {}): Wanted {
  if (wanted.kind === 'number' && unit !== undefined) return { ...wanted, unit };
  return wanted.kind === 'day' && ahead ? { ...wanted, ahead } : wanted;
}

/** Every key that may appear anywhere in a file. */
export function keysOf(wanted: Wanted): ReadonlySet<string> {
  if (wanted.kind === 'list' || wanted.kind === 'named') return keysOf(wanted.of);
  if (wanted.kind === 'either') return new Set(wanted.forms.flatMap((form) => [...keysOf(form)]));
  if (wanted.kind !== 'group') return new Set();
  return new Set([...wanted.keys].flatMap(([key, { wanted: inner }]) => [key, ...keysOf(inner)]));
}

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

/**
 * Keys that mean something to the language this program is written in. The schema would pass over `__proto__` without
 * a word, and a lesion called `constructor` would seem to be declared everywhere.
 */
export const reservedNames = ['__proto__', 'constructor'];

export function isReserved(key: string): boolean {
  return reservedNames.includes(key);
}

/** Every use of a reserved key, with its path. */
export function reservedKeys(value: unknown, path: RecordPath = []): Finding[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.keys(value).flatMap((key): Finding[] => {
    const here = [...path, key];
    const inner = reservedKeys((value as Record<string, unknown>)[key], here);
    if (!isReserved(key)) return inner;
    return [{ ...messageOf('key/reserved', { key }), severity: 'error', path: here, at: 'key' }];
  });
}
