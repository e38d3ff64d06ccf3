import type { z } from 'zod';
import { stepInto } from '../casefile/explain/group-words.js';
import type { Wanted } from '../casefile/wanted.js';
import { wantedBy } from '../casefile/wanted.js';
import type { RecordPath } from '../problem/problem.js';
import { frontMatterOf } from './text/front-matter.js';
import { putEntry } from './text/put-entry.js';
import { putKey } from './text/put-key.js';
import { putValue } from './text/put-value.js';
import type { Splice } from './text/splice.js';
import { spliced } from './text/splice.js';

/** One small change to a record, and so to its file. A path in the record is a path in the file. */
export type Step =
  /** Into a list, before the entry at `index`, or last; the list is begun where it is not written yet. */
  | { readonly put: 'entry'; readonly path: RecordPath; readonly index: number; readonly value: unknown }
  /** A key that is not written yet, into a group. */
  | { readonly put: 'key'; readonly path: RecordPath; readonly key: string; readonly value: unknown }
  /** In the place of a value that is written. */
  | { readonly put: 'value'; readonly path: RecordPath; readonly value: unknown };

/** The text with the steps taken, one after another, and what was cut and put in; undefined where one cannot be taken. */
export function stepsInText(
  text: string,
  steps: readonly Step[],
  schema: z.ZodType,
): { readonly text: string; readonly splices: readonly Splice[] } | undefined {
  const splices: Splice[] = [];
  let now = text;
  for (const step of steps) {
    const splice = spliceOf(now, step, wantedBy(schema));
    if (!splice) return undefined;
    splices.push(splice);
    now = spliced(now, splice);
  }
  return { text: now, splices };
}

function spliceOf(text: string, step: Step, root: Wanted): Splice | undefined {
  const front = frontMatterOf(text);
  const wanted = step.path.reduce<Wanted | undefined>(stepInto, root);
  if (!front) return undefined;
  switch (step.put) {
    case 'value':
      return putValue(front, step.path, step.value, wanted);
    case 'key':
      return putKey(front, step.path, step.key, step.value, {
        group: wanted,
        value: stepInto(wanted, step.key),
      });
    case 'entry': {
      const written = putEntry(front, step.path, step.index, step.value, stepInto(wanted, 0));
      if (written) return written;
      const group = step.path.slice(0, -1);
      return putKey(front, group, String(step.path.at(-1)), [step.value], {
        group: group.reduce<Wanted | undefined>(stepInto, root),
        value: wanted,
      });
    }
  }
}

/** The record with the steps taken: what the new text has to be read as. The record given is not touched. */
export function stepsInRecord<T>(record: T, steps: readonly Step[]): T {
  const changed = structuredClone(record);
  for (const step of steps) {
    if (step.put === 'entry') {
      const parent = at(changed, step.path.slice(0, -1));
      const key = String(step.path.at(-1));
      const list = Array.isArray(parent[key]) ? parent[key] : [];
      parent[key] = list.toSpliced(step.index, 0, step.value);
    } else if (step.put === 'key') at(changed, step.path)[step.key] = step.value;
    else at(changed, step.path.slice(0, -1))[String(step.path.at(-1))] = step.value;
  }
  return changed;
}

/** Lists are reached by their index as text. */
function at(record: unknown, path: RecordPath): Record<string, unknown> {
  return path.reduce<unknown>(
    (inner, part) => (inner as Record<string, unknown>)[String(part)],
    record,
  ) as Record<string, unknown>;
}
