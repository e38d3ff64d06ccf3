import { formFor } from '../casefile/as-wanted.js';
import { stepInto } from '../casefile/explain/group-words.js';
import type { Wanted } from '../casefile/wanted.js';

/** A record with its keys in the order of the case format, whatever order they were written in; the user's own names stay in theirs. */
export function inOrder(wanted: Wanted | undefined, value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const form = wanted?.kind === 'either' ? formFor(wanted.forms, value) : wanted;
  if (Array.isArray(value)) return value.map((one) => inOrder(stepInto(form, 0), one));
  const order = form?.kind === 'group' ? [...form.keys.keys()] : Object.keys(value);
  return Object.fromEntries(
    order.flatMap((key) => {
      const inner: unknown = Reflect.get(value, key);
      return inner === undefined ? [] : [[key, inOrder(stepInto(form, key), inner)]];
    }),
  );
}
