import { z } from 'zod';
import { wantedBy } from '../casefile/wanted.js';
import { calendarDay, firstCalendarDay, lastCalendarDay } from '../record/calendar-day.js';
import { lesionCodes } from '../record/words.js';
import { lesionKinds } from '../reference/lesions.js';
import type { SheetColumn } from './sheets.js';

/** A column in the words of Table Schema 2.0 (Data Package). `unit` is our own addition, by the Unified Code for Units of Measure. */
export interface Field {
  readonly name: string;
  readonly type: 'string' | 'integer' | 'number' | 'boolean' | 'date' | 'time';
  readonly format?: string;
  readonly description: string;
  readonly unit?: string;
  readonly constraints?: Readonly<Record<string, unknown>>;
  readonly categories?: readonly { readonly value: string; readonly label: string }[];
}

/** Days the case format knows, and a day or the word `unknown` in its place. */
const days = { minimum: firstCalendarDay, maximum: lastCalendarDay };
const dayOrUnknown = '^(?:(?:19|20|21)\\d{2}-\\d{2}-\\d{2}|unknown)$';

/** What may stand in a column, read off the schema of the key it holds. */
export function fieldOf({ name, says, unit, schema, required }: SheetColumn): Field {
  const { constraints: own, ...typed } = typeOf(schema);
  const constraints = { ...(required ? { required } : {}), ...own };
  return {
    name,
    ...typed,
    description: says,
    ...(unit === undefined ? {} : { unit }),
    ...(Object.keys(constraints).length > 0 ? { constraints } : {}),
  };
}

function typeOf(schema: z.core.$ZodType): Pick<Field, 'type' | 'format' | 'constraints' | 'categories'> {
  if (schema === calendarDay) return { type: 'date', constraints: days };
  const { kind } = wantedBy(schema);
  const { minimum, maximum, pattern, enum: words, const: only, type } = z.toJSONSchema(schema);
  switch (kind) {
    case 'day-or-unknown':
      return { type: 'string', constraints: { pattern: dayOrUnknown } };
    case 'time':
      return { type: 'time', format: '%H:%M' };
    case 'yes-no':
      return { type: 'boolean' };
    case 'version':
      return { type: 'integer', constraints: { enum: [only] } };
    case 'number':
      return {
        type: type === 'integer' ? 'integer' : 'number',
        constraints: {
          ...(minimum === undefined ? {} : { minimum }),
          ...(maximum === undefined || maximum === Number.MAX_SAFE_INTEGER ? {} : { maximum }),
        },
      };
    case 'word':
      return { type: 'string', constraints: { enum: words ?? [only] }, ...labels(words) };
    default:
      return { type: 'string', ...(pattern === undefined ? {} : { constraints: { pattern } }) };
  }
}

/** The full name of a lesion stands beside its code, since codes differ between translations. */
function labels(words: unknown): Pick<Field, 'categories'> {
  if (!Array.isArray(words) || words.join() !== lesionCodes.join()) return {};
  return { categories: lesionCodes.map((value) => ({ value, label: lesionKinds[value].name })) };
}
