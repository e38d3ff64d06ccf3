import { z } from 'zod';
import { calendarDay } from '../record/calendar-day.js';
import { longText, shortName, slug, text, timeOfDay } from '../record/measures.js';

/** What a place in a file may hold, in the words of the case format: the record's schema, read for explaining. */
export type Wanted =
  | {
      readonly kind:
        'text' | 'free-text' | 'day' | 'day-or-unknown' | 'time' | 'slug' | 'short-name' | 'yes-no';
    }
  | { readonly kind: 'version'; readonly version: number }
  | { readonly kind: 'number'; readonly whole: boolean; readonly most: number | undefined }
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
  if (schema instanceof z.ZodNumber) return wantedNumber(schema);
  if (schema instanceof z.ZodEnum) return { kind: 'word', words: schema.options.map(String) };
  if (schema instanceof z.ZodLiteral) return wantedLiteral([...schema.values]);
  if (schema instanceof z.ZodArray) return { kind: 'list', of: wantedBy(schema.element) };
  if (schema instanceof z.ZodObject) return wantedGroup(schema);
  if (schema instanceof z.ZodRecord) return wantedRecord(schema);
  if (schema instanceof z.ZodUnion) return wantedUnion(schema.options.map((option) => wantedBy(option)));
  throw new TypeError(`no words for a schema of the kind ${schema._zod.def.type}`);
}

function wantedNumber(schema: z.ZodNumber): Wanted {
  const whole = schema.format === 'safeint';
  const most = schema.maxValue;
  return { kind: 'number', whole, most: most === null || most >= Number.MAX_SAFE_INTEGER ? undefined : most };
}

function wantedLiteral(values: readonly unknown[]): Wanted {
  const [only] = values;
  return typeof only === 'number'
    ? { kind: 'version', version: only }
    : { kind: 'word', words: values.map(String) };
}

function wantedGroup(schema: z.ZodObject): Wanted {
  const keys = Object.entries(schema.shape).map(([key, of]): [string, WantedKey] => [
    key,
    { wanted: wantedBy(of), required: !(of instanceof z.ZodOptional) },
  ]);
  return { kind: 'group', keys: new Map(keys) };
}

function wantedRecord(schema: z.ZodRecord): Wanted {
  const of = wantedBy(schema.valueType);
  const { keyType } = schema;
  if (keyType instanceof z.ZodEnum) {
    return {
      kind: 'group',
      keys: new Map(keyType.options.map((key) => [String(key), { wanted: of, required: false }])),
    };
  }
  return { kind: 'named', names: keyType === shortName ? 'short-name' : 'digits', of };
}

function wantedUnion(forms: readonly Wanted[]): Wanted {
  const [first, second] = forms;
  if (first?.kind === 'day' && second?.kind === 'word') return { kind: 'day-or-unknown' };
  return { kind: 'either', forms };
}

/** Every key that may stand anywhere in a file. */
export function keysOf(wanted: Wanted): ReadonlySet<string> {
  if (wanted.kind === 'list' || wanted.kind === 'named') return keysOf(wanted.of);
  if (wanted.kind === 'either') return new Set(wanted.forms.flatMap((form) => [...keysOf(form)]));
  if (wanted.kind !== 'group') return new Set();
  return new Set([...wanted.keys].flatMap(([key, { wanted: inner }]) => [key, ...keysOf(inner)]));
}
